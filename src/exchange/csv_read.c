#include "exchange/csv_read.h"

#include "base/csv_line.h"
#include "exchange/csv_inside.h"
#include "exchange/list_inside.h"
#include "gear/money.h"

#include <stdlib.h>
#include <string.h>

static void
reader_clear(struct csv_reader *reader)
{
	complaints_clear(&reader->complaints);
	csv_notes_clear(&reader->notes);
	csv_rows_clear(&reader->rows);
	arena_clear(&reader->words);
}

/* A column of prices that are not in the book's currency is asked about as a whole. */
static void
doubt_currency(struct csv_reader *reader, size_t line, size_t cell, const char *other)
{
	const char *header = reader->layout.headers[cell];
	SCOPED_TEXT hint = {0};
	text_add_format(&hint, "has prices in %s, and the book's are in %s",
	    strcmp(other, "CUR") == 0 ? "another currency" : other,
	    reader->options->currency);
	complain_doubt(&reader->complaints, DOUBT_HEADER, header, line,
	    reader->row->items[cell].text);
	csv_doubt_hint(
	    reader->complaints.doubts, DOUBT_HEADER, header, text_string(&hint));
}

static void
complain_of_cell(
    struct csv_reader *reader, size_t line, size_t cell, const struct fault *fault)
{
	struct complaints *complaints = &reader->complaints;
	const struct csv_layout *layout = &reader->layout;
	const char *name = csv_cell_name(layout, cell, complaints->arena);
	bool price =
	    layout->items[cell] == COLUMN_PRICE || layout->items[cell] == COLUMN_PAID;
	const char *text = reader->row->items[cell].text;
	const char *other = price ? money_other(text, reader->options->currency) : NULL;
	SCOPED_TEXT cure = {0};
	if (other != NULL) {
		doubt_currency(reader, line, cell, other);
		text_add_format(&cure,
		    "; \"becket book new --currency %s\" begins a book in another currency, "
		    "\"becket book currency %s\" makes this one such",
		    other, other);
	}
	if (price) {
		complain(complaints, line, name,
		    "%s; --map \"%.60s=notes\" keeps such prices as words%s", fault->text,
		    layout->headers[cell], text_string(&cure));
	} else {
		complain(complaints, line, name, "%s", fault->text);
	}
}

/* True for a date, a price or a serial number for which the list says that nobody knows it. */
static bool
is_not_known(struct csv_reader *reader, enum csv_column column, const char *text)
{
	if (column == COLUMN_UNNAMED) {
		return false;
	}
	enum value_type type = csv_column_row(column)->type;
	return (type == VALUE_STAMP || type == VALUE_DAY || type == VALUE_PRICE ||
		   column == COLUMN_SERIAL) &&
	       csv_says_not_known(csv_trimmed(&reader->words, text));
}

/* The cell's text, without the quote mark that disarmed it in a file written for a spreadsheet.
 * Where a spreadsheet would run the text, that is told, once for each column. */
static const char *
armed_text(struct csv_reader *reader, const struct csv_cell *cell, enum csv_column column,
    size_t line)
{
	bool disarmed = reader->layout.disarmed && csv_is_disarmed(cell->text);
	const char *text = cell->text + (disarmed ? 1 : 0);
	enum value_type type = csv_column_row(column)->type;
	bool words = type == VALUE_TEXT || type == VALUE_NAME;
	if (words && strlen(text) > 1 && csv_is_run(text)) {
		csv_note_once(&reader->notes, line,
		    "%s begins as a formula does (= + - @), and a spreadsheet would run "
		    "it; it is taken as it is, there and below, and \"becket export "
		    "--for-spreadsheet\" disarms it",
		    CSV_COLUMNS[column]);
	}
	return text;
}

/* Tells of a cell of the present row, for who can mend it alone. */
static void
note_bad_cell(struct csv_reader *reader, size_t cell, const char *why)
{
	struct csv_doubts *doubts = reader->options->doubts;
	size_t count = reader->row->count < reader->layout.count ? reader->row->count
								 : reader->layout.count;
	if (doubts == NULL) {
		return;
	}
	/* what is asked outlives what is read of the list */
	struct arena *arena = doubts->arena;
	const char **texts = arena_alloc(arena, (count + 1) * sizeof *texts);
	const char **heads = arena_alloc(arena, (count + 1) * sizeof *heads);
	for (size_t i = 0; i < count; i++) {
		texts[i] = arena_string(arena, reader->row->items[i].text);
		heads[i] = arena_string(arena, reader->layout.headers[i]);
	}
	struct csv_bad_cells *cells = &doubts->cells;
	ARENA_ADD(arena, cells,
	    (struct csv_bad_cell){.line = reader->row->line,
		.cell = cell,
		.why = arena_string(arena, why),
		.heads = heads,
		.texts = texts,
		.count = count});
}

/* Takes one cell of a row. `columns` gathers the columns that are not blank. What is wrong with
 * the cell is complained of. */
