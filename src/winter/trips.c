/* Hand-in days: which station, between which days, and the fewest trips. */
#include "winter/shore.h"

#include <string.h>

/* The station a line's item went to last; "" when none is on record. */
static const char *
last_station(const struct item *item)
{
	for (size_t i = item->record_count; i > 0; i--) {
		if (item->records[i - 1].station[0] != '\0') {
			return item->records[i - 1].station;
		}
	}
	return "";
}

/* How well a station suits an item: 0 not at all, else higher is better. */
static int
suits(const struct planning *planning, const struct station *station,
    const struct item *item)
{
	bool here = station->base[0] == '\0' ||
		    strcmp(station->base, planning->vessel->base) == 0;
	if (!station_takes(station, item->kind)) {
		return 0;
	}
	if (strcmp(station->name, last_station(item)) == 0) {
		return 3;
	}
	return here ? (station->base[0] == '\0' ? 1 : 2) : 0;
}

/* Fills the days on which a line may be handed in at a station. */
static bool
fill_days(const struct planning *planning, struct hand_in *hand_in, struct fault *fault)
{
	const struct winter *winter = &planning->list->winter;
	struct shore_line *line = &hand_in->line;
	day_t back_by = winter->fitting_out - planning->vessel->margin_days;
	day_t last = station_last_hand_in(&hand_in->taken, back_by);
	day_t first =
	    station_next_open(&hand_in->taken, day_max(winter->lay_up, planning->today));
	if (!find_not_before(planning, line->item, line->task,
		last == DAY_NONE ? winter->lay_up : last, &line->not_before,
		&line->carries, fault)) {
		return false;
	}
	line->not_after = last;
	hand_in->first = first;
	hand_in->last = last;
	if (line->not_before != DAY_NONE && line->not_before > first) {
		hand_in->first = station_next_open(&hand_in->taken, line->not_before);
	}
	return true;
}

static bool
feasible(const struct hand_in *hand_in)
{
	return hand_in->last != DAY_NONE && hand_in->first <= hand_in->last;
}

static bool
add_hand_in(struct arena *arena, struct hand_ins *list, const struct hand_in *hand_in,
    struct fault *fault)
{
	if (list->count == list->capacity) {
		size_t capacity = list->capacity == 0 ? 16 : list->capacity * 2;
		struct hand_in *grown = arena_alloc(arena, capacity * sizeof *grown);
		if (grown == NULL) {
			return fault_memory(fault);
		}
		for (size_t i = 0; i < list->count; i++) {
			grown[i] = list->items[i];
		}
		list->items = grown;
		list->capacity = capacity;
	}
	list->items[list->count++] = *hand_in;
	return true;
}

/* Names the first day the item could be back, and why that is too late. */
static bool
add_cannot(
    const struct planning *planning, const struct hand_in *hand_in, struct fault *fault)
{
	struct shore_line line = hand_in->line;
	day_t first = station_next_open(
	    &hand_in->taken, day_max(planning->list->winter.lay_up, planning->today));
	day_t back =
	    first == DAY_NEVER ? DAY_NEVER : station_collect(&hand_in->taken, first);
	line.first_possible = back == DAY_NEVER ? DAY_NONE : back;
	line.why =
	    back == DAY_NEVER
		? "the station never opens"
		: "even handed in on the station's next open day it is back too late for "
		  "fitting-out";
	return lines_add(planning->arena, &planning->list->cannot, &line, fault);
}

/* The stand-in for a station nobody has entered yet. */
static struct hand_in
assumed_station(const struct planning *planning, struct shore_line line)
{
	const struct item *item = &planning->engine->inventory->items[line.item];
	return (struct hand_in){
	    .line = line,
	    .station = NO_STATION,
	    .station_name = last_station(item),
	    .taken = {.turn_round_days = ASSUMED_TURN_ROUND_DAYS},
	};
}

