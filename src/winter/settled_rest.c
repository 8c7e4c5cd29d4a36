/* What is on no hand-in that was given out before is planned anew, around those. */
#include "winter/settled_inside.h"

#include <string.h>

/* For a boat in use all year that is let: each way is narrowed to its first day
 * between bookings, where it has one. */
static void
keep_off_bookings(
    const struct settling *settling, size_t thing, struct errand_way *ways, size_t count)
{
	const struct errand_thing *of = &settling->gathering->things[thing];
	for (size_t k = 0; k < count && of->booking_count > 0; k++) {
		size_t stop = ways[k].stop;
		day_t last = day_min(ways[k].last, ways[k].back_by);
		day_t day = ways[k].first;
		while (day <= last && settling_way(settling, thing, stop, day) == NULL) {
			day++;
		}
		if (day <= last) {
			ways[k].first = day;
			ways[k].last = day;
		}
	}
}

/* The last day on which a thing may go one way. */
static day_t
last_on(const struct settling *settling, const struct errand_way *way)
{
	return day_min(way->last,
	    station_last_hand_in(settling_station(settling, way->stop), way->back_by));
}

/* The last day on which a thing may go to a stop, whatever it costs then. */
static day_t
last_to(const struct settling *settling, const struct errand_thing *of, size_t stop)
{
	day_t last = DAY_NONE;
	for (size_t k = 0; k < of->way_count; k++) {
		last = of->ways[k].stop != stop
			   ? last
			   : day_max(last, last_on(settling, &of->ways[k]));
	}
	return last;
}

/* No thing that is planned anew goes sooner than lead days ahead, though it were cheaper
 * then, unless that is too late: then it goes on the last day that serves. */
static void
put_ahead(struct settling *settling, size_t thing, struct errand_thing *out)
{
	const struct errand_thing *of = &settling->gathering->things[thing];
	struct errand_way *ways =
	    ARENA_MANY(&settling->gathering->scratch, struct errand_way, of->way_count);
	size_t count = 0;
	for (size_t k = 0; k < of->way_count; k++) {
		const struct errand_way *way = &of->ways[k];
		day_t soonest = day_min(settling->today + settling->lead_days,
		    last_to(settling, of, way->stop));
		if (last_on(settling, way) >= soonest) {
			ways[count] = *way;
			ways[count].first = day_max(way->first, soonest);
			count++;
		}
	}
	*out = *of;
	out->ways = ways;
	out->way_count = count;
	keep_off_bookings(settling, thing, ways, count);
}

/* The stops, with the pieces that the held hand-ins bring counted in. */
static void
load_stops(struct settling *settling, struct errand_stop **out)
{
	struct gathering *gathering = settling->gathering;
	struct arena *scratch = &gathering->scratch;
	struct errand_stop *stops =
	    ARENA_MANY(scratch, struct errand_stop, gathering->stop_count);
	for (size_t p = 0; p < gathering->stop_count; p++) {
		const struct errand_stop *of = &gathering->errand_stops[p];
		size_t room = of->load_count + gathering->bundle_count + 1;
		struct errand_load *loads = ARENA_MANY(scratch, struct errand_load, room);
		if (of->load_count > 0) {
			memcpy(loads, of->loads, of->load_count * sizeof *loads);
		}
		stops[p] = *of;
		stops[p].loads = loads;
		for (size_t i = 0; i < gathering->bundle_count; i++) {
			int held = settling->held_by[i];
			if (held != NOT_HELD && settling->held[held].stop == p) {
				loads[stops[p].load_count++] = (struct errand_load){
				    errand_week(settling->held[held].day),
				    gathering->things[i].pieces};
			}
		}
	}
	*out = stops;
}

/* How many trips they will make beside those that are held. */
static size_t
trips_left(const struct settling *settling)
{
	size_t most = settling_planning(settling->gathering)->most_trips;
	for (size_t h = 0; h < settling->held_count && most != ERRANDS_ANY; h++) {
		most -= settling->held[h].day != DAY_NONE && most > 0 ? 1 : 0;
	}
	return most;
}

void
settling_plan_rest(struct settling *settling, struct errand_plan *out, size_t *index)
{
	struct gathering *gathering = settling->gathering;
	struct errand_stop *stops = NULL;
	size_t count = 0;
	struct errand_thing *rest =
	    ARENA_MANY(&gathering->scratch, struct errand_thing, gathering->bundle_count);
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (settling->held_by[i] == NOT_HELD) {
			put_ahead(settling, i, &rest[count]);
			gathering->things[i] = rest[count];
			index[i] = count++;
		}
	}
	load_stops(settling, &stops);
	errands_plan(stops, gathering->stop_count, rest, count, trips_left(settling),
	    &gathering->scratch, out);
	gathering->rest =
	    (struct errand_rest){stops, rest, count, trips_left(settling), *out};
}
