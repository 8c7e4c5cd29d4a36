/* Inside the book: the rules that must hold, the sum of its contents, and what differs
 * from it. Not for other rooms. */
#ifndef BECKET_BOOK_CHECK_INSIDE_H
#define BECKET_BOOK_CHECK_INSIDE_H

#include "base/text.h"
#include "book/call.h"
#include "book/journal_inside.h"
#include "book/value.h"

/* What must hold in a book, one rule a row: the whole book is checked by them, and so
 * is what a transaction has touched before it is kept (guard). Only for files of this
 * room. */

/* When a row is a finding: always, or only where the kind or sheet that its detail names
 * is not known. */
enum check_asked { ASKED_NO_ONE, ASKED_KIND, ASKED_SHEET };

/* Each row of its statement is a finding, worded "name, middle, detail, end". */
struct check_rule {
	const char *rule;
	const char *holds;
	enum statement
	    statement;          /* gives a name and a detail; where it has two parameters,
				   * only of the items with these numbers and their parts */
	enum check_asked asked; /* about the detail */
	const char *middle;
	const char *end;
	const char *to_do;
};

/* The file itself comes first. */
extern const struct check_rule CHECK_RULES[];
extern const size_t CHECK_RULE_COUNT;

/* Starts a rule's statement for the items with the numbers from `first` to `last`; a rule
 * that is not about items asks about the whole book. */
MUST_CHECK bool check_open(struct book *book, const struct check_rule *rule,
    int64_t first, int64_t last, struct call *call_out, struct fault *fault);

/* Adds a row's finding in words. */
void check_words(const struct check_rule *rule, const char *name, const char *detail,
    struct text *out);

/* The items that a transaction touched, by their numbers. Starts as `{ 0 }`. */
struct guarding {
	int64_t *items; /* owned; of many items some, with the first and the last */
	size_t count;
	size_t capacity;
	bool removed; /* an item is gone: anything may have referred to it */
	/* Only rules that the changes can break are asked. Where nothing is changed or
	 * removed, an item that was added breaks those about where it stands only by what
	 * its own row says, a record the one about its next day likewise. */
	bool standing, dated;

	/* The table of the last change, and its columns that are looked at. */
	const struct table_shape *of;
	bool item, record;
	size_t columns[2];
};

/* Notes what a change touches. */
void guard_note(struct guarding *guarding, const struct table_shape *shape,
    const struct row_change *change);

/* FAULT_INPUT when what a transaction changed would be found wrong by `book check`, and
 * was not wrong before. Called inside the transaction, once all its changes are noted,
 * before it is kept. */
MUST_CHECK bool guard(struct book *book, struct guarding *guarding, struct fault *fault);

void guard_clear(struct guarding *guarding);

/* The sum of a book's contents: a number that every value of every row goes into, so that
 * a value which was not written by this program - a bit that a disk flipped, a row that
 * another program changed - is told by the check of the book. Only for files of this
 * room.
 *
 * A row's seed is a digest of its table's name and its key. To the sum it adds that seed
 * and, for each other column but NULL and the empty text, a digest of seed, column and
 * value: SipHash-2-4 as libsodium has it (crypto_shorthash), under a key that is no
 * secret; of the number 0, seed and column added. The sum is taken modulo 2^62, so that
 * rows may come in any order and SQL adds to it without passing the largest integer. The
 * texts of the schema are in it too.
 *
 * What a transaction adds is worked out from the changes that were collected
 * (journal_inside.h); of rows that the journal does not tell of, and of its own, as they
 * are written. So nothing more is read, and the sum is written with the revision, by the
 * same statement.
 *
 * What is not in it: the revision itself; the bytes of papers (their own SHA-256 is
 * checked); the dates as last reckoned, which are reckoned anew whenever one is asked for
 * and only tell what an upgrade moved; and whatever is no value: indexes and the inside
 * of pages, which SQLite's own check of the file tells. Two faults at once go unnoticed
 * once in 2^62. It guards against accidents, not against malice. */

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

