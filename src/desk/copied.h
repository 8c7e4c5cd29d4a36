/* When a book was last copied, kept beside it in BOOK.copied: it is true of the book
 * in this place, and not part of the book, or else each copy would say that it was
 * copied. */
#ifndef BECKET_DESK_COPIED_H
#define BECKET_DESK_COPIED_H

#include "desk/desk.h"

struct copied {
	int64_t at;     /* seconds since 1970, UTC; 0 where no copy is known of */
	int64_t number; /* of the journal's last entry in the copy */
};

/* Reads it for the desk's book. What is not there, or can't be read, is no copy. */
void copied_read(const struct desk *desk, struct copied *out);

/* Notes that the desk's book, which is open, has just been copied. Where that can't be
 * written it is a remark: the copy is made all the same. */
void copied_note(struct desk *desk);

#endif
