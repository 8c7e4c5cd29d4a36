/* Lines of the journal in the trade's words. What is expected is worked out by hand: 980
 * cm are 9.80 m, 4500 minor units of a currency with two (ISO 4217, from memory) are
 * 45.00. */
#include "report/journal_terms.h"

#include "becket_test.h"

static void
says(const struct journal_line *line, const char *expected)
{
	SCOPED_TEXT out = {0};
	const struct journal_speech speech = {"EUR", NULL};
	journal_line_words(&speech, line, &out);
	assert_string_equal(text_string(&out), expected);
}

TEST(a_boat_that_is_written_has_metres_and_days_of_the_year)
{
	const struct journal_line line = {"vessel", "Quillfish", "", "", JOURNAL_ADDED,
	    "", "",
	    "base Holm Quay, length cm 980, built 2011, margin days 7, lay up first "
	    "11-01, lay up last 02-29"};
	says(&line, "Quillfish: boat written: base Holm Quay, length 9.80 m, built 2011, "
		    "margin 7 days, lay-up from 1 Nov, lay-up to 29 Feb");
}

TEST(a_station_has_its_turn_round_and_its_money)
{
	const struct journal_line line = {"station", "Reed Loft", "", "", JOURNAL_ADDED,
	    "", "", "turn round days 1, trip (minor units) 4500"};
	says(&line, "Reed Loft: station written: turn-round 1 day, trip EUR 45.00");
	const struct journal_line closed = {"station", "Reed Loft", "", "",
	    JOURNAL_REMOVED, "closure", "first 12-20, last 01-31", ""};
	says(&closed, "Reed Loft: closed every year taken out: from 20 Dec, to 31 Jan");
}

TEST(a_stamp_has_the_name_of_its_month)
{
	const struct journal_line line = {"item", "FL-1", "flare-red-hand", "",
	    JOURNAL_CHANGED, "expires", "2027-06", "before 2028-09"};
	says(&line, "FL-1: expires became before Sep 2028; it was Jun 2027");
}

TEST(a_choice_is_yes_or_no)
{
	const struct journal_line line = {
	    "reminder", "", "", "", JOURNAL_CHANGED, "choice routines", "0", "1"};
	says(&line, "weekly and monthly looks became yes; it was no");
}

TEST(what_a_person_wrote_stays_as_it_is)
{
	const struct journal_line notes = {"item", "FL-1", "", "", JOURNAL_CHANGED,
	    "notes", "", "new hose, first aid kit, length cm unknown"};
	says(&notes,
	    "FL-1: notes became new hose, first aid kit, length cm unknown; it was not known");
	const struct journal_line whole = {"item", "FL-1", "", "", JOURNAL_ADDED, "", "",
	    "kind epirb, notes from Ann, first aid kit, quantity 2, made 2021~"};
	says(&whole,
	    "FL-1: piece written: kind epirb, notes from Ann, first aid kit, quantity "
	    "2, made 2021 (estimated)");
}

TEST(the_part_that_changed_is_named_with_its_column)
{
	const struct journal_line line = {"vessel", "Amberjay", "", "", JOURNAL_CHANGED,
	    "period lay up first", "11-01", "10-15"};
	says(&line, "Amberjay: use lay-up from became 15 Oct; it was 1 Nov");
}

RUN_TESTS(NULL, NULL)
