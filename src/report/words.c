#include "report/words.h"

#include "base/words.h"
#include "report/report.h"

#include <string.h>

const char *const REPORT_CAUTION =
    "Advice only. The label on the gear, the maker's manual, the station's certificate, "
    "the local authority and the surveyor decide.";

const char *
kind_name(const struct kinds *kinds, const char *id)
{
	const struct kind *kind = kinds_find(kinds, id);
	return kind == NULL ? id : kind->name;
}

void
add_kind_words(const struct kinds *kinds, const struct item *item, struct text *out)
{
	if (item->quantity > 1) {
		text_add_format(out, "%d x ", item->quantity);
	}
	text_add(out, kind_name(kinds, item->kind));
}

void
add_item_name(const struct kinds *kinds, const struct inventory *inventory, size_t item,
    struct text *out)
{
	const struct item *it = &inventory->items[item];
	add_kind_words(kinds, it, out);
	if (it->parent != ITEM_NO_PARENT) {
		text_add_format(out, " (part of %s)", inventory->items[it->parent].tag);
	}
}

const char *
description_of(const struct kinds *kinds, const struct item *item)
{
	bool adds = !words_all_in(item->description, kind_name(kinds, item->kind));
	return adds ? item->description : "";
}

static void
add_description(const struct kinds *kinds, const struct item *item, struct text *out)
{
	const char *words =
	    item->description[0] == '\0' ? "" : description_of(kinds, item);
	if (words[0] != '\0') {
		text_add(out, ", ");
		text_add(out, words);
	}
}

void
add_item_words(const struct kinds *kinds, const struct inventory *inventory, size_t item,
    struct text *out)
{
	add_item_name(kinds, inventory, item, out);
	add_description(kinds, &inventory->items[item], out);
}

/* The name as short as possible, as tables are narrow: the parent only if the tag
 * (LJ-1-FH) does not show it. */
static void
add_short_name(const struct kinds *kinds, const struct inventory *inventory, size_t item,
    struct text *out)
{
	const struct item *it = &inventory->items[item];
	add_kind_words(kinds, it, out);
	if (it->parent != ITEM_NO_PARENT) {
		const char *parent = inventory->items[it->parent].tag;
		if (strncmp(it->tag, parent, strlen(parent)) != 0) {
			text_add(out, " (of ");
			text_add(out, parent);
			text_add_byte(out, ')');
		}
	}
}

void
add_item_short_words(const struct kinds *kinds, const struct inventory *inventory,
    size_t item, struct text *out)
{
	add_short_name(kinds, inventory, item, out);
	add_description(kinds, &inventory->items[item], out);
}

void
add_item_parts(const struct kinds *kinds, const struct inventory *inventory, size_t item,
    const char *note, struct text *name, struct text *extra)
{
	add_short_name(kinds, inventory, item, name);
	text_add(name, note);
	add_description(kinds, &inventory->items[item], extra);
}

void
add_missing_words(const char *missing, struct text *out)
{
	static const struct {
		const char *name;
		const char *words;
	} TABLE[] = {
	    {"made", "enter the made date"},
	    {"made-day", "enter the day it was made; the month or year does not tell"},
	    {"packed", "enter the packed date"},
	    {"bought", "enter the bought date"},
	    {"fitted", "enter the fitted date"},
	    {"expires", "enter the expiry marked on it"},
	    {"marked", "enter the expiry marked on it"},
	    {"served", "enter the day it was last done"},
	    {"last", "enter the day it was last done"},
	    {"next", "enter the next date on its paper"},
	    {"area", "enter the vessel's area"},
	    {"length", "enter the vessel's length"},
	    {"persons", "enter how many persons the vessel carries"},
	    {"built", "enter the year the vessel was built"},
	    {"use", "enter the vessel's use"},
	    {"season-months", "enter in how many months a year the vessel is in use"},
	    {"above-freezing", "say whether she is in use only in months with a mean "
			       "daily minimum above 0 C"},
	    {"dry-storage", "say whether her gear lies dry out of season"},
	    {"test",
		"record the test of its gas cylinder and the next date on the paper"},
	    {"rating", "enter the rating on its label"},
	    {"interval", "enter the maker's interval for it"},
	    {"capacity", "enter the persons it is for"},
	};

	for (size_t i = 0; i < sizeof TABLE / sizeof TABLE[0]; i++) {
		if (strcmp(missing, TABLE[i].name) == 0) {
			text_add(out, TABLE[i].words);
			return;
		}
	}
	text_add_format(out, "enter %s", missing);
}

/* Puts GLUE for each blank of some words, so that no line is broken in them. */
static const char *
glued(char *words)
{
	for (char *at = words; *at != '\0'; at++) {
		*at = (char)(*at == ' ' ? GLUE : *at);
	}
	return words;
}

const char *
day_glued(day_t day, char buffer[DAY_WORDS_SIZE])
{
	(void)day_words(day, buffer);
	return glued(buffer);
}

void
add_day(day_t day, const char *otherwise, struct text *out)
{
	char words[DAY_WORDS_SIZE];
	day_glued(day, words);
	text_add(out, words[0] == '\0' ? otherwise : words);
}

void
add_stamp(struct stamp stamp, struct text *out)
{
	char words[STAMP_TEXT_SIZE];
	(void)stamp_words(stamp, words);
	text_add(out, glued(words));
}

