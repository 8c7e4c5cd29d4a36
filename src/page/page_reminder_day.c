/* The day of one reminder: moved, confirmed by the station, given up or left to the plan
 * again. What that changes is shown first. */
#include "desk/remind.h"
#include "page/pieces.h"
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"

#include <string.h>

/* What can be done with it, as the form sends it. */
static const char PUT[] = "put";
static const char SAID[] = "said";
static const char GIVEN_UP[] = "give-up";
static const char PLAN[] = "plan";

struct day_form {
	struct tried tried;
	struct base_choice choice;  /* among whose reminders it was shown */
	struct reminders_seen seen; /* as the book has it */
	const char *uid;            /* whose day */
	const char *summary;
	day_t day;       /* DAY_NONE of what was given up */
	bool is_hand_in; /* one still to come, which a station may confirm */
	bool last_day;   /* the last possible day, which can't be put off */
	struct said_day said;
};

/* Finds the reminder, or the hand-in that was given up, by its whole uid. */
static bool
find(struct day_form *form, struct fault *fault)
{
	struct desk *desk = &form->tried.visit->desk;
	const struct reminders *reminders = &form->seen.reminders;
	for (size_t i = 0; i < form->seen.given_up_count; i++) {
		const struct given_up *given_up = &form->seen.given_up[i];
		if (strcmp(given_up->uid, form->uid) == 0) {
			form->summary = given_up->of.summary;
			return true;
		}
	}
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *one = &reminders->items[i];
		struct settled_hand_in of = {0};
		if (strcmp(one->uid, form->uid) == 0) {
			hand_in_of_key(one->key, &desk->arena, &of, &form->is_hand_in);
			form->summary = one->summary;
			form->day = one->day;
			form->last_day = one->last_chance;
			form->is_hand_in = form->is_hand_in && !one->last_chance;
			return true;
		}
	}
	return fault_set(
	    fault, FAULT_INPUT, "there is no such reminder to come any more");
}

static bool
read_form(struct day_form *form, struct fault *fault)
{
	const struct tried *tried = &form->tried;
	const char *what = tried_typed(tried, "what", PUT);
	bool puts = strcmp(what, GIVEN_UP) != 0 && strcmp(what, PLAN) != 0;
	form->said = (struct said_day){.what = strcmp(what, GIVEN_UP) == 0 ? SAID_GIVE_UP
					       : strcmp(what, SAID) == 0 ? SAID_CONFIRMED
									 : SAID_PLAN,
	    .of = form->uid,
	    .day = DAY_NONE,
	    .why = tried_typed(tried, "why", "")};
	form->tried.wrong = "on";
	if (puts && !day_typed(tried_typed(tried, "on", ""), tried->visit->desk.today,
			&form->said.day, fault)) {
		return false;
	}
	form->tried.wrong = "";
	return true;
}

/* What is said, in a line. */
static void
add_said(struct day_form *form)
{
	char day[DAY_WORDS_SIZE];
	struct text *out = &form->tried.said;
	const struct said_day *said = &form->said;
	if (said->what == SAID_GIVE_UP) {
		text_add_format(out,
		    "It is given up for this winter: %s. It rings no more, and This winter says "
		    "why.\n",
		    said->why[0] == '\0' ? "no reason was said" : said->why);
	} else if (said->day == DAY_NONE) {
		text_add(out, "It is where the plan has it.\n");
	} else {
		text_add_format(out, "%s %s, and stays there until that is past.\n",
		    said->what == SAID_CONFIRMED ? "The station said"
						 : "Your day for it is",
		    day_words(said->day, day));
	}
}

/* Adds why it can't be done, at the field of the day; without the uid, which only a
 * command needs. */
static bool
refused(struct day_form *form, struct fault *fault)
{
	struct tried *tried = &form->tried;
	if (!tried_refused(tried, fault)) {
		return false;
	}
	const char *named = strstr(tried->why, form->uid);
	if (named != NULL) {
		tried->why =
		    named + strlen(form->uid) + strspn(named + strlen(form->uid), ": ");
		tried->wrong = "on";
	}
	return true;
}

/* Tries it on a copy of the book. False only for a failure of the book itself. */
static bool
try_day(struct day_form *form, struct fault *fault)
{
	SCOPED_DESK trial = {0};
	struct reminders_seen after = {0};
	struct tried *tried = &form->tried;
	const struct plans_wish whose = base_choice_wish(&form->choice);
	const struct remind_request request = {
	    .days = &form->said, .day_count = 1, .whose = &whose};
	page_try(tried->visit, &trial);
	bool done = read_form(form, fault) && desk_remind(&trial, &request, fault) &&
		    desk_reminders(&trial, &whose, &after, fault);
	if (done) {
		add_said(form);
		reminders_differ(&form->seen, &after, &tried->said);
		text_add(&tried->notes, text_string(&trial.notes));
	}
	return done || refused(form, fault);
}

