/* Days and stamps from words that must be right. */
#ifndef BECKET_TEST_IN_WORDS_H
#define BECKET_TEST_IN_WORDS_H

#include "becket_test.h"
#include "dates/stamp.h"

static inline day_t
day_of(const char *words)
{
	struct fault fault = {0};
	day_t day = DAY_NONE;
	if (!day_parse(words, &day, &fault)) {
		fail_msg("%s", fault.text);
	}
	return day;
}

static inline struct stamp
stamp_of(const char *words)
{
	struct fault fault = {0};
	struct stamp stamp = {0};
	if (!stamp_parse(words, ORDER_ISO, &stamp, &fault)) {
		fail_msg("%s", fault.text);
	}
	return stamp;
}

/* Fails the test unless the day is this one ("2027-03-10"; "" for none). */
static inline void
assert_day(day_t found, const char *expected)
{
	char text[DAY_ISO_SIZE];
	assert_string_equal(day_iso(found, text), expected);
}

#endif
