/* Stamps: what they mean as days, and how they are written. */
#include "dates/stamp.h"

#include "base/numbers.h"

#include <string.h>

struct stamp
stamp_of_day(day_t day)
{
	struct civil date = day_to_civil(day);
	return (struct stamp){
	    .year = (int16_t)date.year,
	    .month = (int8_t)date.month,
	    .day = (int8_t)date.day,
	    .precision = STAMP_DAY,
	};
}

day_t
stamp_first(struct stamp stamp)
{
	switch (stamp.precision) {
	case STAMP_NONE:
		return DAY_NONE;
	case STAMP_YEAR:
		return day_from_civil(stamp.year, 1, 1);
	case STAMP_MONTH:
		return day_from_civil(stamp.year, stamp.month, 1);
	case STAMP_DAY:
		return day_from_civil(stamp.year, stamp.month, stamp.day);
	}
	return DAY_NONE;
}

day_t
stamp_last(struct stamp stamp)
{
	switch (stamp.precision) {
	case STAMP_NONE:
		return DAY_NONE;
	case STAMP_YEAR:
		return day_from_civil(stamp.year, 12, 31);
	case STAMP_MONTH:
		return day_month_end(stamp_first(stamp));
	case STAMP_DAY:
		return stamp_first(stamp);
	}
	return DAY_NONE;
}

day_t
stamp_good_through(struct stamp stamp)
{
	if (stamp.precision == STAMP_NONE) {
		return DAY_NONE;
	}
	switch (stamp.wording) {
	case WORDING_PLAIN:
		return stamp_last(stamp);
	case WORDING_BEFORE:
		return stamp_first(stamp) - 1;
	case WORDING_USE_BY:
		return stamp.precision == STAMP_DAY ? stamp_first(stamp)
						    : stamp_first(stamp) - 1;
	}
	return DAY_NONE;
}

bool
stamp_same(struct stamp a, struct stamp b)
{
	return a.precision == b.precision && a.year == b.year && a.month == b.month &&
	       a.day == b.day && a.wording == b.wording && a.estimated == b.estimated;
}

static const char *
wording_prefix(enum stamp_wording wording)
{
	switch (wording) {
	case WORDING_PLAIN:
		return "";
	case WORDING_BEFORE:
		return "before ";
	case WORDING_USE_BY:
		return "use by ";
	}
	return "";
}

/* Writes a text and the zero byte behind it; returns the place of that. */
static char *
put_text(char *at, const char *text)
{
	size_t length = strlen(text);
	memcpy(at, text, length + 1);
	return at + length;
}

const char *
stamp_text(struct stamp stamp, char buffer[STAMP_TEXT_SIZE])
{
	char *at = buffer;
	if (stamp.precision != STAMP_NONE) {
		at = digits_put(
		    put_text(at, wording_prefix(stamp.wording)), stamp.year, 4);
	}
	if (stamp.precision == STAMP_MONTH || stamp.precision == STAMP_DAY) {
		at = digits_put(put_text(at, "-"), stamp.month, 2);
	}
	if (stamp.precision == STAMP_DAY) {
		at = digits_put(put_text(at, "-"), stamp.day, 2);
	}
	(void)put_text(at, stamp.precision != STAMP_NONE && stamp.estimated ? "~" : "");
	return buffer;
}

const char *
stamp_words(struct stamp stamp, char buffer[STAMP_TEXT_SIZE])
{
	char *at = buffer;
	if (stamp.precision == STAMP_NONE) {
		(void)put_text(at, "not known");
		return buffer;
	}
	at = put_text(at, wording_prefix(stamp.wording));
	if (stamp.precision == STAMP_DAY) {
		at = put_text(digits_put(at, stamp.day, stamp.day < 10 ? 1 : 2), " ");
	}
	if (stamp.precision != STAMP_YEAR) {
		at = put_text(put_text(at, month_short_name(stamp.month)), " ");
	}
	at = digits_put(at, stamp.year, 4);
	(void)put_text(at, stamp.estimated ? " (estimated)" : "");
	return buffer;
}
