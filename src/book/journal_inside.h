/* Inside the book: what a transaction changes, its rows in words, and taking entries
 * back. Not for other rooms. */
#ifndef BECKET_BOOK_JOURNAL_INSIDE_H
#define BECKET_BOOK_JOURNAL_INSIDE_H

#include "base/text.h"
#include "book/call.h"
#include "book/value.h"

/* What a column holds. */
enum column_type {
	COLUMN_NUMBER,
	COLUMN_FLAG, /* 0 and 1 for no and yes */
	COLUMN_DAY, /* yyyymmdd with 00 for what is not known, 0 for no day; mmdd of every year */
	COLUMN_MONEY, /* minor units; below 0 it is not known */
	COLUMN_TEXT,
	COLUMN_BYTES,
};

struct column {
	const char *name;
	const char
	    *fallback; /* as text, the value it has when none is given; NULL for none */
	const char
	    *refers; /* the table it refers to, by its key of one column; NULL for none */
	enum column_type type;
	int key;       /* its place in the primary key, from 1; 0 it is no part of it */
	bool nullable; /* it may be SQL's NULL */
	/* the journal tells it with another column (a stamp's wording) or not at all
	 * (numbers, keys and positions that only the book needs, and a row's name) */
	bool silent;
	/* of a stamp's day the columns with its wording and whether it is an estimate; 0
	 * for any other */
	size_t worded, estimated;
};

/* What becomes of a change of a table's rows. */
enum table_keeping {
	KEEPING_TOLD, /* the journal tells of it */
	/* the program's memory, no person's word: what was given out, and to which secret
	 * addresses; the sheets of a copy; answers about lists. In the sum
	 * (check_inside.h) */
	KEEPING_SUMMED,
	KEEPING_JOURNAL, /* the journal itself: in the sum as it is written */
	/* in no sum either: the sum itself; bytes of papers, which are never taken out,
	 * so that their digest is enough; dates as last reckoned */
	KEEPING_APART,
};

struct table_shape {
	const char *name;
	const struct column *columns; /* as they stand in the file */
	size_t count;
	enum table_keeping kept;
	unsigned loads; /* what is loaded of it (rows.h) */
	/* the numbers of its rows, `id`; NUMBERED_ENTRY: the program gives them none */
	enum numbered numbered;
};

/* All of them, by name (tables.c). */
extern const struct table_shape TABLES[];
extern const size_t TABLE_COUNT;

/* The table of that name; NULL for none. */
const struct table_shape *shape_known(const char *table);

/* The place of a named column; the number of columns where there is none. */
size_t shape_column(const struct table_shape *shape, const char *name);

/* The value that a column has when none is given; nothing for none. */
struct value column_fallback(const struct column *column);

/* Rows of any table in words, for the journal, as tables.h describes them. `item`,
 * `vessel` and `station` are subjects; any other row is about the one it refers to, told
 * by name. Only for files of this room. */

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
	struct table_words *words; /* for the table of the last row; in `kept` */
	struct arena passing;      /* what belongs to the change at hand */
	const struct named_item
	    *of;        /* the item that the change at hand is of, if known */
	int64_t vessel; /* that was asked for last; 0 for none */
	struct text vessel_name;
};

void wording_clear(struct row_wording *wording);

#define SCOPED_WORDING __attribute__((cleanup(wording_clear))) struct row_wording

/* What is known of a table. A table that only an older entry still names has no
 * columns. */
const struct table_shape *shape_find(struct row_wording *wording, const char *table);

/* Whose row it is, by its values by column. */
MUST_CHECK bool row_subject(struct row_wording *wording, const struct table_shape *shape,
    const struct value *row, struct row_subject *out, struct fault *fault);

/* A value in words, in `passing`; "" for a value that has nothing to tell. */
MUST_CHECK bool value_words(struct row_wording *wording, const struct table_shape *shape,
    const struct value *row, size_t column, const char **out, struct fault *fault);