bool
choose_station(const struct planning *planning, struct shore_line line,
    struct hand_ins *hand_ins, struct fault *fault)
{
	const struct item *item = &planning->engine->inventory->items[line.item];
	struct hand_in best = assumed_station(planning, line);
	int best_suits = 0;
	bool found = false;
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct station *station = &planning->stations[i];
		int suit = suits(planning, station, item);
		if (suit == 0) {
			continue;
		}
		struct hand_in tried = {line, i, station->name, *station, 0, 0};
		if (!fill_days(planning, &tried, fault)) {
			return false;
		}
		bool better = (feasible(&tried) && !feasible(&best)) ||
			      (feasible(&tried) == feasible(&best) && suit > best_suits);
		if (!found || better) {
			best = tried;
			best_suits = suit;
			found = true;
		}
	}
	if (!found && !fill_days(planning, &best, fault)) {
		return false;
	}
	if (!feasible(&best) && best.line.not_before != DAY_NONE) {
		/* It could be back in time, but not done so late that it carries her through:
		 * better serviced and due in the season than not serviced at all. */
		best.line.carries = false;
		best.line.not_before = DAY_NONE;
		best.first = station_next_open(
		    &best.taken, day_max(planning->list->winter.lay_up, planning->today));
	}
	if (!feasible(&best)) {
		return add_cannot(planning, &best, fault);
	}
	return add_hand_in(planning->arena, hand_ins, &best, fault);
}

/* The trip to this item's station that suits it best: the earliest that fits, or the latest
 * for an item that no day carries through the season. NULL when none fits. */
static struct trip *
trip_for(const struct shore_list *list, const struct hand_in *hand_in)
{
	struct trip *found = NULL;
	for (size_t i = 0; i < list->hand_in.count; i++) {
		struct trip *trip = &list->hand_in.items[i];
		bool fits = trip->station == hand_in->station &&
			    strcmp(trip->name, hand_in->station_name) == 0 &&
			    hand_in->first <= trip->hand_in &&
			    trip->hand_in <= hand_in->last;
		if (!fits) {
			continue;
		}
		bool sooner = found == NULL || trip->hand_in < found->hand_in;
		if (found == NULL || sooner == hand_in->line.carries) {
			found = trip;
		}
	}
	return found;
}

static bool
add_trip(const struct planning *planning, const struct hand_in *hand_in, day_t day,
    struct fault *fault)
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
	trips->items[trips->count++] = (struct trip){
	    .station = hand_in->station,
	    .name = hand_in->station_name,
	    .assumed = hand_in->station == NO_STATION,
	    .hand_in = day,
	    .collect = station_collect(&hand_in->taken, day),
	};
	return true;
}

/* The hand-in still without a trip whose first day is latest; NULL when all have one. */
static const struct hand_in *
latest_without_trip(const struct planning *planning, const struct hand_ins *hand_ins)
{
	const struct hand_in *latest = NULL;
	for (size_t i = 0; i < hand_ins->count; i++) {
		const struct hand_in *hand_in = &hand_ins->items[i];
		if (trip_for(planning->list, hand_in) == NULL &&
		    (latest == NULL || hand_in->first > latest->first)) {
			latest = hand_in;
		}
	}
	return latest;
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

bool
gather_trips(
    const struct planning *planning, struct hand_ins *hand_ins, struct fault *fault)
{
	/* Some trip must be on or after the latest first day, so make it that very day: no
	 * other choice serves more items, and none is earlier. Then the same for what is
	 * left. This gives the fewest days to each station, and each as early as can be. */
	for (const struct hand_in *next = latest_without_trip(planning, hand_ins);
	     next != NULL; next = latest_without_trip(planning, hand_ins)) {
		if (!add_trip(planning, next, next->first, fault)) {
			return false;
		}
	}
	sort_trips(&planning->list->hand_in);
	for (size_t i = 0; i < hand_ins->count; i++) {
		struct hand_in *hand_in = &hand_ins->items[i];
		struct trip *trip = trip_for(planning->list, hand_in);
		if (trip == NULL) {
			continue; /* never: the loop above left none without */
		}
		if (!find_due_again(planning, hand_in->line.item, hand_in->line.task,
			trip->hand_in, &hand_in->line.due_again, fault) ||
		    !lines_add(planning->arena, &trip->lines, &hand_in->line, fault)) {
			return false;
		}
	}
	return true;
}
