/* An answer composed once: what is written of it as text, as a page and as CSV. Expected
 * text is laid out by hand, as in table_test.c; markup follows from HTML's own elements,
 * CSV from RFC 4180. */
#include "report/reply.h"

#include "becket_test.h"

#include <string.h>

static const struct reply_column COLUMNS[] = {
    {.heading = "Tag", .type = CELL_TAG},
    {.heading = "What", .flexible = true},
    {.heading = "Price", .type = CELL_PRICE},
};

static void
compose(struct reply *reply, bool bare)
{
	reply_heading(reply, 2, "Amber Tern: one winter");
	reply_words(reply, VOICE_PLAIN, false, 0, "It costs EUR 9.00.");
	reply_words(reply, VOICE_PLAIN, true, 0, "");
	reply_heading(reply, 3, "Winter 2026");
	struct reply_table *table = reply_table(reply, COLUMNS, 3, bare);
	reply_cell(table, HUE_NONE, "FL-1");
	reply_cell(table, HUE_NONE, "flare <red>");
	reply_cell(table, HUE_NONE, "9.00");
	reply_words(reply, VOICE_CAUTION, true, 0, "The label decides.");
}

TEST(text_has_sentences_headings_and_tables_in_their_order)
{
	SCOPED_TEXT out = {0};
	SCOPED_REPLY(reply);
	compose(&reply, false);
	reply_text(&reply, false, &out);
	assert_string_equal(text_string(&out), "Amber Tern: one winter.\n"
					       "It costs EUR 9.00.\n"
					       "\n"
					       "Winter 2026\n"
					       "  Tag   What         Price\n"
					       "  ----  -----------  -----\n"
					       "  FL-1  flare <red>   9.00\n"
					       "\n"
					       "The label decides.\n");
}

TEST(a_bare_table_has_no_headings_in_text)
{
	SCOPED_TEXT out = {0};
	SCOPED_REPLY(reply);
	compose(&reply, true);
	reply_text(&reply, false, &out);
	assert_null(strstr(text_string(&out), "Tag"));
	assert_non_null(
	    strstr(text_string(&out), "Winter 2026\n  FL-1  flare <red>  9.00\n"));
}

static void
draw(const void *of, struct markup *markup)
{
	markup_element(markup, "figure", NULL, of);
}

TEST(a_page_has_the_same_words_escaped_headings_always_and_drawings)
{
	SCOPED_TEXT out = {0};
	SCOPED_REPLY(reply);
	struct markup *markup = NULL;
	compose(&reply, true);
	reply_drawing(&reply, draw, "drawn");
	markup_open("Years", NULL, &markup);
	reply_page(&reply, markup);
	markup_close(markup, &out);
	const char *body = strstr(text_string(&out), "<body>");
	assert_non_null(body);
	assert_string_equal(body,
	    "<body><h2>Amber Tern: one winter</h2><p>It costs EUR 9.00.</p>"
	    "<h3>Winter 2026</h3><table><thead><tr><th class=\"word\">Tag</th><th>What</th>"
	    "<th class=\"number word\">Price</th></tr></thead><tr>"
	    "<td class=\"word\">FL-1</td><td>flare &lt;red&gt;</td>"
	    "<td class=\"number word\">9.00</td></tr></table>"
	    "<p class=\"caution\">The label decides.</p><figure>drawn</figure>"
	    "</body></html>\n");
}

/* Of two answers in one the second begins after a blank line. */
TEST(a_second_heading_stands_apart)
{
	SCOPED_TEXT out = {0};
	SCOPED_REPLY(reply);
	reply_heading(&reply, 2, "Amber Tern");
	reply_heading(&reply, 1, "Grey Plover: shore list");
	reply_text(&reply, false, &out);
	assert_string_equal(
	    text_string(&out), "Amber Tern.\n\nGrey Plover: shore list\n");
}

static const struct reply_column TYPED[] = {
    {.heading = "Tag", .key = "tag", .type = CELL_TAG},
    {.heading = "What", .flexible = true},
    {.key = "kind"},
    {.heading = "State", .key = "state", .type = CELL_STATE},
    {.heading = "Due", .key = "due", .type = CELL_DAY},
    {.heading = "Pieces", .key = "pieces", .type = CELL_NUMBER},
    {.heading = "Price", .key = "price", .type = CELL_PRICE},
};

/* 2027-06-30 is 20999 days after 1970-01-01: 57 years, 14 leap days, 180 days. */
enum { LAST_OF_JUNE_2027 = 57 * 365 + 14 + 180 };