/* What a change adds to the sum. It must have all columns of the table in their order: a
 * change read from an entry of this program may leave some out. */
uint64_t change_sum(const struct row_change *change);

/* The share of change_sum that one column of a changed row adds. */
uint64_t column_sum(const struct row_change *change, size_t column);

/* Raises the book's revision by one, and its sum by what the open transaction adds. */
MUST_CHECK bool revision_raise(struct book *book, struct fault *fault);

/* The sum worked out from all rows, and the sum as it was kept up with each
 * transaction. */
MUST_CHECK bool sums_find(
    struct book *book, int64_t *found_out, int64_t *carried_out, struct fault *fault);

/* True when two sums are the same modulo 2^62. */
bool sums_equal(uint64_t a, uint64_t b);

/* Steps through all rows of a table, their values as the schema has its columns, until
 * `each` fails. */
typedef bool row_visitor(const struct value *values, const struct table_shape *shape,
    void *context, struct fault *fault);
MUST_CHECK bool rows_each(struct row_wording *wording, const struct table_shape *shape,
    row_visitor *each, void *context, struct fault *fault);

/* The seed of a row, and what all of it adds to the sum. */
uint64_t row_seed(const struct value *values, const struct table_shape *shape);
uint64_t row_adds(const struct value *values, const struct table_shape *shape);

/* Accepts the contents as they are as right, except for a difference of `off` in the sum:
 * in a transaction that changes nothing else, or that has nothing before it, as a
 * migration. */
MUST_CHECK bool sums_renew(struct book *book, uint64_t off, struct fault *fault);

/* Finds what in a book is not as this program wrote it, once its sum says that something
 * is not (above). Only for files of this room.
 *
 * The journal has the changes of every entry, so all that they tell of can be made again
 * from the first entry on, and compared with the file: that gives values, rows that are
 * gone and rows that came in another way. The sums tell which of these account for the
 * difference: what a migration rewrote, and rows older than the journal, add nothing to
 * it. Where none do, or the value is in a table that the journal does not tell of, each
 * value is tried with each of its bits flipped, as a faulty disk flips one. */

/* One thing that differs. */
struct differing_value {
	const char *words; /* "LJ-1: made is 2012-05, not as becket wrote it: 2021-05" */
	uint64_t sum;      /* by which it makes the sum another */
	bool
	    whole; /* a row of which the journal has no word: it may be older than that */
};

/* Starts as `{ 0 }`; in an arena. */
struct differing {
	struct differing_value *items;
	size_t count;
	size_t capacity;
};

/* Finds what accounts for the sum found less the sum carried on, in a transaction that
 * has only read. Nothing in `out` where it can't be told; no more than so many are. */
MUST_CHECK bool differing_find(struct book *book, uint64_t off, struct arena *arena,
    struct differing *out, struct fault *fault);

/* Of up to so many differences every combination is tried: 2^16, of which hardly one
 * comes right by chance among 2^62 sums. Of more, each alone is tried, and all
 * together. */
enum { DIFFERING_FEW = 16 };

/* Adds what differs between the journal and the book, whether the sum differs by it or
 * not. A journal that can't be read adds nothing. */
MUST_CHECK bool differing_by_journal(
    struct book *book, struct arena *arena, struct differing *out, struct fault *fault);

/* Adds the value that would make the sum right with one bit flipped, if there is one.
 * Tried are numbers and texts up to 4 KiB, but not the bytes of papers. */
MUST_CHECK bool differing_by_bit(struct book *book, uint64_t off, struct arena *arena,
    struct differing *out, struct fault *fault);

/* Adds one difference; its words are copied to the arena. */
void differing_add(
    struct arena *arena, struct differing *out, struct differing_value value);

/* Adds what a row is about: a tag, a name, or the word for what there is only one of. */
void differing_add_name(const struct row_subject *subject, struct text *out);

/* Adds a value of a row in words: what it is and what it was. */
MUST_CHECK bool differing_value_words(struct row_wording *wording,
    const struct table_shape *shape, const struct value *was, const struct value *is,
    size_t column, struct text *out, struct fault *fault);

#endif
