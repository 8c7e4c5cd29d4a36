/* Dates as labels carry them: what is read, what it means, what is refused. */
#include "becket_test.h"
#include "dates/stamp.h"

#include <stdio.h>
#include <string.h>

struct row {
	const char *string;
	enum date_order order;
	const char *text;    /* written back */
	const char *first;   /* the first day it could mean */
	const char *through; /* as a mark: the last good day */
};

/* The days are read off a calendar, by the meanings in stamp.h. */
static const struct row ROWS[] = {
    {"2021-04-30", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"2021-04", ORDER_ISO, "2021-04", "2021-04-01", "2021-04-30"},
    {"2021", ORDER_ISO, "2021", "2021-01-01", "2021-12-31"},
    {"04/2021", ORDER_ISO, "2021-04", "2021-04-01", "2021-04-30"},
    {"4/2021", ORDER_ISO, "2021-04", "2021-04-01", "2021-04-30"},
    {"30/04/2021", ORDER_DAY_FIRST, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"30.04.2021", ORDER_DAY_FIRST, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"30-04-2021", ORDER_DAY_FIRST, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"04/30/2021", ORDER_MONTH_FIRST, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"05/04/2021", ORDER_DAY_FIRST, "2021-04-05", "2021-04-05", "2021-04-05"},
    {"05/04/2021", ORDER_MONTH_FIRST, "2021-05-04", "2021-05-04", "2021-05-04"},
    {"2021-04-30", ORDER_MONTH_FIRST, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"30/04/2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"04/30/2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"05.05.2021", ORDER_ISO, "2021-05-05", "2021-05-05", "2021-05-05"},
    {"2021/04/30", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"2021.4.30", ORDER_MONTH_FIRST, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"2021/04", ORDER_ISO, "2021-04", "2021-04-01", "2021-04-30"},
    {"April 30, 2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"Apr 30 2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"30 Apr 2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"30. Apr. 2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"30. April 2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"Apr. 30, 2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    /* the words between change nothing of what the numbers tell by themselves */
    {"30 de 4 de 2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"30.de 4.de 2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"30. 4. 2021", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
    {"5. 4. 2021", ORDER_DAY_FIRST, "2021-04-05", "2021-04-05", "2021-04-05"},
    {"Apr. 2021", ORDER_ISO, "2021-04", "2021-04-01", "2021-04-30"},
    {"April 2021", ORDER_ISO, "2021-04", "2021-04-01", "2021-04-30"},
    {"FEB 2024", ORDER_ISO, "2024-02", "2024-02-01", "2024-02-29"},
    {"EXP 06/2027", ORDER_ISO, "2027-06", "2027-06-01", "2027-06-30"},
    {"exp. 06/2027", ORDER_ISO, "2027-06", "2027-06-01", "2027-06-30"},
    {"expires 2027", ORDER_ISO, "2027", "2027-01-01", "2027-12-31"},
    {"use before 06/2027", ORDER_ISO, "before 2027-06", "2027-06-01", "2027-05-31"},
    {"before 2027-06-15", ORDER_ISO, "before 2027-06-15", "2027-06-15", "2027-06-14"},
    {"before 2027", ORDER_ISO, "before 2027", "2027-01-01", "2026-12-31"},
    {"use by 2027-06-15", ORDER_ISO, "use by 2027-06-15", "2027-06-15", "2027-06-15"},
    {"use by 06/2027", ORDER_ISO, "use by 2027-06", "2027-06-01", "2027-05-31"},
    {"use by 2027", ORDER_ISO, "use by 2027", "2027-01-01", "2026-12-31"},
    {"2014~", ORDER_ISO, "2014~", "2014-01-01", "2014-12-31"},
    {"2014-07 ~", ORDER_ISO, "2014-07~", "2014-07-01", "2014-07-31"},
    {"2014 (estimated)", ORDER_ISO, "2014~", "2014-01-01", "2014-12-31"},
    {"Jul 2014 (est.)", ORDER_ISO, "2014-07~", "2014-07-01", "2014-07-31"},
    {"14 Jul 2014 est", ORDER_ISO, "2014-07-14~", "2014-07-14", "2014-07-14"},
    {"circa 2014", ORDER_ISO, "2014~", "2014-01-01", "2014-12-31"},
    {"ca. 07/2014", ORDER_ISO, "2014-07~", "2014-07-01", "2014-07-31"},
    {"~2014", ORDER_ISO, "2014~", "2014-01-01", "2014-12-31"},
    {"before Jun 2027 (estimated)", ORDER_ISO, "before 2027-06~", "2027-06-01",
	"2027-05-31"},
    {"end 2027", ORDER_ISO, "2027", "2027-01-01", "2027-12-31"},
    {"End of Jun 2027", ORDER_ISO, "2027-06", "2027-06-01", "2027-06-30"},
    {"EXP end 06/2027", ORDER_ISO, "2027-06", "2027-06-01", "2027-06-30"},
    {"Ende 2027", ORDER_ISO, "2027", "2027-01-01", "2027-12-31"},
    {"exp: 06/2027", ORDER_ISO, "2027-06", "2027-06-01", "2027-06-30"},
    {"Sept 2021", ORDER_ISO, "2021-09", "2021-09-01", "2021-09-30"},
    {"about end of 2027", ORDER_ISO, "2027~", "2027-01-01", "2027-12-31"},
    {"  2021-04-30  ", ORDER_ISO, "2021-04-30", "2021-04-30", "2021-04-30"},
};

/* From January on, as glibc 2.36 has them (`mon`, `alt_mon`, `abmon` in localedata/locales), with
 * what is there only without its accents or dots, and short forms, common practice. */
static const char *const MONTHS[][12] = {
    {"Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August", "September",
	"Oktober", "November", "Dezember"},
    {"Jänner", "Feb.", "Mrz", "Apr.", "Mai", "Jun.", "Jul.", "Aug.", "Sept.", "Okt.",
	"Nov.", "Dez."},
    {"janvier", "février", "mars", "avril", "mai", "juin", "juillet", "août", "septembre",
	"octobre", "novembre", "décembre"},
    {"janv.", "févr.", "MARS", "avr.", "MAI", "Juin", "juil.", "AOÛT", "sept.", "oct.",
	"nov.", "DÉC."},
    {"enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto",
	"septiembre", "octubre", "noviembre", "diciembre"},
    {"gennaio", "febbraio", "marzo", "aprile", "maggio", "giugno", "luglio", "agosto",
	"settembre", "ottobre", "novembre", "dicembre"},
    {"gen", "feb", "mar", "apr", "mag", "giu", "lug", "ago", "sept", "ott", "nov", "dic"},
    {"gener", "febrer", "març", "abril", "maig", "juny", "juliol", "agost", "setembre",
	"octubre", "novembre", "desembre"},
    {"ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sept", "oct", "nov", "dic"},
    {"jan", "fev", "mar", "abr", "mai", "jun", "jul", "ago", "setembro", "outubro", "nov",
	"dez"},
    {"januari", "februari", "maart", "april", "mei", "juni", "juli", "augustus",
	"september", "oktober", "november", "december"},
    {"jan", "feb", "mrt", "apr", "mei", "jun", "jul", "aug", "sep", "okt", "nov", "dec"},
    {"janeiro", "fevereiro", "março", "abril", "maio", "junho", "julho", "agosto",
	"setembro", "outubro", "novembro", "dezembro"},
    {"januar", "februar", "marts", "april", "maj", "juni", "juli", "august", "september",
	"oktober", "november", "december"},
    {"januari", "februari", "mars", "april", "maj", "juni", "juli", "augusti",
	"september", "oktober", "november", "december"},
    {"januar", "februar", "mars", "april", "mai", "juni", "juli", "august", "september",
	"oktober", "november", "desember"},
};

TEST(months_are_known_by_their_names_in_the_languages_of_lists)
{
	static const struct {
		const char *before, *after;
	} FORMS[] = {
	    {"", " 2027"}, {"15 ", " 2027"}, {"15. ", " 2027"}, {"15 de ", " de 2027"}};

	for (size_t i = 0; i < sizeof MONTHS / sizeof MONTHS[0]; i++) {
		for (int month = 1; month <= 12; month++) {
			for (size_t form = 0; form < sizeof FORMS / sizeof FORMS[0];
			     form++) {
				char words[60];
				struct stamp stamp = {0};
				struct fault fault = {0};
				(void)snprintf(words, sizeof words, "%s%s%s",
				    FORMS[form].before, MONTHS[i][month - 1],
				    FORMS[form].after);
				if (!stamp_parse(words, ORDER_ISO, &stamp, &fault) ||
				    stamp.month != month || stamp.year != 2027 ||
				    stamp.day != (form == 0 ? 0 : 15)) {
					fail_msg("\"%s\": %s", words, fault.text);
				}
			}
		}
	}
}

static void
assert_day_is(const struct row *row, const char *what, day_t day, const char *expected)
{
	char iso[DAY_ISO_SIZE];
	if (strcmp(day_iso(day, iso), expected) != 0) {
		fail_msg("\"%s\" %s %s, expected %s", row->string, what, iso, expected);
	}
}

TEST(every_way_to_write_a_date_is_read)
{
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const struct row *row = &ROWS[i];
		struct fault fault = {0};
		struct stamp stamp = {0};
		char text[STAMP_TEXT_SIZE];
		if (!stamp_parse(row->string, row->order, &stamp, &fault)) {
			fail_msg("%s", fault.text);
		}
		assert_string_equal(stamp_text(stamp, text), row->text);
		assert_day_is(row, "starts", stamp_first(stamp), row->first);
		assert_day_is(
		    row, "is good through", stamp_good_through(stamp), row->through);
	}
}

TEST(what_is_written_is_read_back_the_same)
{
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		struct stamp stamp = {0};
		struct stamp again = {0};
		char text[STAMP_TEXT_SIZE];
		assert_true(stamp_parse(ROWS[i].string, ROWS[i].order, &stamp, &fault));
		assert_true(
		    stamp_parse(stamp_text(stamp, text), ORDER_ISO, &again, &fault));
		assert_true(stamp_same(stamp, again));
	}
}

