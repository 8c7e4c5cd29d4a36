#include "page/site.h"

#include "page/shell.h"

#include <string.h>

static const char FORM_TYPE[] = "application/x-www-form-urlencoded";
/* Where a reader is led who has no book yet, or who is not known yet. */
#define BEGINNING "/begin"
#define RESTORING "/restore" /* a copy from another machine begins a book, too */
#define LOG_IN "/log-in"
/* For a reader who came in, whatever the state of the book. */
#define YOU "/you"

static const char PARTS_TYPE[] = "multipart/form-data";

/* The methods that a path has; NULL for none. */
static const char *
methods_of(const char *path)
{
	const char *rest = "";
	bool get = route_of(ROUTES, ROUTE_COUNT, "GET", path, &rest) != NULL;
	bool post = route_of(ROUTES, ROUTE_COUNT, "POST", path, &rest) != NULL;
	return get && post ? "GET, HEAD, POST" : get ? "GET, HEAD" : post ? "POST" : NULL;
}

/* The route of a request; NULL when there is none. */
static const struct route *
find_route(const struct web_request *request, const char **rest_out)
{
	bool head = strcmp(request->method, "HEAD") == 0;
	return route_of(
	    ROUTES, ROUTE_COUNT, head ? "GET" : request->method, request->path, rest_out);
}

/* Reads what was typed: the address's fields and the form's. */
static bool
read_fields(struct visit *visit, const char *rest, struct fault *fault)
{
	const struct web_request *request = visit->request;
	SCOPED_TEXT segment = {0};
	form_unescape(rest, strlen(rest), false, &segment);
	if (!form_keep_text(text_string(&segment), segment.length, &visit->arena,
		&visit->rest, fault) ||
	    !form_read(request->query, strlen(request->query), &visit->arena,
		&visit->asked, fault)) {
		return false;
	}
	if (strcmp(visit->route->method, "POST") != 0) {
		return true;
	}
	const char *type = request->content_type == NULL ? "" : request->content_type;
	if (strncmp(type, PARTS_TYPE, strlen(PARTS_TYPE)) == 0) {
		return form_read_parts(
		    type, request->body, &visit->arena, &visit->sent, fault);
	}
	if (strncmp(type, FORM_TYPE, strlen(FORM_TYPE)) == 0) {
		return form_read(text_string(request->body), request->body->length,
		    &visit->arena, &visit->sent, fault);
	}
	return fault_set(
	    fault, FAULT_INPUT, "a form is expected, and something else was sent");
}

static int
status_of(const struct fault *fault)
{
	switch (fault->kind) {
	case FAULT_NONE:
	case FAULT_USAGE:
	case FAULT_INPUT:
		return 400;
	case FAULT_BOOK:
	case FAULT_FILE:
		return 503;
	}
	return 500;
}

/* For a book that can't be opened: shows the reason, and offers to put a copy in its
 * place. */
static void
show_shut_book(struct visit *visit, int status, const char *why)
{
	struct markup *markup = NULL;
	SHELL_OPEN(
	    visit, .title = "The book can't be opened", .say = why, .status = status);
	markup = visit->markup;
	shell_entry(visit);
	markup_begin(markup, "details");
	markup_element(markup, "summary", NULL, "Put a copy in its place");
	markup_element(markup, "p", NULL,
	    "What is here now is kept beside it first, and what is in the copy is told before "
	    "anything moves.");
	page_restore_form(visit);
	markup_ends(markup, 3);
	shell_close(visit);
}

/* Shows a fault instead of the page that was begun. */
static void
show_fault(struct visit *visit, const struct fault *fault)
{
	SCOPED_TEXT words = {0};
	SCOPED_TEXT sentence = {0};
	bool asked = visit->route != NULL && strcmp(visit->route->method, "GET") == 0;
	page_words(fault->text, &words);
	text_sentence(text_string(&words), &sentence);
	markup_free(visit->markup);
	visit->markup = NULL;
	if (asked && fault->kind == FAULT_BOOK && visit->session != NULL &&
	    visit->right == RIGHT_MANAGE) {
		show_shut_book(visit, status_of(fault), text_string(&sentence));
		return;
	}
	shell_words(visit, status_of(fault),
	    asked && fault->kind == FAULT_INPUT ? "That is not in the book"
						: "That can't be done",
	    text_string(&sentence));
}

