/* Checking a book: that the file is sound, and what must hold in it that its schema can't
 * state. */
#ifndef BECKET_BOOK_CHECK_H
#define BECKET_BOOK_CHECK_H

#include "base/memory.h"
#include "gear/journal.h"

struct book;

/* What the book itself does not know: which kinds and sheets there are. */
struct book_known {
	bool (*kind)(void *context, const char *id);
	bool (*sheet)(void *context, const char *name);
	void *context;
};

/* Checks the book, which is open for reading, and changes nothing. Strings are constants
 * or in `arena`; clear the result with book_check_clear. Only what keeps it from being
 * checked is a fault. */
MUST_CHECK bool book_check(struct book *book, const struct book_known *known,
    struct arena *arena, struct check_result *out, struct fault *fault);
void book_check_clear(struct check_result *result);

/* True when the file is sound and its references lead somewhere: the two checks that need
 * to know nothing of what is in it. Otherwise FAULT_BOOK with the first thing found. */
MUST_CHECK bool book_check_file(struct book *book, struct fault *fault);

/* Whether every value is as this program wrote it, by the sum of all
 * (book/check_inside.h); not in a transaction. */
MUST_CHECK bool book_is_as_written(struct book *book, bool *out, struct fault *fault);

/* Accepts the book as it is as what this program wrote, where its sum differs
 * (book/check_inside.h), with an entry in the journal; otherwise `*differed_out` is false
 * and nothing is written. FAULT_BOOK where the file is not sound. */
MUST_CHECK bool book_accept(struct book *book, bool *differed_out, struct fault *fault);

#endif
