/* Keeping acts from making a book wrong. Only for files of this room. */
#ifndef BECKET_BOOK_GUARD_H
#define BECKET_BOOK_GUARD_H

#include "book/changes.h"
#include "book/row_words.h"

/* The items that a transaction touched, by their numbers. Starts as `{ 0 }`. */
struct guarding {
	int64_t *items; /* owned */
	size_t count;
	size_t capacity;
	bool removed; /* an item is gone: anything may have referred to it */
};

/* Notes what a change touches. */
void guard_note(struct guarding *guarding, const struct table_shape *shape,
    const struct row_change *change);

/* FAULT_INPUT when what a transaction changed would be found wrong by `book check`, and was not
 * wrong before. Called inside the transaction, once all its changes are noted, before it is kept. */
MUST_CHECK bool guard(struct book *book, struct guarding *guarding, struct fault *fault);

void guard_clear(struct guarding *guarding);

#endif
