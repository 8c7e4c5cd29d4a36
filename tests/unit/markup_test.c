/* Pages: escaped whatever is put in, well-formed, and the same for HTML and XML parsers. */
#include "report/markup.h"

#include "becket_test.h"

#include <string.h>

/* A page with one paragraph of this text and an attribute of it. */
static void
page_of(const char *words, struct text *out)
{
	struct markup *markup = NULL;
	markup_open("Docket", NULL, &markup);
	markup_begin(markup, "p");
	markup_attribute(markup, "title", words);
	markup_text(markup, words);
	markup_end(markup);
	markup_close(markup, out);
}

/* The words become an attribute and a text, and these are all there is of the page's body. */
static void
assert_written(const char *words, const char *value, const char *text)
{
	SCOPED_TEXT page = {0};
	SCOPED_TEXT wanted = {0};
	page_of(words, &page);
	text_add_format(
	    &wanted, "<body><p title=\"%s\">%s</p></body></html>\n", value, text);
	const char *body = strstr(text_string(&page), "<body>");
	assert_non_null(body);
	assert_string_equal(body, text_string(&wanted));
}

/* The text alone: libxml2 may write a letter of a value as its number. */
static void
assert_text(const char *words, const char *text)
{
	SCOPED_TEXT page = {0};
	SCOPED_TEXT wanted = {0};
	page_of(words, &page);
	text_add_format(&wanted, "\">%s</p></body></html>\n", text);
	const char *paragraph = strstr(text_string(&page), "<body><p title=\"");
	assert_non_null(paragraph);
	assert_string_equal(strstr(paragraph, "\">"), text_string(&wanted));
}

TEST(text_and_values_are_escaped)
{
	assert_written("<script>alert('x')</script>",
	    "&lt;script&gt;alert('x')&lt;/script&gt;",
	    "&lt;script&gt;alert('x')&lt;/script&gt;");
	assert_written(
	    "a \"b\" & c", "a &quot;b&quot; &amp; c", "a &quot;b&quot; &amp; c");
}

TEST(letters_of_every_script_stay)
{
	assert_text(
	    "Blåskjell Ωμέγα 救命 🛟", "Blåskjell Ωμέγα 救命 🛟");
}

TEST(a_date_that_is_kept_whole_stays_whole)
{
	/* blanks written as GLUE; U+00A0 is the blank at which no line breaks */
	assert_text("on 25\001Nov\0012026.", "on 25\xC2\xA0Nov\xC2\xA0"
					     "2026.");
}

TEST(what_no_page_can_carry_is_left_out)
{
	assert_written("a\x02\x1b[31mb\x7f", "a[31mb", "a[31mb");
	assert_written("a\xff\xc3(b", "a(b", "a(b");
	assert_written("a\xef\xbf\xbf"
		       "b",
	    "ab", "ab");
}

TEST(an_empty_element_gets_an_end_tag_and_a_void_one_none)
{
	struct markup *markup = NULL;
	SCOPED_TEXT page = {0};
	markup_open("Tags", NULL, &markup);
	markup_element(markup, "td", "box", "");
	markup_begin(markup, "br");
	markup_end(markup);
	markup_close(markup, &page);
	const char *body = strstr(text_string(&page), "<body>");
	assert_non_null(body);
	assert_string_equal(body, "<body><td class=\"box\"></td><br/></body></html>\n");
}

TEST(a_page_taken_piece_by_piece_is_the_same)
{
	struct markup *markup = NULL;
	SCOPED_TEXT whole = {0};
	SCOPED_TEXT taken = {0};
	page_of("a raft", &whole);
	markup_open("Docket", NULL, &markup);
	markup_begin(markup, "p");
	markup_attribute(markup, "title", "a raft");
	markup_text(markup, "a ");
	markup_take(markup, &taken);
	size_t first = taken.length;
	markup_text(markup, "raft");
	markup_end(markup);
	markup_take(markup, &taken);
	assert_true(first > 0 && taken.length > first);
	markup_close(markup, &taken);
	assert_string_equal(text_string(&taken), text_string(&whole));
}

TEST(a_page_begins_as_html_in_the_house_style)
{
	SCOPED_TEXT page = {0};
	page_of("x", &page);
	const char *text = text_string(&page);
	assert_int_equal(strncmp(text, "<!DOCTYPE html>", 15), 0);
	assert_non_null(strstr(text, "<meta charset=\"utf-8\"/>"));
	assert_non_null(strstr(text, "@page { size: A4;"));
	assert_non_null(strstr(text, "</p></body></html>\n"));
}

RUN_TESTS(NULL, NULL)