static void
write_may_say(const struct day_form *form)
{
	struct visit *visit = form->tried.visit;
	const char *what = tried_typed(&form->tried, "what", PUT);
	shell_choice(visit, "what", "What is said");
	shell_option(visit, PUT, "put it on this day", strcmp(what, PUT) == 0);
	if (form->is_hand_in) {
		shell_option(
		    visit, SAID, "the station said this day", strcmp(what, SAID) == 0);
	}
	shell_option(visit, PLAN, "let the plan find the day", strcmp(what, PLAN) == 0);
	if (form->is_hand_in) {
		shell_option(visit, GIVEN_UP, "give it up for this winter",
		    strcmp(what, GIVEN_UP) == 0);
	}
	markup_ends(visit->markup, 2);
}

static void
write_fields(const struct day_form *form)
{
	struct markup *markup = form->tried.visit->markup;
	char day[DAY_WORDS_SIZE];
	markup_begin_class(markup, "div", "fields");
	write_may_say(form);
	tried_field(&form->tried, "on", "Day", NULL,
	    form->day == DAY_NONE ? "" : day_words(form->day, day));
	if (form->is_hand_in) {
		tried_field(&form->tried, "why", "Why, if it is given up", NULL, "");
	}
	markup_end(markup);
}

static void
write_page(const struct day_form *form)
{
	struct visit *visit = form->tried.visit;
	const struct tried *tried = &form->tried;
	SCOPED_TEXT path = {0};
	SCOPED_TEXT say = {0};
	text_add(&path, "/reminders/day/");
	form_escape(form->uid, &path);
	text_add_format(
	    &say, "%s: %s", form->summary, form->day == DAY_NONE ? "" : "on ");
	add_day(form->day, "given up for its winter", &say);
	text_add_byte(&say, '.');
	SHELL_OPEN(visit, .title = "Another day for it", .say = text_string(&say),
	    .status = tried_status(tried));
	shell_entry(visit);
	if (form->last_day) {
		markup_element(visit->markup, "p", NULL,
		    "That is the last day that serves, and can’t be put off: put the hand-in "
		    "itself on another day.");
	} else {
		shell_form(visit, text_string(&path), "form");
		shell_default(visit, "look");
		base_choice_hide(visit, &form->choice);
		write_fields(form);
		tried_box(tried,
		    form->said.what == SAID_GIVE_UP ? "give it up" : "that is its day");
		markup_end(visit->markup);
	}
	text_reset(&path);
	text_add(&path, "/reminders");
	base_choice_add(&form->choice, &path);
	tried_close(tried, "the reminders", text_string(&path));
}

static bool
save(struct day_form *form, struct fault *fault)
{
	struct visit *visit = form->tried.visit;
	const struct plans_wish whose = base_choice_wish(&form->choice);
	const struct remind_request request = {
	    .days = &form->said, .day_count = 1, .whose = &whose};
	SCOPED_TEXT path = {0};
	struct desk desk = {0};
	text_add(&path, "/reminders");
	base_choice_add(&form->choice, &path);
	page_write(visit, &desk, "day of: %s", form->summary);
	bool done = desk_remind(&desk, &request, fault);
	if (done) {
		page_say(visit, "%s: %s", form->summary, text_string(&form->tried.said));
		page_go(visit, "%s", text_string(&path));
	}
	page_done(visit, &desk);
	return done;
}

bool
page_reminder_day(struct visit *visit, struct fault *fault)
{
	static const struct tried_about ABOUT[] = {{NULL, "reminder", "planned"}};
	struct day_form form = {
	    .tried = {.visit = visit, .wrong = ""}, .uid = visit->rest, .day = DAY_NONE};
	bool post = strcmp(visit->route->method, "POST") == 0;
	if (!base_choice_told(visit, &form.choice, fault)) {
		return false;
	}
	const struct plans_wish whose = base_choice_wish(&form.choice);
	bool done = desk_reminders(&visit->desk, &whose, &form.seen, fault) &&
		    find(&form, fault) && tried_look(&form.tried, ABOUT, 1, fault) &&
		    (!post || form.last_day || try_day(&form, fault));
	if (done && tried_holds(&form.tried)) {
		done = save(&form, fault);
	} else if (done) {
		write_page(&form);
	}
	tried_clear(&form.tried);
	return done;
}
