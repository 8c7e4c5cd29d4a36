/* The sum of a book's contents: a number that every value of every row goes into, so that a value
 * which was not written by this program - a bit that a disk flipped, a row that another program
 * changed - is told by the check of the book. Only for files of this room.
 *
 * A row's seed is a digest of its table's name and its key. To the sum it adds that seed and, for
 * each other column but NULL and the empty text, a digest of seed, column and value: SipHash-2-4 as
 * libsodium has it (crypto_shorthash), under a key that is no secret; of the number 0, seed and
 * column added. The sum is taken modulo 2^62, so that rows may come in any order and SQL adds to it
 * without passing the largest integer. The texts of the schema are in it too.
 *
 * What a transaction adds is worked out from the changes that were collected (collect.h); the
 * journal's own rows, which are not, as they are written. So nothing more is read, and the sum is
 * written with the revision, by the same statement.
 *
 * What is not in it: the revision itself; the bytes of papers (their own SHA-256 is checked); the
 * dates as last reckoned, which are reckoned anew whenever one is asked for and only tell what an
 * upgrade moved; and whatever is no value: indexes and the inside of pages, which SQLite's own check
 * of the file tells. Two faults at once go unnoticed once in 2^62. It guards against accidents, not
 * against malice. */
#ifndef BECKET_BOOK_SUMS_H
#define BECKET_BOOK_SUMS_H

#include "book/changes.h"
#include "book/row_words.h"

/* Whether a table's values go into the sum. */
bool sums_include(const char *table);

/* A row of the journal that is being written: its table's name and its keys first. */
struct row_sum {
	uint64_t seed;
	uint64_t values;
};

struct row_sum row_sum_of(const char *table);
void row_sum_key(struct row_sum *row, int column, int64_t key);
void row_sum_int(struct row_sum *row, int column, int64_t value);
void row_sum_bytes(struct row_sum *row, int column, const void *bytes, size_t size);

/* What any value adds under its row's seed at its column. */
uint64_t digest_value(uint64_t seed, int place, struct value value);

/* What a change adds to the sum, its columns being the table's in their order: not one that was read from an
 * entry of this program, which may leave some out. */
uint64_t change_sum(const struct row_change *change);

/* What of it one column of a changed row adds. */
uint64_t column_sum(const struct row_change *change, size_t column);

/* What the tables that the journal does not tell of add in the open transaction. */
MUST_CHECK bool kept_sum(struct book *book, uint64_t *out, struct fault *fault);

/* Raises the book's revision by one, and its sum by what the open transaction adds. */
MUST_CHECK bool revision_raise(struct book *book, struct fault *fault);

/* The sum as the rows have it, all of them read; and as it was carried on. */
MUST_CHECK bool sums_find(
    struct book *book, int64_t *found_out, int64_t *carried_out, struct fault *fault);

/* True when two sums are the same modulo 2^62. */
bool sums_equal(uint64_t a, uint64_t b);

/* Steps through all rows of a table, their values as the schema has its columns, until `each` fails. */
typedef bool row_visitor(const struct value *values, const struct table_shape *shape,
    void *context, struct fault *fault);
MUST_CHECK bool rows_each(struct row_wording *wording, const struct table_shape *shape,
    row_visitor *each, void *context, struct fault *fault);

/* The seed of a row. */
uint64_t row_seed(const struct value *values, const struct table_shape *shape);

/* Takes the contents as they are for what they should be, but for what they are `off`: in a transaction that
 * changes nothing else, or that has nothing before it, as a migration. */
MUST_CHECK bool sums_renew(struct book *book, uint64_t off, struct fault *fault);

#endif
