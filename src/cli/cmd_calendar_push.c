/* becket calendar push, pull and forget */
#include "book/caldav.h"
#include "calendar/caldav_push.h"
#include "cli/calendar_acts.h"
#include "cli/files.h"
#include "cli/push_words.h"
#include "cli/reminding.h"
#include "cli/secret.h"
#include "cli/values.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char WHO[] = "becket calendar";

enum { USUAL_TIMEOUT = 30, MOST_TIMEOUT = 3600 };

/* One run of push or pull. */
struct errand {
	struct context *context;
	enum caldav_mode mode;
	bool trying;
	bool todos;
	enum caldav_keep keep;
	int timeout_seconds;
	struct book_account account;
	const struct caldav_calendar *calendar; /* NULL where it would have to be made */
	struct http *http;                      /* owned */
	struct reminders reminders;
};

static void
errand_clear(struct errand *errand)
{
	http_close(errand->http);
}

/* Takes an option's value where it is given. */
static void
take(const struct context *context, const char *option, const char **value)
{
	const char *given = options_value(context->given, option);
	if (given != NULL) {
		*value = given;
	}
}

static bool
take_ca_file(struct errand *errand, struct fault *fault)
{
	const char *path = options_value(errand->context->given, "ca-file");
	SCOPED_TEXT whole = {0};
	if (path == NULL) {
		return true;
	}
	if (!file_whole_path(path, &whole, fault)) {
		return fault_prefix(fault, "--ca-file");
	}
	errand->account.ca_file =
	    arena_string(&errand->context->arena, text_string(&whole));
	return errand->account.ca_file != NULL || fault_memory(fault);
}

static bool
same_scope(const struct scope *a, const struct scope *b)
{
	return a->kind == b->kind && strcmp(a->name, b->name) == 0;
}

/* Whose reminders: as given, else as remembered. A calendar that is in use is not turned into
 * another's by the way, for that would take everyone else's reminders out of it. */
