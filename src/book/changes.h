/* Changesets, as SQLite's session extension has them, change by change. Only for files of
 * this room. */
#ifndef BECKET_BOOK_CHANGES_H
#define BECKET_BOOK_CHANGES_H

#include "book/row_words.h"

/* Bytes of a changeset; owned when SQLite made them. Starts as `{ 0 }`. */
struct changeset {
	int size;
	void *bytes;
};

void changeset_clear(struct changeset *changes);

#define SCOPED_CHANGESET __attribute__((cleanup(changeset_clear))) struct changeset

/* Whether the bytes are a changeset from end to end: only then may SQLite read them. */
bool changeset_is_whole(const struct changeset *changes);

/* A number as text in the arena: what SQLite would make of it, in a tenth of the time. */
const char *integer_text(int64_t number, struct arena *arena);

/* One row's change. Everything is valid until the next one. */
struct row_change {
	const char *table;
	size_t count; /* columns */
	enum journal_act act;
	struct row old;      /* all of a removed row; of a changed one its key and what it
			      * was that is another now */
	struct row new;      /* all of an added row; of a changed one what it is now */
	const bool *has_new; /* of a changed row, by column: it is another now */
	const unsigned char *key; /* by column: part of the primary key */
	uint64_t sum;             /* what it adds to the sum of the book (sums.h) */
	struct sqlite3_changeset_iter *at; /* where the changeset stands */
};

/* Calls `each` for every change, in order, until it fails. `passing` holds the values of the
 * change at hand and is emptied after it. Bytes that are no changeset are FAULT_BOOK. */
MUST_CHECK bool changes_each(const struct changeset *changes, struct arena *passing,
    bool (*each)(const struct row_change *change, void *context, struct fault *fault),
    void *context, struct fault *fault);

/* By number, the entry that took it back and stands, 0 for none; up to `*last_out`, the last
 * entry that was taken back by any. */
MUST_CHECK bool journal_undone(struct book *book, struct arena *arena,
    const int64_t **out, int64_t *last_out, struct fault *fault);

/* Says that what an entry changed can't be taken back, and which later entries stand in the
 * way: those that stand, and changed the same rows or refer to rows it added. Returns false. */
bool later_refuse(struct book *book, int64_t number, const struct changeset *changes,
    struct fault *fault);

#endif
