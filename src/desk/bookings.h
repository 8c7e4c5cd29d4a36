/* Bookings: entered, changed, taken out, and what each asks of the gear aboard. */
#ifndef BECKET_DESK_BOOKINGS_H
#define BECKET_DESK_BOOKINGS_H

#include "desk/desk.h"
#include "muster/booked.h"

/* Checks and writes bookings, all or none, as one act. A remark is added to the desk's
 * notes for each that touches her lay-up, and for each with more persons than she is
 * entered for. */
MUST_CHECK bool bookings_put(struct desk *desk, const struct booking_request *requests,
    size_t count, struct fault *fault);

/* The booking of a vessel that has a day; of two the one that begins on it. FAULT_INPUT
 * with her bookings where there is none. */
MUST_CHECK bool bookings_find(struct desk *desk, const char *vessel, day_t day,
    const struct booking **out, struct fault *fault);

/* Takes a booking out. */
MUST_CHECK bool bookings_drop(
    struct desk *desk, const char *vessel, day_t first, struct fault *fault);

/* Whose bookings are asked about, and when. */
struct bookings_asked {
	struct span days;   /* those with a day among these */
	const char *vessel; /* NULL for every boat */
	const char
	    *base; /* where she lies on the booking's first day; NULL for every one */
	const struct word_list *boats; /* these alone; NULL for every boat */
};

/* The bookings asked about, in the order of vessels and days, not mustered; in the desk's
 * arena. */
MUST_CHECK bool bookings_list(struct desk *desk, const struct bookings_asked *asked,
    struct booked **out, size_t *count_out, struct fault *fault);

/* The same mustered, with their cures, the worst first. */
MUST_CHECK bool bookings_muster(struct desk *desk, const struct bookings_asked *asked,
    struct booked **out, size_t *count_out, struct fault *fault);

#endif