static void
take_cell(struct csv_reader *reader, const struct csv_cell *cell, size_t index,
    struct csv_row *row, uint64_t *columns)
{
	enum csv_column column = reader->layout.items[index];
	struct fault wrong;
	fault_begin(&wrong);
	size_t doubted = reader->complaints.doubted;
	if (strlen(cell->text) != cell->length) {
		(void)fault_set(&wrong, FAULT_INPUT, "there is a zero byte in it");
	} else if (column == COLUMN_IGNORED || csv_is_blank(cell)) {
		if (column == COLUMN_IGNORED && !csv_is_blank(cell)) {
			csv_doubt_example(reader->options->doubts,
			    reader->layout.headers[index], cell->text);
		}
		return;
	} else if (is_not_known(reader, column, cell->text)) {
		csv_note_once(&reader->notes, row->line,
		    "%s \"%s\" read as not known, there and below", CSV_COLUMNS[column],
		    cell->text);
		return;
	} else if (column == COLUMN_UNNAMED) {
		(void)fault_set(&wrong, FAULT_INPUT,
		    "there is something in it, but it has no header");
	} else {
		int field = csv_column_field(column);
		*columns |= COLUMN_BIT << column;
		row->given |= field == NO_FIELD ? 0 : 1U << field;
		const struct csv_cell_how how = {.order = reader->options->order,
		    .decimals = reader->options->decimals,
		    .two_digit_years = reader->options->two_digit_years,
		    .wording = reader->layout.wordings[column],
		    .currency = reader->options->currency,
		    .arena = &reader->words,
		    .complaints = &reader->complaints,
		    .line = row->line,
		    .hints = &reader->hints};
		const char *text = armed_text(reader, cell, column, row->line);
		if (csv_read_cell(&how, row, column, text, &wrong)) {
			return;
		}
	}
	complain_of_cell(reader, row->line, index, &wrong);
	if (reader->complaints.doubted == doubted) {
		note_bad_cell(reader, index, wrong.text);
		complain_mendable(&reader->complaints);
	}
}

static bool
all_blank(const struct csv_cells *cells)
{
	for (size_t i = 0; i < cells->count; i++) {
		if (!csv_is_blank(&cells->items[i])) {
			return false;
		}
	}
	return true;
}

/* True when the row has as many cells as the header, which may both trail off in blanks. */
static bool
count_fits(struct csv_reader *reader, const struct csv_cells *cells)
{
	size_t most = reader->layout.count;
	size_t least = most;
	while (least > 0 && reader->layout.items[least - 1] == COLUMN_UNNAMED) {
		least--;
	}
	size_t count = cells->count;
	while (count > least && csv_is_blank(&cells->items[count - 1])) {
		count--;
	}
	if ((count < least && !cells->open_ended) || count > most) {
		complain(&reader->complaints, cells->line, "",
		    "it has %zu cell%s, and the header has %zu; where it is no gear: "
		    "--leave-out %zu",
		    count, count == 1 ? "" : "s", least, cells->line);
		return false;
	}
	return true;
}

/* True for a row that a person said to pass over. */
static bool
is_left_out(struct csv_reader *reader, size_t line)
{
	bool left_out = false;
	for (size_t i = 0; i < reader->options->left_out_count; i++) {
		const struct csv_lines *lines = &reader->options->left_out[i];
		if (lines->first <= line && line <= lines->last) {
			reader->left_out_met[i] = true;
			left_out = true;
		}
	}
	return left_out;
}

static void
check_left_out(struct csv_reader *reader)
{
	for (size_t i = 0; i < reader->options->left_out_count; i++) {
		size_t first = reader->options->left_out[i].first;
		if (!reader->left_out_met[i]) {
			complain(&reader->complaints, first, "",
			    "--leave-out %zu: no row starts there", first);
		}
	}
}

/* The row as a person mended it: itself where nothing of it was. */
static const struct csv_cells *
mended_row(
    struct csv_reader *reader, const struct csv_cells *cells, struct csv_cells *copy)
{
	const struct csv_options *options = reader->options;
	for (size_t i = 0; i < options->mended_count; i++) {
		const struct csv_mended *mended = &options->mended[i];
		if (mended->line != cells->line || mended->cell >= cells->count) {
			continue;
		}
		if (copy->count == 0) {
			*copy = *cells;
			copy->items =
			    ARENA_MANY(&reader->words, struct csv_cell, cells->count);
			memcpy(copy->items, cells->items,
			    cells->count * sizeof *copy->items);
		}
		copy->items[mended->cell] =
		    (struct csv_cell){mended->text, strlen(mended->text)};
	}
	return copy->count == 0 ? cells : copy;
}

