/* Stamps and days that must be exact, or that a person types as a word. */
#include "dates/stamp.h"

#include <string.h>
#include <strings.h>

enum { INPUT_MOST = 60 }; /* of what was typed, in a message */

static bool
refuse_coarse(const char *string, struct fault *fault)
{
	return fault_set(fault, FAULT_INPUT,
	    "\"%.*s\" is no date: expected a full day like 2026-11-25", INPUT_MOST,
	    string);
}

bool
day_parse(const char *string, day_t *day_out, struct fault *fault)
{
	/* A coarse or odd date gets the reason that fits it best. */
	struct stamp stamp = {0};
	if (!stamp_parse(string, ORDER_ISO, &stamp, fault)) {
		return false;
	}
	if (strlen(string) != 10 || strspn(string, "0123456789-") != 10) {
		return refuse_coarse(string, fault);
	}
	*day_out = stamp_first(stamp);
	return true;
}

/* "yesterday", "today" or "tomorrow"; DAY_NONE for anything else. */
static day_t
day_by_word(const char *string, day_t today)
{
	static const char *const WORDS[] = {"yesterday", "today", "tomorrow"};
	for (int i = 0; i < 3; i++) {
		if (strcasecmp(string, WORDS[i]) == 0) {
			return today + i - 1;
		}
	}
	return DAY_NONE;
}

bool
stamp_typed(const char *string, day_t today, struct stamp *stamp_out, struct fault *fault)
{
	day_t day = day_by_word(string, today);
	if (day == DAY_NONE) {
		return stamp_parse(string, ORDER_ISO, stamp_out, fault);
	}
	*stamp_out = stamp_of_day(day);
	return true;
}

bool
day_typed(const char *string, day_t today, day_t *day_out, struct fault *fault)
{
	struct stamp stamp = {0};
	if (string[strspn(string, " \t")] == '\0') {
		return fault_set(fault, FAULT_INPUT,
		    "no day is given: expected a full day like 28 Nov 2026");
	}
	if (!stamp_typed(string, today, &stamp, fault)) {
		return false;
	}
	if (stamp.precision != STAMP_DAY || stamp.wording != WORDING_PLAIN ||
	    stamp.estimated) {
		return refuse_coarse(string, fault);
	}
	*day_out = stamp_first(stamp);
	return true;
}
