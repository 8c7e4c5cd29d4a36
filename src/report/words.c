#include "report/words.h"

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
add_item_words(const struct kinds *kinds, const struct inventory *inventory, size_t item,
    struct text *out)
{
	const struct item *it = &inventory->items[item];
	if (it->quantity > 1) {
		text_add_format(out, "%d x ", it->quantity);
	}
	text_add(out, kind_name(kinds, it->kind));
	if (it->description[0] != '\0') {
		text_add_format(out, ", %s", it->description);
	}
	if (it->parent != ITEM_NO_PARENT) {
		text_add_format(out, " (part of %s)", inventory->items[it->parent].tag);
	}
}

void
add_missing_words(const char *missing, struct text *out)
{
	static const struct {
		const char *name;
		const char *words;
	} TABLE[] = {
	    {"made", "enter the made date"},
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
	};

	for (size_t i = 0; i < sizeof TABLE / sizeof TABLE[0]; i++) {
		if (strcmp(missing, TABLE[i].name) == 0) {
			text_add(out, TABLE[i].words);
			return;
		}
	}
	text_add_format(out, "enter %s", missing);
}

void
add_day(day_t day, const char *otherwise, struct text *out)
{
	char words[DAY_WORDS_SIZE];
	day_words(day, words);
	text_add(out, words[0] == '\0' ? otherwise : words);
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
		/* A window's late months are over as well, so it lapsed after them. */
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
		bool unknown = standing->state == STATE_DATE_UNKNOWN;
		text_add(out, unknown ? ": " : "; not all known: ");
		add_missing_words(standing->missing, out);
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

void
add_window_words(day_t not_before, day_t not_after, struct text *out)
{
	bool from = not_before != DAY_NONE && not_before != DAY_NEVER;
	bool until = not_after != DAY_NONE && not_after != DAY_NEVER;
	if (from && until) {
		text_add(out, "between ");
		add_day(not_before, "", out);
		text_add(out, " and ");
		add_day(not_after, "", out);
	} else if (from) {
		text_add(out, "from ");
		add_day(not_before, "", out);
	} else if (until) {
		text_add(out, "by ");
		add_day(not_after, "", out);
	}
}

void
add_caution(struct text *out)
{
	text_add_byte(out, '\n');
	paragraph(REPORT_CAUTION, 0, 0, out);
}
