/* Hand-ins bundled into things, and stations into places. */
#include "winter/bundles.h"

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

/* ---- places ---- */

static bool
is_place(const struct place *place, size_t station, const char *name)
{
	return place->station == station &&
	       (station != NO_STATION || strcmp(place->name, name) == 0);
}

/* The place of a station, which is added where it is new. */
static size_t
place_of(struct gathering *gathering, const struct way *way)
{
	const struct planning *planning = gathering->sortings[0].planning;
	for (size_t i = 0; i < gathering->place_count; i++) {
		if (is_place(&gathering->places[i], way->station, way->name)) {
			return i;
		}
	}
	gathering->places[gathering->place_count] =
	    (struct place){.station = way->station, .name = way->name};
	gathering->errand_places[gathering->place_count] = (struct errand_place){
	    .station = way->station == NO_STATION ? &ASSUMED_STATION
						  : &planning->stations[way->station]};
	return gathering->place_count++;
}

/* What is to come to a place with a weekly limit already. */
static bool
set_loads(struct gathering *gathering, size_t place, struct fault *fault)
{
	const struct station_loads *all = gathering->loads;
	struct errand_place *of = &gathering->errand_places[place];
	if (of->station->weekly_pieces == 0 || all->count == 0) {
		return true;
	}
	struct errand_load *loads =
	    arena_alloc(&gathering->scratch, all->count * sizeof *loads);
	if (loads == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < all->count; i++) {
		if (all->items[i].station == gathering->places[place].station) {
			loads[of->load_count++] = all->items[i].load;
		}
	}
	of->loads = loads;
	return true;
}

/* ---- bundles ---- */

/* The way of a hand-in to the same station; NULL when it has none. */
static const struct way *
same_way(const struct hand_in *hand_in, const struct way *way)
{
	for (size_t i = 0; i < hand_in->way_count; i++) {
		const struct way *other = &hand_in->ways[i];
		if (other->station == way->station &&
		    strcmp(other->name, way->name) == 0) {
			return other;
		}
	}
	return NULL;
}

/* The price that counts for choosing: one that is not known as the highest that is. */
static int64_t
price_for_choice(const struct hand_in *hand_in, const struct way *way)
{
	int64_t highest = 0;
	for (size_t i = 0; i < hand_in->way_count; i++) {
		highest = hand_in->ways[i].price_minor > highest
			      ? hand_in->ways[i].price_minor
			      : highest;
	}
	return way->price_minor < 0 ? highest : way->price_minor;
}

/* One way of all tasks of a bundle; false when they do not share it. */
static bool
shared_way(struct gathering *gathering, size_t bundle, const struct way *way,
    struct errand_way *out)
{
	const struct planning *planning = bundle_planning(gathering, bundle);
	const struct hand_in *first = bundle_hand_in(gathering, bundle, 0);
	const struct item *item = &planning->engine->inventory->items[first->line.item];
	int64_t carriage = way->station == NO_STATION
			       ? 0
			       : planning->stations[way->station].carriage_minor;
	struct errand_way shared = {
	    .first = way->first,
	    .back_by = planning->back_by,
	    .last = DAY_NEVER,
	    .minor = carriage * item->quantity,
	    .strangeness = way->strangeness,
	};
	for (size_t i = 0; i < gathering->bundles[bundle].count; i++) {
		const struct hand_in *hand_in = bundle_hand_in(gathering, bundle, i);
		const struct way *own = same_way(hand_in, way);
		if (own == NULL) {
			return false;
		}
		shared.first = day_max(shared.first, own->first);
		shared.minor += price_for_choice(hand_in, own);
	}
	shared.place = place_of(gathering, way);
	*out = shared;
	return true;
}

/* Makes the thing of a bundle. Its way_count stays 0 where its tasks share no station. */
static bool
make_thing(struct gathering *gathering, size_t bundle, struct fault *fault)
{
	const struct hand_in *first = bundle_hand_in(gathering, bundle, 0);
	const struct item *item = &bundle_planning(gathering, bundle)
				       ->engine->inventory->items[first->line.item];
	struct errand_way *ways =
	    arena_alloc(&gathering->scratch, first->way_count * sizeof *ways);
	if (ways == NULL) {
		return fault_memory(fault);
	}
	struct errand_thing thing = {.ways = ways, .pieces = item->quantity};
	for (size_t i = 0; i < first->way_count; i++) {
		if (shared_way(
			gathering, bundle, &first->ways[i], &ways[thing.way_count])) {
			thing.way_count++;
		}
	}
	for (size_t i = 0; i < gathering->bundles[bundle].count; i++) {
		thing.late =
		    thing.late || !bundle_hand_in(gathering, bundle, i)->line.carries;
	}
	gathering->things[bundle] = thing;
	return true;
}

/* Bundles the tasks of one item from `first` on; each on its own where they share no
 * station. */
static bool
add_bundles(struct gathering *gathering, size_t sorting, size_t first, size_t count,
    struct fault *fault)
{
	size_t at = gathering->bundle_count++;
	gathering->bundles[at] = (struct bundle){sorting, first, count};
	if (!make_thing(gathering, at, fault)) {
		return false;
	}
	if (gathering->things[at].way_count > 0) {
		return true;
	}
	gathering->bundle_count--;
	for (size_t i = 0; i < count; i++) {
		if (!add_bundles(gathering, sorting, first + i, 1, fault)) {
			return false;
		}
	}
	return true;
}

static bool
bundle_all(struct gathering *gathering, struct fault *fault)
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
			if (!add_bundles(gathering, s, i, end - i, fault)) {
				return false;
			}
			i = end;
		}
	}
	return true;
}

static bool
make_room(struct gathering *gathering, struct fault *fault)
{
	size_t hand_ins = 1;
	size_t ways = 1;
	for (size_t s = 0; s < gathering->sorting_count; s++) {
		const struct hand_ins *of = &gathering->sortings[s].hand_ins;
		hand_ins += of->count;
		for (size_t i = 0; i < of->count; i++) {
			ways += of->items[i].way_count;
		}
	}
	struct arena *scratch = &gathering->scratch;
	gathering->bundles = arena_alloc(scratch, hand_ins * sizeof *gathering->bundles);
	gathering->things = arena_alloc(scratch, hand_ins * sizeof *gathering->things);
	gathering->places = arena_alloc(scratch, ways * sizeof *gathering->places);
	gathering->errand_places =
	    arena_alloc(scratch, ways * sizeof *gathering->errand_places);
	return (gathering->bundles != NULL && gathering->things != NULL &&
		   gathering->places != NULL && gathering->errand_places != NULL) ||
	       fault_memory(fault);
}

bool
bundles_gather(struct gathering *gathering, struct fault *fault)
{
	if (!make_room(gathering, fault) || !bundle_all(gathering, fault)) {
		return false;
	}
	for (size_t i = 0; i < gathering->place_count; i++) {
		if (!set_loads(gathering, i, fault)) {
			return false;
		}
	}
	return true;
}
