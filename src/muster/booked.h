/* The muster over bookings: each boat with what is aboard her on the days of each of her bookings,
 * for the persons of that booking; and the spares that would cure what is short. Pure. */
#ifndef BECKET_MUSTER_BOOKED_H
#define BECKET_MUSTER_BOOKED_H

#include "muster/muster.h"

/* One booking and its muster. */
struct booked {
	size_t vessel;                 /* index in the inventory */
	const struct booking *booking; /* borrowed */
	struct span days;              /* those of the booking that are asked about */
	struct muster muster;
	/* short by itself, but by no more than spares cure that are moved to her for others of
	 * her bookings */
	bool cured_by_others;
};

/* How a booking stands, the worst first. */
enum booked_rank {
	BOOKED_SHORT, /* short, and no spares there are make her whole */
	BOOKED_NOT_TOLD, /* what must be known to tell is not in the book, or her sheets have no
			  * carriage lines */
	BOOKED_CURED, /* short, but spares cure it */
	BOOKED_FINE,
};

/* The rank of a booking once its cure is known. */
enum booked_rank booked_rank(const struct booked *booked);

/* The bookings of a vessel that have a day in a span; a running
 * one is asked about from `today` on, for what is past of it can't be mended. `out` has room for
 * all of hers. Returns how many. */
size_t booked_of_vessel(const struct inventory *inventory, size_t vessel,
    struct span picked, day_t today, struct booked *out);

/* Drops those that begin when she has left, and cuts the others at her last day in the fleet.
 * Returns how many are kept, in their order. */
size_t booked_while_here(
    const struct inventory *inventory, struct booked *bookings, size_t count);

/* "short", "not-told", "cured", "fine". */
const char *booked_word(enum booked_rank rank);

/* How many of the muster's lapses are on a day before the last of the booking: what runs out
 * before she returns. */
size_t booked_lapses(const struct booked *booked);

/* Musters them, in whatever order they are, and finds their cures, as muster_cure does but for
 * this: the booking that begins first is served first; of two on one day the first in the array.
 * What is moved to a boat for one booking is counted aboard on all others of hers. First each
 * booking gets what makes the boat whole on its days, if what is left does; then the others get
 * what makes less missing.
 *
 * The persons of a booking are aboard on all its days, whatever is on record of her; where they
 * are not told, as many as she is entered for. Children are persons: a line that goes by persons
 * counts them, and no line is told how many of them are children. */
void muster_bookings(const struct due_engine *engine, struct booked *bookings,
    size_t count, struct arena *arena);

/* Puts the worst first, and of those alike the one that begins first. */
void booked_sort(struct booked *bookings, size_t count);

#endif
