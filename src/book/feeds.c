/* The addresses at which calendar programs fetch reminders. */
#include "book/reminders.h"
#include "book/rows.h"

static const char *const SCOPE_WORDS[] = {
    [SCOPE_FLEET] = "fleet",
    [SCOPE_VESSEL] = "vessel",
    [SCOPE_BASE] = "base",
    [SCOPE_STATION] = "station",
};

const struct codes SCOPE_CODES = {
    SCOPE_WORDS, sizeof SCOPE_WORDS / sizeof SCOPE_WORDS[0]};

static void
take_feed(struct call *call, struct arena *arena, void *out)
{
	struct book_feed *feed = out;
	feed->number = take_int(call);
	feed->secret = take_text(call, arena);
	feed->scope.kind = (enum scope_kind)take_code(call, &SCOPE_CODES);
	feed->scope.name = take_text(call, arena);
	feed->todos = take_int(call) != 0;
	feed->revoked = take_int(call) != 0;
	feed->etag = take_text(call, arena);
	feed->modified = take_int(call);
}

static bool
load_feeds(struct book *book, struct arena *arena, const struct book_feed **out,
    size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return call_open(book, LOAD_FEEDS, &call, fault) &&
	       call_rows(&call, arena, take_feed, sizeof **out, out, count_out, fault);
}

bool
book_load_feeds(struct book *book, struct arena *arena, const struct book_feed **out,
    size_t *count_out, struct fault *fault)
{
	return load_feeds(book, arena, out, count_out, fault) ||
	       fault_prefix(fault, "reading the feeds");
}

bool
book_add_feed(struct book *book, const char *secret, const struct scope *scope,
    bool todos, int64_t *number_out, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	int64_t number = 0;
	if (!writing_begin(book, &writing, fault) ||
	    !call_open(book, FEED_ADD, &call, fault) ||
	    !number_give(&call, NUMBERED_FEED, &number, fault)) {
		return fault_prefix(fault, "adding a feed");
	}
	give_text(&call, secret);
	give_code(&call, &SCOPE_CODES, scope->kind);
	give_text(&call, scope->name);
	give_int(&call, todos);
	give_int(&call, 0); /* not revoked */
	if (!call_run(&call, fault) || !journal_note_too(book, fault) ||
	    !writing_keep(&writing, fault)) {
		return fault_prefix(fault, "adding a feed");
	}
	*number_out = number;
	return true;
}

bool
book_revoke_feed(struct book *book, int64_t number, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	int64_t revoked = 0;
	if (!writing_begin(book, &writing, fault) ||
	    !call_open(book, FEED_REVOKE, &call, fault)) {
		return fault_prefix(fault, "revoking a feed");
	}
	give_int(&call, number);
	if (!call_run_changed(&call, &revoked, fault)) {
		return fault_prefix(fault, "revoking a feed");
	}
	if (revoked == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "there is no feed number %lld that is in use", (long long)number);
	}
	return (journal_note_too(book, fault) && writing_keep(&writing, fault)) ||
	       fault_prefix(fault, "revoking a feed");
}

bool
book_note_feed(struct book *book, int64_t number, const char *etag, int64_t modified,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	if (!writing_begin(book, &writing, fault) ||
	    !call_open(book, FEED_NOTE, &call, fault)) {
		return fault_prefix(fault, "noting a feed's change");
	}
	give_int(&call, number);
	give_text(&call, etag);
	give_int(&call, modified);
	return (call_run(&call, fault) && writing_keep(&writing, fault)) ||
	       fault_prefix(fault, "noting a feed's change");
}

static bool
load_serving(struct book *book, struct arena *arena, struct book_feed_host *out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct book_feed_host serving = {0};
	bool row = false;
	if (!call_open(book, SERVING_GET, &call, fault) ||
	    !call_row(&call, &row, fault)) {
		return false;
	}
	if (row) {
		serving.listen = take_text(&call, arena);
		serving.host = take_text(&call, arena);
		serving.port = (int)take_int(&call);
		if (!call_row(&call, &row, fault)) {
			return false;
		}
	}
	*out = serving;
	return true;
}

bool
book_load_feed_host(struct book *book, struct arena *arena, struct book_feed_host *out,
    struct fault *fault)
{
	return load_serving(book, arena, out, fault) ||
	       fault_prefix(fault, "reading where the feeds are served");
}

bool
book_store_feed_host(
    struct book *book, const struct book_feed_host *serving, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	if (!writing_begin(book, &writing, fault) ||
	    !call_open(book, SERVING_PUT, &call, fault)) {
		return fault_prefix(fault, "noting where the feeds are served");
	}
	give_int(&call, 1); /* the one row */
	give_text(&call, serving->listen);
	give_text(&call, serving->host);
	give_int(&call, serving->port);
	return (call_run(&call, fault) && writing_keep(&writing, fault)) ||
	       fault_prefix(fault, "noting where the feeds are served");
}
