/* Text laid out for a terminal or a printer: tables whose columns line up in any script,
 * and paragraphs. Widths are columns as utf8_columns counts them. Text from outside
 * (names, notes) is made safe: control characters become blanks, malformed UTF-8 becomes
 * question marks. Knows nothing of boats. */
#ifndef BECKET_REPORT_TABLE_H
#define BECKET_REPORT_TABLE_H

#include "base/spool.h"
#include "base/text.h"

#include <stddef.h>

/* The width of a page, in columns, when the text it is written to sets no other: a
 * terminal's is from PAGE_COLUMNS_LEAST to PAGE_COLUMNS_MOST. */
enum { PAGE_COLUMNS = 80, PAGE_COLUMNS_LEAST = 60, PAGE_COLUMNS_MOST = 132 };

/* How wide the page is that a text is laid out for. */
size_t page_columns(const struct text *out);

/* A blank at which no line is broken, so that a date stays whole. Written as a plain
 * blank. */
#define GLUE '\001'

/* The most columns a table may have. */
enum { TABLE_COLUMNS_MAX = 8 };

enum align {
	ALIGN_LEFT,
	ALIGN_RIGHT,
};

/* A colour for a cell, used when colour is wanted. The words must say the same without
 * it. */
enum hue {
	HUE_NONE,
	HUE_STRONG,
	HUE_GOOD,
	HUE_CARE,
	HUE_BAD,
};

/* One column. A table has at most one flexible column, which gets the width that the
 * others leave. */
struct table_column {
	const char *heading; /* borrowed; a table whose headings are all "" has none */
	size_t most;         /* widest it may be on a full page; 0 for no limit */
	enum align align;
	bool flexible;
};

struct table_cell {
	size_t start;  /* offset of its zero-terminated words */
	size_t length; /* theirs, in bytes, and in columns */
	size_t columns;
	size_t extra; /* how many bytes at their end are dropped when there is no room */
	size_t head;  /* the columns of what stands before these */
	enum hue hue;
};

/* What room the cells of a table need, column by column: the widest without its ending, and with
 * it. */
struct table_widths {
	size_t heads[TABLE_COLUMNS_MAX];
	size_t wholes[TABLE_COLUMNS_MAX];
};

/* A table being filled, row by row, cell by cell. */
struct table {
	const struct table_column *columns; /* borrowed */
	size_t column_count;
	size_t indent; /* blanks before every line */
	bool colour;
	struct table_widths widths;
	struct text words;        /* owned */
	struct table_cell *items; /* owned */
	size_t count;
	size_t capacity;
};

/* Starts an empty table over columns that outlive it. Free with table_clear. */
void table_init(struct table *table, const struct table_column *columns, size_t count,
    size_t indent, bool colour);
void table_clear(struct table *table);

/* Adds the next cell; the words are copied. The ending `extra` is dropped where the whole would
 * not fit on one line, in the flexible column. */
void table_add(struct table *table, enum hue hue, const char *words, const char *extra);

/* How many rows are complete. */
size_t table_rows(const struct table *table);

/* Writes the table: headings if there are any, then the rows. Every line fits the page; a
 * cell that is too wide continues below inside its own column, broken between words if
 * possible. No line ends in a blank. A column without words in any row is left out; a
 * table without rows writes nothing. */
void table_write(const struct table *table, struct text *out);

/* For a table of more rows than are held: adds a row as it can be kept elsewhere, and makes it the
 * only row of a table over the same columns, whose widths stay. */
void table_pack(const struct table *table, size_t row, struct text *out);
void table_unpack(struct table *table, const char *packed);

/* Makes room for what another table over the same columns needs. */
void table_widen(struct table *table, const struct table_widths *widths);

/* The parts of table_write: headings, and how wide each column is; then the rows. */
void table_write_head(const struct table *table, size_t *widths_out, struct text *out);
void table_write_rows(const struct table *table, const size_t *widths, struct text *out);

/* The rows of a table that comes some rows at a time, kept out of memory. Starts as `{ 0 }`; free
 * with kept_rows_clear. */
struct kept_rows {
	struct table_column columns[TABLE_COLUMNS_MAX];
	struct table table; /* over these; at most one row is in it */
	struct runs packed;
	size_t count;
};

void kept_rows_clear(struct kept_rows *rows);

/* Writes words as a paragraph: the first line after `first` blanks, the others after
 * `rest`. Empty words write nothing. */
void paragraph(const char *words, size_t first, size_t rest, struct text *out);

/* The part of some words that fits on one line. */
struct line_of_words {
	const char *start; /* borrowed */
	size_t length;     /* in bytes */
	size_t columns;
};

/* Takes the next line of at most `width` columns from safe words, breaking between words,
 * or inside one that is wider than a line; at least one letter, so that it always ends.
 * `rest` moves on to what follows it. False, with nothing taken, when only blanks are
 * left. */
bool line_next(const char **rest, size_t width, struct line_of_words *out);

/* True for a character that looks blank, GLUE too: no line starts or ends with one. */
static inline bool
is_blank(char letter)
{
	return letter == ' ' || letter == GLUE;
}

/* True when nothing but these is left. */
static inline bool
is_all_blank(const char *words)
{
	while (is_blank(*words)) {
		words++;
	}
	return *words == '\0';
}

/* Adds a piece, with GLUE written as blanks. */
void line_add(const struct line_of_words *piece, struct text *out);

/* Adds `count` blanks. */
void blanks_add(struct text *out, size_t count);

/* Adds the bytes of `words` to `out`, made safe as above except for GLUE. */
void add_safe(const char *words, struct text *out);

#define SCOPED_TABLE __attribute__((cleanup(table_clear))) struct table

#endif
