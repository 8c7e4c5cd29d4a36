/* A station: where gear is handed in. Plain values; whoever fills them owns the memory. */
#ifndef BECKET_WINTER_STATION_H
#define BECKET_WINTER_STATION_H

#include "dates/yearly.h"

#include <stdint.h>

struct station {
	int64_t id;
	const char *name;
	const char *base;            /* the base it serves; "" for every base */
	int turn_round_days;         /* open days from hand-in to collect */
	const struct yearly *closed; /* closed weeks that come back every year */
	size_t closed_count;
	const char *const
	    *kinds; /* ids of the kinds it may service; none listed: every kind */
	size_t kind_count;
	int64_t trip_minor; /* what one trip costs; 0 when not known */
};

/* True when the station is open on the day. */
bool station_open(const struct station *station, day_t day);

/* True when it may service this kind. */
bool station_takes(const struct station *station, const char *kind);

/* The day gear handed in on an open day can be fetched: as many open days later as the
 * turn-round. DAY_NEVER when the station is shut for more than a year on end. */
day_t station_collect(const struct station *station, day_t hand_in);

/* The last open day on which gear can be handed in so that it can be fetched on or before
 * `back_by`; DAY_NONE when there is none in the 800 days before. */
day_t station_last_hand_in(const struct station *station, day_t back_by);

/* The first open day on or after `day`; DAY_NEVER as above. */
day_t station_next_open(const struct station *station, day_t day);

#endif
