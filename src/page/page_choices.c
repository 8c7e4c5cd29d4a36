/* The choices for all reminders. What a choice would change is shown first. A value that
 * the sender did not touch stays as somebody else may have set it meanwhile. */
#include "desk/remind.h"
#include "page/pieces.h"
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"

#include <string.h>

/* The name of a field for a notice: this, then the kind. */
static const char NOTICE[] = "notice.";

enum { NOTICE_MOST = 366 };

struct choosing {
	struct tried tried;
	struct base_choice choice;  /* the boats whose changed reminders are shown */
	struct reminders_seen seen; /* as the book has it */
	struct remind_request request;
};

/* Reads the days of a notice; "none", or nothing, removes the notice. */
static bool
read_days(struct choosing *choosing, const char *field, const char *typed, int *out,
    struct fault *fault)
{
	choosing->tried.wrong = field;
	*out = -1;
	if (typed[0] != '\0' && !text_same_letters(typed, "none") &&
	    !text_figures(typed, NOTICE_MOST, out)) {
		return fault_set(fault, FAULT_INPUT,
		    "found \"%.40s\", expected days from 0 to %d, or nothing for the usual",
		    typed, NOTICE_MOST);
	}
	return true;
}

static const char *
notice_field(struct choosing *choosing, const char *kind)
{
	return arena_format(&choosing->tried.visit->arena, "%s%s", NOTICE, kind);
}

static const char *
days_of(struct choosing *choosing, const struct notice *notice)
{
	return arena_format(&choosing->tried.visit->arena, "%d", notice->days);
}

/* A notice of a kind that has none yet. */
static bool
read_new_notice(struct choosing *choosing, struct notice *out, struct fault *fault)
{
	const struct kind *kind = NULL;
	const char *words = tried_typed(&choosing->tried, "kind", "");
	const char *days = tried_typed(&choosing->tried, "days", "");
	if (words[0] == '\0' && days[0] == '\0') {
		return true;
	}
	choosing->tried.wrong = "kind";
	if (!desk_kind(&choosing->tried.visit->desk, words, &kind, fault) ||
	    !read_days(choosing, "days", days, &out->days, fault)) {
		return false;
	}
	out->kind = kind->id;
	choosing->request.notice_count++;
	return true;
}

static bool
read_notices(struct choosing *choosing, struct fault *fault)
{
	const struct reminder_choices *now = &choosing->seen.choices;
	struct remind_request *request = &choosing->request;
	struct notice *notices = arena_alloc(
	    &choosing->tried.visit->arena, (now->notice_count + 1) * sizeof *notices);
	request->notices = notices;
	for (size_t i = 0; i < now->notice_count; i++) {
		const char *field = notice_field(choosing, now->notices[i].kind);
		const char *days = days_of(choosing, &now->notices[i]);
		const char *typed = tried_chosen(&choosing->tried, field, days);
		struct notice *notice = &notices[request->notice_count];
		notice->kind = now->notices[i].kind;
		if (!read_days(choosing, field, typed, &notice->days, fault)) {
			return false;
		}
		request->notice_count += notice->days == now->notices[i].days ? 0 : 1;
	}
	return read_new_notice(choosing, &notices[request->notice_count], fault);
}

static const char *
yes_or_no(bool yes)
{
	return yes ? "yes" : "no";
}

static bool
read_form(struct choosing *choosing, struct fault *fault)
{
	const struct reminder_choices *now = &choosing->seen.choices;
	struct remind_request *request = &choosing->request;
	const char *day =
	    tried_chosen(&choosing->tried, "weekday", weekday_name(now->weekday));
	while (request->weekday < 6 && strcmp(day, weekday_name(request->weekday)) != 0) {
		request->weekday++;
	}
	request->routines =
	    strcmp(tried_chosen(&choosing->tried, "routines", yes_or_no(now->routines)),
		"yes") == 0;
	request->singles =
	    strcmp(tried_chosen(&choosing->tried, "singles", yes_or_no(now->singles)),
		"yes") == 0;
	request->set_weekday = request->weekday != now->weekday;
	request->set_routines = request->routines != now->routines;
	request->set_singles = request->singles != now->singles;
	if (!read_notices(choosing, fault)) {
		return false;
	}
	choosing->tried.wrong = "";
	return request->set_weekday || request->set_routines || request->set_singles ||
	       request->notice_count > 0 ||
	       fault_set(fault, FAULT_INPUT,
		   "Nothing is chosen otherwise than it is: there is nothing to save.");
}

