/* People who come in from elsewhere: logging in, their own password, logging out. */
#include "page/shell.h"

#include <string.h>

/* True when people log in by name. A page for one person has no names: the answer is then
 * 404. */
static bool
has_people(struct visit *visit)
{
	if (visit->site->access.people == NULL) {
		shell_words(visit, 404, "There is no such page",
		    "This page of the book is one person's, who is let in by its address.");
		return false;
	}
	return true;
}

/* Where to go on to: an address of this site, never another's ("//elsewhere",
 * "/\\elsewhere"). */
static const char *
way_on(const struct visit *visit)
{
	const char *to = page_value(visit, "to");
	bool here = to[0] == '/' && to[1] != '/' && to[1] != '\\' &&
		    strncmp(to, "/log-in", 7) != 0;
	for (const char *at = to; *at != '\0'; at++) {
		here = here && (unsigned char)*at > ' ' && (unsigned char)*at < 0x7f;
	}
	return here ? to : "/";
}

static void
write_log_in(struct visit *visit, int status, const char *wrong)
{
	SHELL_OPEN(visit, .title = "Log in", .status = status,
	    .say = "The book is open to those whom its keeper has named.");
	shell_entry(visit);
	shell_form(visit, "/log-in", "log-in");
	shell_hidden(visit, "to", way_on(visit));
	markup_begin_class(visit->markup, "div", "mend");
	markup_begin_class(visit->markup, "div", "fields");
	SHELL_FIELD(visit, .name = "name", .label = "Your name",
	    .value = page_value(visit, "name"), .filled = "username");
	SHELL_FIELD(visit, .name = "password", .label = "Your password", .value = "",
	    .wrong = wrong, .filled = "current-password");
	markup_ends(visit->markup, 2);
	markup_begin_class(visit->markup, "div", "acts");
	shell_button(visit, true, NULL, NULL, "Log in");
	markup_ends(visit->markup, 4);
	shell_close(visit);
}

bool
page_log_in(struct visit *visit, struct fault *fault)
{
	(void)fault;
	if (!has_people(visit)) {
		return true;
	}
	if (visit->session != NULL) {
		page_go(visit, "%s", way_on(visit));
	} else {
		write_log_in(visit, 200, NULL);
	}
	return true;
}

/* Begins a session, replacing the present one if there is one, and sends its cookie. */
static bool
log_in(struct visit *visit, const char *name, struct fault *fault)
{
	struct access *access = &visit->site->access;
	if (visit->session != NULL) {
		access_log_out(access, visit->session);
		visit->session = NULL;
	}
	if (!access_log_in(access, visit->request, name, &visit->session, fault)) {
		return false;
	}
	access_set_cookie(access, visit->session, &visit->answer->set_cookie);
	return true;
}

/* The reason why a password was not accepted. */
static void
add_wrong(int64_t wait, const char *otherwise, struct text *out)
{
	if (wait > 0) {
		text_add_format(out,
		    "A wrong password was given too often. Wait %lld second%s before the "
		    "next try.",
		    (long long)wait, wait == 1 ? "" : "s");
	} else {
		text_add(out, otherwise);
	}
}

/* 429: RFC 6585 section 4 */
static int
wrong_status(int64_t wait)
{
	return wait > 0 ? 429 : 403;
}

bool
page_log_in_sent(struct visit *visit, struct fault *fault)
{
	const char *name = page_value(visit, "name");
	SCOPED_TEXT wrong = {0};
	bool knows = false;
	int64_t wait = 0;
	if (!has_people(visit)) {
		return true;
	}
	if (!access_knows(&visit->site->access, visit->request, name,
		page_value(visit, "password"), &knows, &wait, fault) ||
	    (knows && !log_in(visit, name, fault))) {
		return false;
	}
	if (knows) {
		page_go(visit, "%s", way_on(visit));
		return true;
	}
	add_wrong(
	    wait, "The name and the password are not those of anybody here.", &wrong);
	write_log_in(visit, wrong_status(wait), text_string(&wrong));
	return true;
}

