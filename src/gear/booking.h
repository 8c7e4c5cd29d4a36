/* A booking: days on which a boat is let, and to how many. Plain values; whoever fills them owns
 * the memory. */
#ifndef BECKET_GEAR_BOOKING_H
#define BECKET_GEAR_BOOKING_H

#include "base/fault.h"
#include "dates/spans.h"

/* The most persons that may be booked aboard. */
enum { BOOKING_PERSONS_MOST = 10000 };

struct booking {
	struct span
	    days; /* from the day the party comes aboard to the day it leaves, both too */
	int persons;      /* everyone aboard, children too; 0 not told: as many as she is
			   * entered for */
	int children;     /* of the persons; 0 none, or not told */
	const char *note; /* whose it is, or what else was said; "" for nothing */
};

struct inventory;

/* A booking to be written. All borrowed. */
struct booking_request {
	const char *vessel; /* her name */
	day_t
	    was; /* a booking of hers has this as its first day: it is replaced. DAY_NONE: it
		    * is a new one */
	struct booking booking;
};

/* True when a boat can't have both. One party may leave on the day on which the next comes
 * aboard, where each has another day besides: that is the custom of weeks. */
bool bookings_clash(const struct span *a, const struct span *b);

/* Checks a booking against her other bookings in the inventory and those of the requests before
 * it, and against itself. FAULT_INPUT with words for one that ends before it begins, has more
 * children than persons, clashes with another, is of a store or of a boat that is not in the
 * inventory, or goes on when she has left. */
MUST_CHECK bool booking_check(const struct inventory *inventory,
    const struct booking_request *requests, size_t at, struct fault *fault);

/* The booking of a boat that has a day, of two the one that begins on it; NULL when there
 * is none. `count` bookings by day. */
const struct booking *booking_on(const struct booking *bookings, size_t count, day_t day);

/* The first of them, by day, that ends on or after a day; NULL when there is none. */
const struct booking *booking_next(
    const struct booking *bookings, size_t count, day_t day);

/* True when one of them has a day of the span, its last day too. `count` bookings by day. */
bool booking_meets(const struct booking *bookings, size_t count, struct span span);

#endif
