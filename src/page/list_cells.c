/* Bring a list: its cells that are to be mended, and how its columns are read. */
#include "exchange/inventory_csv.h"
#include "page/taking_in.h"
#include "report/words.h"

#include <stdio.h>
#include <string.h>

/* Room for "fix." and two numbers. */
enum { NAME_SIZE = 64 };

static const char *
cell_name(const struct csv_bad_cell *cell, char name[NAME_SIZE])
{
	(void)snprintf(name, NAME_SIZE, "fix.%zu.%zu", cell->line, cell->cell);
	return name;
}

/* True when what a header means is asked in a place of its own. */
static bool
is_doubted(const struct list_page *page, const char *head)
{
	for (size_t i = 0; i < page->doubts.count; i++) {
		const struct csv_doubt *doubt = &page->doubts.items[i];
		if (doubt->about == DOUBT_HEADER && strcmp(doubt->theirs, head) == 0) {
			return true;
		}
	}
	return false;
}

static bool
shows_column(const struct list_page *page, const struct csv_column_read *column)
{
	return column->head[0] != '\0' && !is_doubted(page, column->head);
}

/* True when words for a kind stand in the rows of a question of their own. */
static bool
shows_words(const struct list_page *page, const struct csv_words_read *words)
{
	for (size_t i = 0; i < page->doubts.count; i++) {
		const struct csv_doubt *doubt = &page->doubts.items[i];
		if ((doubt->about == DOUBT_KIND || doubt->about == DOUBT_NO_GEAR) &&
		    strcmp(doubt->theirs, words->theirs) == 0) {
			return false;
		}
	}
	return true;
}

/* The words for kinds that are shown: so many at a time. */
static struct list_part
words_part(const struct list_page *page)
{
	enum { WORDS_AT_ONCE = 60 };

	return list_part_of(page, "words", WORDS_AT_ONCE, page->doubts.words.count);
}

bool
list_asks_cell(const struct list_page *page, const char *name)
{
	char own[NAME_SIZE];
	const char *head = strncmp(name, "map.", 4) == 0 ? name + 4 : NULL;
	for (size_t i = 0; i < page->doubts.cells.count; i++) {
		if (strcmp(cell_name(&page->doubts.cells.items[i], own), name) == 0) {
			return true;
		}
	}
	const char *said = strncmp(name, "means.", 6) == 0 ? name + 6 : NULL;
	const struct list_part part = words_part(page);
	for (size_t i = part.from; said != NULL && i < part.to; i++) {
		const struct csv_words_read *words = &page->doubts.words.items[i];
		if (strcmp(words->theirs, said) == 0 && shows_words(page, words)) {
			return true;
		}
	}
	for (size_t i = 0; head != NULL && i < page->doubts.columns.count; i++) {
		const struct csv_column_read *column = &page->doubts.columns.items[i];
		if (strcmp(column->head, head) == 0 && shows_column(page, column)) {
			return true;
		}
	}
	return false;
}

/* What stands in the row as the list has it, the bad cell framed. */
static void
write_sheet_row(struct markup *markup, const struct csv_bad_cell *bad)
{
	markup_begin_class(markup, "div", "sheetrow");
	for (size_t i = 0; i < bad->count; i++) {
		if (bad->texts[i][0] == '\0' && i != bad->cell) {
			continue;
		}
		markup_begin_class(markup, "span", i == bad->cell ? "bad" : NULL);
		markup_element(markup, "i", NULL, bad->heads[i]);
		markup_text(markup, bad->texts[i]);
		markup_end(markup);
	}
	markup_end(markup);
}

static void
write_cell(struct list_page *page, const struct csv_bad_cell *bad)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	SCOPED_TEXT label = {0};
	SCOPED_TEXT why = {0};
	char name[NAME_SIZE];
	text_add_format(&label, "%s, as it should be", bad->heads[bad->cell]);
	list_words(bad->why, &why);
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_element_format(markup, "b", NULL, "line %zu", bad->line);
	markup_end(markup);
	markup_begin_class(markup, "div", "t mend");
	write_sheet_row(markup, bad);
	markup_begin_class(markup, "div", "fields");
	SHELL_FIELD(visit, .name = cell_name(bad, name), .label = text_string(&label),
	    .value = bad->texts[bad->cell], .wrong = text_string(&why));
	markup_ends(markup, 3);
}

void
list_write_cells(struct list_page *page)
{
	const struct csv_bad_cells *cells = &page->doubts.cells;
	struct markup *markup = page->visit->markup;
	SCOPED_TEXT count = {0};
	if (cells->count == 0) {
		return;
	}
	text_add_format(&count, "%zu to mend", cells->count);
	shell_section(page->visit, text_string(&count), NULL, "Cells to mend");
	markup_element(markup, "p", NULL, "Mended here, not in your file.");
	markup_end(markup);
	markup_begin_class(markup, "ul", "rows");
	for (size_t i = 0; i < cells->count; i++) {
		write_cell(page, &cells->items[i]);
	}
	markup_ends(markup, 2);
}

