/* Rows of any table in words, for the journal: the schema itself says what a table's columns
 * are and whose row it is, so that a new table is told about without a line of code. Only for
 * files of this room.
 *
 * It goes by the schema's habits: `item`, `vessel` and `station` are what a book is about, and
 * any other row is about the one it refers to. Columns that end in _day, _on, _until, _first
 * and _last hold days; `made` with made_wording and made_estimated is a stamp, `on_day` with
 * on_wording too; _minor is money; a reference is told by the name of what it refers to. */
#ifndef BECKET_BOOK_ROW_WORDS_H
#define BECKET_BOOK_ROW_WORDS_H

#include "base/text.h"
#include "book/call.h"

struct column {
	const char *name;
	const char *fallback; /* the value it has when none is given */
	const char *refers;   /* the table it refers to; "" for none */
	int key; /* its place in the primary key, from 1; 0 it is no part of it */
	/* what follows is how it is told, see column_settle */
	bool
	    silent; /* with another (how a stamp is worded, whether it is an estimate) or not at
			    * all (numbers, keys and positions that only the book needs, and what a
			    * row is called) */
	bool holds_day; /* a day, or a stamp's day */
	bool money;     /* minor units; below 0 it is not known */
	size_t
	    worded; /* the column with a stamp's wording; the number of columns for none */
	size_t
	    estimated; /* the column that says of a stamp whether it is an estimate; likewise */
	const char *label; /* what it is called: "made", "price (minor units)" */
};

struct table_shape {
	const char *name;
	const struct column *columns;
	size_t count;
	struct table_shape *next;
};

/* A row's values by column, as text; NULL for SQL's NULL. */
struct row {
	const char **values;
};

/* The values of a row as text in the arena; no row of none. */
struct row row_texts(const struct value *values, size_t count, struct arena *arena);

/* Whose row it is. */
struct row_subject {
	const char *about;
	const char *name;
	const char *kind;
	const char *serial;
};

/* The work on one entry. Starts as `{ .book = book }`; clear with wording_clear. */
struct row_wording {
	struct book *book;
	struct arena kept;
	struct arena passing; /* what belongs to the change at hand */
};

void wording_clear(struct row_wording *wording);

/* Forgets what shapes_read read. */
void shapes_clear(struct book *book);

#define SCOPED_WORDING __attribute__((cleanup(wording_clear))) struct row_wording

/* Reads what the schema says of all tables, once for an open book: only migrations change it, and they
 * are run before anything else. */
MUST_CHECK bool shapes_read(struct book *book, struct fault *fault);

/* What it says of a table, once that is read; NULL for one that is not there. */
struct table_shape *shape_known(const struct book *book, const char *table);

/* The same, read when it is not yet; a table that is not there has no columns. Borrowed from the
 * book. */
MUST_CHECK bool shape_find(struct row_wording *wording, const char *table,
    struct table_shape **out, struct fault *fault);

/* True when the row is itself an item, a vessel or a station. */
bool shape_is_subject(const struct table_shape *shape);

/* Whose row it is. */
MUST_CHECK bool row_subject(struct row_wording *wording, const struct table_shape *shape,
    const struct row *row, struct row_subject *out, struct fault *fault);

/* A value in words, in `passing`; "" for what says nothing. */
MUST_CHECK bool value_words(struct row_wording *wording, const struct table_shape *shape,
    const struct row *row, size_t column, const char **out, struct fault *fault);

/* Adds a row in words, but what the schema would have put there and whose row it is: "task service,
 * on 2024-05-20, station Cape Lorne Rafts". */
MUST_CHECK bool row_in_words(struct row_wording *wording, const struct table_shape *shape,
    const struct row *row, const struct row_subject *subject, struct text *out,
    struct fault *fault);

/* Adds what of its subject a row is: nothing for the subject itself, else the table's name without the
 * subject's, "period" for a vessel's vessel_period. */
void add_row_part(
    const struct table_shape *shape, const struct row_subject *subject, struct text *out);

/* The place of a named column; the number of columns where there is none. */
size_t shape_column(const struct table_shape *shape, const char *name);

/* Works out how the columns of a table are told, once their names are known. */
void column_settle(
    const struct table_shape *shape, struct column *columns, struct arena *arena);

/* Adds what a column is called: "made", "price (minor units)". */
void add_column_label(const char *name, struct text *out);

#endif
