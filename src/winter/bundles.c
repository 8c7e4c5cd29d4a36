/* Hand-ins bundled into things, and stations into stops. */
#include "winter/prices.h"
#include "winter/settled.h"

#include <string.h>

const struct planning *
bundle_planning(const struct gathering *gathering, size_t bundle)
{
	return gathering->sortings[gathering->bundles[bundle].sorting].planning;
}

struct hand_in *
bundle_hand_in(const struct gathering *gathering, size_t bundle, size_t task)
{
	const struct bundle *of = &gathering->bundles[bundle];
	return &gathering->sortings[of->sorting].hand_ins.items[of->first + task];
}

/* ---- stops ---- */

/* The stop of a station; it is added where it is new. */
static size_t
stop_of(struct gathering *gathering, const struct way *way)
{
	for (size_t i = 0; i < gathering->stop_count; i++) {
		const struct bundle_station *stop = &gathering->stops[i];
		if (stop->station == way->station &&
		    (way->station != NO_STATION || strcmp(stop->name, way->name) == 0)) {
			return i;
		}
	}
	gathering->stops[gathering->stop_count] =
	    (struct bundle_station){.station = way->station, .name = way->name};
	gathering->errand_stops[gathering->stop_count] = (struct errand_stop){
	    .station = way_station(gathering->sortings[0].planning, way)};
	return gathering->stop_count++;
}

/* Sets the loads of a stop with a weekly limit: what is to come to its station
 * already. */
static void
set_loads(struct gathering *gathering, size_t stop)
{
	const struct station_loads *all = gathering->loads;
	struct errand_stop *of = &gathering->errand_stops[stop];
	if (of->station->weekly_pieces == 0 || all->count == 0) {
		return;
	}
	struct errand_load *loads =
	    ARENA_MANY(&gathering->scratch, struct errand_load, all->count);
	for (size_t i = 0; i < all->count; i++) {
		if (all->items[i].station == gathering->stops[stop].station) {
			loads[of->load_count++] = all->items[i].load;
		}
	}
	of->loads = loads;
}

/* ---- bundles ---- */

/* The way of a hand-in to the same station; NULL when it has none. */
static const struct way *
same_way(const struct hand_in *hand_in, const struct way *way)
{
	for (size_t i = 0; i < hand_in->way_count; i++) {
		const struct way *other = &hand_in->ways[i];
		if (other->station == way->station) {
			return other;
		}
	}
	return NULL;
}

/* The price used for choosing: a price that is not known counts as the highest known
 * one. */
static int64_t
price_for_choice(const struct planning *planning, const struct hand_in *hand_in,
    const struct way *way, day_t day)
{
	if (hand_in->line.counted) {
		return 0;
	}
	int64_t minor = way_price(planning, &hand_in->line, way, day).minor;
	if (minor < 0) {
		const struct item *item = planning_item(planning, hand_in->line.item);
		minor = price_highest(planning->stations, planning->station_count, item,
		    hand_in->line.task, item_age(item, day));
	}
	return minor < 0 ? 0 : minor;
}

const struct item *
bundle_item(const struct gathering *gathering, size_t bundle)
{
	return planning_item(bundle_planning(gathering, bundle),
	    bundle_hand_in(gathering, bundle, 0)->line.item);
}

/* What all tasks of a bundle cost at the station of a way when it is handed in on a
 * day, carriage included. */
static int64_t
cost_on(
    const struct gathering *gathering, size_t bundle, const struct way *way, day_t day)
{
	const struct planning *planning = bundle_planning(gathering, bundle);
	int64_t carriage = way->station == NO_STATION
			       ? 0
			       : planning->stations[way->station].carriage_minor;
	int64_t minor = carriage * bundle_item(gathering, bundle)->quantity;
	for (size_t i = 0; i < gathering->bundles[bundle].count; i++) {
		const struct hand_in *hand_in = bundle_hand_in(gathering, bundle, i);
		minor += price_for_choice(planning, hand_in, same_way(hand_in, way), day);
	}
	return minor;
}

/* The first day after a given one on which the price of some way of a bundle may
 * change. Every station is looked at, because a station without a known price counts
 * at the price of another. DAY_NEVER when there is none. */
static day_t
next_price_day(const struct gathering *gathering, size_t bundle, day_t after)
{
	const struct planning *planning = bundle_planning(gathering, bundle);
	const struct hand_in *hand_in = bundle_hand_in(gathering, bundle, 0);
	day_t next = DAY_NEVER;
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct way way = {.station = i};
		next = day_min(
		    next, way_price_changes(planning, &hand_in->line, &way, after));
	}
	return next;
}

