/* The numbers of rows that are added, in a transaction that writes: the program gives them, on any engine
 * the same. Only for files of this room. */
#ifndef BECKET_BOOK_NUMBERS_H
#define BECKET_BOOK_NUMBERS_H

#include "book/call.h"

/* The number of the next row of a table or entry of the journal, in a transaction that writes; a number
 * given out is not given again once that is kept, whatever becomes of the row. `number_coming` only
 * tells it. `number_give` gives it to a call too. */
MUST_CHECK bool number_coming(
    struct book *book, enum numbered of, int64_t *out, struct fault *fault);
MUST_CHECK bool number_next(
    struct book *book, enum numbered of, int64_t *out, struct fault *fault);
MUST_CHECK bool number_give(
    struct call *call, enum numbered of, int64_t *out, struct fault *fault);

/* Which table that is; NUMBERED_ENTRY for none of them. */
enum numbered numbered_of(const char *table);

/* Reads the next numbers, and with them the revision. Gives them to the call that writes them, a NULL
 * where they have not been read. */
MUST_CHECK bool numbers_read(
    struct book *book, int64_t *revision_out, struct fault *fault);
void numbers_give(struct call *call);

/* Has each table go on behind the rows that it has; written when the transaction is kept. True in
 * *off_out where it did not: an older program or another one has numbered them, or the disk is at fault. */
MUST_CHECK bool numbers_renew(struct book *book, bool *off_out, struct fault *fault);

/* Adds a row that is a number and a name. */
MUST_CHECK bool add_named(struct book *book, enum statement add, enum numbered of,
    const char *name, int64_t *id_out, struct fault *fault);

#endif
