#include "calendar/caldav.h"
#include "cli/calendar_acts.h"
#include "cli/terminal.h"
#include "desk/files.h"
#include "desk/giving_out.h"
#include "desk/reminding.h"

#include <string.h>

static const char WHO[] = "becket calendar";

void
calendar_server_clear(struct calendar_server *server)
{
	http_close(server->http);
}

static bool
take_ca_file(struct calendar_server *server, struct fault *fault)
{
	const char *path = server->said->ca_file;
	SCOPED_TEXT whole = {0};
	if (path == NULL) {
		return true;
	}
	if (!file_whole_path(path, &whole, fault)) {
		return fault_prefix(fault, "--ca-file");
	}
	server->account.ca_file =
	    arena_string(&server->context->desk.arena, text_string(&whole));
	return true;
}

static bool
same_scope(const struct scope *a, const struct scope *b)
{
	return a->kind == b->kind && strcmp(a->name, b->name) == 0;
}

/* Whose reminders: as given, else as remembered. A calendar that is in use is not given
 * another scope unasked, for that would take everyone else's reminders out of it. */
static bool
take_scope(struct calendar_server *server, struct fault *fault)
{
	struct scope scope = {0};
	struct context *context = server->context;
	struct book_account *account = &server->account;
	if (!scope_of(context, &server->said->scope, &scope, fault)) {
		return false;
	}
	if (account->scope.name == NULL) {
		account->scope = scope;
		return true;
	}
	if (scope.kind != SCOPE_FLEET && !same_scope(&scope, &account->scope)) {
		return usage_fault(fault, WHO,
		    "the calendar \"%s\" shows the reminders of %s; name another for "
		    "these with --calendar NAME, or the same one to have it show these only",
		    account->name,
		    account->scope.kind == SCOPE_FLEET ? "every vessel"
						       : account->scope.name);
	}
	return reminding_check_scope(&context->desk, &account->scope, fault);
}

/* The account that is remembered. To-dos begin where the events go, except for the
 * calendar. */
static bool
load_account(
    struct calendar_server *server, struct book_account *out, struct fault *fault)
{
	struct context *context = server->context;
	if (!book_load_account(context->desk.book, server->said->todos,
		&context->desk.arena, out, fault)) {
		return false;
	}
	if (!server->said->todos || out->url != NULL) {
		return true;
	}
	if (!book_load_account(
		context->desk.book, false, &context->desk.arena, out, fault)) {
		return false;
	}
	out->todos = true;
	out->calendar = "";
	out->name = "";
	return true;
}

bool
calendar_server_account(struct calendar_server *server, struct fault *fault)
{
	const struct calendar_said *said = server->said;
	struct book_account *account = &server->account;
	const char *url = said->url;
	if (!load_account(server, account, fault)) {
		return false;
	}
	if (account->url == NULL || (url != NULL && strcmp(url, account->url) != 0)) {
		*account = (struct book_account){
		    .url = url, .user = "", .calendar = "", .name = "", .ca_file = ""};
	}
	if (account->url == NULL) {
		return usage_fault(fault, WHO,
		    "no calendar server is known yet; name it with --url ADDRESS");
	}
	account->user = said->user != NULL ? said->user : account->user;
	if (said->calendar != NULL) {
		account->name = said->calendar;
		account->calendar = "";
		account->scope = (struct scope){0};
	}
	account->allow_plain |= said->allow_plain;
	return take_ca_file(server, fault) && take_scope(server, fault);
}

bool
calendar_server_connect(struct calendar_server *server, struct fault *fault)
{
	SCOPED_SECRET password = {0};
	SCOPED_TEXT question = {0};
	const struct book_account *account = &server->account;
	struct http_settings settings = {
	    .url = account->url,
	    .user = account->user,
	    .password = "",
	    .ca_file = account->ca_file,
	    .timeout_seconds = server->said->timeout_seconds,
	    .allow_plain = account->allow_plain,
	};
	if (!http_check(&settings, fault)) {
		return fault_prefix(fault, "--url");
	}
	if (account->user[0] != '\0') {
		text_add_format(
		    &question, "Password of %s at %s: ", account->user, account->url);
		if (!secret_read(server->said->password_file, "BECKET_CALDAV_PASSWORD",
			text_string(&question), &password, fault)) {
			return false;
		}
		settings.password = text_string(&password);
	}
	return http_open(&settings, &server->http, fault);
}

/* Makes the calendar. */
static bool
make_calendar(struct calendar_server *server, const struct caldav_calendars *place,
    struct caldav_calendar *out, struct fault *fault)
{
	return caldav_make(server->http, place, server->account.name, server->said->todos,
		   &server->context->desk.arena, out, fault) &&
	       desk_forget_pushed(&server->context->desk, out->url, fault);
}

bool
calendar_server_find(struct calendar_server *server, struct fault *fault)
{
	struct context *context = server->context;
	struct book_account *account = &server->account;
	const char *name = account->name[0] == '\0' ? NULL : account->name;
	const bool make = server->said->make;
	const struct caldav_calendar *chosen = NULL;
	struct caldav_calendars place = {0};
	struct caldav_calendar made = {0};
	if (account->calendar[0] != '\0') {
		return true;
	}
	if (!caldav_find(
		server->http, account->url, &context->desk.arena, &place, fault) ||
	    !caldav_choose(&place, name, server->said->todos, make, &chosen, fault)) {
		return false;
	}
	if (chosen == NULL && server->said->dry_run) {
		return true;
	}
	if (chosen == NULL) {
		if (!make_calendar(server, &place, &made, fault)) {
			return false;
		}
		chosen = &made;
	}
	account->calendar = chosen->url;
	account->name = chosen->name;
	return true;
}
