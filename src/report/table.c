#include "report/table.h"

#include "base/memory.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* Blanks between two columns; and no column is squeezed below the other. */
enum { GAP = 2, LEAST_WIDTH = 5 };

/* The length in bytes of the letter at `at`, which is well-formed. */
static size_t
letter_size(const char *at)
{
	unsigned char lead = (unsigned char)*at;
	return lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
}

static size_t
columns_of(const char *at, size_t size)
{
	char letter[5] = {0};
	memcpy(letter, at, size);
	return utf8_columns(letter);
}

/* True for a control character, C1 included: a terminal would obey it. */
static bool
is_control(const char *at, size_t size)
{
	unsigned char lead = (unsigned char)*at;
	if (size == 1) {
		return lead < 0x20 || lead == 0x7F;
	}
	return size == 2 && lead == 0xC2 && (unsigned char)at[1] < 0xA0;
}

void
add_safe(const char *words, struct text *out)
{
	size_t left = strlen(words);
	while (left > 0) {
		size_t size = letter_size(words);
		if (size > left || !utf8_valid(words, size)) {
			text_add_byte(out, '?');
			size = 1;
		} else if (*words != GLUE && is_control(words, size)) {
			text_add_byte(out, ' ');
		} else {
			text_add_bytes(out, words, size);
		}
		words += size;
		left -= size;
	}
}

/* What looks blank: no line starts or ends with it. */
static const char BLANKS[] = {' ', GLUE, '\0'};

/* One line's worth of some words. */
struct line_of_words {
	const char *start;
	size_t length;
	size_t columns;
};

/* Takes the next line of at most `width` columns from safe words, breaking between words,
 * or inside one that is wider than a line. At least one letter, so that it always ends. */
static bool
next_piece(const char **rest, size_t width, struct line_of_words *out)
{
	const char *start = *rest + strspn(*rest, BLANKS);
	if (*start == '\0') {
		return false;
	}
	struct line_of_words piece = {start, 0, 0};
	struct line_of_words whole = piece; /* up to the last blank that fits */
	const char *at = start;
	size_t columns = 0;
	while (*at != '\0') {
		size_t size = letter_size(at);
		size_t wide = columns_of(at, size);
		if (*at == ' ') {
			whole =
			    (struct line_of_words){start, (size_t)(at - start), columns};
		}
		if (columns + wide > width && at > start) {
			break;
		}
		columns += wide;
		at += size;
		piece = (struct line_of_words){start, (size_t)(at - start), columns};
	}
	if (*at != '\0' && whole.length > 0) {
		piece = whole;
	}
	*rest = piece.start + piece.length;
	while (strchr(BLANKS, piece.start[piece.length - 1]) != NULL) {
		piece.length--;
		piece.columns--;
	}
	*out = piece;
	return true;
}

/* Adds a piece, glue as blanks. */
static void
add_piece(const struct line_of_words *piece, struct text *out)
{
	for (size_t i = 0; i < piece->length; i++) {
		char byte = piece->start[i];
		text_add_byte(out, (char)(byte == GLUE ? ' ' : byte));
	}
}

static void
add_blanks(struct text *out, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		text_add_byte(out, ' ');
	}
}

size_t
page_columns(const struct text *out)
{
	return out->columns == 0 ? PAGE_COLUMNS : out->columns;
}

void
paragraph(const char *words, size_t first, size_t rest, struct text *out)
{
	SCOPED_TEXT safe = {0};
	add_safe(words, &safe);
	const char *at = text_string(&safe);
	struct line_of_words piece;
	size_t indent = first;
	while (next_piece(&at, page_columns(out) - indent, &piece)) {
		add_blanks(out, indent);
		add_piece(&piece, out);
		text_add_byte(out, '\n');
		indent = rest;
	}
}

void
table_init(struct table *table, const struct table_column *columns, size_t count,
    size_t indent, bool colour)
{
	assert(count > 0 && count <= TABLE_COLUMNS_MAX);
	*table = (struct table){.columns = columns,
	    .column_count = count,
	    .indent = indent,
	    .colour = colour};
}

void
table_clear(struct table *table)
{
	text_clear(&table->words);
	free(table->items);
	*table = (struct table){0};
}

void
table_add(struct table *table, enum hue hue, const char *words)
{
	table_add_extra(table, hue, words, "");
}

void
table_add_extra(struct table *table, enum hue hue, const char *words, const char *extra)
{
	ARRAY_ROOM(table);
	size_t start = table->words.length;
	add_safe(words, &table->words);
	size_t head = table->words.length;
	add_safe(extra, &table->words);
	table->items[table->count++] =
	    (struct table_cell){start, table->words.length - head, hue};
	text_add_byte(&table->words, '\0');
}

size_t
table_rows(const struct table *table)
{
	return table->column_count == 0 ? 0 : table->count / table->column_count;
}

