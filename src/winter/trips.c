/* The trips of vessels that share them: their hand-ins as errands, and back. */
#include "winter/shore.h"

#include <stdlib.h>
#include <string.h>

/* The tasks of one item that go to a station together: hand-ins of one vessel, neighbours in
 * her list. */
struct bundle {
	size_t sorting;
	size_t first;
	size_t count;
};

/* A station as a place for errands. */
struct place {
	size_t station; /* index, or NO_STATION */
	const char *name;
	struct trip_choice choice;
};

/* What is being gathered. Memory is the arena's or the scratch's. */
struct gathering {
	const struct sorting *sortings;
	size_t sorting_count;
	struct station_loads *loads;
	struct bundle *bundles;
	size_t bundle_count;
	struct errand_thing *things; /* one a bundle */
	struct place *places;
	struct errand_place *errand_places; /* the same places */
	size_t place_count;
	struct errand_plan plan;
	struct arena scratch; /* owned */
};

static const struct planning *
planning_of(const struct gathering *gathering, size_t bundle)
{
	return gathering->sortings[gathering->bundles[bundle].sorting].planning;
}

static struct hand_in *
hand_in_of(const struct gathering *gathering, size_t bundle, size_t task)
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
	const struct planning *planning = planning_of(gathering, bundle);
	const struct hand_in *first = hand_in_of(gathering, bundle, 0);
	const struct item *item = &planning->engine->inventory->items[first->line.item];
	int64_t carriage = way->station == NO_STATION
			       ? 0
			       : planning->stations[way->station].carriage_minor;
	struct errand_way shared = {
	    .first = way->first,
	    .back_by = planning->back_by,
	    .minor = carriage * item->quantity,
	    .strangeness = way->strangeness,
	};
	for (size_t i = 0; i < gathering->bundles[bundle].count; i++) {
		const struct hand_in *hand_in = hand_in_of(gathering, bundle, i);
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
	const struct hand_in *first = hand_in_of(gathering, bundle, 0);
	const struct item *item =
	    &planning_of(gathering, bundle)->engine->inventory->items[first->line.item];
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
		    thing.late || !hand_in_of(gathering, bundle, i)->line.carries;
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

/* ---- why there ---- */

/* Leaves the place out wherever a thing can go elsewhere; false when none can. */
static bool
without_place(const struct gathering *gathering, size_t place, struct arena *scratch,
    struct errand_thing **out, struct fault *fault)
{
	size_t count = gathering->bundle_count;
	struct errand_thing *things = arena_alloc(scratch, (count + 1) * sizeof *things);
	if (things == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < count; i++) {
		const struct errand_thing *thing = &gathering->things[i];
		struct errand_way *ways =
		    arena_alloc(scratch, thing->way_count * sizeof *ways);
		if (ways == NULL) {
			return fault_memory(fault);
		}
		things[i] = *thing;
		things[i].ways = ways;
		things[i].way_count = 0;
		for (size_t k = 0; k < thing->way_count; k++) {
			if (thing->ways[k].place != place || thing->way_count == 1) {
				ways[things[i].way_count++] = thing->ways[k];
			}
		}
	}
	*out = things;
	return true;
}

/* True when something that goes to the place could go elsewhere. */
static bool
has_choice(const struct gathering *gathering, size_t place)
{
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		size_t errand = gathering->plan.errand_of[i];
		if (errand != NO_ERRAND && gathering->things[i].way_count > 1 &&
		    gathering->plan.errands[errand].place == place) {
			return true;
		}
	}
	return false;
}

/* Compares the plan with the best one that sends elsewhere what can go elsewhere. */
static bool
explain_place(struct gathering *gathering, size_t place, struct fault *fault)
{
	struct trip_choice *choice = &gathering->places[place].choice;
	struct errand_thing *things = NULL;
	struct errand_plan other = {0};
	if (!has_choice(gathering, place)) {
		return true;
	}
	struct arena scratch = {0};
	bool done = without_place(gathering, place, &scratch, &things, fault) &&
		    errands_plan(gathering->errand_places, gathering->place_count, things,
			gathering->bundle_count, &scratch, &other, fault);
	if (done) {
		choice->any = true;
		choice->saves_minor = other.minor - gathering->plan.minor;
		choice->saves_trips = (int)other.count - (int)gathering->plan.count;
	}
	arena_clear(&scratch);
	return done;
}

