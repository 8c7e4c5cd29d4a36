/* Values as a book stores them, in memory and as bytes, and the changes of an entry of
 * the journal made of them, and its lines. Nothing here knows SQLite. Only for files of
 * this room. */
#ifndef BECKET_BOOK_VALUE_H
#define BECKET_BOOK_VALUE_H

#include "base/memory.h"
#include "base/text.h"
#include "gear/journal.h"

#include <stdint.h>

/* What a value is; these numbers stand in every book. */
enum value_held {
	HELD_NOTHING, /* SQL's NULL */
	HELD_INTEGER,
	HELD_REAL, /* no column of a book holds one; an entry of the journal may tell of one */
	HELD_TEXT,
	HELD_BYTES,
	HELD_UNSAID, /* what a change does not tell; never in bytes */
};

/* A parameter, a column of a row, or a value before or after a change. */
struct value {
	enum value_held held;
	int64_t number; /* of an integer, and the 64 bits of a real; 0 of anything else */
	/* of text and bytes, never NULL for them, and NULL of anything else; borrowed,
	 * and ended by a zero only where that is said */
	const char *bytes;
	size_t length; /* of `bytes` */
};

/* Bytes that are still to be read. Each of the calls below takes from their front, and
 * fails where there are too few. */
struct bytes_left {
	const unsigned char *at;
	size_t left;
};

MUST_CHECK bool bytes_take(
    struct bytes_left *left, size_t count, const unsigned char **out);
MUST_CHECK bool number_take(struct bytes_left *left, uint64_t *out);

/* 64 bits, the high byte first. */
MUST_CHECK bool eight_take(struct bytes_left *left, int64_t *out);

/* Text and bytes are borrowed from what is read. A type that there is not is a
 * failure. */
MUST_CHECK bool value_take(struct bytes_left *left, struct value *out);

/* Takes so many values from bytes that only values_add wrote, so that nothing can be wrong
 * with them. */
void values_take(struct bytes_left bytes, size_t count, struct value *out);

bool bytes_same(struct bytes_left a, struct bytes_left b);

void number_add(struct text *out, uint64_t number);
void value_add(struct text *out, const struct value *value);
void values_add(struct text *out, const struct value *values, size_t count);

bool value_same(const struct value *a, const struct value *b);

/* The number that a real is. */
double value_real(const struct value *value);

/* The value as text in the arena, NULL for nothing. Of bytes only their number is told,
 * "" for none. */
const char *value_text(const struct value *value, struct arena *arena);

/* What an entry of the journal changed, row by row, as the bytes that are kept in it.
 * Nothing here or in changes.c and changeset.c knows SQLite. Only for files of this room.
 *
 * The bytes, in which numbers and values are as value.h has them:
 *
 *   entry    the byte 1, the number of tables, and each of them
 *   table    its name; the number of columns, and of each its name and its place in the
 *            primary key, from 1, 0 for none; the number of rows, and each of them
 *   name     its length, and itself
 *   row      the byte 0, 1 or 2: added, changed, removed (enum journal_act). Of one that
 *            was added or removed the values of all columns. Of one that was changed the
 *            values of its key; the number of the other columns that are another now,
 *            and of each its number, from 0, what it was and what it is
 *
 * Of a table of which no row came or went, the columns are its key and those that are
 * another in any row, but in an entry that is kept in pieces (journal_inside.h): there
 * they are all.
 *
 * Everything has its number or its length before it, so bytes that were cut short are
 * told from whole ones. No entry has no bytes at all but one that changed nothing.
 *
 * Entries of older programs are changesets as SQLite's session extension has them, and
 * stay so: they begin with a 'T' and are read by changeset.c. */

/* No table of SQLite's has more, unless it is built for it. */
enum { CHANGES_COLUMNS_MOST = 2000 };

/* An item that was read with a row that is of it. */
struct named_item {
	int64_t id;
	const char *tag, *kind, *serial;
};

/* One row's change. Everything is borrowed, and valid until the next one. */
struct row_change {
	const char *table;
	size_t count; /* columns; at least one of them is of the key */
	/* by column: what it is called; NULL where it goes by its place, in entries of
	 * older programs */
	const char *const *names;
	const unsigned char
	    *key; /* by column: its place in the primary key, from 1; 0: none */
	enum journal_act act;
	/* By column. `was` is NULL for an added row and `is` for a removed one. A changed
	 * row has its key in `was`, and what was said of neither side is as it was; the
	 * key is UNSAID in `is`. Where the change is read as it is made
	 * (journal_inside.h), both have all columns. */
	const struct value *was;
	const struct value *is;
	const struct named_item *of; /* NULL, or the item that an added row is of */
};

typedef bool change_visitor(
    const struct row_change *change, void *context, struct fault *fault);

/* Calls `each` for every change, in order, until it fails. `passing` is for what belongs
 * to the change at hand, and is emptied after it. Bytes that are not whole and sound from
 * end to end are FAULT_BOOK, before anything is called. */
