/* Keeping acts from making a book wrong. Only for files of this room. */
#ifndef BECKET_BOOK_GUARD_H
#define BECKET_BOOK_GUARD_H

#include "book/changes.h"

/* FAULT_INPUT when what a transaction changed would be found wrong by `book check`, and was not
 * wrong before. Called inside the transaction, before it is kept. */
MUST_CHECK bool guard(
    struct book *book, const struct changeset *changes, struct fault *fault);

#endif
