#include "page/page.h"

#include "desk/questions.h"
#include "desk/reckoning.h"
#include "page/shell.h"

#include <sodium.h>
#include <stdarg.h>
#include <string.h>

const char *
page_value(const struct visit *visit, const char *name)
{
	const char *value = form_value(&visit->sent, name);
	value = value == NULL ? form_value(&visit->asked, name) : value;
	return value == NULL ? "" : value;
}

bool
page_has(const struct visit *visit, const char *name)
{
	return form_value(&visit->sent, name) != NULL;
}

bool
page_has_route(const struct visit *visit, const char *path)
{
	for (size_t i = 0; i < visit->route_count; i++) {
		if (strcmp(visit->routes[i].path, path) == 0) {
			return true;
		}
	}
	return false;
}

/* True when a route's path is this one. */
static bool
fits(const struct route *route, const char *path, const char **rest_out)
{
	size_t length = strlen(route->path);
	*rest_out = "";
	if (route->path[length - 1] != '*') {
		return strcmp(route->path, path) == 0;
	}
	*rest_out = path + length - 1;
	return strncmp(route->path, path, length - 1) == 0 && **rest_out != '\0' &&
	       strchr(*rest_out, '/') == NULL;
}

const struct route *
route_of(const struct route *routes, size_t count, const char *method, const char *path,
    const char **rest_out)
{
	for (size_t i = 0; i < count; i++) {
		if (strcmp(routes[i].method, method) == 0 &&
		    fits(&routes[i], path, rest_out)) {
			return &routes[i];
		}
	}
	return NULL;
}

bool
page_may(const struct visit *visit, const char *method, const char *address)
{
	SCOPED_TEXT path = {0};
	const char *rest = "";
	text_add_bytes(&path, address, strcspn(address, "?#"));
	const struct route *route = route_of(
	    visit->routes, visit->route_count, method, text_string(&path), &rest);
	return route == NULL || route->right <= visit->right;
}

void
page_go(struct visit *visit, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	visit->answer->status = 303;
	visit->answer->is_page = true;
	text_reset(&visit->answer->location);
	text_add_arguments(&visit->answer->location, format, arguments);
	va_end(arguments);
}

/* A desk whose changes are signed by whoever sends the request. */
static void
make_desk(struct visit *visit, enum book_mode mode, struct desk *out)
{
	visit->site->desk(visit->site->context, out);
	out->mode = mode;
	if (visit->session != NULL && visit->session->who != NULL) {
		out->signature.who = arena_string(&visit->arena, visit->session->who);
	}
}

void
page_look(struct visit *visit, struct desk *out)
{
	*out = (struct desk){0};
	visit->site->desk(visit->site->context, out);
}

void
page_try(struct visit *visit, struct desk *out)
{
	make_desk(visit, BOOK_TRIAL, out);
}

void
page_write(struct visit *visit, struct desk *out, const char *format, ...)
{
	va_list arguments;
	SCOPED_TEXT act = {0};
	make_desk(visit, BOOK_WRITE, out);
	text_add(&act, PAGE_ACT);
	va_start(arguments, format);
	text_add_arguments(&act, format, arguments);
	va_end(arguments);
	out->signature.act = arena_string(&visit->arena, text_string(&act));
}

const char *
page_digest(const char *words, char buffer[PAGE_DIGEST_SIZE])
{
	unsigned char bytes[(PAGE_DIGEST_SIZE - 1) / 2];
	(void)crypto_generichash(
	    bytes, sizeof bytes, (const unsigned char *)words, strlen(words), NULL, 0);
	return sodium_bin2hex(buffer, PAGE_DIGEST_SIZE, bytes, sizeof bytes);
}

void
page_say(struct visit *visit, const char *format, ...)
{
	va_list arguments;
	if (visit->session == NULL) {
		return; /* removed in the meantime */
	}
	va_start(arguments, format);
	text_add_arguments(&visit->session->said, format, arguments);
	va_end(arguments);
	text_add_byte(&visit->session->said, '\n');
}

/* The page's words for what a command is named for. */
static const char *const PLACES[][2] = {
    {"; \"becket vessel\" lists them", ""},
    {"\"becket list\"", "the Locker"},
    {"\"becket return\"", "\"It came back\""},
    {"\"becket winter\"", "\"This winter\""},
    {"\"becket amend\"", "\"Mend what is written\""},
    {"\"becket remind\"", "\"Reminders\""},
    {"\"becket book undo\"", "\"Safe-keeping\""},
    {"\"becket book journal\"", "\"Safe-keeping\""},
    {"restore a backup with \"becket book restore FILE\"",
	"put a copy that was saved in its place"},
    {FIELD, ""},
};

void
page_words(const char *words, struct text *out)
{
	text_in_place(words, PLACES, sizeof PLACES / sizeof PLACES[0], out);
}

void
page_done(struct visit *visit, struct desk *desk)
{
	page_words(text_string(&desk->notes), &visit->session->said);
	reckoning_keep(desk);
	desk_clear(desk);
}

#define JOURNAL_DAMAGED "the journal's lines are damaged, so that changes may be missing"

bool
page_journal(struct desk *desk, const struct journal_query *query, struct journal *out,
    struct fault *fault)
{
	return desk_journal(desk, query, out, fault) &&
	       (out->damaged_count == 0 ||
		   fault_set(fault, FAULT_BOOK,
		       JOURNAL_DAMAGED "; \"becket book check\" says more"));
}

void
page_journal_caution(struct visit *visit, const struct journal *journal)
{
	SCOPED_TEXT words = {0};
	if (journal->damaged_count > 0) {
		text_sentence(
		    JOURNAL_DAMAGED " here; \"becket book check\" says more", &words);
		markup_element(visit->markup, "p", "caution", text_string(&words));
	}
}
