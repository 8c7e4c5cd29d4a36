/* Lists as they come: character sets, and spreadsheet files of the least size that ECMA-376 and
 * OpenDocument 1.3 allow, put together here with libzip. What LibreOffice makes of such files
 * is tests/outside/workbook_libreoffice_test.py. */
#include "becket_test.h"
#include "exchange/list_inside.h"

#include <string.h>
#include <zip.h>

struct list {
	struct arena arena;
	struct csv_notes notes;
	struct list_how how;
	struct text rows; /* "1: a|b" a line each */
	struct fault fault;
};

static int
set_up(void **state)
{
	static const struct list EMPTY = {0};
	struct list *list = test_malloc(sizeof *list);
	*list = EMPTY;
	list->notes.arena = &list->arena;
	*state = list;
	return 0;
}

static int
tear_down(void **state)
{
	struct list *list = *state;
	csv_notes_clear(&list->notes);
	text_clear(&list->rows);
	arena_clear(&list->arena);
	test_free(list);
	return 0;
}

#define PREPARED_TEST(name) TEST_OF(struct list, list, name, set_up, tear_down)

static bool
take_row(const struct csv_cells *cells, void *context, struct fault *fault)
{
	(void)fault;
	struct text *rows = context;
	text_add_format(rows, "%zu: ", cells->line);
	for (size_t i = 0; i < cells->count; i++) {
		text_add_format(rows, "%s%s", i > 0 ? "|" : "", cells->items[i].text);
	}
	text_add(rows, "\n");
	return true;
}

static bool
scan(struct list *list, const char *bytes, size_t length)
{
	const struct csv_source source = {
	    .name = "list", .bytes = bytes, .length = length};
	struct csv_stop stop = {0};
	const struct csv_taker taker = {take_row, &list->rows};
	return list_scan(
	    &source, &list->how, &list->arena, taker, &list->notes, &stop, &list->fault);
}

static void
assert_rows(struct list *list, const char *bytes, size_t length, const char *expected)
{
	if (!scan(list, bytes, length)) {
		fail_msg("refused: %s", list->fault.text);
	}
	assert_string_equal(text_string(&list->rows), expected);
}

static void
assert_refused(struct list *list, const char *bytes, size_t length, const char *words)
{
	assert_false(scan(list, bytes, length));
	assert_int_equal(list->fault.kind, FAULT_INPUT);
	assert_string_equal(list->fault.text, words);
}

/* ---- archives ---- */

struct entry {
	const char *name;
	const char *text;
};

/* The archive's bytes, in the list's arena. */
static const char *
zip_of(struct list *list, const struct entry *entries, size_t count, size_t *length_out)
{
	zip_error_t error;
	zip_error_init(&error);
	zip_source_t *whole = zip_source_buffer_create(NULL, 0, 0, &error);
	zip_t *zip = zip_open_from_source(whole, ZIP_TRUNCATE, &error);
	assert_non_null(zip);
	zip_source_keep(whole);
	for (size_t i = 0; i < count; i++) {
		zip_source_t *text =
		    zip_source_buffer(zip, entries[i].text, strlen(entries[i].text), 0);
		assert_true(zip_file_add(zip, entries[i].name, text, 0) >= 0);
	}
	assert_int_equal(zip_close(zip), 0);
	assert_int_equal(zip_source_open(whole), 0);
	zip_source_seek(whole, 0, SEEK_END);
	zip_int64_t length = zip_source_tell(whole);
	zip_source_seek(whole, 0, SEEK_SET);
	char *bytes = arena_alloc(&list->arena, (size_t)length);
	assert_int_equal(zip_source_read(whole, bytes, (zip_uint64_t)length), length);
	zip_source_close(whole);
	zip_source_free(whole);
	zip_error_fini(&error);
	*length_out = (size_t)length;
	return bytes;
}

#define WORKBOOK(properties, sheets)                                                     \
	"<workbook xmlns:r='r'>" properties "<sheets>" sheets "</sheets></workbook>"
#define SHEET(rows) "<worksheet><sheetData>" rows "</sheetData></worksheet>"

