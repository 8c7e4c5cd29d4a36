/* Gear carried from vessel to vessel. Pure. */
#ifndef BECKET_LIFE_CARRYING_H
#define BECKET_LIFE_CARRYING_H

#include "life/planning.h"

/* How things are carried. */
struct carrying {
	const char *to; /* the vessel's name */
	day_t on;
	const char *place; /* where aboard it is kept there; NULL when not told */
	const char *note;
	bool alone;      /* a part may go without its whole */
	const char *say; /* what is said for that, in a request: FIELD "alone" */
	bool with_whole; /* this one's whole goes too */
};

/* Plans the move of an item and all its parts. FAULT_INPUT when it is there already, is
 * withdrawn, or is a part that would leave its whole behind without `alone`. A part whose
 * whole is there already stays its part. */
MUST_CHECK bool carry(struct life_planning *planning, const struct carrying *carrying,
    size_t item, struct fault *fault);

#endif
