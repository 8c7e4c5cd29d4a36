#include "rules/rating.h"

#include "becket_test.h"

/* A number with the same letters and no smaller; a number alone the same. */
TEST(a_rating_reaches_every_mark_that_is_wanted)
{
	static const struct {
		const char *rating;
		const char *wanted;
		bool reaches;
	} ROWS[] = {
	    {"5-B", "5-B", true}, {"10-B", "5-B", true}, {"5-B", "10-B", false},
	    {"20-B:C", "20-B", true}, {"1-A:10-B:C", "5-B", true},
	    {"1-A:10-B:C", "20-B", false}, {"10-A", "5-B", false}, /* other letters */
	    {"20 b", "20-B", true},
	    {"20BC", "20-B", true}, /* fires of class B and of class C */
	    {"20BC", "20-A", false}, {"20 BN", "20-B", false}, /* no class of fire */
	    {"13A/113B", "13A/113B", true}, {"21A 144B C", "13A/113B", true},
	    {"21A/89B", "13A/113B", false}, /* both marks are wanted */
	    {"113B", "13A/113B", false}, {"150 N", "100 N", true},
	    {"ISO 12402-3, 150N", "100 N", true}, {"50 N", "100 N", false},
	    {"Category 2", "Category 1", false}, {"category 1", "Category 1", true},
	    {"Category 10", "Category 1", false}, {"SOLAS A", "SOLAS A", true},
	    {"SOLAS", "SOLAS A", false}, {"child", "child", true}, {"", "5-B", false},
	    {"999999999999999999999-B", "5-B", true}, /* no overflow */
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		if (rating_reaches(ROWS[i].rating, ROWS[i].wanted) != ROWS[i].reaches) {
			fail_msg("\"%s\" and \"%s\"", ROWS[i].rating, ROWS[i].wanted);
		}
	}
}

TEST(the_same_rating_may_be_written_with_blanks_and_hyphens)
{
	assert_true(rating_same("ISO 9650", "iso-9650 "));
	assert_false(rating_same("ISO 9650", "ISO 9650-1"));
	assert_false(rating_same("SOLAS A", "SOLAS B"));
	assert_true(rating_same("", " "));
}

TEST(words_without_letters_or_digits_are_no_rating)
{
	assert_true(rating_is_one("5-B"));
	assert_true(rating_is_one("child"));
	assert_false(rating_is_one(" -/ "));
	assert_false(rating_is_one(""));
	assert_false(rating_is_one("~{"));
}

/* What the labels, notes and rules met so far bear; a slip is not among them. */
TEST(a_rating_needs_a_number_and_a_unit_that_labels_have)
{
	static const char *const KNOWN[] = {"5-B", "10BC", "13A/113B", "20-B:C",
	    "1-A:10-B:C", "34 B", "5F", "150 N", "ISO 12402-3, 150N", "ISO 9650", "SOLAS",
	    "solas A", "ORC", "Category 1", "Type I", "child", "25F", "6K"};
	static const char *const UNKNOWN[] = {"B", "N", "5-X", "150", "150 kN", "ISO",
	    "Category", "A", "good", "SOLAS Z", "5-B 150", "type x", "150 N A", "20-B x",
	    "5-G", "ISO 12402-3, A"};

	for (size_t i = 0; i < sizeof KNOWN / sizeof KNOWN[0]; i++) {
		if (!rating_is_known(KNOWN[i])) {
			fail_msg("\"%s\" is not known", KNOWN[i]);
		}
	}
	for (size_t i = 0; i < sizeof UNKNOWN / sizeof UNKNOWN[0]; i++) {
		if (rating_is_known(UNKNOWN[i])) {
			fail_msg("\"%s\" is known", UNKNOWN[i]);
		}
	}
}

RUN_TESTS(NULL, NULL)
