/* Days, month arithmetic and yearly windows. Expected values are counted by hand or by the
 * slow calendar below, which knows nothing but the length of each month. */
#include "becket_test.h"
#include "dates/yearly.h"

#include <limits.h>
#include <string.h>

static int
slow_month_length(int year, int month)
{
	if (month == 2) {
		if (year % 400 == 0) {
			return 29;
		}
		return year % 4 == 0 && year % 100 != 0 ? 29 : 28;
	}
	return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
}

/* Moves a civil date on by one day. */
static struct civil
slow_next(struct civil date)
{
	date.day++;
	if (date.day > slow_month_length(date.year, date.month)) {
		date.day = 1;
		date.month++;
	}
	if (date.month > 12) {
		date.month = 1;
		date.year++;
	}
	return date;
}

TEST(every_day_of_three_centuries_goes_there_and_back)
{
	struct civil date = {1900, 1, 1};
	int weekday = 0; /* 1 January 1900 was a Monday */
	for (day_t day = DAY_MIN; day <= DAY_MAX; day++) {
		assert_int_equal(day_from_civil(date.year, date.month, date.day), day);
		struct civil back = day_to_civil(day);
		assert_int_equal(back.year, date.year);
		assert_int_equal(back.month, date.month);
		assert_int_equal(back.day, date.day);
		assert_int_equal(day_of_week(day), weekday);
		weekday = (weekday + 1) % 7;
		date = slow_next(date);
	}
	assert_int_equal(date.year, 2200);
	assert_int_equal(date.month, 1);
	assert_int_equal(date.day, 1);
}

TEST(days_are_counted_from_1970)
{
	assert_int_equal(day_from_civil(1970, 1, 1), 0);
	assert_int_equal(day_from_civil(1969, 12, 31), -1);
	/* 30 years of 365 days and the leap days of 1972, 76, 80, 84, 88, 92 and 96 */
	assert_int_equal(day_from_civil(2000, 1, 1), 30 * 365 + 7);
	assert_string_equal(weekday_name(day_of_week(0)), "Thursday");
}

TEST(every_day_is_written_and_read_back)
{
	for (day_t day = DAY_MIN; day <= DAY_MAX; day++) {
		char buffer[DAY_ISO_SIZE];
		struct fault fault = {0};
		day_t back = DAY_NONE;
		assert_true(day_parse(day_iso(day, buffer), &back, &fault));
		assert_int_equal(back, day);
		assert_int_equal(fault.kind, FAULT_NONE);
	}
}