static const char RELATIONS[] =
    "<Relationships><Relationship Id='r1' Target='worksheets/sheet1.xml'/>"
    "<Relationship Id='r2' Target='/xl/worksheets/sheet2.xml'/></Relationships>";

/* Styles 0 to 6: General, the built-in 14 and 17, and formats of the file's own. */
static const char STYLES[] =
    "<styleSheet><numFmts>"
    "<numFmt numFmtId='164' formatCode='mm/yyyy'/>"
    "<numFmt numFmtId='165' formatCode='yyyy'/>"
    "<numFmt numFmtId='166' formatCode='[$-407]d. mmmm yyyy;@'/>"
    "<numFmt numFmtId='167' formatCode='0.00&quot; days&quot;'/></numFmts>"
    "<cellStyleXfs><xf numFmtId='14'/></cellStyleXfs>"
    "<cellXfs><xf numFmtId='0'/><xf numFmtId='14'/><xf numFmtId='17'/>"
    "<xf numFmtId='164'/><xf numFmtId='165'/><xf numFmtId='166'/>"
    "<xf numFmtId='167'/></cellXfs></styleSheet>";

static const char STRINGS[] =
    "<sst><si><t>Liferaft</t></si><si><r><t>Red </t></r><r><t>flare</t></r>"
    "<rPh><t>guide</t></rPh></si></sst>";

static void
assert_xlsx(struct list *list, const char *workbook, const char *sheet, const char *rows)
{
	const struct entry entries[] = {{"[Content_Types].xml", "<Types/>"},
	    {"xl/workbook.xml", workbook}, {"xl/_rels/workbook.xml.rels", RELATIONS},
	    {"xl/styles.xml", STYLES}, {"xl/sharedStrings.xml", STRINGS},
	    {"xl/worksheets/sheet1.xml", sheet},
	    {"xl/worksheets/sheet2.xml", SHEET("<row><c><v>2</v></c></row>")}};
	size_t length = 0;
	const char *bytes =
	    zip_of(list, entries, sizeof entries / sizeof entries[0], &length);
	assert_rows(list, bytes, length, rows);
}

#define ONE_SHEET WORKBOOK("", "<sheet name='Gear' r:id='r1'/>")

PREPARED_TEST(a_cell_is_put_where_its_reference_says)
{
	assert_xlsx(list, ONE_SHEET,
	    SHEET("<row r='3'><c r='B3'><v>1</v></c><c r='D3'><v>2.50</v></c></row>"
		  "<row r='7'><c><v>7</v></c><c><v>8</v></c></row>"),
	    "3: |1||2.5\n7: 7|8\n");
}

PREPARED_TEST(texts_are_shared_inline_or_what_a_formula_gave)
{
	assert_xlsx(list, ONE_SHEET,
	    SHEET("<row><c t='s'><v>0</v></c><c t='s'><v>1</v></c>"
		  "<c t='inlineStr'><is><t>in</t></is></c>"
		  "<c t='str'><f>A1&amp;1</f><v>Liferaft1</v></c>"
		  "<c t='b'><v>1</v></c><c t='e'><v>#N/A</v></c></row>"),
	    "1: Liferaft|Red flare|in|Liferaft1|TRUE|#N/A\n");
}

/* 46539 is 2027-06-01: 46173 is 2026-05-31 in a spreadsheet's count (1 is 1900-01-01, and
 * there is a 1900-02-29), and 366 days on. */
PREPARED_TEST(a_date_is_no_finer_than_its_cell_shows_it)
{
	assert_xlsx(list, ONE_SHEET,
	    SHEET("<row><c s='0'><v>46539</v></c><c s='1'><v>46539</v></c>"
		  "<c s='2'><v>46539</v></c><c s='3'><v>46539</v></c>"
		  "<c s='4'><v>46539</v></c><c s='5'><v>46539.75</v></c>"
		  "<c s='6'><v>45.100000000000001</v></c></row>"),
	    "1: 46539|2027-06-01|2027-06|2027-06|2027|2027-06-01|45.1\n");
}

