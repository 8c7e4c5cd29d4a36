/* The dates as last reckoned, as the book keeps them. They are the program's memory, not
 * what a person said: the journal does not tell of them, and undo leaves them alone. */
#ifndef BECKET_BOOK_RECKONED_H
#define BECKET_BOOK_RECKONED_H

#include "base/memory.h"
#include "gear/journal.h"
#include "gear/reckoned.h"

struct book;
struct runs;

/* By what the dates were last reckoned, and which vessels were touched since. */
MUST_CHECK bool book_load_reckoned_by(
    struct book *book, struct arena *arena, struct reckoned_by *out, struct fault *fault);

/* The dates kept: vessels by name, rows by tag. */
struct reckoned_dates {
	const struct reckoned_vessel *vessels;
	size_t vessel_count;
	const struct reckoned *rows;
	size_t row_count;
};

MUST_CHECK bool book_load_reckoned(struct book *book, struct arena *arena,
    struct reckoned_dates *out, struct fault *fault);

/* Dates to be kept in place of those of the same vessels. */
struct reckoned_change {
	const char
	    *figures; /* NULL: more of them follow, and only the last says by what */
	int meanings;
	bool all; /* of every vessel: nothing kept before stays */
	bool
	    none_kept; /* nothing is kept of these vessels' gear: `all` has gone before */
	const struct touched_vessel *vessels;
	size_t vessel_count;
	const char *const *gone; /* tags of which nothing is kept any more */
	size_t gone_count;
	day_t seen;
	const struct reckoned *rows; /* those of an item stand together */
	size_t row_count;
	/* where more of them follow: what is kept waits here, and the last writes all of it
	 * by tag, as the table has it. NULL: it is written at once */
	struct runs *waiting;
};

/* Keeps them, as of the journal's last entry. Call it in the transaction in which they
 * were loaded, so that nothing is written in between. Where it fails the transaction may
 * still be kept: the entry is the last that is written, and as long as it is the old one,
 * the same vessels are touched since. */
MUST_CHECK bool book_put_reckoned(
    struct book *book, const struct reckoned_change *change, struct fault *fault);

/* Writes an entry under the book's signature that changes nothing and tells these lines,
 * as part of the open transaction. */
MUST_CHECK bool book_tell(struct book *book, const struct journal_line *lines,
    size_t count, int64_t *entry_out, struct fault *fault);

#endif