static const char *
right_words(enum right right)
{
	switch (right) {
	case RIGHT_NONE:
	case RIGHT_LOOK:
		return "You may look at everything in the book.";
	case RIGHT_RECORD:
		return "You may look at everything in the book and write down what was done.";
	case RIGHT_MANAGE:
		return "You may do everything in the book.";
	}
	return "";
}

static void
write_change(struct visit *visit, const char *wrong, const char *wrong_next)
{
	shell_section(visit, NULL, NULL, "Another password");
	markup_element(visit->markup, "p", NULL,
	    "It ends what is open under your name elsewhere. The book keeps no password, only "
	    "what tells that one is right.");
	shell_form(visit, "/you", "password");
	markup_begin_class(visit->markup, "div", "mend");
	markup_begin_class(visit->markup, "div", "fields");
	SHELL_FIELD(visit, .name = "before", .label = "The password you have",
	    .value = "", .wrong = wrong, .filled = "current-password");
	SHELL_FIELD(visit, .name = "next", .label = "The new one", .value = "",
	    .wrong = wrong_next, .filled = "new-password");
	SHELL_FIELD(visit, .name = "again", .label = "The new one again", .value = "",
	    .filled = "new-password");
	markup_ends(visit->markup, 2);
	markup_begin_class(visit->markup, "div", "acts");
	shell_button(visit, true, "act", "change", "Take the new password");
	markup_ends(visit->markup, 4);
}

static void
write_you(struct visit *visit, int status, const char *wrong, const char *wrong_next)
{
	SHELL_OPEN(
	    visit, .title = "You", .say = right_words(visit->right), .status = status);
	shell_entry(visit);
	shell_form(visit, "/you", "out");
	markup_begin_class(visit->markup, "div", "acts");
	shell_button(visit, wrong == NULL, "act", "out", "Log out");
	markup_ends(visit->markup, 4);
	write_change(visit, wrong, wrong_next);
	shell_close(visit);
}

bool
page_you(struct visit *visit, struct fault *fault)
{
	(void)fault;
	if (has_people(visit)) {
		write_you(visit, 200, NULL, NULL);
	}
	return true;
}

/* Gives a person who enters the present password a new one, and a new session. */
static bool
change_password(struct visit *visit, const char *name, struct fault *fault)
{
	const char *next = page_value(visit, "next");
	const struct person_change change = {.name = name, .password = next};
	struct access *access = &visit->site->access;
	struct fault refused = {0};
	SCOPED_TEXT wrong = {0};
	bool knows = false;
	int64_t wait = 0;
	if (!access_knows(access, visit->request, name, page_value(visit, "before"),
		&knows, &wait, fault)) {
		return false;
	}
	if (!knows) {
		add_wrong(wait, "That is not the password you have.", &wrong);
		write_you(visit, wrong_status(wait), text_string(&wrong), NULL);
	} else if (strcmp(next, page_value(visit, "again")) != 0) {
		write_you(visit, 409, NULL, "The new one is not the same twice.");
	} else if (!people_change(access->people, &change, &refused)) {
		write_you(visit, 409, NULL, refused.text);
	} else if (!log_in(visit, name, fault)) {
		return false;
	} else {
		page_say(visit, "The new password holds.");
		page_go(visit, "/you");
	}
	return true;
}

bool
page_you_sent(struct visit *visit, struct fault *fault)
{
	struct access *access = &visit->site->access;
	if (!has_people(visit)) {
		return true;
	}
	if (strcmp(page_value(visit, "act"), "out") == 0) {
		access_log_out(access, visit->session);
		visit->session = NULL;
		access_set_cookie(access, NULL, &visit->answer->set_cookie);
		page_go(visit, "/log-in");
		return true;
	}
	return change_password(
	    visit, arena_string(&visit->arena, visit->session->who), fault);
}