/* The older count of days begins 1462 days later (ECMA-376 part 1, section 18.17.4.1). */
PREPARED_TEST(days_may_count_from_1904)
{
	assert_xlsx(list,
	    WORKBOOK("<workbookPr date1904='1'/>", "<sheet name='Gear' r:id='r1'/>"),
	    SHEET("<row><c s='1'><v>45077</v></c></row>"), "1: 2027-06-01\n");
}

PREPARED_TEST(the_first_worksheet_that_is_shown_is_read_and_named)
{
	assert_xlsx(list,
	    WORKBOOK("", "<sheet name='Old' state='hidden' r:id='r1'/>"
			 "<sheet name='Gear' r:id='r2'/>"),
	    SHEET("<row><c><v>1</v></c></row>"), "1: 2\n");
	assert_string_equal(text_string(&list->notes.text),
	    "worksheet \"Gear\" read, and not \"Old\": --worksheet NAME reads another\n");
}

PREPARED_TEST(a_worksheet_is_read_by_its_name)
{
	list->how.worksheet = "Old";
	assert_xlsx(list,
	    WORKBOOK("", "<sheet name='Gear' r:id='r1'/><sheet name='Old' r:id='r2'/>"),
	    SHEET("<row><c><v>1</v></c></row>"), "1: 2\n");
}

#define ODS(styles, rows)                                                                \
	"<d xmlns:office='o' xmlns:table='t' xmlns:style='s' xmlns:number='n' "          \
	"xmlns:text='x'>" styles "<table:table table:name='Gear'>" rows                  \
	"</table:table></d>"

static void
assert_ods(struct list *list, const char *content, const char *rows)
{
	const struct entry entries[] = {{"content.xml", content}};
	size_t length = 0;
	const char *bytes = zip_of(list, entries, 1, &length);
	assert_rows(list, bytes, length, rows);
}

PREPARED_TEST(an_ods_shows_dates_as_its_styles_do)
{
	assert_ods(list,
	    ODS("<number:date-style style:name='N1'><number:month/><number:year/>"
		"</number:date-style>"
		"<style:style style:name='ce1' style:data-style-name='N1'/>",
		"<table:table-column/><table:table-column "
		"table:default-cell-style-name='ce1'/><table:table-row><table:table-cell "
		"office:value-type='date' office:date-value='2027-06-01'/>"
		"<table:table-cell office:value-type='date' "
		"office:date-value='2027-06-01T00:00:00'/>"
		"<table:table-cell office:value-type='float' office:value='45.10'>"
		"<text:p>EUR 45,10</text:p></table:table-cell></table:table-row>"),
	    "1: 2027-06-01|2027-06|45.1\n");
}

PREPARED_TEST(an_ods_counts_repeated_rows_and_cells)
{
	assert_ods(list,
	    ODS("", "<table:table-row table:number-rows-repeated='3'/><table:table-row>"
		    "<table:table-cell table:number-columns-repeated='2'/>"
		    "<table:table-cell table:number-columns-repeated='2'>"
		    "<text:p>a</text:p><text:p>b<text:s text:c='2'/>c</text:p>"
		    "<office:annotation><text:p>pinned</text:p></office:annotation>"
		    "</table:table-cell></table:table-row>"),
	    "4: ||a\nb  c|a\nb  c\n");
}

/* ---- refused ---- */

PREPARED_TEST(a_document_type_is_refused_and_its_entities_with_it)
{
	const struct entry entries[] = {{"content.xml",
	    "<!DOCTYPE d [<!ENTITY e 'ha'>]>" ODS("", "<table:table-row/>")}};
	size_t length = 0;
	const char *bytes = zip_of(list, entries, 1, &length);
	assert_refused(list, bytes, length,
	    "list: its part content.xml can't be read; it is damaged, encrypted or too "
	    "large");
}

PREPARED_TEST(an_archive_that_is_no_spreadsheet_is_refused)
{
	const struct entry entries[] = {{"readme.txt", "no list"}};
	size_t length = 0;
	const char *bytes = zip_of(list, entries, 1, &length);
	assert_refused(list, bytes, length,
	    "list: it is an archive, and no spreadsheet; expected .xlsx, .ods or CSV");
}

