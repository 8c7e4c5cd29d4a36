/* The days on which gear is handed in and fetched: those on which the station is open and
 * they go. The boats of one base go on the days they share, those of any where they share
 * none, and on no day on which one of them does not. Pure. */
#ifndef BECKET_GEAR_GOING_H
#define BECKET_GEAR_GOING_H

#include "gear/station.h"

/* Who goes with a vessel's gear. Plain; borrows the inventory. */
struct going {
	const struct inventory *inventory;
	size_t vessel;
	day_t day;     /* those of her base that have not left by then */
	unsigned goes; /* days of the week, as dates/weekdays.h; 0 any */
	bool away;     /* there are days on which they do not go */
};

/* The days of the week that are shared by all who named any; where they share none, every
 * day that one of them named. 0 for any day. */
struct shared_days {
	unsigned all;
	unsigned any;
};

/* Nobody has named any yet. */
#define SHARED_DAYS_NONE ((struct shared_days){WEEKDAYS_ALL, 0})

void shared_days_add(struct shared_days *days, unsigned goes);
unsigned shared_days_of(struct shared_days days);

struct going going_of(const struct inventory *inventory, size_t vessel, day_t day);

/* The first day on or after `day` on which gear is handed in or fetched there; DAY_NEVER
 * when there is none within 800 days. */
day_t going_next(const struct going *going, const struct station *station, day_t day);

/* As station_collect, with their days. */
day_t going_collect(
    const struct going *going, const struct station *station, day_t hand_in);

/* As station_last_hand_in, with their days. */
day_t going_last_hand_in(
    const struct going *going, const struct station *station, day_t back_by);

/* The day an item landed at a station of that name can be fetched: by its turn-round
 * where the station is in the book, else by the assumed one, and `*assumed_out` says so.
 * DAY_NONE when the day it was landed is not known, or the station never opens. */
day_t ashore_collect(const struct inventory *inventory, const struct item *item,
    const struct station *stations, size_t count, bool *assumed_out);

#endif
