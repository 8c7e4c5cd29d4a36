/* Tables and paragraphs: expected text is laid out by hand. */
#include "report/table.h"

#include "becket_test.h"
#include "draw.h"
#include "gear/money.h"

#include <string.h>

static const struct table_column THREE[] = {
    {"Tag", 0, ALIGN_LEFT, false},
    {"What", 0, ALIGN_LEFT, true},
    {"Price", 0, ALIGN_RIGHT, false},
};

static const struct table_column PLAIN[] = {
    {"", 0, ALIGN_LEFT, false},
    {"", 0, ALIGN_LEFT, true},
    {"", 0, ALIGN_LEFT, false},
};

static void
add_three(struct table *table, const char *a, const char *b, const char *c)
{
	table_add(table, HUE_NONE, a, "");
	table_add(table, HUE_NONE, b, "");
	table_add(table, HUE_NONE, c, "");
}

static void
assert_table(const struct table *table, const char *expected)
{
	SCOPED_TEXT out = {0};
	table_write(table, &out);
	assert_string_equal(text_string(&out), expected);
}

TEST(columns_line_up_under_their_headings)
{
	SCOPED_TABLE table = {0};
	table_init(&table, THREE, 3, 0, false);
	add_three(&table, "A-1", "red hand flare", "9.00");
	add_three(&table, "A-10", "light", "120.00");
	assert_table(&table, "Tag   What             Price\n"
			     "----  --------------  ------\n"
			     "A-1   red hand flare    9.00\n"
			     "A-10  light           120.00\n");
}

TEST(wide_and_narrow_letters_line_up)
{
	SCOPED_TABLE table = {0};
	table_init(&table, PLAIN, 3, 2, false);
	/* Three letters of two columns each; three of one. */
	add_three(&table, "救命筏", "x", "");
	add_three(&table, "φως", "y", "");
	assert_table(&table, "  救命筏  x\n"
			     "  φως     y\n");
}

TEST(the_flexible_column_goes_on_inside_its_own_width)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, PLAIN, 3, 0, false);
	for (int i = 0; i < 9; i++) {
		text_add(&words, "abcdefghi ");
	}
	/* 80 - 4 - 3 and two gaps leave 69 columns: seven words and six blanks. */
	add_three(&table, "LR-1", text_string(&words), "end");
	assert_table(&table,
	    "LR-1  abcdefghi abcdefghi abcdefghi abcdefghi abcdefghi abcdefghi abcdefghi"
	    "  end\n"
	    "      abcdefghi abcdefghi\n");
}

TEST(words_wider_than_a_line_are_broken_between_letters)
{
	SCOPED_TEXT words = {0};
	SCOPED_TEXT expected = {0};
	SCOPED_TEXT out = {0};
	for (int i = 0; i < 50; i++) {
		text_add(&words, "救"); /* two columns: forty fill a line */
		text_add(&expected, i == 40 ? "\n  救" : "救");
	}
	text_add(&expected, "\n");
	paragraph(text_string(&words), 0, 2, &out);
	assert_string_equal(text_string(&out), text_string(&expected));
}

TEST(a_combining_mark_stays_with_its_letter)
{
	char words[128];
	memset(words, 'a', 79);
	strcpy(words + 79, "e\xCC\x81z");
	SCOPED_TEXT out = {0};
	paragraph(words, 0, 0, &out);
	const char *end = text_string(&out) + 79;
	assert_string_equal(end, "e\xCC\x81\nz\n");
}

TEST(glue_keeps_a_date_on_one_line)
{
	char words[128];
	memset(words, 'a', 72);
	strcpy(words + 72, " 20\001May\0012026");
	SCOPED_TEXT out = {0};
	paragraph(words, 0, 0, &out);
	assert_string_equal(text_string(&out) + 72, "\n20 May 2026\n");
}

TEST(what_a_terminal_would_obey_becomes_a_blank)
{
	SCOPED_TEXT out = {0};
	/* Escape, line end, a C1 control, and a byte that is no UTF-8. */
	add_safe("a\033[31mb\nc\xC2\x9B"
		 "d\xFF",
	    &out);
	assert_string_equal(text_string(&out), "a [31mb c d?");
}