static const char *
cell_words(const struct table *table, size_t row, size_t column)
{
	size_t at = row * table->column_count + column;
	return table->words.bytes + table->items[at].start;
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

/* The width of a column's widest cell or heading, without the endings where `heads`; 0 when
 * all its cells are empty. */
static size_t
natural_width(const struct table *table, size_t column, bool heads)
{
	size_t width = 0;
	for (size_t r = 0; r < table_rows(table); r++) {
		size_t at = r * table->column_count + column;
		size_t wide = utf8_columns(cell_words(table, r, column));
		size_t extra = table->items[at].extra;
		if (heads && extra > 0) {
			const char *words = cell_words(table, r, column);
			wide -= utf8_columns(words + strlen(words) - extra);
		}
		width = wide > width ? wide : width;
	}
	if (width == 0) {
		return 0;
	}
	size_t heading = utf8_columns(table->columns[column].heading);
	return heading > width ? heading : width;
}

/* What a table of these widths needs; an empty column takes no gap either. */
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

/* Takes from the flexible column down to a readable width, then from whichever is widest,
 * until the table fits the page. */
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

/* Finds widths that fit the page. Endings go first, then what columns have over their
 * limits, then the flexible column's width; what is left over in the end is its. */
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
		widths[flexible] = natural < room ? natural : room;
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

/* Writes one piece in its column; `*behind` is how many blanks must still be written
 * before it. */
static void
write_piece(const struct line_of_words *piece, enum align align, size_t width,
    const char *code, size_t *behind, struct text *out)
{
	size_t fill = width > piece->columns ? width - piece->columns : 0;
	if (piece->length == 0) {
		*behind += width;
		return;
	}
	add_blanks(out, *behind + (align == ALIGN_RIGHT ? fill : 0));
	text_add(out, code);
	add_piece(piece, out);
	text_add(out, code[0] == '\0' ? "" : "\033[0m");
	*behind = align == ALIGN_RIGHT ? 0 : fill;
}

/* Writes one row as as many lines as its longest cell needs. */
static void
write_row(const struct table *table, const char *const *cells, const enum hue *hues,
    const size_t *widths, struct text *out)
{
	const char *rest[TABLE_COLUMNS_MAX];
	memcpy(rest, cells, table->column_count * sizeof rest[0]);
	for (bool first = true;; first = false) {
		struct line_of_words pieces[TABLE_COLUMNS_MAX] = {{0}};
		bool any = false;
		for (size_t c = 0; c < table->column_count; c++) {
			bool more =
			    widths[c] > 0 && next_piece(&rest[c], widths[c], &pieces[c]);
			any = any || more;
		}
		if (!any && !first) {
			return;
		}
		size_t behind = table->indent;
		for (size_t c = 0; c < table->column_count; c++) {
			const char *code = table->colour ? hue_code(hues[c]) : "";
			write_piece(&pieces[c], table->columns[c].align, widths[c], code,
			    &behind, out);
			behind += widths[c] > 0 ? GAP : 0;
		}
		text_add_byte(out, '\n');
	}
}

static void
write_headings(const struct table *table, const size_t *widths, struct text *out)
{
	const char *cells[TABLE_COLUMNS_MAX] = {0};

	enum hue hues[TABLE_COLUMNS_MAX] = {0};

	for (size_t c = 0; c < table->column_count; c++) {
		cells[c] = table->columns[c].heading;
		hues[c] = HUE_STRONG;
	}
	write_row(table, cells, hues, widths, out);
	add_blanks(out, table->indent);
	for (size_t c = 0, owed = 0; c < table->column_count; c++) {
		add_blanks(out, widths[c] > 0 ? owed : 0);
		for (size_t i = 0; i < widths[c]; i++) {
			text_add_byte(out, '-');
		}
		owed = widths[c] > 0 ? GAP : owed;
	}
	text_add_byte(out, '\n');
}

/* True when a cell's ending has no room on the first line. A row has one such cell at most:
 * the flexible one. */
static bool
drops_extra(const struct table *table, size_t row, size_t column, size_t width)
{
	return table->columns[column].flexible &&
	       table->items[row * table->column_count + column].extra > 0 &&
	       utf8_columns(cell_words(table, row, column)) > width;
}

static void
head_words(const struct table *table, size_t row, size_t column, struct text *out)
{
	const char *words = cell_words(table, row, column);
	size_t extra = table->items[row * table->column_count + column].extra;
	text_reset(out);
	text_add_bytes(out, words, strlen(words) - extra);
}

void
table_write(const struct table *table, struct text *out)
{
	if (table_rows(table) == 0) {
		return;
	}
	size_t widths[TABLE_COLUMNS_MAX] = {0};
	fit_widths(table, page_columns(out), widths);
	if (has_headings(table)) {
		write_headings(table, widths, out);
	}
	SCOPED_TEXT head = {0};
	for (size_t r = 0; r < table_rows(table); r++) {
		const char *cells[TABLE_COLUMNS_MAX] = {0};

		enum hue hues[TABLE_COLUMNS_MAX] = {0};

		for (size_t c = 0; c < table->column_count; c++) {
			cells[c] = cell_words(table, r, c);
			hues[c] = table->items[r * table->column_count + c].hue;
			if (drops_extra(table, r, c, widths[c])) {
				head_words(table, r, c, &head);
				cells[c] = text_string(&head);
			}
		}
		write_row(table, cells, hues, widths, out);
	}
}