/* Each differs from the first in one thing alone. */
TEST(stamps_that_differ_in_one_thing_are_not_the_same)
{
	static const char *const OTHERS[] = {"2021-04", "2022-04-30", "2021-03-30",
	    "2021-04-29", "before 2021-04-30", "2021-04-30~"};
	struct fault fault = {0};
	struct stamp stamp = {0};
	assert_true(stamp_parse("2021-04-30", ORDER_ISO, &stamp, &fault));
	assert_true(stamp_same(stamp, stamp));
	for (size_t i = 0; i < sizeof OTHERS / sizeof OTHERS[0]; i++) {
		struct stamp other = {0};
		assert_true(stamp_parse(OTHERS[i], ORDER_ISO, &other, &fault));
		assert_false(stamp_same(stamp, other));
	}
}

TEST(a_blank_is_no_date_and_no_fault)
{
	struct fault fault = {0};
	struct stamp stamp = {.year = 2000, .precision = STAMP_YEAR};
	char text[STAMP_TEXT_SIZE];
	assert_true(stamp_parse(" \t ", ORDER_ISO, &stamp, &fault));
	assert_int_equal(stamp.precision, STAMP_NONE);
	assert_int_equal(stamp_first(stamp), DAY_NONE);
	assert_int_equal(stamp_last(stamp), DAY_NONE);
	assert_int_equal(stamp_good_through(stamp), DAY_NONE);
	assert_string_equal(stamp_text(stamp, text), "");
	assert_string_equal(stamp_words(stamp, text), "not known");
}