/* What is chosen, one choice in a line. */
static void
add_chosen(struct choosing *choosing)
{
	const struct remind_request *request = &choosing->request;
	const struct reminder_choices *now = &choosing->seen.choices;
	const struct kinds *kinds = choosing->tried.visit->desk.engine.kinds;
	struct text *out = &choosing->tried.said;
	if (request->set_weekday) {
		text_add_format(out, "Your day of the week is %s in place of %s.\n",
		    weekday_name(request->weekday), weekday_name(now->weekday));
	}
	if (request->set_routines) {
		text_add_format(out, "The weekly and monthly looks are %s.\n",
		    request->routines ? "among them" : "left out");
	}
	if (request->set_singles) {
		text_add(
		    out, request->singles
			     ? "Each piece and task has one besides the gathered ones.\n"
			     : "The gathered ones stand alone.\n");
	}
	for (size_t i = 0; i < request->notice_count; i++) {
		const struct notice *notice = &request->notices[i];
		text_add_format(out, "%s: ", kind_name(kinds, notice->kind));
		if (notice->days < 0) {
			text_add(out, "as many days before as is usual.\n");
		} else {
			text_add_format(out, "%d %s before.\n", notice->days,
			    notice->days == 1 ? "day" : "days");
		}
	}
}

/* Says whose changes are shown, when the fleet is seen base by base. */
static void
tell_whose(struct choosing *choosing)
{
	struct text *out = &choosing->tried.said;
	if (choosing->choice.base != NULL) {
		text_add_format(out,
		    "Told here are the changes of the boats of %s; it holds for every boat.\n",
		    choosing->choice.base);
	} else if (choosing->choice.boats != NULL) {
		text_add_format(out,
		    "Told here are the changes of %zu boats without a base; it holds for every "
		    "boat.\n",
		    choosing->choice.boats->count);
	}
}

/* Tries it on a copy of the book. False only for a failure of the book itself. */
static bool
try_choices(struct choosing *choosing, struct fault *fault)
{
	SCOPED_DESK trial = {0};
	struct reminders_seen after = {0};
	struct tried *tried = &choosing->tried;
	const struct plans_wish whose = base_choice_wish(&choosing->choice);
	page_try(tried->visit, &trial);
	bool done = read_form(choosing, fault) &&
		    desk_remind(&trial, &choosing->request, fault) &&
		    desk_reminders(&trial, &whose, &after, fault);
	if (done) {
		add_chosen(choosing);
		tell_whose(choosing);
		size_t told = tried->said.length;
		reminders_differ(&choosing->seen, &after, &tried->said);
		if (tried->said.length == told) {
			text_add(
			    &tried->said, "None of those to come is changed by that.\n");
		}
		text_add(&tried->notes, text_string(&trial.notes));
	}
	return done || tried_refused(tried, fault);
}

static void
write_weekday(const struct choosing *choosing)
{
	struct visit *visit = choosing->tried.visit;
	const char *now = weekday_name(choosing->seen.choices.weekday);
	const char *typed = tried_chosen(&choosing->tried, "weekday", now);
	tried_was(&choosing->tried, "weekday", now);
	shell_choice(visit, "weekday", "Your day of the week");
	for (int day = 0; day < 7; day++) {
		const char *name = weekday_name(day);
		shell_option(visit, name, name, strcmp(name, typed) == 0);
	}
	markup_ends(visit->markup, 2);
}

static void
write_yes_or_no(
    const struct choosing *choosing, const char *name, const char *label, bool is)
{
	struct visit *visit = choosing->tried.visit;
	const char *now = yes_or_no(is);
	const char *typed = tried_chosen(&choosing->tried, name, now);
	tried_was(&choosing->tried, name, now);
	shell_choice(visit, name, label);
	shell_option(visit, "no", "no", strcmp(typed, "yes") != 0);
	shell_option(visit, "yes", "yes", strcmp(typed, "yes") == 0);
	markup_ends(visit->markup, 2);
}

