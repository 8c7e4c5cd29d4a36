#include "report/why.h"
#include "report/words.h"

#include <string.h>

/* Adds "24 months", "1 month", "7 days", or nothing where there is no interval. */
static bool
add_interval(const struct reading *reading, struct text *out)
{
	int number = reading->days > 0 ? reading->days : reading->months;
	const char *unit = reading->days > 0 ? "day" : "month";
	if (number != 0) {
		text_add_format(out, "%d %s%s", number, unit, number == 1 ? "" : "s");
	}
	return number != 0;
}

/* Adds what it counts from, without the date: "the last service", "manufacture". */
static void
add_anchor(const struct reading *reading, enum task task, struct text *out)
{
	switch (reading->anchor) {
	case ANCHOR_MADE:
		text_add(out, "manufacture");
		break;
	case ANCHOR_PACKED:
		text_add(out, "packing");
		break;
	case ANCHOR_BOUGHT:
		text_add(out, "purchase");
		break;
	case ANCHOR_FITTED:
		text_add(out, reading->record == NULL ? "fitting" : "the last refit");
		break;
	case ANCHOR_LAST:
		if (reading->record == NULL || reading->record->task == task) {
			text_add_format(out, "the last %s",
			    reading->record == NULL ? task_noun(task)
						    : record_noun(reading->record));
			break;
		}
		text_add_format(out, "the last %s, which counts as %s,",
		    task_noun(reading->record->task), task_noun(task));
		break;
	case ANCHOR_MARKED:
		text_add(out, "the expiry marked on it");
		if (reading->record != NULL) {
			text_add(out, " (last refitted ");
			add_stamp(reading->record->on, out);
			text_add(out, ")");
		}
		break;
	case ANCHOR_CERTIFICATE:
		text_add_format(
		    out, "the next date on the paper of the last %s", task_noun(task));
		break;
	case ANCHOR_CONTENTS:
		text_add_format(out, "%s inside",
		    reading->part == NULL ? "the earliest dated part" : reading->part);
		break;
	case ANCHOR_HIRE:
		text_add(out, "the last day of its hire");
		break;
	case ANCHOR_EVENT:
		text_add(out, "its use");
		break;
	}
}

/* Adds " on 20 May 2024", " in Apr 2019 (counted from 1 Apr 2019)", " on 29 May 2026
 * (counted from 10 Jun 2026, the anniversary it kept)", ", before Jun 2027". */
static void
add_anchor_date(const struct reading *reading, struct text *out)
{
	const struct stamp *stamp = &reading->stamp;
	bool mark = reading->anchor == ANCHOR_MARKED ||
		    reading->anchor == ANCHOR_CERTIFICATE ||
		    reading->anchor == ANCHOR_CONTENTS || reading->anchor == ANCHOR_HIRE;
	if (stamp->precision == STAMP_NONE) {
		return;
	}
	text_add(out, mark ? ", " : stamp->precision == STAMP_DAY ? " on " : " in ");
	add_stamp(*stamp, out);
	if (reading->kept) {
		text_add(out, " (counted from ");
		add_day(reading->from, "", out);
		text_add(out, ", the anniversary it kept)");
	} else if (!mark && stamp->precision != STAMP_DAY && reading->from != DAY_NONE) {
		text_add(out, " (counted from ");
		add_day(reading->from, "", out);
		text_add(out, ")");
	}
}

static void
add_span(struct span span, struct text *out)
{
	bool from = span.first != DAY_NONE && span.first > DAY_MIN;
	bool until = span.last != DAY_NEVER && span.last < DAY_MAX;
	if (from) {
		text_add(out, " from ");
		add_day(span.first, "", out);
	}
	if (until) {
		text_add(out, from ? " to " : " until ");
		add_day(span.last, "", out);
	}
}

/* Adds when the rule is in force, if that is not always; periods that are over are left
 * out. */
