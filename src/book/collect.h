/* What a transaction changes: each row of some tables as it was before and as it is now, as SQLite's
 * preupdate hook tells of it. No statement is run for that. Tables and their rows stand in the order in
 * which they were first touched. The hook tells of a row as it is written, and not when a
 * statement that fails takes that back: such a transaction is spoilt, and never kept. Only for files of
 * this room. */
#ifndef BECKET_BOOK_COLLECT_H
#define BECKET_BOOK_COLLECT_H

#include "book/changes.h"
#include "book/row_words.h"

/* A row that was touched. Its values stand one after the other as bytes; no bytes: there is no row. */
struct collected_row {
	struct collected_row *next;    /* in the order in which they were touched */
	struct collected_row *chained; /* another of the same bucket */
	struct bytes_left key;         /* the values of its key */
	struct bytes_left was;
	struct bytes_left is;
	bool heard; /* else it has its place alone, and is as it was */
};

struct collected_table {
	struct collected_table *next;
	const struct table_shape *shape;
	const char *const *names; /* by column */
	const unsigned char *key; /* by column: its place in the primary key */
	struct collected_row *first, *last;
	struct collected_row **buckets;
	size_t bucket_count;
	size_t count;
};

void collected_clear(struct collected *collected);

/* Has the connection tell book->told and book->kept of its changes from now on: called once, before any
 * statement is prepared, for some forms of deletion tell of no row where nobody listens. */
void collect_begin(struct book *book);

/* Gives the row of a change its place before it is touched, so that what is taken back is told in the order in
 * which it was done. */
void collected_foresee(struct collected *collected, const struct table_shape *shape,
    const struct row_change *change);

/* Calls `each` for every row that is another than it was, all its columns told, until it fails. `passing` is
 * emptied after each. */
MUST_CHECK bool collected_each(const struct collected *collected, struct arena *passing,
    change_visitor *each, void *context, struct fault *fault);

/* Adds them as the bytes of an entry (changes.h); none where nothing is another. */
void collected_add(const struct collected *collected, struct text *out);

/* A row with a key of one number, as it is now, or was when it is gone: its values in the arena. NULL when the
 * transaction has not touched it. */
const struct value *collected_row(const struct collected *collected, const char *table,
    int64_t key, struct arena *arena);

#endif