/* Adds a row in words, without the defaults of the schema and without its subject: "task
 * service, on 2024-05-20, station Cape Lorne Rafts". */
MUST_CHECK bool row_in_words(struct row_wording *wording, const struct table_shape *shape,
    const struct value *row, const struct row_subject *subject, struct text *out,
    struct fault *fault);

/* Adds which part of its subject a row is: nothing for the subject itself, else the table
 * without the subject's name, "period" for vessel_period. */
void add_row_part(
    const struct table_shape *shape, const struct row_subject *subject, struct text *out);

/* Adds what a column is called: "made", "price (minor units)". */
void add_column_label(const char *name, struct text *out);

/* What a transaction changes: rows before and now, from SQLite's preupdate hook; in a
 * large transaction a statement reads the added rows. Tables and rows are in the order of
 * their first touch. The hook is not told when a failing statement takes rows back: such
 * a transaction is spoilt, and never kept. Only for files of this room. */

/* A touched row, its values one after the other as bytes; no bytes: no such row. */
struct collected_row {
	struct collected_row *next;    /* in the order in which they were touched */
	struct collected_row *chained; /* another of the same bucket */
	struct bytes_left key;         /* the values of its key */
	struct bytes_left was;
	struct bytes_left is;
	bool heard; /* else only its place is reserved; it has not changed */
	/* of a run of added rows with consecutive numbers: the first, how many were added
	 * and are still there; else 0. Their values are read from the book */
	int64_t first, added, there;
};

struct collected_table {
	struct collected_table *next;
	const struct table_shape *shape;
	const char *const *names; /* by column */
	const unsigned char *key; /* by column: its place in the primary key */
	struct collected_row *first, *last;
	struct collected_row **buckets;
	size_t bucket_count;
	size_t count; /* rows that are in no run */
	uint64_t
	    told; /* columns, as bits, in which the runs may differ from the schema */

	struct added_runs {
		struct collected_row **items; /* by number */
		size_t count;
		size_t capacity;
	} runs;
};

void collected_clear(struct collected *collected);
/* What was touched of a table; NULL for nothing. */
struct collected_table *collected_table(
    const struct collected *collected, const char *name);

/* Makes the connection report its changes to book->told and book->sum. Called once,
 * before any statement is prepared, else some forms of deletion report no row. */
void collect_begin(struct book *book);

/* Reserves a row's place beforehand: what is taken back is told in the order done. */
void collected_foresee(struct collected *collected, const struct table_shape *shape,
    const struct row_change *change);

/* Calls `each`, until it fails, for every changed row with all its columns. `passing` is
 * emptied after each. Runs are read from the book, so in the open transaction. */
MUST_CHECK bool collected_each(struct book *book, const struct collected *collected,
    struct arena *passing, change_visitor *each, void *context, struct fault *fault);

/* How many tables have changed rows; changed rows of a table; all rows touched. */
size_t collected_tables(const struct collected *collected);
size_t collected_rows(const struct collected *collected, const char *table);
size_t collected_touched(const struct collected *collected);

/* Adds the changes as the bytes of an entry (value.h), none where nothing changed; only
 * where there is no run: no more rows were touched than TOUCHED_WITHOUT_RUN, and it was not
 * told to be large (call.h). */
enum { TOUCHED_WITHOUT_RUN = 1000 };

void collected_add(const struct collected *collected, struct text *out);

/* A row with a key of one number, in the arena: its values now, or before it was removed.
 * NULL when the transaction has not touched it, or it is in a run, as from the first row on
 * where it was told to be large. */
const struct value *collected_row(const struct collected *collected, const char *table,
    int64_t key, struct arena *arena);

/* The bytes of an entry of many rows, written piece by piece as the rows are told. */
struct entry_pieces {
	struct book *book;        /* NULL: the entry has none */
	int64_t number, position; /* of the entry, and of the piece at hand */
	const char *table;        /* of the last change; a constant of tables.c */
	struct text bytes;        /* of the piece at hand; owned */
};

