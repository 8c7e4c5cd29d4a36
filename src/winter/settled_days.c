/* The days of hand-ins that were given out before. */
#include "winter/settled_inside.h"

const struct errand_way *
settling_way(const struct settling *settling, size_t thing, size_t stop, day_t day)
{
	return way_on_day(
	    &settling->asked[thing], settling_station(settling, stop), stop, day);
}

/* True when the day serves everything on a held hand-in. */
static bool
serves_all(const struct settling *settling, int held, day_t day)
{
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		if (settling->held_by[i] == held &&
		    settling_way(settling, i, settling->held[held].stop, day) == NULL) {
			return false;
		}
	}
	return true;
}

/* The days from the first on which anything on it might go to the last by which it
 * must be back. */
static struct span
days_of(const struct settling *settling, int held)
{
	struct span days = {DAY_NEVER, DAY_NONE};
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		const struct errand_thing *thing = &settling->gathering->things[i];
		for (size_t k = 0; settling->held_by[i] == held && k < thing->way_count;
		     k++) {
			days.first = day_min(days.first, thing->ways[k].first);
			days.last = day_max(days.last, thing->ways[k].back_by);
		}
	}
	days.first = day_max(days.first, settling->today);
	return days;
}

/* True when everything on a held hand-in belongs to boats in use all year. */
static bool
is_of_rota(const struct settling *settling, int held)
{
	bool all = true;
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		bool on = settling->held_by[i] == held;
		all = all && (!on || settling->gathering->things[i].at_once);
	}
	return all;
}

/* The first day from one day to another, backwards where `step` is -1, that serves all
 * of it; DAY_NONE when there is none. */
static day_t
first_that_serves(
    const struct settling *settling, int held, day_t from, day_t to, int step)
{
	for (day_t day = from; (to - day) * step >= 0; day += step) {
		if (serves_all(settling, held, day)) {
			return day;
		}
	}
	return DAY_NONE;
}

day_t
settling_new_day(const struct settling *settling, int held)
{
	const struct held_hand_in *of = &settling->held[held];
	struct span days = days_of(settling, held);
	day_t soonest = settling->today + settling->lead_days;
	day_t ahead = day_max(days.first, soonest);
	day_t found = DAY_NONE;
	if (of->moved_why != DAY_SERVES && is_of_rota(settling, held)) {
		day_t before = day_min(of->moved_from, days.last);
		found = first_that_serves(settling, held, before, ahead, -1);
	}
	if (found == DAY_NONE) {
		found = first_that_serves(settling, held, ahead, days.last, 1);
	}
	return found != DAY_NONE ? found
				 : first_that_serves(settling, held,
				       day_min(days.last, soonest - 1), days.first, -1);
}

/* True when a hand-in belongs to a winter before the one that is planned, for
 * everything on it. */
static bool
is_of_winter_gone(const struct settling *settling, int held)
{
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		const struct shore_list *list =
		    bundle_planning(settling->gathering, i)->list;
		if (settling->held_by[i] == held &&
		    (!list->has_winter ||
			list->winter.year <= settling->held[held].of->winter)) {
			return false;
		}
	}
	return true;
}

enum day_misfit
settling_misfit(const struct settling *settling, int held)
{
	const struct held_hand_in *of = &settling->held[held];
	enum day_misfit found = DAY_SERVES;
	struct station station = *settling_station(settling, of->stop);
	if (of->chosen && station.weekdays == 0) {
		/* the station's days are not known: the days of those who share trips
		 * count, and the station is to be asked */
		station.weekdays = WEEKDAYS_ALL;
	}
	if (!station_open(&station, of->day)) {
		station.goes = 0;
		station.away_count = 0;
		return station_open(&station, of->day) ? DAY_NOT_THEIRS : DAY_CLOSED;
	}
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		const struct errand_thing *thing = &settling->asked[i];
		bool early = true;
		if (settling->held_by[i] != held ||
		    way_on_day(thing, &station, of->stop, of->day) != NULL) {
			continue;
		}
		if (is_let(thing, of->day, station_collect(&station, of->day))) {
			return DAY_BOOKED;
		}
		for (size_t k = 0; k < thing->way_count; k++) {
			early = early && (thing->ways[k].stop != of->stop ||
					     thing->ways[k].first > of->day);
		}
		/* of two reasons the one that waiting can't cure */
		bool late = found == DAY_TOO_LATE || is_of_winter_gone(settling, held);
		found = early && !late ? DAY_TOO_EARLY : DAY_TOO_LATE;
	}
	return found;
}

/* The last day on which a thing may go to a stop. */
static day_t
last_day(const struct settling *settling, size_t thing, size_t stop)
{
	const struct errand_thing *of = &settling->gathering->things[thing];
	day_t first = DAY_NEVER;
	day_t last = DAY_NONE;
	for (size_t k = 0; k < of->way_count; k++) {
		first = day_min(first, of->ways[k].first);
		last = day_max(last, of->ways[k].back_by);
	}
	while (last >= first && settling_way(settling, thing, stop, last) == NULL) {
		last--;
	}
	return last;
}

void
settling_let_one_go(struct settling *settling, int held)
{
	size_t found = 0;
	day_t soonest = DAY_NEVER;
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		day_t last = settling->held_by[i] == held
				 ? last_day(settling, i, settling->held[held].stop)
				 : DAY_NEVER;
		if (settling->held_by[i] == held && last <= soonest) {
			soonest = last;
			found = i;
		}
	}
	settling->held_by[found] = NOT_HELD;
}

size_t
settling_things_on(const struct settling *settling, int held)
{
	size_t count = 0;
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		count += settling->held_by[i] == held ? 1 : 0;
	}
	return count;
}
