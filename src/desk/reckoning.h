/* The dates as last reckoned, kept in the book so that a newer program, or other rule
 * sheets, can be told from a day that passed and a thing that was done.
 *
 * What is kept: of each task of each item its day, state and rule, and for each vessel
 * the day for which they were reckoned; for the book a digest of the kinds and sheets and
 * the number of the meanings (due/meanings.h) they were reckoned by, and the last entry
 * of the journal they tell of.
 *
 * When: a command that writes keeps, at its end, the dates of the vessels that the
 * journal's entries since then speak of; so its cost depends on the gear of these
 * vessels, and not on how large the book is. What failed or was cut short is done by the
 * next command that writes. A command that reads writes nothing.
 *
 * When figures or meanings are others, the first command that opens the book for writing
 * reckons all dates again, for the day of which they were kept, before it does anything
 * else; it tells once which are others now, and the journal keeps that as an entry of its
 * own (`book upgrade` is the command that does nothing besides). A command that reads
 * only says that this is still to be done. Vessels of which something was written since
 * their dates were kept are named: there it can't be told. A date that moved because the
 * day did, or because of what was entered, is none of these.
 *
 * None of this ever makes a command fail: where sheets can't be read it stays to be
 * done. */
#ifndef BECKET_DESK_RECKONING_H
#define BECKET_DESK_RECKONING_H

#include "book/reckoned.h"
#include "desk/desk.h"

/* A growing list of rows; their strings are borrowed from the inventory and the
 * rulebooks. */
struct reckoned_rows {
	struct reckoned *items; /* owned */
	size_t count;
	size_t capacity;
};

/* Adds the tasks of an item as seen from a day; none for one that is withdrawn. Days that
 * can't be written in a book are none. */
void reckon_item(const struct due_engine *engine, size_t item, day_t seen,
    struct arena *scratch, struct reckoned_rows *rows);

/* Reckons all gear of these vessels (of the whole book when `all`) as of desk->today, and
 * keeps it in the open transaction. `by` is as the book has it now. */
MUST_CHECK bool reckoning_put(struct desk *desk, const struct reckoned_by *by, bool all,
    const struct touched_vessel *vessels, size_t count, struct fault *fault);

/* A desk of its own on the same open book, with a part of it (NULL: all) and the engine
 * ready. The kinds are the desk's where it has read them. Clear with
 * reckoning_desk_clear, also after a failure, which leaves it those that were read. */
MUST_CHECK bool reckoning_desk(const struct desk *desk, const struct book_part *about,
    struct desk *out, struct fault *fault);

/* The same before anything is loaded. */
struct desk reckoning_desk_on(const struct desk *desk, const struct book_part *about);

void reckoning_desk_clear(struct desk *loaded, struct desk *desk);

/* The vessel of that name among some that are by name; NULL for none. */
const struct touched_vessel *touched_find(
    const struct touched_vessel *vessels, size_t count, const char *name);

/* Keeps the dates of what is loaded on such a desk, NULL for nothing. The rows of `change` are
 * filled in. */
MUST_CHECK bool reckoning_put_loaded(struct desk *desk, const struct desk *loaded,
    struct reckoned_change *change, struct fault *fault);

/* Keeps the dates of all that `change` is about from desk->written, the rows of which all gear in
 * the book consists. False where that can't be, perhaps with some of them kept, for instance where
 * a boat's rows do not stand together; the dates have then to be reckoned from the book. */
MUST_CHECK bool reckoning_put_rows(
    struct desk *desk, const struct reckoned_change *change, struct fault *fault);

/* The digest of what this program reckons this book by, in `arena`; `by` names the
 * sheets. */
MUST_CHECK bool reckoning_figures(const struct desk *desk, const struct reckoned_by *by,
    struct arena *arena, const char **out, struct fault *fault);

/* Keeps what a writing command changed, at its end, where its act has not. */
void reckoning_keep(struct desk *desk);

/* The same in an act's own transaction, once its entry is in the journal. True when all
 * that the journal tells of is kept then. */
bool reckoning_keep_within(struct desk *desk);

#endif