/* Adds the ways of all tasks of a bundle to one station: one way, or as many as its
 * cost has steps on the days that serve. None when the tasks do not share that
 * station. */
static void
shared_ways(struct gathering *gathering, size_t bundle, const struct way *way,
    struct errand_ways *ways)
{
	struct errand_way shared = {
	    .first = way->first,
	    .back_by = bundle_planning(gathering, bundle)->back_by,
	    .last = DAY_NEVER,
	    .strangeness = way->strangeness,
	};
	/* what is in use all year is handed in while it is in date; otherwise
	 * `back_by` decides */
	bool all_year = !bundle_planning(gathering, bundle)->list->has_winter;
	day_t last = DAY_NEVER;
	for (size_t i = 0; i < gathering->bundles[bundle].count; i++) {
		const struct way *own =
		    same_way(bundle_hand_in(gathering, bundle, i), way);
		if (own == NULL) {
			return;
		}
		shared.first = day_max(shared.first, own->first);
		last = day_min(last, own->last);
	}
	last = all_year ? last : DAY_NEVER;
	shared.last = last;
	shared.stop = stop_of(gathering, way);
	shared.minor = cost_on(gathering, bundle, way, shared.first);
	for (day_t day = next_price_day(gathering, bundle, shared.first);
	     day <= day_min(last, shared.back_by);
	     day = next_price_day(gathering, bundle, day)) {
		int64_t minor = cost_on(gathering, bundle, way, day);
		if (minor == shared.minor) {
			continue;
		}
		shared.last = day - 1;
		ARENA_ADD(&gathering->scratch, ways, shared);
		shared.first = day;
		shared.last = last;
		shared.minor = minor;
	}
	ARENA_ADD(&gathering->scratch, ways, shared);
}

/* Makes a bundle of the tasks of one item, and its thing. The tasks share a station:
 * which of an item's stations serve a task is a question of how late that may go, so
 * that what serves the latest of them serves all. */
static void
add_bundle(struct gathering *gathering, size_t sorting, size_t from, size_t count)
{
	size_t bundle = gathering->bundle_count++;
	gathering->bundles[bundle] = (struct bundle){sorting, from, count};
	const struct hand_in *first = bundle_hand_in(gathering, bundle, 0);
	struct errand_ways ways = {0};
	for (size_t i = 0; i < first->way_count; i++) {
		shared_ways(gathering, bundle, &first->ways[i], &ways);
	}
	struct errand_thing thing = {
	    .ways = ways.items,
	    .way_count = ways.count,
	    .pieces = bundle_item(gathering, bundle)->quantity,
	};
	const struct planning *planning = bundle_planning(gathering, bundle);
	if (!planning->list->has_winter) { /* laid up, a boat is not let */
		thing.at_once = true;
		thing.bookings = planning->vessel->bookings;
		thing.booking_count = planning->vessel->booking_count;
	}
	for (size_t i = 0; i < gathering->bundles[bundle].count; i++) {
		const struct shore_line *line =
		    &bundle_hand_in(gathering, bundle, i)->line;
		thing.late = thing.late || !line->carries;
		thing.binding = thing.binding || line->grade != GRADE_PRACTICE;
	}
	gathering->things[bundle] = thing;
}

static void
bundle_all(struct gathering *gathering)
{
	for (size_t s = 0; s < gathering->sorting_count; s++) {
		const struct hand_ins *hand_ins = &gathering->sortings[s].hand_ins;
		for (size_t i = 0; i < hand_ins->count;) {
			size_t end = i + 1;
			while (
			    end < hand_ins->count && hand_ins->items[end].line.item ==
							 hand_ins->items[i].line.item) {
				end++;
			}
			add_bundle(gathering, s, i, end - i);
			i = end;
		}
	}
}

void
bundles_gather(struct gathering *gathering)
{
	struct arena *scratch = &gathering->scratch;
	size_t hand_ins = 0;
	size_t ways = 0;
	for (size_t s = 0; s < gathering->sorting_count; s++) {
		const struct hand_ins *of = &gathering->sortings[s].hand_ins;
		hand_ins += of->count;
		for (size_t i = 0; i < of->count; i++) {
			ways += of->items[i].way_count;
		}
	}
	gathering->bundles = ARENA_MANY(scratch, struct bundle, hand_ins);
	gathering->things = ARENA_MANY(scratch, struct errand_thing, hand_ins);
	gathering->stops = ARENA_MANY(scratch, struct bundle_station, ways);
	gathering->errand_stops = ARENA_MANY(scratch, struct errand_stop, ways);
	bundle_all(gathering);
	for (size_t i = 0; i < gathering->stop_count; i++) {
		set_loads(gathering, i);
	}
}