static void
write_notices(struct choosing *choosing)
{
	const struct reminder_choices *now = &choosing->seen.choices;
	const struct tried *tried = &choosing->tried;
	const struct kinds *kinds = tried->visit->desk.engine.kinds;
	for (size_t i = 0; i < now->notice_count; i++) {
		const char *field = notice_field(choosing, now->notices[i].kind);
		const char *days = days_of(choosing, &now->notices[i]);
		SCOPED_TEXT label = {0};
		text_add_format(
		    &label, "%s: days before", kind_name(kinds, now->notices[i].kind));
		tried_kept_field(tried, field, text_string(&label), "numeric", days);
	}
	tried_field(
	    tried, "kind", "One more sort of gear: red hand flare, EPIRB ...", NULL, "");
	tried_field(tried, "days", "How many days before", "numeric", "");
}

static void
write_fields(struct choosing *choosing)
{
	struct markup *markup = choosing->tried.visit->markup;
	const struct reminder_choices *now = &choosing->seen.choices;
	markup_element(markup, "p", "small",
	    "Your day of the week is for what is overdue and for what you do yourself. The weekly and "
	    "monthly looks have no reminder unless they are asked for.");
	markup_begin_class(markup, "div", "fields");
	write_weekday(choosing);
	write_yes_or_no(
	    choosing, "routines", "The weekly and monthly looks, too", now->routines);
	write_yes_or_no(choosing, "singles",
	    "One for each piece and task, besides those that gather", now->singles);
	markup_end(markup);
	markup_element(markup, "p", "small",
	    "Usual is 28 days before the last day for what you do and buy, and none for what can’t "
	    "wait for a winter. A sort of gear may have another number; left empty it is as usual.");
	markup_begin_class(markup, "div", "fields");
	write_notices(choosing);
	markup_end(markup);
}

static void
write_page(struct choosing *choosing)
{
	struct visit *visit = choosing->tried.visit;
	const struct tried *tried = &choosing->tried;
	SCOPED_TEXT path = {0};
	text_add(&path, "/reminders");
	base_choice_add(&choosing->choice, &path);
	SHELL_OPEN(visit, .title = "How you are reminded",
	    .say =
		tried->why != NULL
		    ? tried->why
		    : "What is chosen here holds for every calendar that reads this book.",
	    .status = tried_status(tried));
	shell_entry(visit);
	shell_form(visit, "/reminders/choices", "form");
	shell_default(visit, "look");
	base_choice_hide(visit, &choosing->choice);
	write_fields(choosing);
	tried_box(tried, "remind me so");
	markup_end(visit->markup);
	tried_close(tried, "the reminders", text_string(&path));
}

static bool
save(struct choosing *choosing, struct fault *fault)
{
	struct visit *visit = choosing->tried.visit;
	SCOPED_TEXT path = {0};
	struct desk desk = {0};
	text_add(&path, "/reminders");
	base_choice_add(&choosing->choice, &path);
	page_write(visit, &desk, "how one is reminded");
	bool done = desk_remind(&desk, &choosing->request, fault);
	if (done) {
		page_say(visit, "You are reminded so from now on.");
		page_go(visit, "%s", text_string(&path));
	}
	page_done(visit, &desk);
	return done;
}

bool
page_choices(struct visit *visit, struct fault *fault)
{
	static const struct tried_about ABOUT[] = {
	    {NULL, "reminder", "choice"}, {NULL, "reminder", "notice"}};
	struct choosing choosing = {.tried = {.visit = visit, .wrong = ""}};
	bool post = strcmp(visit->route->method, "POST") == 0;
	if (!base_choice_read(visit, &choosing.choice, fault)) {
		return false;
	}
	const struct plans_wish whose = base_choice_wish(&choosing.choice);
	bool done = desk_reminders(&visit->desk, &whose, &choosing.seen, fault) &&
		    tried_look(&choosing.tried, ABOUT, 2, fault) &&
		    (!post || try_choices(&choosing, fault));
	if (done && tried_holds(&choosing.tried)) {
		done = save(&choosing, fault);
	} else if (done) {
		write_page(&choosing);
	}
	tried_clear(&choosing.tried);
	return done;
}
