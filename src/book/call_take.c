/* Columns of a row as what they stand for. */
#include "base/text.h"
#include "book/call.h"

#include <string.h>

/* Notes that the value last taken, which fills so many columns, makes no sense. */
static void
bad_value(struct call *call, int columns)
{
	if (call->trouble == CALL_FINE) {
		call->trouble = CALL_BAD_VALUE;
		call->bad_column = call->taken - columns;
	}
}

struct value
take_value(struct call *call)
{
	return prepared_value(call->prepared, call->taken++);
}

int64_t
take_int(struct call *call)
{
	int64_t number = 0;
	if (prepared_integer(call->prepared, call->taken, &number)) {
		call->taken++; /* nearly every one */
		return number;
	}
	if (take_value(call).bytes != NULL) {
		bad_value(call, 1);
	}
	return 0;
}

/* A value as text; a number, which stands in no column of text, makes no sense. */
static struct value
take_words(struct call *call)
{
	struct value value = take_value(call);
	if (value.held == HELD_INTEGER) {
		bad_value(call, 1);
	}
	return value;
}

const char *
take_text(struct call *call, struct arena *arena)
{
	struct value value = take_words(call);
	if (value.length == 0) {
		return "";
	}
	return arena_bytes(arena, value.bytes, value.length);
}

void
take_bytes(struct call *call, struct text *out)
{
	struct value value = take_words(call);
	if (value.length > 0) {
		text_add_bytes(out, value.bytes, value.length);
	}
}

bool
take_null(struct call *call)
{
	bool null = prepared_value(call->prepared, call->taken).held == HELD_NOTHING;
	call->taken += null;
	return null;
}

int
code_of(const struct codes *codes, const char *word, size_t length)
{
	for (int i = 0; i < codes->count; i++) {
		if (strlen(codes->words[i]) == length &&
		    memcmp(codes->words[i], word, length) == 0) {
			return i;
		}
	}
	return -1;
}

int
take_code(struct call *call, const struct codes *codes)
{
	struct value value = take_words(call);
	int code = value.bytes == NULL ? -1 : code_of(codes, value.bytes, value.length);
	if (code < 0) {
		bad_value(call, 1);
	}
	return code < 0 ? 0 : code;
}

unsigned
take_codes(struct call *call, const struct codes *codes)
{
	const char *at = take_words(call).bytes;
	unsigned set = 0;
	while (at != NULL && *at != '\0') {
		size_t length = strcspn(at, " ");
		int code = code_of(codes, at, length);
		if (code < 0) {
			bad_value(call, 1);
			return 0;
		}
		set |= 1U << code;
		at += length + (at[length] == ' ' ? 1 : 0);
	}
	return set;
}

bool
stamp_of_stored(int64_t day, int64_t wording, bool estimated, struct stamp *out)
{
	int64_t year = day / 10000;
	int month = (int)(day / 100 % 100);
	int of_month = (int)(day % 100);
	bool sound = day == 0 || (year >= 1900 && year <= 2199 && month <= 12);
	if (sound && of_month > 0) {
		sound = month > 0 && of_month <= days_in_month((int)year, month);
	}
	if (!sound || wording < WORDING_PLAIN || wording > WORDING_USE_BY) {
		return false;
	}
	if (day == 0) {
		*out = (struct stamp){0};
		return true;
	}
	*out = (struct stamp){
	    .year = (int16_t)year,
	    .month = (int8_t)month,
	    .day = (int8_t)of_month,
	    .precision = of_month > 0 ? STAMP_DAY
			 : month > 0  ? STAMP_MONTH
				      : STAMP_YEAR,
	    .wording = (enum stamp_wording)wording,
	    .estimated = estimated,
	};
	return true;
}

struct stamp
take_stamp(struct call *call)
{
	int64_t day = take_int(call);
	if (day == 0) {
		call->taken += 2; /* how what is not known would be worded says nothing */
		return (struct stamp){0};
	}
	int64_t wording = take_int(call);
	bool estimated = take_int(call) != 0;
	struct stamp stamp = {0};
	if (!stamp_of_stored(day, wording, estimated, &stamp)) {
		bad_value(call, 3);
	}
	return stamp;
}

bool
day_of_stored(int64_t stored, day_t *out)
{
	int64_t year = stored / 10000;
	int month = (int)(stored / 100 % 100);
	int of_month = (int)(stored % 100);
	*out = DAY_NONE;
	if (stored == 0) {
		return true;
	}
	if (year < 1900 || year > 2199 || month < 1 || month > 12 || of_month < 1 ||
	    of_month > days_in_month((int)year, month)) {
		return false;
	}
	*out = day_from_civil((int)year, month, of_month);
	return true;
}

day_t
take_day(struct call *call)
{
	day_t day = DAY_NONE;
	if (!day_of_stored(take_int(call), &day)) {
		bad_value(call, 1);
	}
	return day;
}

/* 29 February is allowed: it means the last day of the month. */
static bool
month_day_sound(int64_t stored)
{
	int month = (int)(stored / 100);
	int day = (int)(stored % 100);
	return stored > 0 && stored < 1300 && month >= 1 && day >= 1 &&
	       day <= days_in_month(2024, month);
}

struct yearly
take_yearly(struct call *call)
{
	int64_t first = take_int(call);
	int64_t last = take_int(call);
	if (!month_day_sound(first) || !month_day_sound(last)) {
		bad_value(call, 2);
		return (struct yearly){0};
	}
	return (struct yearly){(int8_t)(first / 100), (int8_t)(first % 100),
	    (int8_t)(last / 100), (int8_t)(last % 100)};
}

int64_t
stored_month_day(int month, int day)
{
	return (int64_t)month * 100 + day;
}

int64_t
stored_day(day_t day)
{
	if (day == DAY_NONE) {
		return 0;
	}
	struct civil civil = day_to_civil(day);
	return (int64_t)civil.year * 10000 + stored_month_day(civil.month, civil.day);
}

int64_t
stored_stamp(struct stamp stamp)
{
	switch (stamp.precision) {
	case STAMP_NONE:
		return 0;
	case STAMP_YEAR:
		return (int64_t)stamp.year * 10000;
	case STAMP_MONTH:
		return (int64_t)stamp.year * 10000 + stored_month_day(stamp.month, 0);
	case STAMP_DAY:
		break;
	}
	return (int64_t)stamp.year * 10000 + stored_month_day(stamp.month, stamp.day);
}