static void
add_in_force(const struct reading *reading, day_t today, struct text *out)
{
	enum { MOST = 3 };

	const struct spans *spans = &reading->in_force;
	size_t shown = 0;
	for (size_t i = 0; i < spans->count && shown < MOST; i++) {
		struct span span = spans->items[i];
		bool over = span.last < today;
		bool whole = (span.first == DAY_NONE || span.first <= today) &&
			     (span.last == DAY_NEVER || span.last >= DAY_MAX);
		if (over || whole) {
			continue;
		}
		text_add(out, shown == 0 ? " In force" : ", and again");
		add_span(span, out);
		shown++;
	}
	text_add(out, shown > 0 ? "." : "");
}

/* Adds ": enter the made date (column made)". */
static void
add_asks(const struct reading *reading, struct text *out)
{
	static const char *const OPTIONS[] = {"area", "length", "persons", "built", "use",
	    "season-months", "above-freezing", "dry-storage"};
	const char *asks = reading->asks;
	if (asks[0] == '\0') {
		return;
	}
	bool option = false;
	for (size_t i = 0; i < sizeof OPTIONS / sizeof OPTIONS[0]; i++) {
		option = option || strcmp(asks, OPTIONS[i]) == 0;
	}
	text_add(out, ": ");
	add_missing_words(asks, out);
	if (strcmp(asks, "interval") == 0) {
		text_add(out, " (becket interval)");
		return;
	}
	if (strcmp(asks, "test") == 0) {
		text_add(out, " (becket record test, --next)");
		return;
	}
	bool day = strcmp(asks, "made-day") == 0;
	text_add_format(
	    out, option ? " (option --%s)" : " (column %s)", day ? "made" : asks);
}

static void
add_count(const struct reading *reading, enum task task, struct text *out)
{
	if (add_interval(reading, out)) {
		text_add(out, " from ");
	}
	add_anchor(reading, task, out);
	add_anchor_date(reading, out);
	static const char *const ENDS[] = {
	    [THROUGH_DAY] = "",
	    [THROUGH_MONTH_END] = ", to the end of the month",
	    [THROUGH_YEAR_END] = ", to the end of the year",
	};
	text_add(out, reading->due == DAY_NONE ? "" : ENDS[reading->through]);
	text_add(out, reading->before ? ", strictly before then" : "");
}

/* Adds the event; a thing that was fired or used is not in date from that day on. */
static void
add_event(const struct reading *reading, enum task task, struct text *out)
{
	if (add_interval(reading, out)) {
		text_add(out, " from its use");
	} else {
		text_add_format(out, "It was %s",
		    reading->event == NULL ? "used" : event_word(reading->event->kind));
	}
	add_anchor_date(reading, out);
	text_add_format(out, ": out until its %s is recorded.", task_noun(task));
}

/* Makes the letter at `start` a capital, as it begins a sentence. */
static void
capitalise(struct text *out, size_t start)
{
	if (out->length > start && out->bytes[start] >= 'a' && out->bytes[start] <= 'z') {
		out->bytes[start] = (char)(out->bytes[start] - 'a' + 'A');
	}
}

/* A clock that does not hold here; it says what it held to where it once began. */
static void
add_not_in_force(const struct reading *reading, enum task task, struct text *out)
{
	add_count(reading, task, out);
	if (!reading->began) {
		text_add(out, ": the rule does not hold here.");
		return;
	}
	text_add(out, " -> ");
	add_day(reading->due, "no day", out);
	text_add_byte(out, '.');
	add_in_force(reading, reading->due, out);
}

