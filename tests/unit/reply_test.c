/* An answer composed once: what is written of it as text and as a page. Expected text is laid out
 * by hand, as in table_test.c; markup follows from HTML's own elements. */
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

static void
text_has_sentences_headings_and_tables_in_their_order(void **state)
{
	(void)state;
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT out = {0};
	struct reply reply = {.arena = &arena};
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

static void
a_bare_table_has_no_headings_in_text(void **state)
{
	(void)state;
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT out = {0};
	struct reply reply = {.arena = &arena};
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

static void
a_page_has_the_same_words_escaped_headings_always_and_drawings(void **state)
{
	(void)state;
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT out = {0};
	struct reply reply = {.arena = &arena};
	struct markup *markup = NULL;
	compose(&reply, true);
	reply_drawing(&reply, draw, "drawn");
	markup_open("Years", &markup);
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
static void
a_second_heading_stands_apart(void **state)
{
	(void)state;
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT out = {0};
	struct reply reply = {.arena = &arena};
	reply_heading(&reply, 2, "Amber Tern");
	reply_heading(&reply, 2, "Grey Plover");
	reply_text(&reply, false, &out);
	assert_string_equal(text_string(&out), "Amber Tern.\n\nGrey Plover.\n");
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
	    cmocka_unit_test(text_has_sentences_headings_and_tables_in_their_order),
	    cmocka_unit_test(a_bare_table_has_no_headings_in_text),
	    cmocka_unit_test(
		a_page_has_the_same_words_escaped_headings_always_and_drawings),
	    cmocka_unit_test(a_second_heading_stands_apart),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
