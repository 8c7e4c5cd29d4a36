/* Hand-ins that hold still: what was given out is taken as it is while it lies ahead and serves.
 * Inside the winter room.
 *
 * A piece goes on the hand-in it was given out on, as long as that day lies ahead and serves the
 * piece; on a day that a person chose it goes whatever the day serves. What serves nothing of its
 * own any more, or has passed with gear not landed, is put to one day for all of it: the first a
 * week or more ahead that serves it all, or the last that serves where none of those does; what
 * shares no such day leaves it. A piece that is on none joins one that lies ahead and serves it,
 * where that costs least, within the station's weekly limit; what is left is planned anew. */
#ifndef BECKET_WINTER_SETTLED_H
#define BECKET_WINTER_SETTLED_H

#include "winter/bundles.h"

/* One hand-in of a plan, beside its errand. */
struct errand_mark {
	size_t number; /* of its owner's to this station in that winter */
	int winter;    /* 0: not settled, the earliest of its vessels' */
	bool settled;
	bool chosen;
	bool too_late; /* a person's day that does not serve all of it */
	bool missed;   /* a day it was given out for has passed */
	day_t
	    earliest; /* a day ahead that would serve it, too; DAY_NONE when none before */
};

/* Chooses the errands of all that was gathered, settled ones first, into gathering->plan, and
 * fills gathering->marks. */
MUST_CHECK bool settled_plan(struct gathering *gathering, struct fault *fault);

#endif