/* ---- writing to the lists ---- */

static bool
add_trip(const struct planning *planning, const struct trip *trip, struct fault *fault)
{
	struct trips *trips = &planning->list->hand_in;
	if (trips->count == trips->capacity) {
		size_t capacity = trips->capacity == 0 ? 4 : trips->capacity * 2;
		struct trip *grown =
		    arena_alloc(planning->arena, capacity * sizeof *grown);
		if (grown == NULL) {
			return fault_memory(fault);
		}
		for (size_t i = 0; i < trips->count; i++) {
			grown[i] = trips->items[i];
		}
		trips->items = grown;
		trips->capacity = capacity;
	}
	trips->items[trips->count++] = *trip;
	return true;
}

/* How many vessels have gear on an errand, and the earliest of their winters. */
static void
count_vessels(
    const struct gathering *gathering, size_t errand, size_t *vessels_out, int *year_out)
{
	size_t vessels = 0;
	size_t last = NO_ERRAND;
	int year = 0;
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (gathering->plan.errand_of[i] != errand) {
			continue;
		}
		size_t sorting = gathering->bundles[i].sorting;
		int own = gathering->sortings[sorting].planning->list->winter.year;
		vessels += last == sorting ? 0 : 1; /* bundles come vessel by vessel */
		last = sorting;
		year = year == 0 || own < year ? own : year;
	}
	*vessels_out = vessels;
	*year_out = year;
}

/* The trip that an errand is, but for its lines and shares. */
static struct trip
trip_of(const struct gathering *gathering, size_t errand)
{
	const struct errand *of = &gathering->plan.errands[errand];
	const struct place *place = &gathering->places[of->place];
	struct trip trip = {
	    .station = place->station,
	    .name = place->name,
	    .assumed = place->station == NO_STATION,
	    .hand_in = of->hand_in,
	    .ready = of->ready,
	    .collect = of->collect,
	    .of_base = gathering->sorting_count > 1,
	    .number = 1,
	    .choice = place->choice,
	};
	count_vessels(gathering, errand, &trip.vessels, &trip.year);
	for (size_t i = 0; i < errand; i++) { /* errands come by place and day */
		size_t vessels = 0;
		int year = 0;
		count_vessels(gathering, i, &vessels, &year);
		trip.number +=
		    gathering->plan.errands[i].place == of->place && year == trip.year;
	}
	return trip;
}

/* Adds the lines of a bundle to a trip. */
static bool
add_lines(const struct gathering *gathering, size_t bundle, struct trip *trip,
    struct fault *fault)
{
	const struct planning *planning = planning_of(gathering, bundle);
	for (size_t i = 0; i < gathering->bundles[bundle].count; i++) {
		const struct hand_in *hand_in = hand_in_of(gathering, bundle, i);
		struct shore_line line = hand_in->line;
		for (size_t k = 0; k < hand_in->way_count; k++) {
			const struct way *way = &hand_in->ways[k];
			if (way->station != trip->station ||
			    strcmp(way->name, trip->name) != 0) {
				continue;
			}
			line.not_after = way->last;
			line.price_minor =
			    way->price_minor >= 0 ? way->price_minor : line.price_minor;
		}
		if (!find_due_again(planning, line.item, line.task, trip->hand_in,
			&line.due_again, fault) ||
		    !lines_add(planning->arena, &trip->lines, &line, fault)) {
			return false;
		}
	}
	arena_reset(planning->scratch);
	return true;
}

/* Writes an errand to the lists of all vessels with gear on it; its price is shared evenly,
 * what is left over going to the first. */