PREPARED_TEST(an_older_or_encrypted_spreadsheet_is_refused_by_what_it_is)
{
	assert_refused(list, "\xD0\xCF\x11\xE0\xA1\xB1", 6,
	    "list: it is an older spreadsheet (.xls), or one with a password; expected "
	    ".xlsx, .ods or CSV: open it, and save it as one of these");
}

/* ---- texts ---- */

PREPARED_TEST(what_is_not_utf8_is_read_as_windows_1252_and_told)
{
	assert_rows(
	    list, "what\nraft\nS\xFC\x64 boat\n", 18, "1: what\n2: raft\n3: Süd boat\n");
	assert_string_equal(text_string(&list->notes.text),
	    "line 3: it is not UTF-8, so it is read as Windows-1252: \"Süd\"; if that is "
	    "not as it should be, name its character set: --encoding ISO-8859-15\n");
}

/* The byte A4 is the euro in ISO 8859-15; in Windows-1252 it is a sign that no list has,
 * and the euro is 80. */
PREPARED_TEST(a_euro_of_latin_9_is_one)
{
	assert_rows(list, "what\nS\xFC\x64 45 \xA4\n", 14, "1: what\n2: Süd 45 €\n");
	text_reset(&list->rows);
	assert_rows(list, "what\nS\xFC\x64 45 \x80\n", 14, "1: what\n2: Süd 45 €\n");
}

PREPARED_TEST(utf16_is_told_by_its_mark_or_by_its_zeros)
{
	assert_rows(list,
	    "\xFF\xFE"
	    "a\0,\0\xE5\0\n",
	    10, "1: a|å\n");
	text_reset(&list->rows);
	assert_rows(list, "\0a\0,\0b\0\n", 8, "1: a|b\n");
}

/* In ISO 8859-7 the byte E1 is a small alpha. */
PREPARED_TEST(a_character_set_that_is_named_is_used)
{
	list->how.character_set = "ISO-8859-7";
	assert_rows(list, "\xE1\n", 2, "1: α\n");
}

PREPARED_TEST(a_character_set_that_is_not_known_is_refused)
{
	list->how.character_set = "MARTIAN";
	assert_refused(list, "\xE1\n", 2,
	    "\"MARTIAN\" is no character set that this machine knows; expected one such "
	    "as UTF-8, WINDOWS-1252 or ISO-8859-15 (iconv -l lists them)");
}

PREPARED_TEST(a_first_line_may_name_the_separator)
{
	assert_rows(list, "sep=;\r\na,b;c\r\n", 14, "2: a,b|c\n");
}

/* RFC 4180, section 2: lines that end in any way, cells that are empty at either end, a
 * line break in quotes; a line with nothing in it is no row. The rows by hand. */
PREPARED_TEST(lines_with_and_without_quotes_are_cut_alike)
{
	static const char TEXT[] =
	    "a,b,,\r\n\r\n,x\n\"q\nr\",s,\"\"\r y ,\"z,z\"\n\nlast,line";
	assert_rows(list, TEXT, sizeof TEXT - 1,
	    "1: a|b||\n3: |x\n4: q\nr|s|\n6:  y |z,z\n8: last|line\n");
}

