/* In which row of a list the column names stand, and what stands under them. */
#include "exchange/csv_inside.h"
#include "exchange/csv_read.h"

#include <string.h>

bool
csv_is_blank(const struct csv_cell *cell)
{
	return strspn(cell->text, " \t\r\n") == cell->length;
}

/* How each column is read, for who is shown it. */
static void
note_columns(struct csv_reader *reader)
{
	struct csv_doubts *doubts = reader->options->doubts;
	for (size_t i = 0; doubts != NULL && i < reader->layout.count; i++) {
		enum csv_column column = reader->layout.items[i];
		struct csv_columns_read *columns = &doubts->columns;
		ARENA_ADD(doubts->arena, columns,
		    (struct csv_column_read){
			.head = arena_string(doubts->arena, reader->layout.headers[i]),
			.ours = column < COLUMN_COUNT ? CSV_COLUMNS[column] : "ignore",
			.first = ""});
	}
}

static void
take_header(struct csv_reader *reader, const struct csv_cells *cells)
{
	reader->has_layout = true;
	csv_layout_make(cells, reader->options, &reader->complaints, &reader->notes.text,
	    &reader->layout);
	note_columns(reader);
}

void
csv_note_first_cells(struct csv_reader *reader, const struct csv_cells *cells)
{
	struct csv_doubts *doubts = reader->options->doubts;
	for (size_t i = 0;
	     doubts != NULL && i < doubts->columns.count && i < cells->count; i++) {
		struct csv_column_read *column = &doubts->columns.items[i];
		if (column->first[0] == '\0' && !csv_is_blank(&cells->items[i])) {
			column->first = arena_string(doubts->arena, cells->items[i].text);
		}
	}
}

/* True where a row is more like one of column names than the one before: it has a name that is
 * known and that one has none, or that one is a title, in a cell alone. */
static bool
more_like_names(const struct csv_reader *reader, const struct csv_cells *cells)
{
	const struct csv_cells *before = &reader->first;
	size_t filled[2] = {0};
	for (size_t i = 0; i < before->count; i++) {
		filled[0] += !csv_is_blank(&before->items[i]);
	}
	for (size_t i = 0; i < cells->count; i++) {
		filled[1] += !csv_is_blank(&cells->items[i]);
	}
	return before->count == 0 || (filled[0] < 2 && filled[1] > 1) ||
	       (filled[1] > 1 && csv_layout_known(before, reader->options) == 0 &&
		   csv_layout_known(cells, reader->options) > 0);
}

void
csv_look_for_header(struct csv_reader *reader, const struct csv_cells *cells)
{
	enum { TITLE_ROWS_MOST = 20 };
	struct csv_cells *first = &reader->first;
	if (csv_layout_known(cells, reader->options) >= 2) {
		if (first->count > 0) {
			text_add_format(&reader->notes.text,
			    "line %zu: the column names; what stands above is passed "
			    "over\n",
			    cells->line);
		}
		take_header(reader, cells);
		return;
	}
	if (more_like_names(reader, cells)) {
		struct arena *arena = reader->complaints.arena;
		*first = *cells;
		first->items = ARENA_MANY(arena, struct csv_cell, cells->count);
		for (size_t i = 0; i < cells->count; i++) {
			first->items[i] = cells->items[i];
			first->items[i].text = arena_string(arena, cells->items[i].text);
		}
	}
	if (++reader->title_rows >= TITLE_ROWS_MOST) {
		take_header(reader, first);
	}
}

void
csv_end_search(struct csv_reader *reader)
{
	if (!reader->has_layout && reader->first.count != 0) {
		take_header(reader, &reader->first);
	}
}

void
csv_show_doubted(struct csv_reader *reader, const struct csv_cells *cells)
{
	for (size_t i = 0; i < cells->count && i < reader->layout.count; i++) {
		if (!csv_is_blank(&cells->items[i])) {
			csv_doubt_example(reader->options->doubts,
			    reader->layout.headers[i], cells->items[i].text);
		}
	}
}
