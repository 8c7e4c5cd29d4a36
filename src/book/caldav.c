#include "book/caldav.h"

#include "book/call.h"

static int64_t
account_id(bool todos)
{
	return todos ? 2 : 1;
}

/* One row or none. */
static bool
load_account(struct book *book, bool todos, struct arena *arena, struct book_account *out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, ACCOUNT_GET, &call, fault)) {
		return false;
	}
	give_int(&call, account_id(todos));
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	struct book_account account = {.todos = todos};
	if (row) {
		account.url = take_text(&call, arena);
		account.user = take_text(&call, arena);
		account.calendar = take_text(&call, arena);
		account.name = take_text(&call, arena);
		account.ca_file = take_text(&call, arena);
		account.scope.kind = (enum scope_kind)take_code(&call, &SCOPE_CODES);
		account.scope.name = take_text(&call, arena);
		account.allow_plain = take_int(&call) != 0;
		if (!call_row(&call, &row, fault)) {
			return false;
		}
	}
	*out = account;
	return true;
}

bool
book_load_account(struct book *book, bool todos, struct arena *arena,
    struct book_account *out, struct fault *fault)
{
	return load_account(book, todos, arena, out, fault) ||
	       fault_prefix(fault, "reading the calendar account");
}

static bool
put_account(struct book *book, const struct book_account *account, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, ACCOUNT_PUT, &call, fault)) {
		return false;
	}
	give_int(&call, account_id(account->todos));
	give_text(&call, account->url);
	give_text(&call, account->user);
	give_text(&call, account->calendar);
	give_text(&call, account->name);
	give_text(&call, account->ca_file);
	give_code(&call, &SCOPE_CODES, account->scope.kind);
	give_text(&call, account->scope.name);
	give_int(&call, account->allow_plain ? 1 : 0);
	return call_run(&call, fault);
}

bool
book_store_account(
    struct book *book, const struct book_account *account, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	bool stored = writing_begin(book, &writing, fault) &&
		      put_account(book, account, fault) && writing_keep(&writing, fault);
	return stored || fault_prefix(fault, "storing the calendar account");
}

bool
book_forget_account(struct book *book, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	bool forgotten = writing_begin(book, &writing, fault) &&
			 call_plain(book, ACCOUNT_DROP, fault) &&
			 call_plain(book, PUSHED_DROP_ALL, fault) &&
			 writing_keep(&writing, fault);
	return forgotten || fault_prefix(fault, "forgetting the calendar account");
}

static void
take_pushed(struct call *call, struct arena *arena, void *out)
{
	struct book_pushed *pushed = out;
	pushed->uid = take_text(call, arena);
	pushed->url = take_text(call, arena);
	pushed->etag = take_text(call, arena);
	pushed->summary = take_text(call, arena);
	pushed->our_day = take_day(call);
	pushed->our_rest = take_text(call, arena);
	pushed->their_day = take_day(call);
	pushed->their_rest = take_text(call, arena);
	pushed->kept = take_int(call) != 0;
}

static bool
load_pushed(struct book *book, const char *calendar, struct arena *arena,
    const struct book_pushed **out, size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, LOAD_PUSHED, &call, fault)) {
		return false;
	}
	give_text(&call, calendar);
	return call_rows(&call, arena, take_pushed, sizeof **out, out, count_out, fault);
}

bool
book_load_pushed(struct book *book, const char *calendar, struct arena *arena,
    const struct book_pushed **out, size_t *count_out, struct fault *fault)
{
	return load_pushed(book, calendar, arena, out, count_out, fault) ||
	       fault_prefix(fault, "reading what was pushed");
}

static bool
put_pushed(struct book *book, const char *calendar, const struct book_pushed *pushed,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, PUSHED_PUT, &call, fault)) {
		return false;
	}
	give_text(&call, calendar);
	give_text(&call, pushed->uid);
	give_text(&call, pushed->url);
	give_text(&call, pushed->etag);
	give_text(&call, pushed->summary);
	give_day(&call, pushed->our_day);
	give_text(&call, pushed->our_rest);
	give_day(&call, pushed->their_day);
	give_text(&call, pushed->their_rest);
	give_int(&call, pushed->kept ? 1 : 0);
	return call_run(&call, fault);
}

bool
book_put_pushed(struct book *book, const char *calendar, const struct book_pushed *pushed,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	bool stored = writing_begin(book, &writing, fault) &&
		      put_pushed(book, calendar, pushed, fault) &&
		      writing_keep(&writing, fault);
	return stored || fault_prefix(fault, "remembering what was pushed");
}

static bool
drop_pushed(struct book *book, const char *calendar, const char *uid, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, PUSHED_DROP, &call, fault)) {
		return false;
	}
	give_text(&call, calendar);
	give_text(&call, uid);
	return call_run(&call, fault);
}

bool
book_drop_pushed(
    struct book *book, const char *calendar, const char *uid, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	bool dropped = writing_begin(book, &writing, fault) &&
		       drop_pushed(book, calendar, uid, fault) &&
		       writing_keep(&writing, fault);
	return dropped || fault_prefix(fault, "forgetting what was pushed");
}
