/* The book: one SQLite file with the boats, the gear, the records and the reminders. Here it
 * is opened, and a transaction begun and ended; contents.h, putting.h and reminders.h read and
 * write in it. Every writing function is one transaction: all or nothing. */
#ifndef BECKET_BOOK_BOOK_H
#define BECKET_BOOK_BOOK_H

#include "base/text.h"

#include <stdint.h>

struct book; /* an open book; close with book_close */

/* Opens a book. With BOOK_CREATE a missing one is made, of the newest version. An
 * older book is first copied as it is to a file beside it (book_older_kept), then
 * migrated in one transaction. A book of a newer program, a file that is not a book and a
 * file that can't be read are FAULT_BOOK with words. Waits up to 5 s for another program
 * that is writing. */
enum book_mode {
	BOOK_READ,
	BOOK_LOOK, /* opening changes nothing; the same connection may write later */
	BOOK_WRITE,
	BOOK_CREATE,
	BOOK_TRIAL, /* a copy in memory, or a new book there: nothing is saved */
};

MUST_CHECK bool book_open(
    const char *path, enum book_mode mode, struct book **book_out, struct fault *fault);
void book_close(struct book *book);

/* True when a book that was opened with BOOK_LOOK can be written as if it had been opened
 * with BOOK_WRITE. Otherwise it has to be closed and opened again. */
bool book_may_write(const struct book *book);

/* Deletes the file of a book that this opening made and whose journal has no entry. Does
 * nothing for any other book, for NULL, or where another program has it open. After a
 * deletion the book can only be closed. */
void book_drop_fresh(struct book *book);

/* The file to which an older book was copied before this opening migrated it; NULL when
 * it was not older. Lives as long as the open book. */
const char *book_older_kept(const struct book *book);

/* A transaction over several of the calls below. It is rolled back by book_rollback,
 * and by closing the book. Each transaction that changed something raises the book's
 * revision by one, also where that was only reminders or feeds, which the journal does
 * not record. */
MUST_CHECK bool book_begin(struct book *book, struct fault *fault);

/* The same to read only, so that all is of one state of the book and nobody waits for it.
 * book_rollback ends it. */
MUST_CHECK bool book_begin_reading(struct book *book, struct fault *fault);

/* Begins to write what was worked out from the contents of this revision. Where the book
 * has changed since, nothing is begun and `*stale_out` is true: it has to be worked out
 * again. */
MUST_CHECK bool book_begin_as_of(
    struct book *book, int64_t revision, bool *stale_out, struct fault *fault);

/* The book's revision now: above 0. What is read after it may be of a later one. */
MUST_CHECK bool book_revision(struct book *book, int64_t *out, struct fault *fault);

/* Writes the journal's entry for what the open transaction has changed. After it only
 * what the journal does not record may still be written. Where this was not called,
 * book_commit does it. */
MUST_CHECK bool book_enter(struct book *book, struct fault *fault);

/* Commits the transaction. Where a part of it failed it can only be rolled back:
 * committing it is FAULT_BOOK. */
MUST_CHECK bool book_commit(struct book *book, struct fault *fault);
void book_rollback(struct book *book);

/* The currency of every price. Checked: three capital letters. */
MUST_CHECK bool book_set_currency(
    struct book *book, const char *currency, struct fault *fault);

/* How many prices the book holds: of gear, work, movements and stations. */
MUST_CHECK bool book_count_prices(
    struct book *book, int64_t *count_out, struct fault *fault);

/* The book's identity: 32 hexadecimal digits, random at creation, from which reminders'
 * UIDs are drawn. Settable only while there are no reminders, so that a demonstration can
 * be repeated to the byte. Borrowed until the book is closed. */
const char *book_identity(const struct book *book);

/* The currency of a book in which no other was set. */
#define BOOK_NEW_CURRENCY "EUR"

/* The currency of every price in the book, an ISO 4217 code; lives as long as the open book. */
const char *book_currency(const struct book *book);
MUST_CHECK bool book_set_identity(
    struct book *book, const char *identity, struct fault *fault);

/* A number that changes when another connection or program has changed the file since
 * this book was opened, and only then: what was read before may be out of date. */
MUST_CHECK bool book_data_version(struct book *book, int64_t *out, struct fault *fault);

/* The number of the journal's last entry, 0 for none: as long as it stays, nothing about the gear
 * has changed. */
MUST_CHECK bool book_last_entry(
    struct book *book, int64_t *number_out, struct fault *fault);

/* The number of the last entry that changed anything in the book, 0 for none. Making or
 * revoking a feed has an entry, but is not counted: it changes nothing that can be undone
 * or is told. */
MUST_CHECK bool book_last_change(
    struct book *book, int64_t *number_out, struct fault *fault);

/* The last entry that changed something which may concern one vessel alone. */
struct vessel_entry {
	const char *vessel; /* her name; "" for anything in the book */
	int64_t number;
};

/* The entries after number `entry` that may change what is said of gear: for each vessel
 * the last one about her gear, what is inside it or what it is inside of, or her
 * bookings; and, for "", the last one about anything else (stations, vessels, choices;
 * gear that went from one vessel to another, or that is no longer in the book). In
 * `arena`. A vessel may come more than once. */
MUST_CHECK bool book_entries_since(struct book *book, int64_t entry, struct arena *arena,
    struct vessel_entry **out, size_t *count_out, struct fault *fault);

#endif
