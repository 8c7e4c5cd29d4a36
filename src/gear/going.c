#include "gear/going.h"

#include "dates/spans.h"
#include "gear/vessel.h"

#include <string.h>

/* How many days ahead a day is looked for. */
enum { LOOKED_FOR_DAYS = 800 };

void
shared_days_add(struct shared_days *days, unsigned goes)
{
	days->all = goes == 0 ? days->all : days->all & goes;
	days->any |= goes;
}

unsigned
shared_days_of(struct shared_days days)
{
	return days.any != 0 && days.all != 0 ? days.all : days.any;
}

/* True when a vessel goes with another, or is that one. */
static bool
goes_along(const struct going *going, size_t other)
{
	const struct vessel *vessel = &going->inventory->vessels[other];
	const char *base = going->inventory->vessels[going->vessel].base;
	return other == going->vessel ||
	       (base[0] != '\0' && strcmp(base, vessel->base) == 0 &&
		   vessel_is_here(vessel, going->day));
}

struct going
going_of(const struct inventory *inventory, size_t vessel, day_t day)
{
	struct going going = {.inventory = inventory, .vessel = vessel, .day = day};
	struct shared_days days = SHARED_DAYS_NONE;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (goes_along(&going, i)) {
			shared_days_add(&days, inventory->vessels[i].goes);
			going.away = going.away || inventory->vessels[i].away_count > 0;
		}
	}
	going.goes = shared_days_of(days);
	return going;
}

/* True on a day on which one of them does not go. */
static bool
is_away(const struct going *going, day_t day)
{
	for (size_t i = 0; going->away && i < going->inventory->vessel_count; i++) {
		const struct vessel *vessel = &going->inventory->vessels[i];
		for (size_t k = 0; k < vessel->away_count && goes_along(going, i); k++) {
			if (span_has(vessel->away[k], day)) {
				return true;
			}
		}
	}
	return false;
}

/* The station with the days of the week on which they go. */
static struct station
with_days(const struct going *going, const struct station *station)
{
	struct station own = *station;
	own.goes = going->goes;
	return own;
}

day_t
going_next(const struct going *going, const struct station *station, day_t day)
{
	const struct station own = with_days(going, station);
	day_t last = day + LOOKED_FOR_DAYS;
	day = station_next_open(&own, day);
	while (day <= last && is_away(going, day)) {
		day = station_next_open(&own, day + 1);
	}
	return day <= last ? day : DAY_NEVER;
}

day_t
going_collect(const struct going *going, const struct station *station, day_t hand_in)
{
	const struct station own = with_days(going, station);
	day_t ready = station_collect(&own, hand_in);
	return ready == DAY_NEVER ? DAY_NEVER : going_next(going, station, ready);
}

day_t
going_last_hand_in(
    const struct going *going, const struct station *station, day_t back_by)
{
	const struct station own = with_days(going, station);
	if (!going->away) {
		return station_last_hand_in(&own, back_by);
	}
	for (day_t day = back_by; day > back_by - LOOKED_FOR_DAYS; day--) {
		if (station_open(&own, day) && !is_away(going, day) &&
		    going_collect(going, station, day) <= back_by) {
			return day;
		}
	}
	return DAY_NONE;
}

day_t
ashore_collect(const struct inventory *inventory, const struct item *item,
    const struct station *stations, size_t count, bool *assumed_out)
{
	const struct station assumed = {.turn_round_days = ASSUMED_TURN_ROUND_DAYS};
	const struct station *station = station_named(stations, count, item->landed_to);
	*assumed_out = station == NULL;
	if (item->landed_on == DAY_NONE) {
		return DAY_NONE;
	}
	struct going going = going_of(inventory, item->vessel, item->landed_on);
	day_t collect =
	    going_collect(&going, station == NULL ? &assumed : station, item->landed_on);
	return collect == DAY_NEVER ? DAY_NONE : collect;
}
