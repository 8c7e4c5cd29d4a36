/* becket calendar push, pull and forget */
#include "calendar/caldav_push.h"
#include "cli/calendar_acts.h"
#include "cli/terminal.h"
#include "desk/giving_out.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

static const char WHO[] = "becket calendar";

/* One run of push or pull. */
struct server_run {
	struct context *context;
	enum caldav_mode mode;
	struct calendar_keep keep;
	struct calendar_server server;
	struct reminders reminders;
};

static void
server_run_clear(struct server_run *run)
{
	calendar_server_clear(&run->server);
}

static bool
keeps_ours(const struct calendar_said *said)
{
	bool ours = false;
	for (size_t i = 0; i < said->keep.count; i++) {
		ours = ours || strncasecmp(said->keep.items[i], "ours", 4) == 0;
	}
	return ours;
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
carry_out(struct server_run *run, struct caldav_report *out, struct fault *fault)
{
	struct context *context = run->context;
	const struct book_given *handed_out = NULL;
	size_t handed_out_count = 0;
	if (!desk_push_reminders(&context->desk, &run->server.account,
		run->server.said->todos, run->server.said->dry_run, &run->reminders,
		fault) ||
	    !book_load_given(context->desk.book, &context->desk.arena, &handed_out,
		&handed_out_count, fault)) {
		return false;
	}
	const struct caldav_push push = {
	    .http = run->server.http,
	    .book = context->desk.book,
	    .calendar = run->server.account.calendar,
	    .reminders = run->reminders.items,
	    .count = run->reminders.count,
	    .today = context->desk.today,
	    .now = context->desk.now,
	    .keep = run->keep.usual,
	    .choices = run->keep.choices,
	    .choice_count = run->keep.count,
	    .given = handed_out,
	    .given_count = handed_out_count,
	    .mode = run->server.said->dry_run ? CALDAV_TRY : run->mode,
	    .progress = isatty(STDERR_FILENO) != 0 ? show_progress : NULL,
	};
	return caldav_push(&push, &context->desk.arena, out, fault);
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
carry_out_whole(struct server_run *run, struct caldav_report *out, struct fault *fault)
{
	struct caldav_report report = {0};
	if (!carry_out(run, &report, fault)) {
		return false;
	}
	if (run->mode == CALDAV_PUSH && !run->server.said->dry_run &&
	    has_planned(&report)) {
		struct caldav_report second = {0};
		if (!carry_out(run, &second, fault)) {
			return false;
		}
		take_over(&report, &second);
	}
	*out = report;
	return true;
}

/* Asks, reminder by reminder, about those that were moved on both sides. */
static bool
ask_all(struct server_run *run, const struct caldav_report *report, bool *any_out,
    struct fault *fault)
{
	struct context *context = run->context;
	size_t before = run->keep.count;
	for (size_t i = 0; i < report->count; i++) {
		const struct caldav_row *row = &report->rows[i];
		enum caldav_keep which = CALDAV_ASK;
		if (!row->both || row->act != CALDAV_LEAVE || row->why[0] != '\0') {
			continue;
		}
		if (!calendar_keep_ask(
			row->summary, row->their_day, row->our_day, &which, fault)) {
			return false;
		}
		bool useless = which == CALDAV_KEEP_OURS && run->mode == CALDAV_PULL;
		if (which != CALDAV_ASK && !useless &&
		    !calendar_keep_add(context, &run->keep, row->uid, which, fault)) {
			return false;
		}
	}
	*any_out = run->keep.count > before;
	return true;
}

/* Does it, and once more with what the person says at the terminal. */
static bool
run_and_ask(struct server_run *run, struct caldav_report *out, struct fault *fault)
{
	struct caldav_report second = {0};
	bool any = false;
	if (!carry_out_whole(run, out, fault)) {
		return false;
	}
	if (run->context->json || run->server.said->dry_run || !ask_is_possible()) {
		return true;
	}
	if (!ask_all(run, out, &any, fault)) {
		return false;
	}
	if (any) {
		if (!carry_out_whole(run, &second, fault)) {
			return false;
		}
		take_over(out, &second);
	}
	return true;
}

static void
tell(struct server_run *run, const struct caldav_report *report)
{
	struct context *context = run->context;
	const struct push_words words = {
	    .report = report,
	    .arena = &context->desk.arena,
	    .name = run->server.account.name,
	    .url = run->server.account.calendar,
	    .pulling = run->mode == CALDAV_PULL,
	    .trying = run->server.said->dry_run,
	    .colour = context->style.colour,
	};
	context->status = push_left(report) > 0 ? 1 : 0;
	if (context->json) {
		push_answer(&words, &context->out);
		return;
	}
	push_report(&words, &context->out);
}

static bool
talk_to_server(struct server_run *run, struct fault *fault)
{
	struct context *context = run->context;
	struct caldav_report report = {0};
	struct calendar_server *server = &run->server;
	if (run->mode == CALDAV_PULL && keeps_ours(server->said)) {
		return usage_fault(fault, WHO,
		    "a pull writes nothing there; --keep ours goes with push");
	}
	if (!desk_book(&context->desk, fault) ||
	    !calendar_server_account(server, fault) ||
	    !calendar_server_connect(server, fault) ||
	    !calendar_server_find(server, fault)) {
		return false;
	}
	if (run->server.account.calendar[0] == '\0') {
		desk_note(&context->desk,
		    "the calendar \"%s\" is not there yet; without --dry-run it would be "
		    "made and every reminder created",
		    run->server.account.name);
		return true;
	}
	if (!calendar_keep_read(context, &server->said->keep, &run->keep, fault) ||
	    !run_and_ask(run, &report, fault)) {
		return false;
	}
	tell(run, &report);
	return true;
}

static bool
start(struct context *context, enum caldav_mode mode, const struct calendar_said *said,
    struct fault *fault)
{
	__attribute__((cleanup(server_run_clear))) struct server_run run = {
	    .context = context,
	    .mode = mode,
	    .server = {.context = context, .said = said}};
	return talk_to_server(&run, fault);
}

bool
calendar_act_push(
    struct context *context, const struct calendar_said *said, struct fault *fault)
{
	return start(context, CALDAV_PUSH, said, fault);
}

bool
calendar_act_pull(
    struct context *context, const struct calendar_said *said, struct fault *fault)
{
	return start(context, CALDAV_PULL, said, fault);
}

bool
calendar_act_forget(
    struct context *context, const struct calendar_said *said, struct fault *fault)
{
	(void)said;
	const char *url = NULL;
	if (!desk_forget_account(&context->desk, &url, fault)) {
		return false;
	}
	if (url == NULL) {
		text_add(&context->out, "No calendar server is known.\n");
	} else {
		text_add_format(&context->out,
		    "%s is forgotten. What is in its calendars stays there.\n", url);
	}
	return true;
}