/* Every row of up to three cells drawn from a few: once plain, once with each cell in quotes. */
PREPARED_TEST(a_row_is_the_same_with_its_cells_in_quotes)
{
	static const char *const CELLS[] = {"", "a", " b ", "\xC3\xA4;", "c\td"};
	static const char *const ENDS[] = {"\n", "\r\n", "\r", ""};
	for (int number = 1; number < 6 * 6 * 6 * 4; number++) {
		SCOPED_TEXT plain = {0};
		SCOPED_TEXT quoted = {0};
		SCOPED_TEXT rows = {0};
		text_add(&plain, "head,row\n");
		text_add(&quoted, "\"head\",\"row\"\n");
		int cells = 0;
		size_t before = plain.length;
		for (int left = number / 4; left > 0; left /= 6) {
			if (left % 6 > 0) {
				const char *cell = CELLS[left % 6 - 1];
				text_add_format(
				    &plain, "%s%s", cells > 0 ? "," : "", cell);
				text_add_format(
				    &quoted, "%s\"%s\"", cells > 0 ? "," : "", cell);
				cells++;
			}
		}
		if (plain.length == before) {
			continue; /* no row at all without quotes */
		}
		text_add(&plain, ENDS[number % 4]);
		text_add(&quoted, ENDS[number % 4]);
		text_reset(&list->rows);
		assert_true(scan(list, plain.bytes, plain.length));
		text_add(&rows, text_string(&list->rows));
		text_reset(&list->rows);
		assert_rows(list, quoted.bytes, quoted.length, text_string(&rows));
	}
}

/* A list in a spool, which is read 64 KiB at a time, has the rows and the notes that it
 * has in memory, wherever a piece of it ends: in a line end of two bytes, in a letter, in
 * quotes. */
static void
assert_same_from_a_spool(struct list *list, const struct text *bytes)
{
	struct csv_stop stops[2] = {{0}, {0}};
	SCOPED_SPOOL spool = {0};
	struct text said[2] = {{0}, {0}};
	spool_add(&spool, bytes->bytes, bytes->length);
	for (size_t i = 0; i < 2; i++) {
		struct csv_source source = {.name = "list", .length = bytes->length};
		source.bytes = i == 0 ? bytes->bytes : NULL;
		source.spool = &spool;
		text_reset(&list->rows);
		text_reset(&list->notes.text);
		bool done = list_scan(&source, &list->how, NULL,
		    (struct csv_taker){take_row, &list->rows}, &list->notes, &stops[i],
		    &list->fault);
		assert_true(done);
		text_add(&said[i], text_string(&list->rows));
		text_add(&said[i], text_string(&list->notes.text));
	}
	assert_true(said[0].length > bytes->length / 2);
	assert_true(strcmp(text_string(&said[0]), text_string(&said[1])) == 0);
	assert_int_equal(stops[0].line, stops[1].line);
	text_clear(&said[0]);
	text_clear(&said[1]);
}

PREPARED_TEST(a_list_in_a_spool_is_read_as_one_in_memory)
{
	static const char *const LINES[] = {"ab;\xC3\xA4\xE6\x95\x91;\"x\r\ny\"\r\n",
	    "a;\"\"\"\";\xF0\x9F\x9B\x9F\r", "Gr\xFC\xDF!;b;c\r\n", "a;\"b\" c\n"};
	for (size_t kind = 0; kind < 4; kind++) {
		size_t cycle = strlen(LINES[kind]);
		for (size_t before = 0; before < cycle; before++) {
			SCOPED_TEXT bytes = {0};
			text_add_bytes(
			    &bytes, &"head of it all;;\n"[before % 3], 17 - before % 3);
			for (size_t i = 0; i < before; i++) {
				text_add(&bytes, "-");
			}
			text_add(&bytes, ";;\n");
			while (bytes.length < 70 * 1024) {
				text_add(&bytes, kind == 3 && bytes.length < 66 * 1024
						     ? "a;b;c\n"
						     : LINES[kind]);
			}
			assert_same_from_a_spool(list, &bytes);
		}
	}
}

PREPARED_TEST(a_long_line_and_an_utf16_list_come_whole_from_a_spool)
{
	SCOPED_TEXT line = {0};
	SCOPED_TEXT wide = {0};
	text_add(&line, "sep=;\n");
	for (size_t i = 0; i < 40000; i++) {
		text_add(&line, i % 2 == 0 ? "abcde,;" : "\"f\ng\";");
		text_add_bytes(&wide, i % 10 == 9 ? "\n\0" : ",\0", 2);
		text_add_bytes(&wide, "x\0", 2);
	}
	assert_same_from_a_spool(list, &line);
	assert_same_from_a_spool(list, &wide);
}

RUN_TESTS(NULL, NULL)