/* Leads to the page to log in, and from there to what was asked for. */
static void
lead_to_log_in(struct visit *visit)
{
	SCOPED_TEXT address = {0};
	SCOPED_TEXT escaped = {0};
	text_add_format(&address, "%s%s%s", visit->request->path,
	    visit->request->query[0] != '\0' ? "?" : "", visit->request->query);
	form_escape(text_string(&address), &escaped);
	page_go(visit, LOG_IN "?to=%s", text_string(&escaped));
}

/* Checks whether the sender may ask for this; if not, shows why. */
static bool
is_let_in(struct visit *visit)
{
	bool by_name = visit->site->access.people != NULL;
	if (visit->right >= visit->route->right) {
		return true;
	}
	if (visit->session != NULL) {
		shell_words(visit, 403, "This is not yours to do",
		    "Whoever keeps the book has not given you the right to it; they can "
		    "change that.");
	} else if (by_name && strcmp(visit->route->method, "GET") == 0) {
		lead_to_log_in(visit);
	} else if (by_name) {
		shell_words(visit, 403, "Nothing was written",
		    "You are not logged in any more. Log in and send it again.");
	} else {
		shell_words(visit, 403, "The book is closed to this window",
		    "Open it again from the menu, or with \"becket page\": the address that "
		    "it gives lets this browser in.");
	}
	return false;
}

/* The same for a form: checks that it comes from a page of ours. */
static bool
form_is_ours(struct visit *visit)
{
	const struct access *access = &visit->site->access;
	if (strcmp(visit->route->method, "POST") != 0 ||
	    (access_origin_is_right(access, visit->request) &&
		access_form_is_right(
		    access, visit->session, form_value(&visit->sent, "token")))) {
		return true;
	}
	shell_words(visit, 403, "Nothing was written",
	    "The form does not come from this book as it is open now. Go back to the page, load "
	    "it anew and send it again.");
	return false;
}

/* True when a route needs a book. */
static bool
is_of_a_book(const struct route *route)
{
	return route->right > RIGHT_NONE && strcmp(route->path, BEGINNING) != 0 &&
	       strcmp(route->path, RESTORING) != 0 && strcmp(route->path, YOU) != 0;
}

static bool
run(struct visit *visit, const char *rest, struct fault *fault)
{
	const struct route *route = visit->route;
	if (!is_let_in(visit)) {
		return true;
	}
	if (!read_fields(visit, rest, fault)) {
		return false;
	}
	if (!form_is_ours(visit)) {
		return true;
	}
	if (is_of_a_book(route) && !desk_has_book(&visit->desk)) {
		page_go(visit, BEGINNING);
		return true;
	}
	return route->run(visit, fault);
}

/* Answers a request that names this site. */
static bool
answer_visit(struct visit *visit, struct fault *fault)
{
	struct site *site = visit->site;
	const char *rest = "";
	site->desk(site->context, &visit->desk);
	visit->desk.mode = BOOK_READ;
	visit->route = find_route(visit->request, &rest);
	if (!access_session(
		&site->access, visit->request, &visit->session, &visit->right, fault)) {
		return false;
	}
	if (visit->route == NULL) {
		visit->answer->allow = methods_of(visit->request->path);
		shell_words(visit, visit->answer->allow == NULL ? 404 : 405,
		    "There is no such page",
		    "The address leads nowhere. The pages of the book are in its index.");
		return true;
	}
	return run(visit, rest, fault);
}

bool
site_answer(void *context, const struct web_request *request, struct web_answer *out,
    struct fault *fault)
{
	struct site *site = context;
	struct web_answer answer = {.content_type = ""};
	struct visit visit = {.site = site,
	    .request = request,
	    .routes = ROUTES,
	    .route_count = ROUTE_COUNT,
	    .answer = &answer};
	bool done = true;
	if (!access_host_is_right(&site->access, request)) {
		web_say(&answer, 421,
		    "This is not the name by which the book is asked. Open it by the address "
		    "that its keeper gave, or that \"becket page\" told.\n");
		*out = answer;
		return true;
	}
	if (!answer_visit(&visit, fault)) {
		done = status_of(fault) < 500;
		show_fault(&visit, fault);
	}
	desk_clear(&visit.desk);
	markup_free(visit.markup);
	arena_clear(&visit.arena);
	*out = answer;
	return done;
}

bool
site_may_send(void *context, const struct web_request *request)
{
	const struct site *site = context;
	return access_may_send(&site->access, request);
}