TEST(a_midnight_behind_a_day_is_passed_over)
{
	static const char *const DAYS[] = {"2027-06-30 00:00:00", "2027-06-30T00:00:00",
	    "2027-06-30 00:00", "30/06/2027 0:00:00", "30/06/2027 0:00 "};
	for (size_t i = 0; i < sizeof DAYS / sizeof DAYS[0]; i++) {
		struct fault fault = {0};
		struct stamp stamp = {0};
		char text[STAMP_TEXT_SIZE];
		if (!stamp_parse(DAYS[i], ORDER_DAY_FIRST, &stamp, &fault)) {
			fail_msg("refused: %s", fault.text);
		}
		assert_string_equal(stamp_text(stamp, text), "2027-06-30");
	}
}

TEST(a_day_is_typed_as_people_say_it)
{
	/* 1 Mar 2024 follows a leap day */
	const day_t today = day_from_civil(2024, 3, 1);

	static const struct {
		const char *typed;
		const char *day;
	} TYPED[] = {{"today", "2024-03-01"}, {"Yesterday", "2024-02-29"},
	    {"tomorrow", "2024-03-02"}, {"28 Nov 2026", "2026-11-28"},
	    {"28/11/2026", "2026-11-28"}, {"2026-11-28", "2026-11-28"}};

	for (size_t i = 0; i < sizeof TYPED / sizeof TYPED[0]; i++) {
		struct fault fault = {0};
		struct stamp stamp = {0};
		day_t day = DAY_NONE;
		char text[STAMP_TEXT_SIZE];
		char iso[DAY_ISO_SIZE];
		assert_true(day_typed(TYPED[i].typed, today, &day, &fault));
		assert_string_equal(day_iso(day, iso), TYPED[i].day);
		assert_true(stamp_typed(TYPED[i].typed, today, &stamp, &fault));
		assert_string_equal(stamp_text(stamp, text), TYPED[i].day);
	}
}

