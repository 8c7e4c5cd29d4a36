#include "desk/handing.h"

#include "gear/going.h"
#include "life/family.h"
#include "winter/asked.h"

#include <string.h>

/* The lists in the making, one a vessel. */
struct handing_in {
	struct desk *desk;
	const struct handing *handing;
	struct shore_list *lists; /* what is handed in */
	struct shore_list
	    *winters; /* of the same vessels: what else is wanted of a station */
	size_t count;
	struct arena scratch; /* owned */
};

static const struct item *
item_at(const struct handing_in *making, size_t index)
{
	return &making->desk->contents.inventory.items[index];
}

static bool
check_aboard(const struct item *item, struct fault *fault)
{
	if (item->state == PLACE_LANDED) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is ashore already, at %s; \"becket return\" brings it back",
		    item->tag,
		    item->landed_to[0] == '\0' ? "a station" : item->landed_to);
	}
	return item->state != PLACE_WITHDRAWN ||
	       fault_set(fault, FAULT_INPUT, "%s is withdrawn: it is handed in nowhere",
		   item->tag);
}

/* ---- where and when ---- */

static bool
may_service(const struct station *station, const struct item *item)
{
	return station_fit(station, item->kind, item->make) == FIT_YES;
}

/* The station a piece goes to; NULL for one that is not in the book, or still to be found. */
static const struct station *
station_of(const struct handing_in *making, const struct item *item)
{
	const struct book_contents *contents = &making->desk->contents;
	const char *base = contents->inventory.vessels[item->vessel].base;
	const char *last =
	    item->record_count == 0 ? "" : item->records[item->record_count - 1].station;
	const struct station *found =
	    station_named(contents->stations, contents->station_count,
		making->handing->station == NULL ? last : making->handing->station);
	if (making->handing->station != NULL ||
	    (found != NULL && may_service(found, item))) {
		return found;
	}
	found = NULL;
	for (size_t i = 0; i < contents->station_count; i++) {
		const struct station *station = &contents->stations[i];
		bool hers = base[0] != '\0' && strcmp(station->base, base) == 0;
		bool any = station->base[0] == '\0' && found == NULL;
		if ((hers || any) && may_service(station, item)) {
			found = station;
		}
		if (hers && found == station) {
			return found;
		}
	}
	return found;
}

static struct trip
trip_to(const struct handing_in *making, const struct item *item)
{
	static const struct station NOT_KNOWN = {
	    .name = "", .base = "", .turn_round_days = ASSUMED_TURN_ROUND_DAYS};
	const struct desk *desk = making->desk;
	const struct station *found = station_of(making, item);
	const struct station *station = found == NULL ? &NOT_KNOWN : found;
	const char *named =
	    making->handing->station == NULL ? "" : making->handing->station;
	struct going going =
	    going_of(&desk->contents.inventory, item->vessel, desk->today);
	day_t on = making->handing->on;
	if (on == DAY_NONE) {
		on = going_next(&going, station, desk->today + LEAD_DAYS);
	}
	day_t collect = going_collect(&going, station, on);
	return (struct trip){.station = NO_STATION,
	    .name = found == NULL ? named : found->name,
	    .assumed = found == NULL,
	    .hand_in = on,
	    .ready = collect,
	    .collect = collect};
}

/* ---- the lists ---- */

/* The index of a vessel's list, which is made where it is new. */
static size_t
list_of(struct handing_in *making, size_t vessel)
{
	const struct book_contents *contents = &making->desk->contents;
	size_t at = 0;
	while (at < making->count && making->lists[at].vessel != vessel) {
		at++;
	}
	if (at == making->count) {
		const struct winter_request request = {.engine = &making->desk->engine,
		    .stations = contents->stations,
		    .station_count = contents->station_count,
		    .today = making->desk->today};
		winter_plan_fleet(
		    &request, &vessel, 1, &making->desk->arena, &making->winters[at]);
		making->lists[at] = (struct shore_list){.vessel = vessel,
		    .has_winter = making->winters[at].has_winter,
		    .winter = making->winters[at].winter};
		making->count++;
	}
	return at;
}

/* The trip of a list to where a piece goes. */
static struct trip *
trip_in(struct handing_in *making, struct shore_list *list, const struct item *item)
{
	struct trips *trips = &list->hand_in;
	const struct trip trip = trip_to(making, item);
	for (size_t i = 0; i < trips->count; i++) {
		if (strcmp(trips->items[i].name, trip.name) == 0 &&
		    trips->items[i].hand_in == trip.hand_in) {
			return &trips->items[i];
		}
	}
	ARENA_ROOM(&making->desk->arena, trips);
	trips->items[trips->count] = trip;
	return &trips->items[trips->count++];
}

static struct shore_line
line_of(size_t item, enum task task, const struct obligation *obligations, size_t count)
{
	struct shore_line line = shore_line_plain(item, task);
	for (size_t i = 0; i < count; i++) {
		if (obligations[i].task == task) {
			line.state = obligations[i].state;
			line.due = obligations[i].due;
			line.grade = obligations[i].grade;
		}
	}
	return line;
}