void
add_clock_words(
    const struct reading *reading, enum task task, day_t today, struct text *out)
{
	size_t start = out->length;
	switch (reading->state) {
	case READING_RUNS:
		if (reading->anchor == ANCHOR_EVENT) {
			add_event(reading, task, out);
			break;
		}
		add_count(reading, task, out);
		text_add(out, " -> ");
		add_day(reading->due, "no day", out);
		text_add_byte(out, '.');
		add_in_force(reading, today, out);
		break;
	case READING_NOT_KNOWN:
		if (reading->wants_maker && reading->interval == NULL) {
			text_add(out, "The maker's interval from ");
		}
		add_count(reading, task, out);
		text_add(out, ", which is not known");
		add_asks(reading, out);
		text_add_byte(out, '.');
		add_in_force(reading, today, out);
		break;
	case READING_ASKS:
		add_count(reading, task, out);
		text_add(out, reading->due == DAY_NONE ? "" : " -> ");
		add_day(reading->due, "", out);
		text_add(out, ", if the rule holds here, which can't be told");
		add_asks(reading, out);
		text_add_byte(out, '.');
		break;
	case READING_REPLACED:
		add_count(reading, task, out);
		text_add(out, reading->due == DAY_NONE ? "" : " -> ");
		add_day(reading->due, "", out);
		text_add(out, ": the maker's interval stands in its place.");
		add_in_force(reading, today, out);
		break;
	case READING_NOT_IN_FORCE:
		add_not_in_force(reading, task, out);
		break;
	case READING_DONE:
		add_count(reading, task, out);
		text_add(out, ": holds only before, or only after, it was first done.");
		break;
	}
	capitalise(out, start);
}

static void
add_window(const struct window *window, struct text *out)
{
	if (window->early_months == 0 && window->late_months == 0) {
		return;
	}
	text_add(out, " It may be done");
	if (window->early_months > 0) {
		text_add_format(out, " up to %d %s early", window->early_months,
		    window->early_months == 1 ? "month" : "months");
	}
	if (window->late_months > 0) {
		text_add_format(out, "%s up to %d %s late",
		    window->early_months > 0 ? " or" : "", window->late_months,
		    window->late_months == 1 ? "month" : "months");
	}
	static const char *const NEXT[] = {
	    [NEXT_FROM_DONE] = "; the next counts from the day it is done.",
	    [NEXT_FROM_DUE] = " and keeps its anniversary.",
	    [NEXT_FROM_DUE_EVEN_LATE] =
		" and keeps its anniversary, as it does when done still later.",
	};
	text_add(out, NEXT[window->next]);
}

void
add_clock_effects(const struct reading *reading, struct text *out)
{
	const struct rule *rule = reading->rule;
	if (rule != NULL) {
		add_window(&rule->window, out);
	}
	if (reading->state != READING_RUNS) {
		return;
	}
	if (reading->extension != NULL) {
		text_add(out, " Extended by an authority to ");
		add_day(reading->extension->until, "", out);
		text_add_format(out, ", paper %s;", reading->extension->paper);
		if (rule != NULL && reading->good_through < reading->extension->until) {
			text_add_format(out, " the rule lets it add %d %s at most;",
			    rule->extension_months,
			    rule->extension_months == 1 ? "month" : "months");
		}
		text_add(out, " that makes it good through ");
		add_day(reading->good_through, "", out);
		text_add_byte(out, '.');
	} else if (reading->good_through != DAY_NONE &&
		   reading->good_through > reading->due) {
		text_add(out, " Inside that window it counts as in date through ");
		add_day(reading->good_through, "", out);
		text_add_byte(out, '.');
	}
	if (rule != NULL && rule->extension_months > 0 && reading->extension == NULL) {
		text_add_format(out, " An authority may extend it by up to %d %s.",
		    rule->extension_months,
		    rule->extension_months == 1 ? "month" : "months");
	}
	if (reading->paper_allows_longer) {
		text_add(out, " The paper allows longer; the rule binds.");
	}
}

void
add_clock_source(const struct reading *reading, struct text *out)
{
	const struct rule *rule = reading->rule;
	const char *source = reading->source == NULL ? "" : reading->source;
	text_add(out, " Source: ");
	if (rule == NULL) {
		text_add_format(out, "%s; grade %s.",
		    source[0] == '\0' ? "what is on record for it" : source,
		    grade_word(reading->grade));
	} else {
		if (reading->interval != NULL) {
			text_add_format(out, "for the interval %s; for the rule ",
			    reading->interval->paper);
		}
		add_source(source, rule->standing, out);
		text_add_format(out, "; rule %s of sheet %s, grade %s.", rule->id,
		    rule->sheet, grade_word(reading->grade));
	}
}
