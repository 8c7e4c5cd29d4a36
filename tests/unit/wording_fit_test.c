/* Reminders cut to what a calendar takes. */
#include "becket_test.h"
#include "calendar/reminders_inside.h"

#include <string.h>

static size_t
count_of(const char *text, const char *part)
{
	size_t count = 0;
	for (const char *at = strstr(text, part); at != NULL; at = strstr(at + 1, part)) {
		count++;
	}
	return count;
}

TEST(what_fits_is_left_as_it_is)
{
	SCOPED_TEXT text = {0};
	text_add(&text, "- LJ-1: service\n");
	wording_fit(&text, 16);
	assert_string_equal(text_string(&text), "- LJ-1: service\n");
}

TEST(of_a_long_list_the_last_lines_go_and_are_counted)
{
	SCOPED_TEXT text = {0};
	text_add(&text, "To be collected on 2 Nov 2026.\n");
	for (int i = 100; i < 600; i++) {
		text_add_format(&text, "- LJ-%d Σωσίβιο: service, due 1 Dec 2026\n", i);
	}
	text_add(&text, "Carry gas upright.\n");
	wording_fit(&text, 1000);
	const char *fitted = text_string(&text);
	/* The note on reasons and prices is behind the list, and costs 44. A line has 42
	 * characters, 50 bytes: the head's 31, the tail's 19 and the 64 kept for the note
	 * leave 842, which is 20 lines; 480 go. */
	assert_int_equal(count_of(fitted, "\n- LJ-"), 20);
	assert_non_null(strstr(fitted, "And 480 more: see the list in becket.\nReasons"));
	assert_non_null(strstr(fitted, "becket.\nCarry gas upright.\n"));
	assert_true(utf8_valid(fitted, text.length));
}

TEST(reasons_and_prices_go_before_any_thing_does)
{
	SCOPED_TEXT text = {0};
	text_add(&text,
	    "Tern:\n- LJ-1 jacket: service, due 1 Dec 2026; common practice; price "
	    "45.00 EUR\n- LJ-2 jacket: renew; by its printed date, which is the "
	    "maker's\nCarry gas upright.\n");
	wording_fit(&text, 150);
	assert_string_equal(text_string(&text),
	    "Tern:\n- LJ-1 jacket: service, due 1 Dec 2026\n- LJ-2 jacket: renew\n"
	    "Reasons and prices: see the list in becket.\nCarry gas upright.\n");
}

TEST(a_boats_head_is_not_left_without_a_line_of_hers)
{
	SCOPED_TEXT text = {0};
	text_add(&text, "Tern:\n- LJ-1: service\nSkarv:\n- LJ-2: service\n");
	wording_fit(&text, 40);
	assert_string_equal(text_string(&text),
	    "And 2 more: see the list in becket.\n"
	    "Reasons and prices: see the list in becket.\n");
	text_reset(&text);
	for (int i = 0; i < 9; i++) {
		text_add_format(&text, "Boat %d:\n- LJ-1: service\n", i);
	}
	/* 24 characters a boat and her line; 64 for the note: 44 for the other and 24 and
	 * 8 hold one boat */
	wording_fit(&text, 140);
	assert_string_equal(text_string(&text),
	    "Boat 0:\n- LJ-1: service\nAnd 8 more: see the list in becket.\n"
	    "Reasons and prices: see the list in becket.\n");
}

TEST(words_of_one_thing_are_cut_between_two_letters)
{
	SCOPED_TEXT long_words = {0};
	SCOPED_TEXT text = {0};
	for (int i = 0; i < 500; i++) {
		text_add(&long_words, "ø");
	}
	wording_words(text_string(&long_words), &text);
	assert_int_equal(text.length, 2 * WORDING_WORDS_MOST + 3);
	assert_true(utf8_valid(text_string(&text), text.length));
}

RUN_TESTS(NULL, NULL)