TEST(months_keep_the_day_and_clamp_to_the_last)
{
	static const struct {
		const char *from;
		int months;
		const char *to;
		const char *note;
	} ROWS[] = {
	    {"2024-01-31", 1, "2024-02-29", "clamped in a leap year"},
	    {"2023-01-31", 1, "2023-02-28", "clamped in a common year"},
	    {"2024-02-29", 12, "2025-02-28", "a leap day a year on"},
	    {"2024-02-29", 48, "2028-02-29", "a leap day four years on"},
	    {"2096-02-29", 48, "2100-02-28", "2100 is no leap year"},
	    {"2026-11-30", 3, "2027-02-28", "across New Year"},
	    {"2026-03-31", -1, "2026-02-28", "backwards"},
	    {"2026-01-15", -1, "2025-12-15", "backwards across New Year"},
	    {"2026-12-31", 0, "2026-12-31", "nothing added"},
	    {"2026-05-20", 36, "2029-05-20", "three years"},
	    {"2014-02-28", 144, "2026-02-28", "the 28th is not the end it was"},
	    {"2199-12-31", 1, "", "past the accepted days, but no nonsense"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		day_t from = DAY_NONE;
		char buffer[DAY_ISO_SIZE];
		assert_true(day_parse(ROWS[i].from, &from, &fault));
		day_t to = day_add_months(from, ROWS[i].months);
		if (ROWS[i].to[0] == '\0') {
			assert_int_equal(to, DAY_MAX + 31);
			continue;
		}
		if (strcmp(day_iso(to, buffer), ROWS[i].to) != 0) {
			fail_msg("%s + %d (%s): %s, expected %s", ROWS[i].from,
			    ROWS[i].months, ROWS[i].note, buffer, ROWS[i].to);
		}
	}
}

TEST(months_and_years_end_on_their_last_day)
{
	assert_int_equal(
	    day_month_end(day_from_civil(2024, 2, 1)), day_from_civil(2024, 2, 29));
	assert_int_equal(
	    day_month_end(day_from_civil(2027, 6, 30)), day_from_civil(2027, 6, 30));
	assert_int_equal(
	    day_month_end(day_from_civil(2026, 12, 2)), day_from_civil(2026, 12, 31));
	assert_int_equal(
	    day_year_end(day_from_civil(2026, 1, 1)), day_from_civil(2026, 12, 31));
}

TEST(a_day_that_is_none_is_refused_with_the_reason)
{
	static const struct {
		const char *string;
		const char *reason;
	} ROWS[] = {
	    {"2021-02-31", "February 2021 has no day 31"},
	    {"2021-02-29", "February 2021 has no day 29"},
	    {"2021-13-01", "no month 13"},
	    {"2021-00-10", "no month 0"},
	    {"2021-04-00", "April 2021 has no day 0"},
	    {"1899-12-31", "year 1899 is not between 1900 and 2199"},
	    {"2200-01-01", "year 2200 is not between 1900 and 2199"},
	    {"2021-04", "expected a full day"},
	    {"2021-04-01~", "expected a full day"},
	    {"2021/04/01", "expected a full day"},
	    {"1 Apr 2021", "expected a full day"},
	    {"2021-4-1", "expected"},
	    {"soon", "expected"},
	    {"", "expected"},
	    {"2021-04-01x", "more after the date"},
	    {"2021-04-01 2021-04-02", "more after the date"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		day_t day = 12345;
		if (day_parse(ROWS[i].string, &day, &fault)) {
			fail_msg("\"%s\" was taken for a day", ROWS[i].string);
		}
		assert_int_equal(fault.kind, FAULT_INPUT);
		assert_int_equal(day, 12345);
		if (strstr(fault.text, ROWS[i].reason) == NULL) {
			fail_msg("\"%s\": \"%s\", expected the reason \"%s\"",
			    ROWS[i].string, fault.text, ROWS[i].reason);
		}
		if (strstr(fault.text, ROWS[i].string) == NULL) {
			fail_msg("\"%s\" does not show what was found", fault.text);
		}
	}
}

TEST(days_are_worded_with_the_month_named)
{
	char buffer[DAY_WORDS_SIZE];
	assert_string_equal(
	    day_words(day_from_civil(2027, 6, 30), buffer), "30 Jun 2027");
	assert_string_equal(day_words(day_from_civil(2027, 5, 1), buffer), "1 May 2027");
	assert_string_equal(day_words(DAY_NONE, buffer), "");
	assert_string_equal(day_words(DAY_NEVER, buffer), "");
	assert_string_equal(day_iso(DAY_NONE, buffer), "");
	assert_string_equal(day_iso(DAY_NEVER, buffer), "");
	assert_string_equal(month_name(9), "September");
}

static void
assert_window(const char *window, int year, const char *first, const char *last)
{
	struct fault fault = {0};
	struct yearly yearly = {0};
	char buffer[YEARLY_TEXT_SIZE];
	char iso[DAY_ISO_SIZE];
	assert_true(yearly_parse(window, &yearly, &fault));
	assert_string_equal(yearly_text(yearly, buffer), window);
	struct span span = yearly_in(yearly, year);
	assert_string_equal(day_iso(span.first, iso), first);
	assert_string_equal(day_iso(span.last, iso), last);
}

TEST(a_yearly_window_may_cross_new_year)
{
	assert_window("11-01..03-31", 2026, "2026-11-01", "2027-03-31");
	assert_window("06-01..08-31", 2026, "2026-06-01", "2026-08-31");
	assert_window("12-20..01-31", 2026, "2026-12-20", "2027-01-31");
	assert_window("05-05..05-05", 2026, "2026-05-05", "2026-05-05");
	assert_window("05-05..05-04", 2026, "2026-05-05", "2027-05-04");
}

TEST(the_29th_of_february_means_its_last_day)
{
	assert_window("11-01..02-29", 2026, "2026-11-01", "2027-02-28");
	assert_window("11-01..02-29", 2027, "2027-11-01", "2028-02-29");
	assert_window("02-29..03-10", 2026, "2026-02-28", "2026-03-10");
}

TEST(a_window_that_is_none_is_refused)
{
	static const char *const ROWS[] = {"", "11-01", "11-01..", "11-01..03-32",
	    "13-01..03-31", "11-00..03-31", "02-30..03-31", "11-1..03-31", "11-01-03-31",
	    "11-01..03-31x", "a1-01..03-31", "/1-01..03-31", "1/-01..03-31",
	    "1:-01..03-31", "11/01..03-31", "11-01,,03-31", "11-01..03/31",
	    "11-01..00-31", "11-01..03-00", "11-01..04-31"};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		struct yearly yearly = {7, 7, 7, 7};
		if (yearly_parse(ROWS[i], &yearly, &fault)) {
			fail_msg("\"%s\" was taken for a window", ROWS[i]);
		}
		assert_int_equal(fault.kind, FAULT_INPUT);
		assert_int_equal(yearly.first_month, 7);
		assert_told(fault.text,
		    "\"%s\" is no yearly window; expected MM-DD..MM-DD, as in 11-01..03-31",
		    ROWS[i]);
	}
}

TEST(a_span_of_days_is_read_and_a_backward_one_refused)
{
	struct fault fault = {0};
	struct span span = {0};
	assert_true(span_parse("2026-10-10..2027-04-01", &span, &fault));
	assert_int_equal(span.first, day_from_civil(2026, 10, 10));
	assert_int_equal(span.last, day_from_civil(2027, 4, 1));
	assert_true(span_parse("2026-10-10..2026-10-10", &span, &fault));
	assert_int_equal(span.last, day_from_civil(2026, 10, 10));
	assert_false(span_parse("2027-04-01..2026-10-10", &span, &fault));
	assert_string_equal(fault.text,
	    "\"2027-04-01..2026-10-10\" ends before it starts; expected the earlier day first");
	assert_int_equal(span.first, day_from_civil(2026, 10, 10));
	fault = (struct fault){0};
	assert_false(span_parse("2026-10-10", &span, &fault));
	fault = (struct fault){0};
	fault = (struct fault){0};
	assert_false(span_parse("2026-02-30..2026-10-10", &span, &fault));
	assert_non_null(strstr(fault.text, "February 2026 has no day 30"));
	fault = (struct fault){0};
	assert_false(span_parse("2026-10-10 at noon..2026-10-11", &span, &fault));
	assert_non_null(strstr(fault.text, "is no span of days"));
	fault = (struct fault){0};
	assert_false(span_parse("2026-10-10..2026-02-30", &span, &fault));
	assert_string_equal(
	    fault.text, "\"2026-02-30\" is no date: February 2026 has no day 30");
}

TEST(whole_years_are_counted_by_birthdays)
{
	static const struct {
		struct civil from;
		struct civil to;
		int years;
	} ROWS[] = {
	    {{2016, 3, 1}, {2026, 2, 28}, 9},  /* the day before the tenth birthday */
	    {{2016, 3, 1}, {2026, 3, 1}, 10},  /* and the day itself */
	    {{2016, 2, 29}, {2026, 2, 27}, 9}, /* new on 29 February: ten on the 28th */
	    {{2016, 2, 29}, {2026, 2, 28}, 10},
	    {{2016, 2, 29}, {2020, 2, 28}, 3}, /* where there is a 29th, on that */
	    {{2016, 2, 29}, {2020, 2, 29}, 4},
	    {{2016, 3, 1}, {2016, 3, 1}, 0},
	    {{2016, 3, 1}, {2015, 1, 1}, 0}, /* not new yet */
	    {{2015, 12, 31}, {2016, 1, 1}, 0},
	    {{1900, 1, 1}, {2199, 12, 31}, 299},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct civil from = ROWS[i].from;
		struct civil to = ROWS[i].to;
		assert_int_equal(
		    day_years_between(day_from_civil(from.year, from.month, from.day),
			day_from_civil(to.year, to.month, to.day)),
		    ROWS[i].years);
	}
	/* any day: so many years fit in, and not one more */
	day_t first = day_from_civil(2015, 12, 25);
	for (day_t from = first; from < first + 380; from++) {
		for (day_t to = from; to < from + 3000; to += 17) {
			int years = day_years_between(from, to);
			assert_true(day_add_months(from, 12 * years) <= to);
			assert_true(day_add_months(from, 12 * (years + 1)) > to);
		}
	}
}

TEST(what_is_no_month_has_no_name)
{
	static const int NONE[] = {INT_MIN, -1, 0, 13, 99, INT_MAX};
	for (size_t i = 0; i < sizeof NONE / sizeof NONE[0]; i++) {
		assert_string_equal(month_name(NONE[i]), "?");
		assert_string_equal(month_short_name(NONE[i]), "?");
	}
	assert_string_equal(month_name(12), "December");
	assert_string_equal(month_short_name(1), "Jan");
}

RUN_TESTS(NULL, NULL)
