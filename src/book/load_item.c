/* Loading gear, and what is on record about it. */
#include "base/memory.h"
#include "base/numbers.h"
#include "base/text.h"
#include "book/rows.h"

#include <string.h>

static int
compare_places(const void *a, const void *b)
{
	int64_t left = ((const struct place_of_id *)a)->id;
	int64_t right = ((const struct place_of_id *)b)->id;
	return ORDER(left, right);
}

/* The item with this number; NULL where it is not loaded. */
static void *
owner_item(struct loading *loading, size_t *at, int64_t id)
{
	(void)at; /* they come in any order */
	const struct place_of_id *place =
	    place_find(loading->places, loading->item_count, id);
	return place == NULL ? NULL : &loading->items[place->index];
}

static void
take_item(struct call *call, struct arena *arena, struct item *item)
{
	struct item_change taken = {0};
	item->parent = ITEM_NO_PARENT;
	item->tag = take_text(call, arena);
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (!ITEM_FIELDS[i].link) {
			take_field(call, arena, &ITEM_FIELDS[i], &taken);
		}
	}
	item->values = taken.values;
	item->split_from = take_text(call, arena);
}

static void
places_of_vessels(struct loading *loading, struct place_of_id **out)
{
	struct place_of_id *places = NULL;
	size_t count = loading->vessel_count;
	load_room(loading, count, sizeof *places, &places);
	for (size_t i = 0; i < count; i++) {
		places[i] = (struct place_of_id){loading->vessels[i].id, i};
	}
	ARRAY_SORT(places, count, compare_places);
	*out = places;
}

/* Reads the items, and into `parents` what each is part of. */
static bool
load_item_rows(struct loading *loading, struct part_of *parents, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	struct place_of_id *places = NULL;
	places_of_vessels(loading, &places);
	if ((loading->taken & LOADS_ITEMS) != 0) {
		load_items_taken(loading, places, parents);
		return true;
	}
	if (!load_open(loading, LOAD_ITEMS, loading->counts.items, &call, fault)) {
		return false;
	}
	while (
	    load_next(&call, loading->item_count < loading->counts.items, &done, fault)) {
		struct item *item = &loading->items[loading->item_count];
		item->id = take_int(&call);
		const struct place_of_id *vessel =
		    place_find(places, loading->vessel_count, take_int(&call));
		if (vessel == NULL) {
			return fault_set(fault, FAULT_BOOK,
			    "item number %lld is on no vessel", (long long)item->id);
		}
		item->vessel = vessel->index;
		parents[loading->item_count++] =
		    (struct part_of){item->id, take_int(&call)};
		take_item(&call, loading->arena, item);
	}
	return done;
}

/* Numbers of one item's records, one for each. */
struct record_numbers {
	int64_t *items; /* in an arena */
	size_t count;
	size_t capacity;
};

/* Puts the last of an item's records, which are sorted by day and task, in its place by number
 * among those that have both in common. */
static void
sort_last(struct record *records, struct record_numbers *numbers)
{
	for (size_t at = numbers->count - 1; at > 0; at--) {
		struct record *last = &records[at];
		if (numbers->items[at - 1] < numbers->items[at] ||
		    last[-1].task != last->task ||
		    stored_stamp(last[-1].on) != stored_stamp(last->on)) {
			return;
		}
		struct record record = *last;
		*last = last[-1];
		last[-1] = record;
		int64_t number = numbers->items[at];
		numbers->items[at] = numbers->items[at - 1];
		numbers->items[at - 1] = number;
	}
}

