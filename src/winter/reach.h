/* What the years and the rota ask of the winter room too: the stations that a thing may go to, the
 * days on which boats go, and what was given out. Pure. */
#ifndef BECKET_WINTER_REACH_H
#define BECKET_WINTER_REACH_H

#include "base/memory.h"
#include "gear/item.h"
#include "gear/settled.h"
#include "gear/station.h"
#include "gear/vessel.h"

/* The station that stands for one nobody has entered yet. */
extern const struct station ASSUMED_STATION;

/* True when a station may be considered for an item of a vessel at a base: the station is not
 * left out, and serves that base or every base, or the item went there last. */
bool station_in_reach(
    const struct station *station, const char *base, const struct item *item);

/* The days on which those who share trips go. */
struct their_days {
	unsigned goes; /* as struct station has them */
	struct span *away;
	size_t away_count;
};

/* The days of some vessels, put together in the arena. */
struct their_days their_days_of(
    const struct vessel *const *vessels, size_t count, struct arena *arena);

/* True when an item was given out on a hand-in for work that was due on `due`. For
 * boats in use all year: their work of another year is due later. */
bool settled_has_work(const struct settled_hand_in *of, const char *tag, day_t due);

#endif