static void
add_in_date(const struct standing_now *standing, day_t today, struct text *out)
{
	text_add(out, "in date");
	bool dated = standing->due != DAY_NONE && standing->due != DAY_NEVER;
	bool ends =
	    standing->good_through != DAY_NONE && standing->good_through != DAY_NEVER;
	if (dated && ends && standing->due < today) {
		text_add(out, " until ");
		add_day(standing->good_through, "", out);
	}
}

void
add_state_words(const struct standing_now *standing, day_t today, struct text *out)
{
	switch (standing->state) {
	case STATE_IN_DATE:
		add_in_date(standing, today, out);
		break;
	case STATE_OVERDUE: {
		/* the late months of a window have passed as well, so it lapsed after
		 * them */
		day_t last = standing->due;
		if (standing->good_through != DAY_NONE &&
		    standing->good_through != DAY_NEVER &&
		    standing->good_through > last) {
			last = standing->good_through;
		}
		text_add(out, "overdue");
		if (last != DAY_NONE && last != DAY_NEVER) {
			text_add(out, " since ");
			add_day(last + 1, "", out);
		}
		break;
	}
	case STATE_EXPIRED:
		text_add(out, "expired");
		break;
	case STATE_LIFE_EXPIRED:
		text_add(out, "life-expired");
		break;
	case STATE_DATE_UNKNOWN:
		text_add(out, "date unknown");
		break;
	}
	if (standing->missing[0] != '\0') {
		if (standing->state == STATE_DATE_UNKNOWN) {
			text_add(out, ": ");
			add_missing_words(standing->missing, out);
		} else {
			bool day = strcmp(standing->missing, "made-day") == 0;
			text_add_format(out, "; %s not known",
			    day ? "the day it was made" : standing->missing);
		}
	}
}

enum hue
state_hue(enum state state)
{
	switch (state) {
	case STATE_IN_DATE:
		return HUE_GOOD;
	case STATE_OVERDUE:
	case STATE_EXPIRED:
	case STATE_LIFE_EXPIRED:
		return HUE_BAD;
	case STATE_DATE_UNKNOWN:
		return HUE_CARE;
	}
	return HUE_NONE;
}

void
add_from_age(int years, struct text *out)
{
	text_add_format(out, "from%c%d%c%s%cold", GLUE, years, GLUE,
	    years == 1 ? "year" : "years", GLUE);
}

const char *
task_noun(enum task task)
{
	switch (task) {
	case TASK_SERVICE:
		return "service";
	case TASK_INSPECT:
		return "inspection";
	case TASK_WEIGH:
		return "weighing";
	case TASK_TEST:
		return "test";
	case TASK_RENEW:
		return "renewal";
	case TASK_REGISTER:
		return "registration";
	}
	return "";
}

const char *
record_noun(const struct record *record)
{
	return record->refit ? "refit" : task_noun(record->task);
}

void
add_task_nouns(unsigned tasks, struct text *out)
{
	bool any = false;
	for (int task = 0; task < TASK_COUNT; task++) {
		if ((tasks & 1U << task) != 0) {
			text_add_format(
			    out, "%s%s", any ? ", " : "", task_noun((enum task)task));
			any = true;
		}
	}
}

void
add_yearly(struct yearly yearly, struct text *out)
{
	text_add_format(out, "%d %s to %d %s", yearly.first_day,
	    month_short_name(yearly.first_month), yearly.last_day,
	    month_short_name(yearly.last_month));
}

void
add_source(const char *source, enum standing standing, struct text *out)
{
	const char *word = standing_word(standing);
	text_add(out, source);
	if (standing != STANDING_COMMON_PRACTICE ||
	    strncmp(source, word, strlen(word)) != 0) {
		text_add_format(out, " (%s)", word);
	}
}

void
add_day_of(day_t day, bool year, struct text *out)
{
	struct civil civil = day_to_civil(day);
	if (year) {
		add_day(day, "", out);
	} else {
		text_add_format(
		    out, "%d%c%s", civil.day, GLUE, month_short_name(civil.month));
	}
}

void
add_window_words(struct span window, bool years, struct text *out)
{
	bool from = window.first != DAY_NONE && window.first != DAY_NEVER;
	bool until = window.last != DAY_NONE && window.last != DAY_NEVER;
	if (from) {
		text_add(out, until ? "between " : "from ");
		add_day_of(window.first, years, out);
	}
	if (until) {
		text_add(out, from ? " and " : "by ");
		add_day_of(window.last, years, out);
	}
}

static void
add_months(int months, struct text *out)
{
	text_add_format(out, "%d month%s", months, months == 1 ? "" : "s");
}

void
add_interval_words(const struct interval *interval, struct text *out)
{
	static const char *const FROM[] = {[ANCHOR_MADE] = "manufacture",
	    [ANCHOR_PACKED] = "packing",
	    [ANCHOR_BOUGHT] = "purchase",
	    [ANCHOR_FITTED] = "fitting",
	    [ANCHOR_LAST] = "the last time"};
	text_add_format(out, "%s every ", task_noun(interval->task));
	add_months(interval->months, out);
	if (interval->first_months > 0) {
		text_add(out, ", first ");
		add_months(interval->first_months, out);
	}
	if (interval->from_said) {
		text_add_format(out, " from %s", FROM[interval->from]);
	}
	text_add_format(out, ", says %s", interval->paper);
}

void
add_caution(struct text *out)
{
	text_add_byte(out, '\n');
	paragraph(REPORT_CAUTION, 0, 0, out);
}