static bool
load_records(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	struct record_numbers numbers = {0};
	struct load_slots slots = {0};
	bool taken = (loading->taken & LOADS_RECORDS) != 0;
	if (!load_open(loading, LOAD_RECORDS, taken ? 0 : loading->counts.records, &call,
		fault)) {
		return false;
	}
	while (load_next(&call, true, &done, fault)) {
		struct item *item = owner_item(loading, NULL, take_int(&call));
		if (item == NULL) {
			continue;
		}
		struct record *record = load_slot(loading, &slots, sizeof *record,
		    &item->records, &item->record_count, fault);
		if (record == NULL) {
			return false;
		}
		numbers.count = item->record_count == 1 ? 0 : numbers.count;
		ARENA_ADD(loading->arena, &numbers, take_int(&call));
		record->entered = take_int(&call);
		for (size_t i = 0; i < RECORD_FIELD_COUNT; i++) {
			take_field(&call, loading->arena, &RECORD_FIELDS[i], record);
		}
		sort_last(record + 1 - numbers.count, &numbers);
	}
	return done;
}

static void
take_event(const struct load_row *row)
{
	struct event *event = row->into;
	event->kind = (enum event_kind)take_code(row->call, &EVENT_CODES);
	event->on = take_day(row->call);
	event->entered = take_int(row->call);
}

static void
take_extension(const struct load_row *row)
{
	struct extension *extension = row->into;
	extension->task = (enum task)take_code(row->call, &TASK_CODES);
	extension->until = take_day(row->call);
	extension->paper = take_text(row->call, row->loading->arena);
	extension->given = take_day(row->call);
	extension->entered = take_int(row->call);
}

static void
take_interval(const struct load_row *row)
{
	struct interval *interval = row->into;
	interval->task = (enum task)take_code(row->call, &TASK_CODES);
	interval->on = take_day(row->call);
	interval->months = (int)take_int(row->call);
	interval->first_months = (int)take_int(row->call);
	int from = (int)take_code(row->call, &COUNTS_FROM_CODES);
	interval->from_said = from > 0;
	interval->from = (enum anchor)(from > 0 ? from - 1 : ANCHOR_MADE);
	interval->paper = take_text(row->call, row->loading->arena);
}

static void
take_movement(const struct load_row *row)
{
	struct call *call = row->call;
	struct arena *arena = row->loading->arena;
	struct movement *movement = row->into;
	movement->move = (enum move)take_code(call, &MOVE_CODES);
	movement->on = take_day(call);
	movement->was = (enum place_state)take_code(call, &PLACE_CODES);
	movement->vessel = take_text(call, arena);
	movement->was_vessel = take_text(call, arena);
	movement->station = take_text(call, arena);
	movement->stands_for = take_text(call, arena);
	movement->certificate = take_text(call, arena);
	movement->serial = take_text(call, arena);
	movement->because = (enum because)take_code(call, &BECAUSE_CODES);
	movement->result = (enum result)take_code(call, &RESULT_CODES);
	movement->price_minor = take_int(call);
	movement->note = take_text(call, arena);
	movement->asked = take_codes(call, &TASK_CODES);
}

#define LIST(statement, member, number, counts, table_, take_)                           \
	LOAD_LIST(                                                                       \
	    statement, item, member, number, counts, .table = (table_), .take = (take_))

static const struct load_list LISTS[] = {
    LIST(LOAD_EVENTS, events, event_count, events, LOADS_EVENTS, take_event),
    LIST(LOAD_EXTENSIONS, extensions, extension_count, extensions, LOADS_EXTENSIONS,
	take_extension),
    LIST(LOAD_MOVEMENTS, movements, movement_count, movements, LOADS_MOVEMENTS,
	take_movement),
    LIST(LOAD_INTERVALS, intervals, interval_count, intervals, LOADS_INTERVALS,
	take_interval),
};

/* True for an extension that was given for the thing a renewal took away. */
static bool
is_of_old(const struct extension *extension, const struct record *renewal)
{
	day_t renewed = stamp_first(renewal->on);
	return extension->given != renewed ? extension->given < renewed
					   : extension->entered <= renewal->entered;
}

