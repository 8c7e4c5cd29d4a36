/* Why a hand-in that was given out goes where it goes. */
#include "winter/settled.h"

#include <string.h>

/* The working data of the question about one settled errand. Memory is the scratch's. */
struct weighing {
	const struct gathering *gathering;
	size_t errand;
	struct errand_thing *things;
	bool *pinned; /* one a thing: it stays where it is */
	struct arena *scratch;
	day_t today;
};

static const struct station *
station_at(const struct weighing *weighing, size_t stop)
{
	return weighing->gathering->errand_stops[stop].station;
}

/* Restricts a thing to the errand it is on, whatever would be best. */
static void
pin(const struct weighing *weighing, size_t thing, size_t errand)
{
	const struct errand *of = &weighing->gathering->plan.errands[errand];
	const struct station *station = station_at(weighing, of->stop);
	struct errand_thing *pinned = &weighing->things[thing];
	struct errand_way *way = arena_alloc(weighing->scratch, sizeof *way);
	*way = (struct errand_way){.stop = of->stop,
	    .first = of->hand_in,
	    .back_by = station_collect(station, of->hand_in),
	    .last = of->hand_in,
	    .minor = settled_way_kept(pinned, station, of->stop, of->hand_in)->minor};
	pinned->ways = way;
	pinned->way_count = 1;
}

/* Adds the days of a way from today on; for a boat that is let only those from which
 * the thing can be fetched before a booking. */
static void
add_days(const struct weighing *weighing, const struct errand_thing *thing,
    const struct errand_way *way, struct errand_ways *out)
{
	const struct station *station = station_at(weighing, way->stop);
	day_t last = day_min(way->last, way->back_by);
	bool open = false;
	for (day_t day = day_max(way->first, weighing->today); day <= last; day++) {
		if (is_let(thing, day, station_collect(station, day))) {
			open = false;
			continue;
		}
		if (!open) {
			ARENA_ADD(weighing->scratch, out, *way);
			out->items[out->count - 1].first = day;
		}
		out->items[out->count - 1].last = day;
		open = true;
	}
}

/* Lets a thing go on any day from now on. */
static void
let_go(const struct weighing *weighing, size_t thing)
{
	struct errand_thing *freed = &weighing->things[thing];
	struct errand_ways ways = {0};
	for (size_t k = 0; k < freed->way_count; k++) {
		add_days(weighing, freed, &freed->ways[k], &ways);
	}
	if (ways.count > 0) {
		freed->ways = ways.items;
		freed->way_count = ways.count;
	}
}

/* True when a thing on an errand could go to another stop. */
static bool
may_leave(const struct gathering *gathering, size_t thing, size_t errand)
{
	return errand_goes_elsewhere(
	    &gathering->things[thing], gathering->plan.errands[errand].stop);
}

/* Makes the things of the question: what is settled is pinned, except what is on the
 * errand and can go elsewhere. */
static void
make_things(struct weighing *weighing)
{
	const struct gathering *gathering = weighing->gathering;
	size_t count = gathering->bundle_count;
	weighing->things = ARENA_MANY(weighing->scratch, struct errand_thing, count);
	weighing->pinned = ARENA_MANY(weighing->scratch, bool, count);
	memcpy(weighing->things, gathering->things, count * sizeof *weighing->things);
	for (size_t i = 0; i < count; i++) {
		size_t errand = gathering->plan.errand_of[i];
		weighing->pinned[i] = false;
		if (errand == NO_ERRAND || !gathering->marks[errand].settled) {
			continue;
		}
		weighing->pinned[i] = errand != weighing->errand ||
				      !may_leave(gathering, i, weighing->errand);
		if (weighing->pinned[i]) {
			pin(weighing, i, errand);
		} else {
			let_go(weighing, i);
		}
	}
}

/* True when all that is pinned may stay together: no station is closed on such a day,
 * or takes too much in its week. */
static bool
may_stay(const struct weighing *weighing)
{
	const struct gathering *gathering = weighing->gathering;
	struct errand_plan plan = {0};
	bool all = true;
	size_t count = 0;
	struct errand_thing *pinned =
	    ARENA_MANY(weighing->scratch, struct errand_thing, gathering->bundle_count);
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (weighing->pinned[i]) {
			pinned[count++] = weighing->things[i];
		}
	}
	errands_plan(gathering->errand_stops, gathering->stop_count, pinned, count,
	    ERRANDS_ANY, weighing->scratch, &plan);
	for (size_t i = 0; i < count; i++) {
		all = all && plan.errand_of[i] != NO_ERRAND;
	}
	return all;
}

void
settled_why(const struct gathering *gathering, size_t errand, struct arena *scratch,
    bool *weighed_out, struct errand_reason *out)
{
	const struct planning *planning = gathering->sortings[0].planning;
	struct weighing weighing = {.gathering = gathering,
	    .errand = errand,
	    .scratch = scratch,
	    .today = planning->today};
	bool any = false;
	*out = (struct errand_reason){0};
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		any = any || (gathering->plan.errand_of[i] == errand &&
				 may_leave(gathering, i, errand));
	}
	*weighed_out = !any;
	if (!any) {
		return;
	}
	make_things(&weighing);
	if (!may_stay(&weighing)) {
		return;
	}
	/* what was given out is kept even where it makes more trips than they will
	 * make */
	size_t most = GREATER(planning->most_trips, gathering->plan.count);
	const struct errands_asked asked = {gathering->errand_stops,
	    gathering->stop_count, weighing.things, gathering->bundle_count, most};
	errands_why(&asked, &gathering->plan, errand, scratch, out);
	*weighed_out = out->any;
}
