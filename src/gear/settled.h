/* A hand-in that was given out: by a file, a feed, a server or the shore papers, or put on a day by
 * a person. Plain values; whoever fills them owns the memory. */
#ifndef BECKET_GEAR_SETTLED_H
#define BECKET_GEAR_SETTLED_H

#include "gear/vessel.h"

#include <string.h>

/* By what a hand-in was first given out for the day it has. */
enum given_by {
	GIVEN_BY_UNKNOWN, /* by an older program, or not yet */
	GIVEN_BY_FILE,    /* a calendar file */
	GIVEN_BY_FEED,
	GIVEN_BY_PUSH,
	GIVEN_BY_PAPERS,
	GIVEN_BY_ROTA,
	GIVEN_BY_PERSON, /* who chose the day */
};

struct settled_hand_in {
	bool of_base;      /* a base's, whoever of its vessels has gear on it */
	const char *owner; /* the base's name, or the vessel's */
	int winter; /* the year it starts in; of boats in use all year, who have none, the year of
			* the day it was first given out for */
	const char *station; /* its name; "" for one that is still to be found */
	size_t number; /* of those of this owner, winter and station; from 1, for good */
	day_t day;     /* as given out last; DAY_NONE: not yet, a person chose first */
	enum given_by given_by; /* by what it was first given out for that day, */
	day_t given_on;         /* and when, where the first is known */
	bool chosen;            /* that day was a person's choice */
	bool missed;            /* a day it was given out for has passed */
	day_t
	    planned; /* the day a person has chosen for it now; DAY_NONE: none. Kept with
			* what was chosen of reminders */
	bool confirmed; /* the station said that day */
	/* why a person gave it up for its winter; NULL: it was not. Kept as `planned`,
	 * and then there is none */
	const char *given_up;
	const char *const *tags; /* of the pieces on it */
	/* For each, the day its work was due when it was given out, of boats in use all year: what
	 * is due later is of another year's. DAY_NONE for others, and where not known. */
	const day_t *dues;
	size_t tag_count;
};

/* True when a hand-in belongs to a vessel alone, or to her base. */
static inline bool
settled_is_of(const struct settled_hand_in *of, const struct vessel *vessel)
{
	return strcmp(of->owner, of->of_base ? vessel->base : vessel->name) == 0;
}

#endif