MUST_CHECK bool changes_each(const void *bytes, size_t size, struct arena *passing,
    change_visitor *each, void *context, struct fault *fault);

/* Writing: the head of an entry of so many tables; of a table, as a change of it says it,
 * with so many rows; and each row. One that was added or removed is given as bytes, as
 * values_add writes its values; of one that was changed, values that
 * are the same before and after are left out. */
void changes_add_head(struct text *out, size_t tables);
void changes_add_table(struct text *out, const struct row_change *of, size_t rows);
void changes_add_whole(struct text *out, enum journal_act act, struct bytes_left values);
void changes_add_changed(struct text *out, const struct row_change *change);

/* Adds a row of any of these acts, given by its values. */
void changes_add_row(struct text *out, const struct row_change *change);

/* The values that have the key of the changed row: what it was, or, where it was added,
 * what it is. */
const struct value *change_row(const struct row_change *change);

/* ---- the lines of an entry ---- */

/* The texts of a line, in the order of the schema's columns. */
enum line_text {
	LINE_ABOUT,
	LINE_NAME,
	LINE_KIND,
	LINE_SERIAL,
	LINE_ACT,
	LINE_FIELD,
	LINE_WAS,
	LINE_BECAME,
	LINE_TEXTS,
};

/* A page's lines, one after the other. The texts of the line at hand are borrowed from
 * the page's bytes. */
struct page_reading {
	struct bytes_left left;
	struct value texts[LINE_TEXTS];
};

/* Starts with the bytes of a page, or goes to its next line, until `*found_out` is false.
 * A page that is damaged is FAULT_BOOK. */
MUST_CHECK bool lines_page_open(
    const struct value *bytes, struct page_reading *out, struct fault *fault);
MUST_CHECK bool lines_page_next(
    struct page_reading *reading, bool *found_out, struct fault *fault);

/* The line at hand, copied into the arena. */
struct journal_line lines_page_line(
    const struct page_reading *reading, struct arena *arena);

/* So many rows are added by one statement where there are many: SQLite opens the table's
 * indexes anew for each that adds any, and keeps every page that it touches as it was. */
enum { ROWS_MANY = 50 };

/* The lines of an entry, which tell people what changed: written one after the other, and
 * read. An entry that changed few rows has a row for each line (journal_line); one of
 * many, whose bytes are in pieces, has its lines in pages of many lines (journal_page). */

struct book;

/* A page that is being filled. */
struct line_page {
	struct text items, others,
	    lines;                      /* as the schema has them, the lists still open */
	struct text before[LINE_TEXTS]; /* of the line before */
	bool told;                      /* that line's item is in `items` */
};

/* Starts as `{ .book = book, .number = number of the entry, .in_pages }`; clear with
 * entry_lines_clear. What is added waits until there is enough, or entry_lines_end writes
 * it: that rest, which is all there is after an act on a few pieces, goes as one list. */
struct entry_lines {
	struct book *book;
	int64_t number;
	bool in_pages;
	int64_t position; /* of the next line, or page, that is written */
	size_t count;     /* lines that wait, but in a page */
	struct journal_line waiting[ROWS_MANY];
	struct arena words; /* theirs */
	struct line_page page;
};

void entry_lines_clear(struct entry_lines *lines);

/* Adds a line to the entry; its words are copied. Ill-formed UTF-8 is FAULT_INPUT, told
 * when the line is written. What is written is added to the sum of the book. */
MUST_CHECK bool entry_lines_add(
    struct entry_lines *lines, const struct journal_line *line, struct fault *fault);

/* Writes what still waits. */
MUST_CHECK bool entry_lines_end(struct entry_lines *lines, struct fault *fault);

/* The same of lines that go into pages: adds one, and writes what waits. */
MUST_CHECK bool lines_page_add(
    struct entry_lines *lines, const struct journal_line *line, struct fault *fault);
MUST_CHECK bool lines_page_write(struct entry_lines *lines, struct fault *fault);
void lines_page_clear(struct line_page *page);

/* A line's texts; borrowed. The act that a word stands for. */
void line_texts(const struct journal_line *line, const char *out[LINE_TEXTS]);
enum journal_act line_act(const char *word);

/* ---- between changes.c and changeset.c ---- */

/* Bytes that are being read. */
struct changes_reading {
	struct bytes_left left;
	uint64_t tables; /* that are still to come */
	uint64_t rows;   /* of the table at hand */
	bool ended;
	struct row_change change;
	struct arena table;     /* what belongs to the table at hand */
	struct value *was, *is; /* in it */
};

/* Makes room for the values of the table at hand. False for too many columns, or none of
 * the key. */
MUST_CHECK bool changes_ready(struct changes_reading *reading);

/* Reads the next change of a changeset, or sets `ended`. False for bytes that are
 * none. */
MUST_CHECK bool changeset_next(struct changes_reading *reading);

#endif
