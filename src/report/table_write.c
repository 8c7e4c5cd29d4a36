/* A table written out: how wide each column is, and its rows as lines. */
#include "base/memory.h"
#include "base/numbers.h"
#include "report/table.h"

#include <string.h>

/* GAP blanks between two columns; no column is made narrower than LEAST_WIDTH. */
enum { GAP = 2, LEAST_WIDTH = 5 };

static const struct table_cell *
cell_at(const struct table *table, size_t row, size_t column)
{
	return &table->items[row * table->column_count + column];
}

static bool
has_headings(const struct table *table)
{
	for (size_t c = 0; c < table->column_count; c++) {
		if (table->columns[c].heading[0] != '\0') {
			return true;
		}
	}
	return false;
}

/* The width of a column's widest cell or heading, without the droppable endings if
 * `heads`; 0 when all its cells are empty. */
static size_t
natural_width(const struct table *table, size_t column, bool heads)
{
	const struct table_widths *widths = &table->widths;
	size_t width = heads ? widths->heads[column] : widths->wholes[column];
	if (width == 0) {
		return 0;
	}
	size_t heading = utf8_columns(table->columns[column].heading);
	return GREATER(heading, width);
}

/* The width of a table with these column widths; an empty column has no gap either. */
static size_t
total_width(const struct table *table, const size_t *widths)
{
	size_t total = table->indent;
	for (size_t c = 0; c < table->column_count; c++) {
		total += widths[c] > 0 ? widths[c] + GAP : 0;
	}
	return total > GAP ? total - GAP : total;
}

/* The column that is furthest over its limit; column_count when none is. */
static size_t
most_over_limit(const struct table *table, const size_t *widths)
{
	size_t found = table->column_count;
	size_t over = 0;
	for (size_t c = 0; c < table->column_count; c++) {
		size_t most = table->columns[c].most;
		if (most > 0 && widths[c] > most && widths[c] - most > over) {
			over = widths[c] - most;
			found = c;
		}
	}
	return found;
}

static size_t
flexible_column(const struct table *table)
{
	size_t c = 0;
	while (c < table->column_count && !table->columns[c].flexible) {
		c++;
	}
	return c;
}

/* Makes the flexible column narrower, down to a readable width, then always the widest
 * column, until the table fits the page. */
static void
squeeze(const struct table *table, size_t page, size_t *widths)
{
	enum { READABLE = 16 };

	size_t flexible = flexible_column(table);
	while (total_width(table, widths) > page) {
		size_t from = 0;
		for (size_t c = 0; c < table->column_count; c++) {
			from = widths[c] > widths[from] ? c : from;
		}
		if (flexible < table->column_count && widths[flexible] > READABLE) {
			from = flexible;
		}
		if (widths[from] <= LEAST_WIDTH) {
			return; /* TABLE_COLUMNS_MAX of these fit the page */
		}
		widths[from]--;
	}
}

/* Finds widths that fit the page. First the endings are dropped, then the width of
 * columns over their limits, then the flexible column's; what is left over goes to the
 * flexible column. */
static void
fit_widths(const struct table *table, size_t page, size_t *widths)
{
	for (size_t c = 0; c < table->column_count; c++) {
		widths[c] = natural_width(table, c, true);
	}
	while (total_width(table, widths) > page) {
		size_t over = most_over_limit(table, widths);
		if (over == table->column_count) {
			break;
		}
		widths[over] = table->columns[over].most;
	}
	squeeze(table, page, widths);
	size_t flexible = flexible_column(table);
	size_t total = total_width(table, widths);
	if (flexible < table->column_count && total < page && widths[flexible] > 0) {
		size_t natural = natural_width(table, flexible, false);
		size_t room = widths[flexible] + page - total;
		widths[flexible] = LESSER(natural, room);
	}
}

static const char *
hue_code(enum hue hue)
{
	switch (hue) {
	case HUE_NONE:
		return "";
	case HUE_STRONG:
		return "\033[1m";
	case HUE_GOOD:
		return "\033[32m";
	case HUE_CARE:
		return "\033[33m";
	case HUE_BAD:
		return "\033[31m";
	}
	return "";
}

/* Writes one piece in its column; `*owed` is how many blanks must still be written
 * before it. */
static void
write_piece(const struct line_of_words *piece, enum align align, size_t width,
    const char *code, size_t *owed, struct text *out)
{
	size_t fill = width > piece->columns ? width - piece->columns : 0;
	if (piece->length == 0) {
		*owed += width;
		return;
	}
	blanks_add(out, *owed + (align == ALIGN_RIGHT ? fill : 0));
	if (code[0] == '\0') {
		line_add(piece, out);
	} else {
		text_add(out, code);
		line_add(piece, out);
		text_add(out, "\033[0m");
	}
	*owed = align == ALIGN_RIGHT ? 0 : fill;
}

/* True for words that are one line of that width as they stand: most cells. */
static bool
is_line(const struct line_of_words *words, size_t width)
{
	return words->length > 0 && words->columns <= width &&
	       !is_blank(words->start[0]) && !is_blank(words->start[words->length - 1]);
}

