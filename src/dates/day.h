/* Civil days: no times, no time zones. A due date is a date on a label. */
#ifndef BECKET_DATES_DAY_H
#define BECKET_DATES_DAY_H

#include "base/fault.h"

#include <stddef.h>
#include <stdint.h>

/* A day, counted from 1970-01-01 = 0 in the proleptic Gregorian calendar. */
typedef int32_t day_t;

/* The days this program accepts, and two markers outside them. */
#define DAY_MIN ((day_t)-25567)      /* 1900-01-01 */
#define DAY_MAX ((day_t)84005)       /* 2199-12-31 */
#define DAY_NONE ((day_t)INT32_MIN)  /* no day at all */
#define DAY_NEVER ((day_t)INT32_MAX) /* later than every day */

/* Year, month 1 to 12, day of month 1 to 31. */
struct civil {
	int year;
	int month;
	int day;
};

/* The number of days in a month of a year. */
int days_in_month(int year, int month);

/* The day for a civil date. The date must exist; the year may be any from 1600 to 2600,
 * so that arithmetic may run past the accepted range. */
day_t day_from_civil(int year, int month, int day);

/* The civil date for a day. */
struct civil day_to_civil(day_t day);

/* `months` later (or earlier when negative), keeping the day of the month and clamping it
 * to the month's last: 2024-01-31 + 1 = 2024-02-29, 2024-02-29 + 12 = 2025-02-28. This is
 * what python-dateutil's relativedelta and a spreadsheet's EDATE do. `months` at most
 * 4800 either way; a result outside DAY_MIN to DAY_MAX is given as it is. */
day_t day_add_months(day_t day, int months);

/* How many whole years lie between a day and a later one, as birthdays count: each as
 * day_add_months has it, so that what was new on 29 February is a year old on the 28th
 * where that is the last. 0 where the second day is not later. Both are days, not
 * markers. */
int day_years_between(day_t from, day_t to);

/* The last day of the month, or of the year, that the day is in. */
day_t day_month_end(day_t day);
day_t day_year_end(day_t day);

/* Reads exactly `YYYY-MM-DD`. On failure says what is wrong with it (31 February, month
 * 13, a year outside 1900 to 2199). */
MUST_CHECK bool day_parse(const char *string, day_t *day_out, struct fault *fault);

/* Room for a formatted day and its terminator. */
enum { DAY_ISO_SIZE = 16, DAY_WORDS_SIZE = 24 };

/* Writes `2027-06-30`, or "" for DAY_NONE and DAY_NEVER. Returns `buffer`. */
const char *day_iso(day_t day, char buffer[DAY_ISO_SIZE]);

/* Writes `30 Jun 2027`, the month named so that no reader confuses it with the day; ""
 * for DAY_NONE and DAY_NEVER. Returns `buffer`. */
const char *day_words(day_t day, char buffer[DAY_WORDS_SIZE]);

/* The English name of a month, 1 to 12: "June"; and its first three letters. "?" for what is no
 * month, as a damaged book may have one. */
const char *month_name(int month);
const char *month_short_name(int month);

/* The month that the letters in front of a string name, whole or shortened, in any case, with or
 * without accents, in English or another language that lists come in; `*length_out` is how many
 * bytes they have. 0 for none: it is then left alone. */
int month_at(const char *string, size_t *length_out);

/* 0 Monday to 6 Sunday, and its English name. */
int day_of_week(day_t day);
const char *weekday_name(int weekday);

static inline day_t
day_min(day_t a, day_t b)
{
	return a < b ? a : b;
}

static inline day_t
day_max(day_t a, day_t b)
{
	return a > b ? a : b;
}

#endif
