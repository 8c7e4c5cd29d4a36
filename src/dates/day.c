#include "dates/day.h"

#include "base/numbers.h"
#include "base/text.h"

#include <stdio.h>
#include <string.h>

enum { DAYS_PER_ERA = 146097, EPOCH_SHIFT = 719468 }; /* 400 years; 0000-03-01 to 1970 */

static bool
is_leap(int year)
{
	return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

int
days_in_month(int year, int month)
{
	static const int DAYS[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
	return month == 2 && is_leap(year) ? 29 : DAYS[month - 1];
}

/* Counts years from 1 March, so that the leap day comes last and every month's offset is
 * the same in every year. */
day_t
day_from_civil(int year, int month, int day)
{
	int shifted = month <= 2 ? year - 1 : year;
	int era = shifted / 400;
	int year_of_era = shifted - era * 400;
	int day_of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
	int day_of_era =
	    year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
	return era * DAYS_PER_ERA + day_of_era - EPOCH_SHIFT;
}

struct civil
day_to_civil(day_t day)
{
	int shifted = day + EPOCH_SHIFT;
	int era = shifted / DAYS_PER_ERA;
	int day_of_era = shifted - era * DAYS_PER_ERA;
	int year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 -
			      day_of_era / (DAYS_PER_ERA - 1)) /
			  365;
	int day_of_year =
	    day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
	int march_month = (5 * day_of_year + 2) / 153;
	int month = march_month + (march_month < 10 ? 3 : -9);
	return (struct civil){
	    .year = year_of_era + era * 400 + (month <= 2 ? 1 : 0),
	    .month = month,
	    .day = day_of_year - (153 * march_month + 2) / 5 + 1,
	};
}

day_t
day_add_months(day_t day, int months)
{
	if (months == 0) {
		return day;
	}
	struct civil date = day_to_civil(day);
	int count = date.year * 12 + date.month - 1 + months;
	int year = count / 12;
	int month = count % 12 + 1;
	int last = days_in_month(year, month);
	return day_from_civil(year, month, date.day < last ? date.day : last);
}

int
day_years_between(day_t from, day_t to)
{
	int years = day_to_civil(to).year - day_to_civil(from).year;
	if (to <= from) {
		return 0;
	}
	return day_add_months(from, 12 * years) > to ? years - 1 : years;
}

day_t
day_month_end(day_t day)
{
	struct civil date = day_to_civil(day);
	return day_from_civil(
	    date.year, date.month, days_in_month(date.year, date.month));
}

day_t
day_year_end(day_t day)
{
	return day_from_civil(day_to_civil(day).year, 12, 31);
}

const char *
day_iso(day_t day, char buffer[DAY_ISO_SIZE])
{
	buffer[0] = '\0';
	if (day != DAY_NONE && day != DAY_NEVER) {
		struct civil date = day_to_civil(day);
		if (date.year < 0 || date.year > 9999) {
			(void)snprintf(buffer, DAY_ISO_SIZE, "%04d-%02d-%02d", date.year,
			    date.month, date.day);
			return buffer;
		}
		(void)digits_put(buffer, date.year, 4);
		(void)digits_put(buffer + 5, date.month, 2);
		(void)digits_put(buffer + 8, date.day, 2);
		buffer[4] = buffer[7] = '-';
		buffer[10] = '\0';
	}
	return buffer;
}

const char *
day_words(day_t day, char buffer[DAY_WORDS_SIZE])
{
	buffer[0] = '\0';
	if (day != DAY_NONE && day != DAY_NEVER) {
		struct civil date = day_to_civil(day);
		if (date.year < 0 || date.year > 9999) {
			(void)snprintf(buffer, DAY_WORDS_SIZE, "%d %s %04d", date.day,
			    month_short_name(date.month), date.year);
			return buffer;
		}
		char *at = digits_put(buffer, date.day, date.day < 10 ? 1 : 2);
		*at++ = ' ';
		const char *month = month_short_name(date.month);
		size_t letters = strlen(month);
		memcpy(at, month, letters);
		at[letters] = ' ';
		*digits_put(at + letters + 1, date.year, 4) = '\0';
	}
	return buffer;
}

int
day_of_week(day_t day)
{
	int weekday = (day + 3) % 7; /* 1970-01-01 was a Thursday */
	return weekday < 0 ? weekday + 7 : weekday;
}

const char *
weekday_name(int weekday)
{
	static const char *const NAMES[] = {
	    "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
	return NAMES[weekday];
}