/* Writes one row, in as many lines as its longest cell needs. */
static void
write_row(const struct table *table, const struct line_of_words *cells,
    const enum hue *hues, const size_t *widths, struct text *out)
{
	const char *rest[TABLE_COLUMNS_MAX];
	bool more = true;
	for (bool first = true; more; first = false) {
		size_t owed = table->indent;
		more = false;
		for (size_t c = 0; c < table->column_count; c++) {
			struct line_of_words piece = {0};
			if (widths[c] == 0) {
				continue;
			}
			rest[c] = first ? cells[c].start : rest[c];
			if (first && is_line(&cells[c], widths[c])) {
				piece = cells[c];
				rest[c] += piece.length;
			} else {
				(void)line_next(&rest[c], widths[c], &piece);
			}
			write_piece(&piece, table->columns[c].align, widths[c],
			    table->colour ? hue_code(hues[c]) : "", &owed, out);
			owed += GAP;
			more = more || !is_all_blank(rest[c]);
		}
		text_add_byte(out, '\n');
	}
}

static void
write_headings(const struct table *table, const size_t *widths, struct text *out)
{
	struct line_of_words cells[TABLE_COLUMNS_MAX];
	enum hue hues[TABLE_COLUMNS_MAX];
	for (size_t c = 0; c < table->column_count; c++) {
		const char *heading = table->columns[c].heading;
		cells[c] = (struct line_of_words){
		    heading, strlen(heading), utf8_columns(heading)};
		hues[c] = HUE_STRONG;
	}
	write_row(table, cells, hues, widths, out);
	blanks_add(out, table->indent);
	for (size_t c = 0, owed = 0; c < table->column_count; c++) {
		blanks_add(out, widths[c] > 0 ? owed : 0);
		memset(text_grow(out, widths[c]), '-', widths[c]);
		owed = widths[c] > 0 ? GAP : owed;
	}
	text_add_byte(out, '\n');
}

/* The words of a cell, without its ending where the whole does not fit on the first line; they are
 * then copied to `head`. A row has at most one such cell, the flexible one. */
static struct line_of_words
shown_words(
    const struct table *table, size_t row, size_t column, size_t width, struct text *head)
{
	const struct table_cell *cell = cell_at(table, row, column);
	const char *words = table->words.bytes + cell->start;
	if (!table->columns[column].flexible || cell->extra == 0 ||
	    cell->columns <= width) {
		return (struct line_of_words){words, cell->length, cell->columns};
	}
	text_reset(head);
	text_add_bytes(head, words, cell->length - cell->extra);
	return (struct line_of_words){text_string(head), head->length, cell->head};
}

void
table_write_head(const struct table *table, size_t *widths_out, struct text *out)
{
	fit_widths(table, page_columns(out), widths_out);
	if (has_headings(table)) {
		write_headings(table, widths_out, out);
	}
}

void
table_write_rows(const struct table *table, const size_t *widths, struct text *out)
{
	SCOPED_TEXT head = {0};
	for (size_t r = 0; r < table_rows(table); r++) {
		struct line_of_words cells[TABLE_COLUMNS_MAX];
		enum hue hues[TABLE_COLUMNS_MAX];
		for (size_t c = 0; c < table->column_count; c++) {
			cells[c] = shown_words(table, r, c, widths[c], &head);
			hues[c] = cell_at(table, r, c)->hue;
		}
		write_row(table, cells, hues, widths, out);
	}
}

void
table_write(const struct table *table, struct text *out)
{
	if (table_rows(table) == 0) {
		return;
	}
	size_t widths[TABLE_COLUMNS_MAX] = {0};
	table_write_head(table, widths, out);
	table_write_rows(table, widths, out);
}

/* ---- rows that are kept elsewhere ---- */

/* What stands before the words of each cell, which end with a zero. */
struct packed_cell {
	size_t length, columns, extra, head, hue;
};

void
table_pack(const struct table *table, size_t row, struct text *out)
{
	for (size_t c = 0; c < table->column_count; c++) {
		const struct table_cell *cell = cell_at(table, row, c);
		const struct packed_cell packed = {cell->length, cell->columns,
		    cell->extra, cell->head, (size_t)cell->hue};
		text_add_bytes(out, (const char *)&packed, sizeof packed);
		text_add_bytes(out, table->words.bytes + cell->start, cell->length + 1);
	}
}

void
table_unpack(struct table *table, const char *packed)
{
	table->count = 0;
	text_reset(&table->words);
	for (size_t c = 0; c < table->column_count; c++) {
		struct packed_cell cell;
		memcpy(&cell, packed, sizeof cell);
		packed += sizeof cell;
		ARRAY_ADD(
		    table, (struct table_cell){table->words.length, cell.length,
			       cell.columns, cell.extra, cell.head, (enum hue)cell.hue});
		text_add_bytes(&table->words, packed, cell.length + 1);
		packed += cell.length + 1;
	}
}

void
table_widen(struct table *table, const struct table_widths *widths)
{
	for (size_t c = 0; c < table->column_count; c++) {
		size_t *heads = &table->widths.heads[c];
		size_t *wholes = &table->widths.wholes[c];
		*heads = GREATER(*heads, widths->heads[c]);
		*wholes = GREATER(*wholes, widths->wholes[c]);
	}
}

void
kept_rows_clear(struct kept_rows *rows)
{
	table_clear(&rows->table);
	runs_clear(&rows->packed);
	*rows = (struct kept_rows){0};
}
