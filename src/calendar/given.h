/* What was given out, looked up: how a day found in a calendar, in a file or on a server, is held
 * against what stood there, and against the book. Pure. Private to this room. */
#ifndef BECKET_CALENDAR_GIVEN_H
#define BECKET_CALENDAR_GIVEN_H

#include "book/book.h"

/* All that was noted as given out, by UID and SEQUENCE; borrowed. */
struct given_list {
	const struct book_given *items;
	size_t count;
};

/* What was given out last under this SEQUENCE or a lower one: a program that counts on when a
 * person moves something is taken to have begun there. NULL when that is not known. */
const struct book_given *given_find(
    const struct given_list *list, const char *uid, int sequence);

/* True when something was given out of the same reminder after it. */
bool given_is_older(const struct given_list *list, const struct book_given *given);

/* True when a day was moved on both sides since they agreed on `given`, and not to the same
 * one: a person has to say which holds, reminder by reminder. */
bool given_both_moved(day_t given, day_t ours, day_t theirs);

#endif