TEST(a_month_is_no_day)
{
	static const char *const COARSE[] = {
	    "2026-11", "2026", "before 2026-11-28", "2026-11-28~"};
	struct fault bad = {0};
	day_t none = 7;
	assert_false(day_typed("rubbish", 0, &none, &bad));
	assert_int_equal(none, 7);
	for (size_t i = 0; i < sizeof COARSE / sizeof COARSE[0]; i++) {
		struct fault fault = {0};
		day_t day = 7;
		assert_false(day_typed(COARSE[i], 0, &day, &fault));
		assert_int_equal(day, 7);
		assert_told(fault.text,
		    "\"%s\" is no date: expected a full day like 2026-11-25", COARSE[i]);
	}
}

TEST(a_day_left_empty_is_told_as_such)
{
	static const char *const EMPTY[] = {"", " ", "\t "};
	for (size_t i = 0; i < sizeof EMPTY / sizeof EMPTY[0]; i++) {
		struct fault fault = {0};
		day_t day = 7;
		assert_false(day_typed(EMPTY[i], 0, &day, &fault));
		assert_int_equal(day, 7);
		assert_string_equal(
		    fault.text, "no day is given: expected a full day like 28 Nov 2026");
	}
}

/* Every day of the accepted years, as it is printed for people and as it is kept. */
TEST(every_printed_day_can_be_typed_back)
{
	for (day_t day = day_from_civil(1900, 1, 1); day <= day_from_civil(2199, 12, 31);
	     day += 5) {
		struct fault fault = {0};
		day_t again = DAY_NONE;
		char words[DAY_WORDS_SIZE];
		char iso[DAY_ISO_SIZE];
		assert_true(day_typed(day_words(day, words), 0, &again, &fault));
		assert_int_equal(again, day);
		assert_true(day_typed(day_iso(day, iso), 0, &again, &fault));
		assert_int_equal(again, day);
	}
}

