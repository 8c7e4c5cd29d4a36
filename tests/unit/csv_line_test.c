/* Cells of CSV: quoted where RFC 4180 says so (section 2, rules 5 to 7: commas, quotes, line
 * breaks; a quote doubled), and where readers that take other separators, or trim, would change
 * them: which those are is common practice. */
#include "base/csv_line.h"

#include "becket_test.h"

static void
assert_written(const char *cell, const char *expected)
{
	SCOPED_TEXT out = {0};
	struct csv_line line = {.out = &out};
	csv_line_cell(&line, cell);
	assert_string_equal(text_string(&out), expected);
}

TEST(a_separator_of_any_reader_is_quoted)
{
	assert_written("hose, hook", "\"hose, hook\"");
	assert_written("hose;hook", "\"hose;hook\"");
	assert_written("hose\thook", "\"hose\thook\"");
	assert_written(";", "\";\"");
}

TEST(a_quote_is_doubled)
{
	assert_written("\"", "\"\"\"\"");
	assert_written("say \"aboard\"", "\"say \"\"aboard\"\"\"");
}

TEST(a_line_break_of_either_kind_is_quoted)
{
	assert_written("one\ntwo", "\"one\ntwo\"");
	assert_written("one\rtwo", "\"one\rtwo\"");
	assert_written("one\r\ntwo", "\"one\r\ntwo\"");
}

TEST(a_blank_at_either_end_is_quoted)
{
	assert_written(" raft", "\" raft\"");
	assert_written("raft ", "\"raft \"");
	assert_written(" ", "\" \"");
}

/* The signs are those of OWASP's page "CSV Injection". */
TEST(what_a_spreadsheet_would_run_gets_a_quote_mark_when_disarmed)
{
	static const struct {
		const char *cell;
		const char *plain;
		const char *disarmed;
	} CASES[] = {
	    {"=SUM(A1)", "=SUM(A1)", "'=SUM(A1)"},
	    {"+1", "+1", "'+1"},
	    {"-1", "-1", "'-1"},
	    {"@x", "@x", "'@x"},
	    {"\tx", "\"\tx\"", "\"'\tx\""},
	    {"\rx", "\"\rx\"", "\"'\rx\""},
	    {"\nx", "\"\nx\"", "\"'\nx\""},
	    {"\xEF\xBC\x9D"
	     "x",
		"\xEF\xBC\x9D"
		"x",
		"'\xEF\xBC\x9D"
		"x"},
	    /* lest it could not be told from the first when it is read back */
	    {"'=SUM(A1)", "'=SUM(A1)", "''=SUM(A1)"},
	    {"'tis", "'tis", "'tis"},
	    {"a=b", "a=b", "a=b"},
	    {"", "", ""},
	};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		SCOPED_TEXT out = {0};
		struct csv_line line = {.out = &out, .disarmed = true};
		assert_written(CASES[i].cell, CASES[i].plain);
		csv_line_cell(&line, CASES[i].cell);
		assert_string_equal(text_string(&out), CASES[i].disarmed);
	}
}

TEST(other_cells_are_written_as_they_are)
{
	assert_written("", "");
	assert_written("grab bag", "grab bag");
	assert_written("it's 1/2 full: 33 g", "it's 1/2 full: 33 g");
	assert_written("gr\xC3\xBC\xC3\x9F", "gr\xC3\xBC\xC3\x9F");
}

TEST(a_row_has_a_comma_between_cells_and_ends_with_cr_lf)
{
	SCOPED_TEXT out = {0};
	struct csv_line line = {.out = &out};
	csv_line_cell(&line, "");
	csv_line_cell(&line, "a;b");
	csv_line_cell(&line, "");
	csv_line_end(&line);
	csv_line_cell(&line, "c");
	csv_line_end(&line);
	assert_string_equal(text_string(&out), ",\"a;b\",\r\nc\r\n");
}

RUN_TESTS(NULL, NULL)
