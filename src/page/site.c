#include "page/site.h"

#include "page/routes.h"
#include "page/shell.h"

#include <string.h>

static const char FORM_TYPE[] = "application/x-www-form-urlencoded";
/* Where whoever has no book yet is led. */
#define BEGINNING "/begin"

static const char PARTS_TYPE[] = "multipart/form-data";

/* True when a route's path is this one; what stands for its "*" is where `rest_out` points. */
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

/* The route of a request; NULL when there is none, with the methods its path has. */
static const struct route *
find_route(const struct web_request *request, const char **rest_out, const char **allow)
{
	bool head = strcmp(request->method, "HEAD") == 0;
	const char *method = head ? "GET" : request->method;
	*allow = NULL;
	for (size_t i = 0; i < ROUTE_COUNT; i++) {
		const struct route *route = &ROUTES[i];
		if (!fits(route, request->path, rest_out)) {
			continue;
		}
		if (strcmp(route->method, method) == 0) {
			return route;
		}
		bool post = strcmp(route->method, "POST") == 0;
		*allow = *allow != NULL ? "GET, HEAD, POST" : post ? "POST" : "GET, HEAD";
	}
	return NULL;
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

/* Shows a fault in place of the page that was begun. */
static void
show_fault(struct visit *visit, const struct fault *fault)
{
	SCOPED_TEXT words = {0};
	page_words(fault->text, &words);
	markup_free(visit->markup);
	visit->markup = NULL;
	shell_words(visit, status_of(fault), "That can't be done", text_string(&words));
}

/* Looks whether the sender may ask this; shows why not where it may not. */
static bool
is_let_in(struct visit *visit)
{
	const struct access *access = &visit->site->access;
	const struct route *route = visit->route;
	if (access_right(access, visit->request) < route->right) {
		shell_words(visit, 403, "The book is closed to this window",
		    "Open it again from the menu, or with \"becket page\": the address that "
		    "it gives lets this browser in.");
		return false;
	}
	return true;
}

/* The same of a form: that it comes from a page of ours. */
static bool
form_is_ours(struct visit *visit)
{
	const struct access *access = &visit->site->access;
	if (strcmp(visit->route->method, "POST") != 0 ||
	    (access_origin_is_right(access, visit->request) &&
		access_form_is_right(access, form_value(&visit->sent, "token")))) {
		return true;
	}
	shell_words(visit, 403, "Nothing was written",
	    "The form does not come from this book as it is open now. Go back to the page, load "
	    "it anew and send it again.");
	return false;
}

static bool
run(struct visit *visit, const char *rest, struct fault *fault)
{
	const struct route *route = visit->route;
	const struct site *site = visit->site;
	site->desk(site->context, &visit->desk);
	visit->desk.mode = BOOK_READ;
	if (!is_let_in(visit)) {
		return true;
	}
	if (!read_fields(visit, rest, fault)) {
		return false;
	}
	if (!form_is_ours(visit)) {
		return true;
	}
	if (route->right > RIGHT_NONE && strcmp(route->path, BEGINNING) != 0 &&
	    !desk_has_book(&visit->desk)) {
		page_go(visit, BEGINNING);
		return true;
	}
	return route->run(visit, fault);
}

bool
site_answer(void *context, const struct web_request *request, struct web_answer *out,
    struct fault *fault)
{
	struct site *site = context;
	const char *rest = "";
	struct web_answer answer = {.content_type = ""};
	struct visit visit = {.site = site,
	    .request = request,
	    .routes = ROUTES,
	    .route_count = ROUTE_COUNT,
	    .answer = &answer};
	bool done = true;
	if (!access_host_is_right(&site->access, request)) {
		web_say(
		    &answer, 421, "This is not the name by which the book is asked.\n");
		*out = answer;
		return true;
	}
	visit.route = find_route(request, &rest, &answer.allow);
	if (visit.route == NULL) {
		site->desk(site->context, &visit.desk);
		shell_words(&visit, answer.allow == NULL ? 404 : 405,
		    "There is no such page",
		    "The address leads nowhere. The pages of the book are in its index.");
	} else if (!run(&visit, rest, fault)) {
		done = status_of(fault) < 500;
		show_fault(&visit, fault);
	}
	desk_clear(&visit.desk);
	markup_free(visit.markup);
	arena_clear(&visit.arena);
	*out = answer;
	return done;
}