/* A row of which all is known, and one of which nothing is. */
static void
compose_typed(struct reply *reply)
{
	struct reply_table *table = REPLY_TABLE(reply, TYPED, LOOK_FLUSH | LOOK_APART);
	reply_cell(table, HUE_STRONG, "FL-1");
	reply_extra(table, HUE_NONE, "hand flare", ", red");
	reply_cell(table, HUE_NONE, "flare-red-hand");
	reply_coded(table, HUE_NONE, "past it", "expired");
	reply_day(table, HUE_NONE, LAST_OF_JUNE_2027, "");
	reply_number(table, HUE_NONE, 4, "");
	reply_price(table, 24900, "EUR");
	reply_cell(table, HUE_STRONG, "A, B");
	reply_cell(table, HUE_NONE, "raft");
	reply_cell(table, HUE_NONE, "");
	reply_coded(table, HUE_NONE, "open", "");
	reply_day(table, HUE_NONE, DAY_NONE, "not known");
	reply_number(table, HUE_NONE, -1, "hers");
	reply_price(table, -1, "EUR");
}

TEST(typed_cells_have_words_for_people)
{
	SCOPED_TEXT out = {0};
	SCOPED_REPLY(reply);
	reply_remark(&reply, VOICE_CARE, 2, "short of 1: rafts.");
	compose_typed(&reply);
	reply_text(&reply, false, &out);
	assert_string_equal(text_string(&out),
	    "  short of 1: rafts.\n"
	    "\n"
	    "Tag   What             State    Due          Pieces   Price\n"
	    "----  ---------------  -------  -----------  ------  ------\n"
	    "FL-1  hand flare, red  past it  30 Jun 2027       4  249.00\n"
	    "A, B  raft             open     not known      hers\n");
}

TEST(csv_has_the_columns_with_keys_and_what_programs_read)
{
	SCOPED_TEXT out = {0};
	SCOPED_REPLY(reply);
	compose(&reply, false);
	compose_typed(&reply);
	reply_caution(&reply);
	reply_csv(&reply, &out);
	assert_string_equal(text_string(&out),
	    "tag,kind,state,due,pieces,price\r\n"
	    "FL-1,flare-red-hand,expired,2027-06-30,4,249.00\r\n"
	    "\"A, B\",,,,,\r\n");
}

/* As one table: a list by vessel is one list to a spreadsheet. */
TEST(csv_has_one_row_of_keys_for_tables_of_the_same_columns)
{
	static const struct reply_column KEYED[] = {{.heading = "Boat", .key = "vessel"}};
	SCOPED_TEXT out = {0};
	SCOPED_REPLY(reply);
	reply_cell(REPLY_TABLE(&reply, KEYED, 0), HUE_NONE, "Amber Tern");
	reply_heading(&reply, 3, "At Holm Quay");
	reply_cell(REPLY_TABLE(&reply, KEYED, 0), HUE_NONE, "Grey Plover");
	reply_csv(&reply, &out);
	assert_string_equal(text_string(&out), "vessel\r\nAmber Tern\r\nGrey Plover\r\n");
}

/* In text the one goes on below its first line's beginning, the other two blanks further in; a
 * heading of level 3 is broken as a paragraph is, at sixty columns here. */
TEST(blocks_remarks_and_long_headings_keep_to_the_width)
{
	SCOPED_TEXT out = {.columns = 60};
	SCOPED_REPLY(reply);
	reply_heading(&reply, 3,
	    "Sula Isles: liferaft in a valise for six persons, in lots of two");
	reply_block(&reply, 2,
	    "One spare is needed; without, some day would not hold in any plan.");
	reply_remark(&reply, VOICE_PLAIN, 2,
	    "Curlew from 2 January 2027: one lifejacket for every person aboard");
	reply_block(&reply, 2, "");
	reply_text(&reply, false, &out);
	assert_string_equal(text_string(&out),
	    "\n"
	    "Sula Isles: liferaft in a valise for six persons, in lots of\n"
	    "  two\n"
	    "  One spare is needed; without, some day would not hold in\n"
	    "  any plan.\n"
	    "  Curlew from 2 January 2027: one lifejacket for every\n"
	    "    person aboard\n");
}

TEST(a_long_table_keeps_each_row_in_its_place)
{
	static const struct reply_column NUMBERED[] = {
	    {.heading = "Number", .key = "number", .type = CELL_NUMBER}, {.key = "twice"},
	    {.key = "words"}};
	SCOPED_TEXT out = {0};
	SCOPED_TEXT expected = {0};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, NUMBERED, LOOK_FLUSH);
	text_add(&expected, "number,twice,words\r\n");
	for (int row = 0; row < 500; row++) {
		reply_number(table, HUE_NONE, row, "");
		text_add_format(&words, "%d", 2 * row);
		reply_take(table, HUE_NONE, &words);
		assert_int_equal(words.length, 0);
		reply_row_end(table);
		text_add_format(&expected, "%d,%d,\r\n", row, 2 * row);
	}
	reply_csv(&reply, &out);
	assert_string_equal(text_string(&out), text_string(&expected));
}

TEST(words_that_are_said_are_a_paragraph_and_then_empty)
{
	SCOPED_TEXT out = {0};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	text_add(&words, "One.");
	reply_say(&reply, false, &words);
	reply_say(&reply, true, &words);
	text_add(&words, "Two.");
	reply_say(&reply, true, &words);
	reply_text(&reply, false, &out);
	assert_string_equal(text_string(&out), "One.\n\nTwo.\n");
}

RUN_TESTS(NULL, NULL)
