/* Reminders: what there is to be reminded of, and when. */
#include "base/numbers.h"
#include "desk/remind.h"
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

static int
compare_days(const void *left, const void *right)
{
	const struct reminder *a = left;
	const struct reminder *b = right;
	int order = ORDER(a->day, b->day);
	return order != 0 ? order : strcmp(a->key, b->key);
}

/* The description, line by line. */
static void
write_description(struct visit *visit, const struct reminder *reminder)
{
	const char *words = reminder->description;
	struct markup *markup = visit->markup;
	markup_begin(markup, "details");
	markup_begin(markup, "summary");
	markup_text(markup, "What it says");
	markup_element_format(markup, "span", "vh", ": %s", reminder->summary);
	markup_end(markup);
	markup_begin_class(markup, "ul", "small");
	while (*words != '\0') {
		size_t length = strcspn(words, "\n");
		SCOPED_TEXT line = {0};
		text_add_bytes(&line, words, length);
		if (length > 0) {
			markup_element(markup, "li", NULL, text_string(&line));
		}
		words += length + (words[length] == '\n' ? 1 : 0);
	}
	markup_ends(markup, 2);
}

/* The link to the form for its day. */
static void
write_day_link(struct visit *visit, const struct base_choice *choice,
    const struct reminder_row *row, const char *words)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT path = {0};
	text_add(&path, "/reminders/day/");
	form_escape(row->uid, &path);
	if (!page_may(visit, "GET", text_string(&path))) {
		return;
	}
	base_choice_add(choice, &path);
	markup_begin(markup, "p");
	MARKUP_BEGIN(markup, "a", "go", "href", text_string(&path));
	markup_text(markup, words);
	markup_element_format(markup, "span", "vh", ": %s", row->summary);
	markup_ends(markup, 2);
}

static void
write_row(struct visit *visit, const struct base_choice *choice,
    const struct reminder *reminder, const struct reminder_row *row)
{
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	shell_day(visit, reminder->day);
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, reminder->summary);
	if (row->planned) {
		markup_element(markup, "span", "soft", ": your day");
	}
	markup_end(markup);
	if (reminder->description[0] != '\0') {
		write_description(visit, reminder);
	}
	if (!reminder->last_chance) {
		write_day_link(visit, choice, row, "Another day for it");
	}
	markup_ends(markup, 2);
}

/* A hand-in that was given up, which has no day. */
static void
write_given_up(
    struct visit *visit, const struct base_choice *choice, const struct reminder_row *row)
{
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "li", "row");
	markup_element(markup, "div", "k", "given up");
	markup_begin_class(markup, "div", "t");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, row->summary);
	markup_text_format(markup, ": %s. It was planned for ", row->given_up);
	shell_day(visit, row->given_up_day);
	markup_text(markup, ".");
	markup_end(markup);
	write_day_link(visit, choice, row, "Plan it again");
	markup_ends(markup, 2);
}

static void
write_rows(
    struct visit *visit, const struct base_choice *choice, struct reminders_seen *seen)
{
	struct reminders *reminders = &seen->reminders;
	struct reminder_row *rows = NULL;
	if (reminders->count > 0) {
		qsort(reminders->items, reminders->count, sizeof *reminders->items,
		    compare_days);
	}
	size_t count = desk_reminder_rows(&visit->desk, seen, &rows);
	if (count == 0) {
		return;
	}
	shell_rows(visit, "by day", "What and when");
	for (size_t i = 0; i < reminders->count; i++) {
		write_row(visit, choice, &reminders->items[i], &rows[i]);
	}
	for (size_t i = reminders->count; i < count; i++) {
		write_given_up(visit, choice, &rows[i]);
	}
	markup_ends(visit->markup, 2);
}

/* The present choices, in a sentence or two, and the link to change them. */
static void
write_choices(struct visit *visit, const struct base_choice *choice,
    const struct reminder_choices *choices)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT path = {0};
	text_add(&path, "/reminders/choices");
	base_choice_add(choice, &path);
	shell_section(visit, NULL, NULL, "How you are reminded");
	markup_begin(markup, "p");
	markup_text_format(markup,
	    "Your day for what is overdue and what you do yourself is %s. The weekly and monthly "
	    "looks are %s%s.",
	    weekday_name(choices->weekday), choices->routines ? "among them" : "left out",
	    choices->singles ? ", and each piece and task has one of its own" : "");
	for (size_t i = 0; i < choices->notice_count; i++) {
		const struct notice *notice = &choices->notices[i];
		markup_text_format(markup, " %s: %d day%s before.",
		    kind_name(visit->desk.engine.kinds, notice->kind), notice->days,
		    notice->days == 1 ? "" : "s");
	}
	markup_end(markup);
	markup_begin_class(markup, "div", "acts");
	shell_link(visit, "button", "Choose otherwise", "%s", text_string(&path));
	markup_ends(markup, 3);
}

static void
open_reminders(
    struct visit *visit, const struct base_choice *choice, const struct reminders *seen)
{
	SCOPED_TEXT margin = {0};
	text_add_format(&margin, "%zu of them", seen->count);
	const struct head_box box = {"Base", choice->base};
	SHELL_OPEN(visit, .title = "Reminders", .margin = text_string(&margin),
	    .say =
		seen->count == 0
		    ? "There is nothing to be reminded of."
		    : "Each rings at nine in the morning, a week and a day ahead; a last day two "
		      "weeks, three days and a day ahead; unless you chose otherwise.",
	    .boxes = &box, .box_count = choice->base == NULL ? 0 : 1);
}

bool
page_reminders(struct visit *visit, struct fault *fault)
{
	struct reminders_seen seen = {0};
	struct base_choice choice = {0};
	if (!base_choice_read(visit, &choice, fault)) {
		return false;
	}
	const struct plans_wish whose = base_choice_wish(&choice);
	if (!desk_reminders(&visit->desk, &whose, &seen, fault)) {
		return false;
	}
	open_reminders(visit, &choice, &seen.reminders);
	base_choice_form(visit, &choice, "/reminders", "Look at these");
	write_rows(visit, &choice, &seen);
	write_choices(visit, &choice, &seen.choices);
	if (!page_calendar_section(visit, fault) || !page_feeds_section(visit, fault)) {
		return false;
	}
	shell_close(visit);
	return true;
}