static bool
take_row(const struct csv_cells *cells, void *context, struct fault *fault)
{
	(void)fault;
	struct csv_reader *reader = context;
	if (all_blank(cells) || is_left_out(reader, cells->line)) {
		return true;
	}
	if (!reader->has_layout) {
		csv_look_for_header(reader, cells);
		return true;
	}
	if (!reader->layout.usable) {
		csv_show_doubted(reader, cells);
		return true;
	}
	if (!count_fits(reader, cells)) {
		return true;
	}
	struct csv_cells copy = {0};
	arena_reset(&reader->words);
	cells = mended_row(reader, cells, &copy);
	reader->row = cells;
	csv_note_first_cells(reader, cells);
	struct csv_row row = reader->blank;
	row.line = cells->line;
	uint64_t columns = 0;
	for (size_t i = 0; i < cells->count && i < reader->layout.count; i++) {
		take_cell(reader, &cells->items[i], i, &row, &columns);
	}
	const struct csv_settling settling = {reader->kinds, reader->options,
	    &reader->layout, &reader->complaints, &reader->notes, &reader->words};
	if (csv_settle_row(&settling, &row, columns)) {
		csv_rows_add(&reader->rows, &row);
	}
	return true;
}

static void
hand_over(struct csv_reader *reader, struct csv_rows *out)
{
	const struct csv_layout *layout = &reader->layout;
	size_t served = 0;
	while (served < layout->count && layout->items[served] != COLUMN_SERVED) {
		served++;
	}
	*out = reader->rows;
	out->served_cell = csv_cell_name(layout, served, reader->complaints.arena);
	out->tells_refits = layout->present[COLUMN_REFIT];
	out->notes = reader->notes.text;
	out->complaints = reader->options->complaints;
	reader->rows = (struct csv_rows){0};
	reader->notes.text = (struct text){0};
}

/* What other dates of the list say of their order, for who is asked about it. */
static void
hint_order(struct csv_reader *reader)
{
	const struct date_hints *hints = &reader->hints;
	const char *sure =
	    hints->day_first != NULL ? hints->day_first : hints->month_first;
	SCOPED_TEXT words = {0};
	if (sure == NULL) {
		return;
	}
	text_add_format(&words, "\"%.40s\" in this list can only be %s first", sure,
	    hints->day_first != NULL ? "day" : "month");
	csv_doubt_hint(reader->complaints.doubts, DOUBT_ORDER, "", text_string(&words));
}

/* Where dates were refused since day and month could be either, and others can be read in one
 * order alone, says which. */
static void
suggest_order(struct csv_reader *reader)
{
	const struct date_hints *hints = &reader->hints;
	bool day_first = hints->day_first != NULL;
	bool both = day_first && hints->month_first != NULL;
	if (hints->either > 0 && !both) {
		hint_order(reader);
	}
	if (hints->either == 0 || (!day_first && hints->month_first == NULL)) {
		return;
	}
	if (both) {
		complain(&reader->complaints, 1, "",
		    "\"%.40s\" is day first and \"%.40s\" month first, so --dates can't "
		    "read the others of this list; write them as 2021-04-30",
		    hints->day_first, hints->month_first);
		return;
	}
	complain_answered(&reader->complaints);
	complain(&reader->complaints, 1, "",
	    "\"%.40s\" can only be %s first; if the whole list is, --dates %s-first reads "
	    "it so",
	    day_first ? hints->day_first : hints->month_first,
	    day_first ? "day" : "month", day_first ? "day" : "month");
}

static bool
read_all(struct csv_reader *reader, const struct csv_source *source, struct csv_rows *out,
    struct fault *fault)
{
	struct complaints *complaints = &reader->complaints;
	struct csv_stop stop = {0};
	struct csv_taker taker = {take_row, reader};
	if (!list_scan(source, &reader->options->how, NULL, taker, &reader->notes, &stop,
		fault)) {
		return false;
	}
	csv_end_search(reader);
	if (stop.why != NULL) {
		complain(complaints, stop.line,
		    csv_cell_name(&reader->layout, stop.cell, complaints->arena),
		    "%s; nothing after it could be read", stop.why);
	} else if (!reader->has_layout) {
		complain(complaints, 1, "",
		    "the file is empty; expected a row of column names");
	}
	check_left_out(reader);
	suggest_order(reader);
	if (!csv_settle_further(&reader->rows, complaints, fault) ||
	    !complaints_none(complaints, source->name, fault)) {
		return false;
	}
	hand_over(reader, out);
	return true;
}

bool
csv_read_inventory(const struct csv_source *source, const struct kinds *kinds,
    const struct csv_options *options, struct arena *arena, struct csv_rows *out,
    struct fault *fault)
{
	struct csv_reader reader = {.kinds = kinds,
	    .options = options,
	    .complaints = {.arena = arena,
		.all = options->complaints,
		.doubts = options->doubts},
	    .left_out_met = arena_alloc(arena, options->left_out_count + 1),
	    .notes = {.arena = arena},
	    .blank = csv_row_blank()};
	bool done = read_all(&reader, source, out, fault);
	reader_clear(&reader);
	return done;
}