TEST(what_is_no_date_is_refused_with_the_reason)
{
	static const struct {
		const char *string;
		enum date_order order;
		const char *reason;
	} BAD[] = {
	    {"31/02/2021", ORDER_DAY_FIRST, "February 2021 has no day 31"},
	    {"05/04/2021", ORDER_ISO, "either way round"},
	    {"5. 4. 2021", ORDER_ISO, "either way round"},
	    {"05/12/2021", ORDER_ISO, "either way round"},
	    {"12/05/2021", ORDER_ISO, "either way round"},
	    {"31/02/2022", ORDER_ISO, "February 2022 has no day 31"},
	    {"02/31/2022", ORDER_ISO, "February 2022 has no day 31"},
	    {"31/31/2022", ORDER_ISO, "no month 31"},
	    {"30/04/2021", ORDER_MONTH_FIRST, "no month 30"},
	    {"30/04/21", ORDER_DAY_FIRST, "year of four digits"},
	    {"21-04-30", ORDER_ISO, "year of four digits"},
	    {"13/2021", ORDER_ISO, "no month 13"},
	    {"2021-13", ORDER_ISO, "no month 13"},
	    {"1850", ORDER_ISO, "not between 1900 and 2199"},
	    {"2200-01", ORDER_ISO, "not between 1900 and 2199"},
	    {"44316", ORDER_ISO, "four digits"},
	    {"44316", ORDER_ISO, "spreadsheet's day number"},
	    {"12/27", ORDER_DAY_FIRST, "could be a day or a year"},
	    {"Dec-27", ORDER_DAY_FIRST, "could be a day or a year"},
	    {"27 Dec", ORDER_ISO, "could be a day or a year"},
	    {"end 2021-04-30", ORDER_ISO, "\"end\" goes with a month or a year"},
	    {"before end of 2027", ORDER_ISO, "\"end\" goes with a month or a year"},
	    {"2014 (guessed)", ORDER_ISO, "expected a date"},
	    {"2021-04-30 00:00:01", ORDER_ISO, "more after the date"},
	    {"2021-04-30 00:00:00.5", ORDER_ISO, "more after the date"},
	    {"2021-04 00:00:00", ORDER_ISO, "more after the date"},
	    {"20210430", ORDER_ISO, "four digits"},
	    {"30.04/2021", ORDER_DAY_FIRST, "expected"},
	    {"Quintober 2021", ORDER_ISO, "expected"},
	    {"Xan 2021", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"Bpril 2021", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"EXP", ORDER_ISO, "expected"},
	    {"n/a", ORDER_ISO, "expected"},
	    {"2021-04-30 or so", ORDER_ISO, "more after the date"},
	    {"2021-04-30T12:00", ORDER_ISO, "more after the date"},
	    {"0000-00-00", ORDER_ISO, "not between"},
	    {"exp2027", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"expo 2027", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"123456789", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"Apri 2021", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"März 15. 2021 März", ORDER_ISO, "there is more after the date"},
	    {"Febru 2021", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"set 2021", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"de 2021", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"5. de 2026", ORDER_ISO, "could be a day or a year"},
	    {"5.de 2026", ORDER_DAY_FIRST, "could be a day or a year"},
	    {"5. del 2026", ORDER_ISO, "could be a day or a year"},
	    {"5 de 2026", ORDER_ISO, "could be a day or a year"},
	    {"5 de 4 de 2021", ORDER_ISO, "could be either way round"},
	    {"5.de 4.de 2021", ORDER_ISO, "could be either way round"},
	    {"2026. de 5", ORDER_ISO, "could be a day or a year"},
	    {"out 2021", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"Septe 2021", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"Ap 2021", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"2021,04", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"2021_04", ORDER_ISO, "expected a date like 2021-04-30, 2021-04 or 2021"},
	    {"2021-Apr-30", ORDER_ISO, "year of four digits"},
	    {"2021 04 30", ORDER_ISO, "year of four digits"},
	    {"2021-04/30", ORDER_ISO, "year of four digits"},
	    {"2021-04-2022", ORDER_ISO, "expected a date like 2021-04-30 or 30 Apr 2021"},
	    {"4-2020-2021", ORDER_ISO, "expected a date like 2021-04-30 or 30 Apr 2021"},
	    {"Apr May 2021", ORDER_ISO, "expected a date like 2021-04-30 or 30 Apr 2021"},
	    {"2021 04", ORDER_ISO, "could be a day or a year"},
	    {"04 2021", ORDER_ISO, "could be a day or a year"},
	    {"2021-2022", ORDER_ISO,
		"expected a month like 2021-04, 04/2021 or April 2021"},
	    {"21", ORDER_ISO, "expected a year of four digits, a month like 2021-04"},
	    {"April", ORDER_ISO, "expected a year of four digits, a month like 2021-04"},
	};

	for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
		struct fault fault = {0};
		struct stamp stamp = {.year = 1977, .precision = STAMP_YEAR};
		char text[STAMP_TEXT_SIZE];
		if (stamp_parse(BAD[i].string, BAD[i].order, &stamp, &fault)) {
			fail_msg("\"%s\" was read as %s", BAD[i].string,
			    stamp_text(stamp, text));
		}
		assert_int_equal(fault.kind, FAULT_INPUT);
		assert_int_equal(stamp.year, 1977);
		if (strstr(fault.text, BAD[i].reason) == NULL ||
		    strstr(fault.text, BAD[i].string) == NULL) {
			fail_msg("\"%s\": expected it to name \"%s\"", fault.text,
			    BAD[i].reason);
		}
	}
}

