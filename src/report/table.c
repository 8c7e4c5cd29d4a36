#include "report/table.h"

#include "base/memory.h"
#include "base/numbers.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

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

/* How many bytes from here are ASCII letters that need no change: the fast path for most
 * text. */
static size_t
safe_letters(const char *words)
{
	const char *at = words;
	while ((*at >= 0x20 && *at < 0x7F) || *at == GLUE) {
		at++;
	}
	return (size_t)(at - words);
}

void
add_safe(const char *words, struct text *out)
{
	for (;;) {
		size_t safe = safe_letters(words);
		text_add_bytes(out, words, safe);
		words += safe;
		if (*words == '\0') {
			return;
		}
		size_t size = utf8_size(*words);
		if (strnlen(words, size) < size || !utf8_valid(words, size)) {
			text_add_byte(out, '?');
			size = 1;
		} else if (is_control(words, size)) {
			text_add_byte(out, ' ');
		} else {
			text_add_bytes(out, words, size);
		}
		words += size;
	}
}

bool
line_next(const char **rest, size_t width, struct line_of_words *out)
{
	const char *start = *rest;
	while (is_blank(*start)) {
		start++;
	}
	if (*start == '\0') {
		return false;
	}
	const char *at = start;
	size_t columns = 0;
	struct line_of_words whole = {0}; /* up to the last blank that fits */
	while (*at != '\0') {
		bool ascii = (unsigned char)*at < 0x80; /* nearly every letter */
		size_t size = ascii ? 1 : utf8_size(*at);
		size_t wide = ascii ? 1 : columns_of(at, size);
		if (*at == ' ') {
			whole =
			    (struct line_of_words){start, (size_t)(at - start), columns};
		}
		if (columns + wide > width && at > start) {
			break;
		}
		columns += wide;
		at += size;
	}
	struct line_of_words piece = {start, (size_t)(at - start), columns};
	if (*at != '\0' && whole.length > 0) {
		piece = whole;
	}
	*rest = piece.start + piece.length;
	while (is_blank(piece.start[piece.length - 1])) {
		piece.length--;
		piece.columns--;
	}
	*out = piece;
	return true;
}

void
line_add(const struct line_of_words *piece, struct text *out)
{
	char *at = text_grow(out, piece->length);
	const char *end = at + piece->length;
	memcpy(at, piece->start, piece->length);
	while ((at = memchr(at, GLUE, (size_t)(end - at))) != NULL) {
		*at++ = ' ';
	}
}

void
blanks_add(struct text *out, size_t count)
{
	memset(text_grow(out, count), ' ', count);
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
	while (line_next(&at, page_columns(out) - indent, &piece)) {
		blanks_add(out, indent);
		line_add(&piece, out);
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
table_add(struct table *table, enum hue hue, const char *words, const char *extra)
{
	struct text *all = &table->words;
	struct table_cell cell = {.start = all->length, .hue = hue};
	add_safe(words, all);
	size_t head = all->length;
	cell.head = utf8_columns(text_string(all) + cell.start);
	cell.columns = cell.head;
	if (extra[0] != '\0') {
		add_safe(extra, all);
		cell.columns = utf8_columns(text_string(all) + cell.start);
	}
	cell.length = all->length - cell.start;
	cell.extra = all->length - head;
	text_add_byte(all, '\0');
	size_t column = table->count % table->column_count;
	struct table_widths *widths = &table->widths;
	widths->heads[column] = GREATER(widths->heads[column], cell.head);
	widths->wholes[column] = GREATER(widths->wholes[column], cell.columns);
	ARRAY_ADD(table, cell);
}

size_t
table_rows(const struct table *table)
{
	return table->column_count == 0 ? 0 : table->count / table->column_count;
}