static bool
write_errand(const struct gathering *gathering, size_t errand, struct fault *fault)
{
	const struct trip shared = trip_of(gathering, errand);
	int64_t minor =
	    shared.assumed
		? 0
		: gathering->sortings[0].planning->stations[shared.station].trip_minor;
	int64_t vessels = (int64_t)shared.vessels;
	size_t nth = 0;
	struct trip trip = shared;
	size_t sorting = NO_ERRAND;
	for (size_t i = 0; i <= gathering->bundle_count; i++) {
		bool end = i == gathering->bundle_count;
		if (!end && gathering->plan.errand_of[i] != errand) {
			continue;
		}
		if (sorting != NO_ERRAND &&
		    (end || gathering->bundles[i].sorting != sorting)) {
			trip.share_minor =
			    minor / vessels + (nth++ == 0 ? minor % vessels : 0);
			if (!add_trip(
				gathering->sortings[sorting].planning, &trip, fault)) {
				return false;
			}
			trip = shared;
		}
		if (!end) {
			sorting = gathering->bundles[i].sorting;
			if (!add_lines(gathering, i, &trip, fault)) {
				return false;
			}
		}
	}
	return true;
}

/* Trips by day, then station; a handful, so insertion will do. */
static void
sort_trips(struct trips *trips)
{
	for (size_t i = 1; i < trips->count; i++) {
		struct trip moved = trips->items[i];
		size_t j = i;
		while (
		    j > 0 && (trips->items[j - 1].hand_in > moved.hand_in ||
				 (trips->items[j - 1].hand_in == moved.hand_in &&
				     strcmp(trips->items[j - 1].name, moved.name) > 0))) {
			trips->items[j] = trips->items[j - 1];
			j--;
		}
		trips->items[j] = moved;
	}
}

/* What no week has room for. */
static bool
write_left_out(const struct gathering *gathering, struct fault *fault)
{
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (gathering->plan.errand_of[i] != NO_ERRAND) {
			continue;
		}
		for (size_t k = 0; k < gathering->bundles[i].count; k++) {
			if (!add_no_room(planning_of(gathering, i),
				hand_in_of(gathering, i, k), fault)) {
				return false;
			}
		}
	}
	return true;
}

/* Notes what each station with a weekly limit is to take in. */
static bool
note_loads(struct gathering *gathering, struct fault *fault)
{
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		size_t index = gathering->plan.errand_of[i];
		if (index == NO_ERRAND) {
			continue;
		}
		const struct errand *errand = &gathering->plan.errands[index];
		if (gathering->errand_places[errand->place].station->weekly_pieces == 0) {
			continue;
		}
		if (!ARRAY_ROOM(gathering->loads, fault)) {
			return false;
		}
		gathering->loads->items[gathering->loads->count++] =
		    (struct station_load){gathering->places[errand->place].station,
			{errand_week(errand->hand_in), gathering->things[i].pieces}};
	}
	return true;
}

static bool
write_lists(struct gathering *gathering, struct fault *fault)
{
	const struct errand_plan *plan = &gathering->plan;
	for (size_t i = 0; i < plan->count; i++) {
		if (!write_errand(gathering, i, fault)) {
			return false;
		}
	}
	for (size_t s = 0; s < gathering->sorting_count; s++) {
		struct shore_list *list = gathering->sortings[s].planning->list;
		sort_trips(&list->hand_in);
		list->proof = (struct trips_proof){plan->proven, plan->minor,
		    plan->bound_minor, plan->count, plan->bound_count};
	}
	return write_left_out(gathering, fault) && note_loads(gathering, fault);
}

/* ---- all of it ---- */

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

static bool
gather(struct gathering *gathering, struct fault *fault)
{
	if (!make_room(gathering, fault) || !bundle_all(gathering, fault)) {
		return false;
	}
	for (size_t i = 0; i < gathering->place_count; i++) {
		if (!set_loads(gathering, i, fault)) {
			return false;
		}
	}
	if (!errands_plan(gathering->errand_places, gathering->place_count,
		gathering->things, gathering->bundle_count, &gathering->scratch,
		&gathering->plan, fault)) {
		return false;
	}
	for (size_t i = 0; i < gathering->place_count; i++) {
		if (!explain_place(gathering, i, fault)) {
			return false;
		}
	}
	errands_join(gathering->errand_places, gathering->things, gathering->bundle_count,
	    &gathering->plan);
	return write_lists(gathering, fault);
}

bool
gather_trips(const struct sorting *sortings, size_t count, struct station_loads *loads,
    struct fault *fault)
{
	struct gathering gathering = {
	    .sortings = sortings,
	    .sorting_count = count,
	    .loads = loads,
	};
	bool done = gather(&gathering, fault);
	arena_clear(&gathering.scratch);
	return done;
}