/* Leaves out the extensions of the thing before. They are in the order of their last days. */
static void
cut_extensions(struct loading *loading, struct item *item, const struct record *renewal)
{
	struct extension *kept = NULL;
	size_t count = 0;
	load_room(loading, item->extension_count, sizeof *kept, &kept);
	for (size_t i = 0; i < item->extension_count; i++) {
		if (!is_of_old(&item->extensions[i], renewal)) {
			kept[count++] = item->extensions[i];
		}
	}
	item->extensions = kept;
	item->extension_count = count;
}

/* Sets apart what is from before the last renewal that was no refit: it was about another
 * thing. A record of the same day stays, since it may well be the new thing's first paper;
 * what happened on it stays unless it was entered before. */
static void
cut_at_renewal(struct loading *loading, struct item *item)
{
	const struct record *renewal = NULL;
	for (size_t i = 0; i < item->record_count; i++) {
		if (record_is_new_thing(&item->records[i])) {
			renewal = &item->records[i];
		}
	}
	item->past_records = item->records;
	item->past_events = item->events;
	if (renewal == NULL) {
		return;
	}
	day_t renewed = stamp_first(renewal->on);
	while (item->record_count > 0 && stamp_first(item->records->on) < renewed) {
		item->records++;
		item->record_count--;
		item->past_record_count++;
	}
	while (item->event_count > 0 && record_follows(renewal, item->events)) {
		item->events++;
		item->event_count--;
		item->past_event_count++;
	}
	while (item->interval_count > 0 && item->intervals->on < renewed) {
		item->intervals++;
		item->interval_count--;
	}
	/* those that are taken were cut when they were loaded */
	if ((loading->taken & LOADS_EXTENSIONS) == 0) {
		cut_extensions(loading, item, renewal);
	}
}

static int
compare_items(const void *a, const void *b)
{
	const struct item *left = a;
	const struct item *right = b;
	if (left->vessel != right->vessel) {
		return left->vessel < right->vessel ? -1 : 1;
	}
	int order = text_compare_natural(left->tag, right->tag);
	return order != 0 ? order : strcmp(left->tag, right->tag);
}

/* Puts the items in their final order, notes their places by number, and turns parents'
 * numbers into indices. */
static void
settle_items(struct loading *loading, const struct part_of *parents)
{
	struct place_of_id *places = NULL;
	size_t count = loading->item_count;
	load_room(loading, count, sizeof *places, &places);
	ARRAY_SORT(loading->items, count, compare_items);
	for (size_t i = 0; i < count; i++) {
		places[i] = (struct place_of_id){loading->items[i].id, i};
	}
	ARRAY_SORT(places, count, compare_places);
	loading->places = places;
	for (size_t i = 0; i < count; i++) {
		const struct place_of_id *parent =
		    parents[i].parent == 0 ? NULL
					   : place_find(places, count, parents[i].parent);
		if (parent != NULL) {
			const struct place_of_id *part =
			    place_find(places, count, parents[i].id);
			loading->items[part->index].parent = parent->index;
		}
	}
}

bool
load_items(struct loading *loading, struct fault *fault)
{
	size_t room = loading->counts.items;
	struct part_of *parents = NULL;
	load_room(loading, room, sizeof(struct item), &loading->items);
	load_room(loading, room, sizeof *parents, &parents);
	if (!load_item_rows(loading, parents, fault)) {
		return fault_prefix(fault, "gear");
	}
	settle_items(loading, parents);
	if (loading->item_count > 0 &&
	    (!load_records(loading, fault) ||
		!load_lists(
		    loading, LISTS, sizeof LISTS / sizeof LISTS[0], owner_item, fault))) {
		return fault_prefix(fault, "gear");
	}
	if ((loading->taken & LOADS_LISTS) != 0) {
		load_lists_taken(loading);
	}
	for (size_t i = 0; i < loading->item_count; i++) {
		cut_at_renewal(loading, &loading->items[i]);
	}
	return true;
}
