/* Taking entries back: what stands in the way, what was taken back, and doing what a change of the journal
 * did, or the contrary, by a statement of our own. Only for files of this room. */
#ifndef BECKET_BOOK_UNDO_H
#define BECKET_BOOK_UNDO_H

#include "book/changes.h"
#include "book/row_words.h"

/* By number, the entry that took it back and stands, 0 for none; up to `*last_out`, the last
 * entry that was taken back by any. */
MUST_CHECK bool journal_undone(struct book *book, struct arena *arena,
    const int64_t **out, int64_t *last_out, struct fault *fault);

/* Says that what an entry changed can't be taken back, and which later entries stand in the
 * way: those that stand, and changed the same rows or refer to rows it added. Returns false. */
bool later_refuse(
    struct book *book, int64_t number, const struct text *changes, struct fault *fault);

/* Takes back row by row what an entry changed, in the transaction that is open. `*done_out` is false where a
 * row is not as it left it, or what others need would go: then the transaction is to be rolled back. */
MUST_CHECK bool changes_take_back(
    struct book *book, const struct text *changes, bool *done_out, struct fault *fault);

/* ---- one row ---- */

/* What came of it. */
enum applied {
	APPLIED,
	/* no row is as the change has it, or others would go with it; what the statement did is there, and the
	 * transaction is to be rolled back */
	APPLIED_OTHERWISE,
	APPLIED_LATER, /* a constraint holds it back: nothing is done, and it may go when more is */
};

/* Starts as `{ .book = book }`; clear with applying_clear. */
struct applying {
	struct book *book;
	bool back; /* what was added is taken out, and so on */
	/* of the row with the key, whatever it is now; what is in its place goes */
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

#define SCOPED_APPLYING __attribute__((cleanup(applying_clear))) struct applying

/* The column of a change as the table has it now, by its name or else its place; the number of columns for
 * none. */
size_t change_column(
    const struct row_change *change, const struct table_shape *shape, size_t column);

/* Whether a table still has all that a change tells of, under the same key. */
bool change_fits(const struct row_change *change, const struct table_shape *shape);

/* Applies a change that fits. References are enforced as the connection does. */
MUST_CHECK bool change_apply(struct applying *applying, const struct table_shape *shape,
    const struct row_change *change, enum applied *out, struct fault *fault);

#endif