/* What the column is taken for, and all else it may be. */
static void
write_meaning(struct list_page *page, const struct csv_column_read *column)
{
	struct visit *visit = page->visit;
	SCOPED_TEXT name = {0};
	SCOPED_TEXT label = {0};
	SCOPED_TEXT now = {0};
	text_add_format(&name, "map.%s", column->head);
	text_add_format(&label, "%s becomes", column->head);
	text_add_format(&now, "%s",
	    strcmp(column->ours, "ignore") == 0 ? "nothing: left aside"
						: list_column_words(column->ours));
	const char *sent = page_value(visit, text_string(&name));
	bool said = sent[0] != '\0' && sent[0] != ' ';
	shell_choice(visit, text_string(&name), text_string(&label));
	shell_option(visit, said ? sent : " ", text_string(&now), true);
	for (size_t i = 0; i < CSV_COLUMN_COUNT; i++) {
		if (strcmp(CSV_COLUMNS[i], column->ours) != 0) {
			shell_option(visit, CSV_COLUMNS[i],
			    list_column_words(CSV_COLUMNS[i]), false);
		}
	}
	if (strcmp(column->ours, "ignore") != 0) {
		shell_option(visit, "ignore", "nothing: left aside", false);
	}
	markup_ends(visit->markup, 2);
}

void
list_write_columns(struct list_page *page)
{
	const struct csv_columns_read *columns = &page->doubts.columns;
	struct markup *markup = page->visit->markup;
	if (columns->count == 0) {
		return;
	}
	shell_rows(page->visit, "columns", "How your columns are read");
	for (size_t i = 0; i < columns->count; i++) {
		const struct csv_column_read *column = &columns->items[i];
		if (!shows_column(page, column)) {
			continue;
		}
		markup_begin_class(markup, "li", "row");
		markup_begin_class(markup, "div", "k");
		markup_element(markup, "b", NULL, column->head);
		markup_end(markup);
		markup_begin_class(markup, "div", "w two");
		markup_element(markup, "span", NULL,
		    column->first[0] == '\0' ? "empty" : column->first);
		write_meaning(page, column);
		markup_ends(markup, 2);
	}
	markup_ends(markup, 2);
}

void
list_kind_options(struct list_page *page)
{
	struct visit *visit = page->visit;
	const struct kinds *kinds = NULL;
	struct fault none = {0};
	shell_option(visit, CSV_NO_GEAR, "no gear: a heading or a sum", false);
	if (!desk_kinds(&visit->desk, &kinds, &none)) {
		return;
	}
	for (size_t i = 0; i < kinds_count(kinds); i++) {
		const struct kind *kind = kinds_at(kinds, i);
		shell_option(visit, kind->id, kind->name, false);
	}
}

/* What the words are taken for, and all else they may mean. */
static void
write_kind(struct list_page *page, const struct csv_words_read *words)
{
	struct visit *visit = page->visit;
	const struct kinds *kinds = NULL;
	struct fault none = {0};
	SCOPED_TEXT name = {0};
	SCOPED_TEXT label = {0};
	bool known = words->ours[0] != '\0' && desk_kinds(&visit->desk, &kinds, &none);
	text_add_format(&name, "means.%s", words->theirs);
	text_add_format(&label, "%s becomes", words->theirs);
	const char *sent = page_value(visit, text_string(&name));
	shell_choice(visit, text_string(&name), text_string(&label));
	shell_option(visit, sent[0] != '\0' && sent[0] != ' ' ? sent : " ",
	    known ? kind_name(kinds, words->ours) : "what each row's description says",
	    true);
	list_kind_options(page);
	markup_ends(visit->markup, 2);
}

static void
write_words_row(struct list_page *page, const struct csv_words_read *words)
{
	struct markup *markup = page->visit->markup;
	markup_begin_class(markup, "li", "row");
	markup_element_format(
	    markup, "div", "k", "%zu row%s", words->rows, words->rows == 1 ? "" : "s");
	markup_begin_class(markup, "div", "w two");
	markup_element(markup, "b", NULL, words->theirs);
	write_kind(page, words);
	markup_ends(markup, 2);
}

static void
write_all_words(struct list_page *page)
{
	const struct csv_all_words_read *words = &page->doubts.words;
	const struct list_part part = words_part(page);
	struct markup *markup = page->visit->markup;
	shell_section(page->visit, NULL, "words", "How your words are read");
	markup_element(markup, "p", NULL,
	    "The kind that each becomes. Your own words stay with the piece.");
	list_write_part(page, &part, "different words");
	if (words->unlisted > 0) {
		markup_element_format(markup, "p", "caution",
		    "%zu more row%s other words still: bring the list in parts to see how each "
		    "is read.",
		    words->unlisted, words->unlisted == 1 ? " has" : "s have");
	}
	markup_end(markup);
	markup_begin_class(markup, "ul", "rows");
	for (size_t i = part.from; i < part.to; i++) {
		if (shows_words(page, &words->items[i])) {
			write_words_row(page, &words->items[i]);
		}
	}
	markup_ends(markup, 2);
}

void
list_write_words(struct list_page *page)
{
	if (page->doubts.words.count > 0) {
		write_all_words(page);
	}
	if (page->read) {
		shell_entry(page->visit);
		markup_begin_class(page->visit->markup, "div", "acts");
		shell_button(
		    page->visit, false, "act", "read", "Read it again with these");
		markup_ends(page->visit->markup, 3);
	}
}
