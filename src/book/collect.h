/* What a transaction changes: each row of some tables as it was before and as it is now, as SQLite's
 * preupdate hook tells of it. No statement is run for that. Its bytes are a changeset as SQLite's
 * session extension writes them (www.sqlite.org/session/c_changegroup.html and the head of its
 * ext/session/sqlite3session.c), which reads them, turns them round and applies them; rows stand in
 * the order in which they were first touched. The hook tells of a row as it is written, and not when a
 * statement that fails takes that back: such a transaction is spoilt, and never kept. Only for files of
 * this room. */
#ifndef BECKET_BOOK_COLLECT_H
#define BECKET_BOOK_COLLECT_H

#include "book/changes.h"

void collected_clear(struct collected *collected);

/* Has the connection tell book->told and book->kept of its changes from now on: called once, before any
 * statement is prepared, for some forms of deletion tell of no row where nobody listens. */
void collect_begin(struct book *book);
void collect_end(struct book *book);

/* True when nothing is another than it was. */
bool collected_is_empty(const struct collected *collected);

/* The changeset. A changed row has its key and what is another now; with `whole` every column, of
 * which words can be made. */
MUST_CHECK bool collected_changeset(const struct collected *collected, bool whole,
    struct changeset *out, struct fault *fault);

/* A row with a key of one number, as it is now, or was when it is gone: its values as text in the arena.
 * False when the transaction has not touched it. */
bool collected_row(const struct collected *collected, const char *table, int64_t key,
    struct arena *arena, struct row *out);

#endif