/* Adds what is wanted of the station for one item, a part of another or not. */
static bool
add_item(struct handing_in *making, size_t list, struct trip *trip, size_t index,
    bool inside, struct fault *fault)
{
	const struct desk *desk = making->desk;
	struct obligation *obligations = NULL;
	size_t count = 0;
	unsigned tasks = inside ? 0 : making->handing->told;
	const struct at_counter piece = {
	    &making->winters[list], index, inside, desk->today};
	arena_reset(&making->scratch);
	if (making->handing->told == 0) {
		asked_of_station(&desk->engine, &piece, &making->scratch, &tasks);
	}
	due_of_item(
	    &desk->engine, index, desk->today, &making->scratch, &obligations, &count);
	if (tasks == 0 && !inside) {
		return fault_set(fault, FAULT_INPUT,
		    "%s: nothing on record is a station's to do now; it must be said what is "
		    "wanted of it",
		    item_at(making, index)->tag);
	}
	for (int task = 0; task < TASK_COUNT; task++) {
		struct shore_lines *lines = &trip->lines;
		if ((tasks & 1U << task) == 0) {
			continue;
		}
		struct shore_line line =
		    line_of(index, (enum task)task, obligations, count);
		line.with_parent = inside;
		line.due_again = due_again(&desk->engine, index, (enum task)task,
		    trip->hand_in, &making->scratch);
		ARENA_ADD(&making->desk->arena, lines, line);
	}
	return true;
}

/* Adds a piece with its parts that are aboard. */
static bool
add_family(struct handing_in *making, size_t index, struct fault *fault)
{
	const struct item *item = item_at(making, index);
	struct family family = {0};
	if (!check_aboard(item, fault)) {
		return false;
	}
	size_t list = list_of(making, item->vessel);
	struct trip *trip = trip_in(making, &making->lists[list], item);
	family_of(
	    &making->desk->contents.inventory, index, &making->desk->arena, &family);
	for (size_t i = 0; i < family.count; i++) {
		bool goes =
		    i == 0 || item_at(making, family.items[i])->state == PLACE_ABOARD;
		if (goes &&
		    !add_item(making, list, trip, family.items[i], i > 0, fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_hand_in(struct desk *desk, const struct handing *handing,
    struct shore_list **lists_out, size_t *count_out, struct fault *fault)
{
	size_t room = handing->count + 1;
	struct handing_in making = {.desk = desk, .handing = handing};
	bool made = desk_engine(desk, NULL, fault);
	making.lists = arena_alloc(&desk->arena, room * sizeof *making.lists);
	making.winters = arena_alloc(&desk->arena, room * sizeof *making.winters);
	for (size_t i = 0; i < handing->count && made; i++) {
		made = add_family(&making, handing->items[i], fault);
	}
	arena_clear(&making.scratch);
	*lists_out = making.lists;
	*count_out = making.count;
	return made;
}

/* ---- what is due now ---- */

static bool
is_given_out(const struct shore_list *list, size_t item)
{
	for (size_t i = 0; i < list->hand_in.count && !list->has_winter; i++) {
		if (shore_lines_have(&list->hand_in.items[i].lines, item)) {
			return true;
		}
	}
	return false;
}

/* True when a station's work on an item is not in date, and no winter's. */
static bool
waits_for_none(struct desk *desk, size_t index, struct arena *scratch)
{
	const struct item *item = &desk->contents.inventory.items[index];
	const struct vessel *vessel = &desk->contents.inventory.vessels[item->vessel];
	struct obligation *obligations = NULL;
	size_t count = 0;
	bool waits = false;
	due_of_item(&desk->engine, index, desk->today, scratch, &obligations, &count);
	for (size_t i = 0; i < count; i++) {
		const struct obligation *of = &obligations[i];
		waits = waits || (station_does(of->doer, of->task) && !of->routine &&
				     of->state != STATE_IN_DATE &&
				     winter_of_obligation(vessel, of, desk->today) == 0);
	}
	return waits;
}

/* True when an item is a part of another of some. */
static bool
is_inside_one(
    const struct inventory *inventory, const size_t *items, size_t count, size_t item)
{
	for (size_t i = 0; i < count; i++) {
		if (items[i] != item && family_has(inventory, items[i], item)) {
			return true;
		}
	}
	return false;
}

/* Adds what of one vessel's gear is due now. */
static void
add_due_now(
    struct desk *desk, const struct shore_list *list, size_t *items, size_t *count)
{
	const struct inventory *inventory = &desk->contents.inventory;
	SCOPED_ARENA scratch = {0};
	size_t aboard = 0;
	size_t first = inventory_aboard(inventory, list->vessel, &aboard);
	for (size_t at = first; at < first + aboard; at++) {
		enum place_state state = inventory->items[at].state;
		arena_reset(&scratch);
		bool waits = waits_for_none(desk, at, &scratch);
		if (waits && (state == PLACE_ABOARD || state == PLACE_STAND_IN) &&
		    !is_given_out(list, at)) {
			items[(*count)++] = at;
		}
	}
}

void
desk_due_now(struct desk *desk, const struct shore_list *lists, size_t list_count,
    size_t **items_out, size_t *count_out)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t room = inventory->item_count + 1;
	size_t *found = arena_alloc(&desk->arena, room * sizeof *found);
	size_t *items = arena_alloc(&desk->arena, room * sizeof *items);
	size_t count = 0;
	size_t kept = 0;
	for (size_t i = 0; i < list_count; i++) {
		add_due_now(desk, &lists[i], found, &count);
	}
	for (size_t i = 0; i < count; i++) {
		if (!is_inside_one(inventory, found, count, found[i])) {
			items[kept++] = found[i];
		}
	}
	*items_out = items;
	*count_out = kept;
}