static bool
take_scope(struct errand *errand, struct fault *fault)
{
	struct scope scope = {0};
	struct context *context = errand->context;
	struct book_account *account = &errand->account;
	if (!reminding_scope(context, WHO, &scope, fault)) {
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
	return reminding_check_scope(context, &account->scope, fault);
}

/* The account that is remembered. To-dos begin where the events go, but for the calendar. */
static bool
load_account(struct errand *errand, struct book_account *out, struct fault *fault)
{
	struct context *context = errand->context;
	if (!book_load_account(
		context->book, errand->todos, &context->arena, out, fault)) {
		return false;
	}
	if (!errand->todos || out->url != NULL) {
		return true;
	}
	if (!book_load_account(context->book, false, &context->arena, out, fault)) {
		return false;
	}
	out->todos = true;
	out->calendar = "";
	out->name = "";
	return true;
}

/* The account that is remembered, with what the command line says otherwise. Another URL is
 * another account: nothing of the old one goes there. */
static bool
take_account(struct errand *errand, struct fault *fault)
{
	struct context *context = errand->context;
	struct book_account *account = &errand->account;
	const char *url = options_value(context->given, "url");
	if (!load_account(errand, account, fault)) {
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
	take(context, "user", &account->user);
	if (options_has(context->given, "calendar")) {
		take(context, "calendar", &account->name);
		account->calendar = "";
		account->scope = (struct scope){0};
	}
	account->allow_plain |= options_has(context->given, "allow-plain");
	return take_ca_file(errand, fault) && take_scope(errand, fault);
}

static bool
take_options(struct errand *errand, struct fault *fault)
{
	const struct given_options *given = errand->context->given;
	const char *keep = options_value(given, "keep");
	bool pulling = errand->mode == CALDAV_PULL;
	errand->timeout_seconds = USUAL_TIMEOUT;
	if (keep != NULL) {
		errand->keep =
		    strcmp(keep, "ours") == 0 ? CALDAV_KEEP_OURS : CALDAV_KEEP_THEIRS;
	}
	if (pulling && errand->keep == CALDAV_KEEP_OURS) {
		return usage_fault(fault, WHO,
		    "a pull writes nothing there; --keep ours goes with push");
	}
	if (options_has(given, "make") && !options_has(given, "calendar")) {
		return usage_fault(
		    fault, WHO, "--make needs the name of the calendar, --calendar NAME");
	}
	errand->trying = options_has(given, "dry-run");
	errand->todos = options_has(given, "to-dos");
	return value_number(given, "timeout", (struct range){1, MOST_TIMEOUT},
	    &errand->timeout_seconds, NULL, fault);
}

static bool
connect(struct errand *errand, struct fault *fault)
{
	SCOPED_SECRET password = {0};
	SCOPED_TEXT question = {0};
	const struct book_account *account = &errand->account;
	struct http_settings settings = {
	    .url = account->url,
	    .user = account->user,
	    .password = "",
	    .ca_file = account->ca_file,
	    .timeout_seconds = errand->timeout_seconds,
	    .allow_plain = account->allow_plain,
	};
	if (!http_check(&settings, fault)) {
		return fault_prefix(fault, "--url");
	}
	if (account->user[0] != '\0') {
		text_add_format(
		    &question, "Password of %s at %s: ", account->user, account->url);
		if (!text_check(&question, fault) ||
		    !secret_read(options_value(errand->context->given, "password-file"),
			"BECKET_CALDAV_PASSWORD", text_string(&question), &password,
			fault)) {
			return false;
		}
		settings.password = text_string(&password);
	}
	return http_open(&settings, &errand->http, fault);
}

/* A calendar that was just made is empty, whatever stood at its address before. */
static bool
forget_pushed(const struct errand *errand, const char *calendar, struct fault *fault)
{
	struct context *context = errand->context;
	const struct book_pushed *pushed = NULL;
	size_t count = 0;
	if (!book_load_pushed(
		context->book, calendar, &context->arena, &pushed, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (!book_drop_pushed(context->book, calendar, pushed[i].uid, fault)) {
			return false;
		}
	}
	return true;
}

/* Makes the calendar, or notes that it would have to be made. */
static bool
make_calendar(
    struct errand *errand, const struct caldav_place *place, struct fault *fault)
{
	struct arena *arena = &errand->context->arena;
	struct caldav_calendar *made = arena_alloc(arena, sizeof *made);
	if (made == NULL) {
		return fault_memory(fault);
	}
	if (errand->trying) {
		return true;
	}
	if (!caldav_make(errand->http, place, errand->account.name, errand->todos, arena,
		made, fault)) {
		return false;
	}
	errand->calendar = made;
	return forget_pushed(errand, made->url, fault);
}

/* Finds the calendar, unless its address is remembered. */
static bool
find_calendar(struct errand *errand, struct fault *fault)
{
	struct context *context = errand->context;
	struct book_account *account = &errand->account;
	struct caldav_place place = {0};
	if (account->calendar[0] != '\0') {
		return true;
	}
	const char *name = account->name[0] == '\0' ? NULL : account->name;
	bool make = errand->mode == CALDAV_PUSH && options_has(context->given, "make");
	if (!caldav_find(errand->http, account->url, &context->arena, &place, fault) ||
	    !caldav_choose(&place, name, errand->todos, make, &errand->calendar, fault)) {
		return false;
	}
	if (errand->calendar == NULL && !make_calendar(errand, &place, fault)) {
		return false;
	}
	if (errand->calendar != NULL) {
		account->calendar = errand->calendar->url;
		account->name = errand->calendar->name;
	}
	return true;
}

/* The reminders as of now. They are stored before any goes out; a dry run stores none. */
static bool
make_reminders(struct errand *errand, struct fault *fault)
{
	struct context *context = errand->context;
	if (!book_begin(context->book, fault)) {
		return false;
	}
	bool made =
	    reminding_settled(context, errand->todos, &errand->reminders, fault) &&
	    (errand->trying ||
		book_store_account(context->book, &errand->account, fault));
	if (made && !errand->trying) {
		made = book_commit(context->book, fault);
	}
	if (!made || errand->trying) {
		book_rollback(context->book);
	}
	if (made) {
		reminders_narrow(&errand->reminders, &context->contents.inventory,
		    &errand->account.scope);
	}
	return made;
}

/* A line that is written over, where someone is looking. */
static void
show_progress(size_t done, size_t total, void *context)
{
	(void)context;
	(void)fprintf(stderr, done < total ? "\r%zu of %zu" : "\r\033[K", done, total);
	(void)fflush(stderr);
}

static bool
carry_out(struct errand *errand, struct caldav_report *out, struct fault *fault)
{
	struct context *context = errand->context;
	const struct book_reminder *known = NULL;
	size_t known_count = 0;
	if (!make_reminders(errand, fault) ||
	    !book_load_reminders(
		context->book, &context->arena, &known, &known_count, fault)) {
		return false;
	}
	const struct caldav_push push = {
	    .http = errand->http,
	    .book = context->book,
	    .calendar = errand->account.calendar,
	    .reminders = errand->reminders.items,
	    .count = errand->reminders.count,
	    .known = known,
	    .known_count = known_count,
	    .today = context->today,
	    .now = context->now,
	    .keep = errand->keep,
	    .mode = errand->trying ? CALDAV_TRY : errand->mode,
	    .progress = isatty(STDERR_FILENO) != 0 ? show_progress : NULL,
	};
	return caldav_push(&push, &context->arena, out, fault);
}

static bool
has_planned(const struct caldav_report *report)
{
	for (size_t i = 0; i < report->count; i++) {
		if (report->rows[i].act == CALDAV_PLAN) {
			return true;
		}
	}
	return false;
}

static struct caldav_row *
find_row(const struct caldav_report *report, const char *uid)
{
	for (size_t i = 0; i < report->count; i++) {
		if (strcmp(report->rows[i].uid, uid) == 0) {
			return &report->rows[i];
		}
	}
	return NULL;
}

/* Takes over from a second push what the first did not know: a planned day may have moved
 * others. What was created stays created, what was planned planned. */
static void
take_over(struct caldav_report *report, const struct caldav_report *second)
{
	for (size_t i = 0; i < second->count; i++) {
		const struct caldav_row *row = &second->rows[i];
		struct caldav_row *first = find_row(report, row->uid);
		bool news = row->act != CALDAV_NOTHING && row->act != CALDAV_NOTE;
		if (first != NULL && news && first->act != CALDAV_CREATE &&
		    first->act != CALDAV_PLAN) {
			*first = *row;
		}
	}
}

static bool
run_errand(struct errand *errand, struct caldav_report *out, struct fault *fault)
{
	struct caldav_report report = {0};
	if (!carry_out(errand, &report, fault)) {
		return false;
	}
	if (errand->mode == CALDAV_PUSH && !errand->trying && has_planned(&report)) {
		struct caldav_report second = {0};
		if (!carry_out(errand, &second, fault)) {
			return false;
		}
		take_over(&report, &second);
	}
	*out = report;
	return true;
}

static bool
tell(struct errand *errand, const struct caldav_report *report, struct fault *fault)
{
	struct context *context = errand->context;
	const struct push_words words = {
	    .report = report,
	    .arena = &context->arena,
	    .name = errand->account.name,
	    .url = errand->account.calendar,
	    .pulling = errand->mode == CALDAV_PULL,
	    .trying = errand->trying,
	    .colour = context->style.colour,
	};
	context->status = push_left(report) > 0 ? 1 : 0;
	return context->json ? push_answer(&words, &context->out, fault)
			     : push_report(&words, &context->out, fault);
}

static bool
do_errand(struct errand *errand, struct fault *fault)
{
	struct context *context = errand->context;
	struct caldav_report report = {0};
	if (!take_options(errand, fault) || !context_book(context, fault) ||
	    !take_account(errand, fault) || !connect(errand, fault) ||
	    !find_calendar(errand, fault)) {
		return false;
	}
	if (errand->account.calendar[0] == '\0') {
		context_note(context,
		    "the calendar \"%s\" is not there yet; without --dry-run it would be "
		    "made and every reminder created",
		    errand->account.name);
		return true;
	}
	return run_errand(errand, &report, fault) && tell(errand, &report, fault);
}

static bool
start(struct context *context, enum caldav_mode mode, struct fault *fault)
{
	__attribute__((cleanup(errand_clear))) struct errand errand = {
	    .context = context, .mode = mode};
	return do_errand(&errand, fault);
}

bool
calendar_act_push(struct context *context, struct fault *fault)
{
	return start(context, CALDAV_PUSH, fault);
}

bool
calendar_act_pull(struct context *context, struct fault *fault)
{
	return start(context, CALDAV_PULL, fault);
}

bool
calendar_act_forget(struct context *context, struct fault *fault)
{
	struct book_account account = {0};
	if (!context_book(context, fault) ||
	    !book_load_account(context->book, false, &context->arena, &account, fault)) {
		return false;
	}
	if (account.url == NULL &&
	    !book_load_account(context->book, true, &context->arena, &account, fault)) {
		return false;
	}
	if (account.url == NULL) {
		text_add(&context->out, "No calendar server is known.\n");
		return true;
	}
	if (!book_forget_account(context->book, fault)) {
		return false;
	}
	text_add_format(&context->out,
	    "%s is forgotten. What is in its calendars stays there.\n", account.url);
	return true;
}