TEST(colour_adds_to_a_word_and_moves_nothing)
{
	SCOPED_TABLE table = {0};
	table_init(&table, PLAIN, 3, 0, true);
	table_add(&table, HUE_NONE, "A", "");
	table_add(&table, HUE_BAD, "late", "");
	table_add(&table, HUE_NONE, "x", "");
	add_three(&table, "B", "in time", "y");
	assert_table(&table, "A  \033[31mlate\033[0m     x\n"
			     "B  in time  y\n");
}

TEST(an_empty_column_and_an_empty_table_take_no_room)
{
	SCOPED_TABLE table = {0};
	table_init(&table, THREE, 3, 0, false);
	assert_table(&table, "");
	add_three(&table, "A-1", "", "1.00");
	assert_table(&table, "Tag  Price\n"
			     "---  -----\n"
			     "A-1   1.00\n");
}

TEST(an_ending_goes_only_where_there_is_no_room)
{
	SCOPED_TABLE table = {0};
	char extra[80];
	table_init(&table, PLAIN, 3, 0, false);
	table_add(&table, HUE_NONE, "A", "");
	table_add(&table, HUE_NONE, "flare", ", red");
	table_add(&table, HUE_NONE, "", "");
	memset(extra, 'x', 79);
	extra[79] = '\0';
	table_add(&table, HUE_NONE, "B", "");
	table_add(&table, HUE_NONE, "light", extra);
	table_add(&table, HUE_NONE, "", "");
	assert_table(&table, "A  flare, red\n"
			     "B  light\n");
}

static void
add_random_words(unsigned *seed, struct text *out)
{
	static const char *const LETTERS[] = {
	    "a", "w", " ", "é", "救", "e\xCC\x81", "Ω", "\001", "\xFF", "\t", "-"};
	unsigned count = draw(seed, 60);
	for (unsigned i = 0; i < count; i++) {
		text_add(out, LETTERS[draw(seed, sizeof LETTERS / sizeof LETTERS[0])]);
	}
}

TEST(no_line_is_wider_than_the_page_or_ends_in_a_blank)
{
	static const struct table_column EIGHT[TABLE_COLUMNS_MAX] = {
	    {"one", 0, ALIGN_LEFT, false}, {"two", 0, ALIGN_RIGHT, false},
	    {"three", 12, ALIGN_LEFT, false}, {"four", 0, ALIGN_LEFT, true},
	    {"five", 0, ALIGN_LEFT, false}, {"six", 9, ALIGN_RIGHT, false},
	    {"seven", 0, ALIGN_LEFT, false}, {"eight", 0, ALIGN_LEFT, false}};
	unsigned seed = 7;
	for (int round = 0; round < 300; round++) {
		SCOPED_TABLE table = {0};
		SCOPED_TEXT words = {0};
		SCOPED_TEXT out = {0};
		size_t columns = 1 + (size_t)round % TABLE_COLUMNS_MAX;
		table_init(&table, EIGHT, columns, (size_t)round % 5, false);
		for (size_t i = 0; i < columns * 4; i++) {
			text_reset(&words);
			add_random_words(&seed, &words);
			table_add(&table, HUE_NONE, text_string(&words), "");
		}
		assert_int_equal(table_rows(&table), 4);
		table_write(&table, &out);
		assert_non_null(out.bytes);
		for (char *line = strtok(out.bytes, "\n"); line != NULL;
		     line = strtok(NULL, "\n")) {
			assert_true(utf8_columns(line) <= PAGE_COLUMNS);
			assert_true(line[strlen(line) - 1] != ' ');
		}
	}
}

TEST(money_has_its_currency_and_its_decimals)
{
	char buffer[MONEY_WORDS_SIZE];
	assert_string_equal(money_words(24900, "EUR", buffer), "EUR 249.00");
	assert_string_equal(money_words(5, "GBP", buffer), "GBP 0.05");
	assert_string_equal(money_words(0, "EUR", buffer), "EUR 0.00");
	assert_string_equal(money_words(12000, "JPY", buffer), "JPY 12000");
	assert_string_equal(money_words(1500, "TND", buffer), "TND 1.500");
	assert_string_equal(money_words(-1, "EUR", buffer), "");
}

RUN_TESTS(NULL, NULL)
