/* What in a book is not as this program wrote it, once its sum says that something is (sums.h). Only for
 * files of this room.
 *
 * The journal has the changes of every entry, so all that they tell of can be made anew from the
 * first entry on, and held against what the file has: that gives values, rows that are gone and rows that
 * came by another way. Which of them account for the difference of the sum, the sums themselves
 * tell: what a migration rewrote, and rows older than the journal, add nothing to it. Where
 * none do, or the value is of what the journal does not tell of, each value is tried with each of its
 * bits turned: one bit is what a disk flips. */
#ifndef BECKET_BOOK_DIFFERING_H
#define BECKET_BOOK_DIFFERING_H

#include "book/row_words.h"

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

/* Finds what accounts for the sum found less the sum carried on, in a transaction that has only read. Nothing in
 * `out` where it can't be told; no more than so many are. */
MUST_CHECK bool differing_find(struct book *book, uint64_t off, struct arena *arena,
    struct differing *out, struct fault *fault);

/* Every choice of the first so many is tried, in which no one comes right by chance: 2^16 to 2^62. Of
 * more, each alone, and all together. */
enum { DIFFERING_FEW = 16 };

/* Adds what the journal and the book have otherwise, whether the sum differs by it or not. A journal
 * that can't be read adds nothing. */
MUST_CHECK bool differing_by_journal(
    struct book *book, struct arena *arena, struct differing *out, struct fault *fault);

/* Adds the value that with one bit turned would make the sum right, if there is one. Numbers, texts up to
 * 4 KiB, and none of the bytes of papers. */
MUST_CHECK bool differing_by_bit(struct book *book, uint64_t off, struct arena *arena,
    struct differing *out, struct fault *fault);

/* Adds one of them; the words are copied to the arena. */
void differing_add(
    struct arena *arena, struct differing *out, struct differing_value value);

/* Adds what it is about: a tag, a name, or what else there is one of. */
void differing_add_name(const struct row_subject *subject, struct text *out);

/* Adds a value of a row in words: what it is and what it was. */
MUST_CHECK bool differing_value_words(struct row_wording *wording,
    const struct table_shape *shape, const struct row *was, const struct row *is,
    size_t column, struct text *out, struct fault *fault);

#endif