TEST(stamps_are_worded_for_people)
{
	static const struct {
		const char *string;
		const char *words;
	} WORDS[] = {
	    {"2027-06", "Jun 2027"},
	    {"before 2027-06", "before Jun 2027"},
	    {"2014~", "2014 (estimated)"},
	    {"2027-06-30", "30 Jun 2027"},
	    {"use by 2027-06-03", "use by 3 Jun 2027"},
	};

	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		struct fault fault = {0};
		struct stamp stamp = {0};
		char text[STAMP_TEXT_SIZE];
		assert_true(stamp_parse(WORDS[i].string, ORDER_ISO, &stamp, &fault));
		assert_string_equal(stamp_words(stamp, text), WORDS[i].words);
	}
}

TEST(a_stamp_of_a_day_is_that_day)
{
	for (day_t day = DAY_MIN; day <= DAY_MAX; day += 13) {
		struct stamp stamp = stamp_of_day(day);
		assert_int_equal(stamp.precision, STAMP_DAY);
		assert_int_equal(stamp_first(stamp), day);
		assert_int_equal(stamp_last(stamp), day);
		assert_int_equal(stamp_good_through(stamp), day);
	}
}

/* Days that are in the Gregorian calendar as ISO 8601 writes them, and those that are
 * not: read alike with blanks before them, where the reader goes another way. */
TEST(a_plain_date_is_read_where_the_calendar_has_it)
{
	static const int YEARS[] = {1899, 1900, 2000, 2023, 2024, 2199, 2200};
	static const int DAYS[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
	for (size_t y = 0; y < sizeof YEARS / sizeof YEARS[0]; y++) {
		int year = YEARS[y];
		bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
		for (int number = 0; number < 14 * 33; number++) {
			int month = number / 33;
			int day = number % 33;
			bool there =
			    year >= 1900 && year <= 2199 && month >= 1 && month <= 12 &&
			    day >= 1 &&
			    day <= DAYS[month - 1] + (leap && month == 2 ? 1 : 0);
			char text[32];
			struct stamp plain = {0};
			struct stamp behind = {0};
			struct fault fault = {0};
			(void)snprintf(
			    text, sizeof text, " %04d-%02d-%02d", year, month, day);
			assert_int_equal(
			    stamp_parse(text + 1, ORDER_DAY_FIRST, &plain, &fault),
			    there);
			assert_int_equal(
			    stamp_parse(text, ORDER_DAY_FIRST, &behind, &fault), there);
			assert_true(stamp_same(plain, behind));
			if (there) {
				char back[STAMP_TEXT_SIZE];
				assert_string_equal(stamp_text(plain, back), text + 1);
			}
		}
	}
}

RUN_TESTS(NULL, NULL)