/* Writes an entry for the changes in book->told in pieces: pieces_add for each change, then
 * pieces_write, which writes what waits, if anything does. The caller clears `bytes`. */
void pieces_begin(struct entry_pieces *pieces, struct book *book, int64_t number);
MUST_CHECK bool pieces_add(
    struct entry_pieces *pieces, const struct row_change *change, struct fault *fault);
MUST_CHECK bool pieces_write(struct entry_pieces *pieces, struct fault *fault);

/* Entries, read one after the other. Starts as `{ 0 }`; clear with entries_clear. */
struct entries_reading {
	int64_t number; /* of the entry at hand */
	int64_t undoes; /* which it takes back; 0 for none */
	struct text changes;
	struct call call;
	bool more;      /* a row of an entry is read that was not given yet */
	int64_t coming; /* its number */
};

void entries_clear(struct entries_reading *reading);
#define SCOPED_ENTRIES __attribute__((cleanup(entries_clear))) struct entries_reading

/* Starts to read all entries after a number, in order; the next, until `*found_out` is
 * false. */
MUST_CHECK bool entries_read(
    struct book *book, int64_t after, struct entries_reading *out, struct fault *fault);
MUST_CHECK bool entries_next(
    struct entries_reading *reading, bool *found_out, struct fault *fault);

/* Adds the bytes of one entry; `*found_out` is false where there is none of that number. */
MUST_CHECK bool entry_changes(struct book *book, int64_t number, struct text *out,
    bool *found_out, struct fault *fault);

/* Taking entries back: what prevents it, what was taken back, and applying a change of
 * the journal or its reverse by a statement of our own. Only for files of this room. */

/* For each entry, by its number, the entry that took it back and still stands, 0 for
 * none; up to `*last_out`, the last entry that any other took back. */
MUST_CHECK bool journal_undone(struct book *book, struct arena *arena,
    const int64_t **out, int64_t *last_out, struct fault *fault);

/* The fault that an entry can't be taken back. It names the later entries that still
 * stand and changed the same rows or refer to rows it added. Returns false. */
bool later_refuse(
    struct book *book, int64_t number, const struct text *changes, struct fault *fault);

/* Takes back row by row what an entry changed, in the open transaction. `*done_out` is
 * false where a row is not as the entry left it, or what others need would go: roll back
 * then. */
MUST_CHECK bool changes_take_back(
    struct book *book, const struct text *changes, bool *done_out, struct fault *fault);

/* ---- one row ---- */

enum applied {
	APPLIED,
	/* no row is as the change says, or others would go with it; the statement has
	 * run: roll back */
	APPLIED_OTHERWISE,
	APPLIED_LATER, /* a constraint holds it back: nothing is done, and it may go when more is */
};

/* Starts as `{ .book = book }`; clear with applying_clear. */
struct applying {
	struct book *book;
	bool back; /* what was added is taken out, and so on */
	/* apply to the row with the key, whatever it holds; what is in its place is
	 * replaced */
	bool over;
	struct text sql;           /* of the statement at hand */
	struct prepared *prepared; /* owned; the next change is often of the same kind */
	struct text prepared_text;

	struct given_values {
		struct value *items; /* owned; their bytes are the change's */
		size_t count;
		size_t capacity;
	} values; /* its parameters */
};

void applying_clear(struct applying *applying);

/* The column of a change in the present table, by name or else place; their number for
 * none. */
size_t change_column(
    const struct row_change *change, const struct table_shape *shape, size_t column);

/* Whether a table still has all that a change tells of, under the same key. */
bool change_fits(const struct row_change *change, const struct table_shape *shape);

/* Applies a change that fits. References are enforced as the connection does. */
MUST_CHECK bool change_apply(struct applying *applying, const struct table_shape *shape,
    const struct row_change *change, enum applied *out, struct fault *fault);

#endif
