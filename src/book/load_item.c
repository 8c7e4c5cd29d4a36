/* Loading gear, and what is on record about it. */
#include "base/numbers.h"
#include "base/text.h"
#include "book/rows.h"

#include <stdlib.h>
#include <string.h>

static int
compare_places(const void *a, const void *b)
{
	int64_t left = ((const struct place_of_id *)a)->id;
	int64_t right = ((const struct place_of_id *)b)->id;
	return ORDER(left, right);
}

static struct item *
owner_item(struct loading *loading, size_t *at, int64_t id)
{
	while (*at < loading->item_count && loading->items[*at].id < id) {
		++*at;
	}
	bool found = *at < loading->item_count && loading->items[*at].id == id;
	return found ? &loading->items[*at] : NULL;
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
	qsort(places, count, sizeof *places, compare_places);
	*out = places;
}

/* Reads the items by number, and each one's parent's number into `parents`. */
static bool
load_item_rows(struct loading *loading, int64_t *parents, struct fault *fault)
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
		parents[loading->item_count++] = take_int(&call);
		take_item(&call, loading->arena, item);
	}
	return done;
}

/* How many rows of a table are to be read: none of what is taken. */
static size_t
room_for(const struct loading *loading, enum load_table table, size_t count)
{
	return (loading->taken & table) != 0 ? 0 : count;
}

static bool
load_records(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	struct record *records = NULL;
	size_t count = 0;
	size_t at = 0;
	size_t room = room_for(loading, LOADS_RECORDS, loading->counts.records);
	load_room(loading, room, sizeof *records, &records);
	if (!load_open(loading, LOAD_RECORDS, room, &call, fault)) {
		return false;
	}
	while (load_next(&call, count < room, &done, fault)) {
		struct item *item = owner_item(loading, &at, take_int(&call));
		if (item == NULL) {
			continue;
		}
		if (item->record_count++ == 0) {
			item->records = &records[count];
		}
		struct record *record = &records[count++];
		record->entered = take_int(&call);
		for (size_t i = 0; i < RECORD_FIELD_COUNT; i++) {
			take_field(&call, loading->arena, &RECORD_FIELDS[i], record);
		}
	}
	return done;
}

static bool
load_events(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	struct event *events = NULL;
	size_t count = 0;
	size_t at = 0;
	size_t room = room_for(loading, LOADS_EVENTS, loading->counts.events);
	load_room(loading, room, sizeof *events, &events);
	if (!load_open(loading, LOAD_EVENTS, room, &call, fault)) {
		return false;
	}
	while (load_next(&call, count < room, &done, fault)) {
		struct item *item = owner_item(loading, &at, take_int(&call));
		if (item == NULL) {
			continue;
		}
		if (item->event_count++ == 0) {
			item->events = &events[count];
		}
		events[count].kind = (enum event_kind)take_code(&call, &EVENT_CODES);
		events[count].on = take_day(&call);
		events[count++].entered = take_int(&call);
	}
	return done;
}

static bool
load_extensions(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	struct extension *extensions = NULL;
	size_t count = 0;
	size_t at = 0;
	size_t room = room_for(loading, LOADS_EXTENSIONS, loading->counts.extensions);
	load_room(loading, room, sizeof *extensions, &extensions);
	if (!load_open(loading, LOAD_EXTENSIONS, room, &call, fault)) {
		return false;
	}
	loading->extensions = extensions;
	while (load_next(&call, count < room, &done, fault)) {
		struct item *item = owner_item(loading, &at, take_int(&call));
		if (item == NULL) {
			continue;
		}
		if (item->extension_count++ == 0) {
			item->extensions = &extensions[count];
		}
		extensions[count].task = (enum task)take_code(&call, &TASK_CODES);
		extensions[count].until = take_day(&call);
		extensions[count].paper = take_text(&call, loading->arena);
		extensions[count].given = take_day(&call);
		extensions[count++].entered = take_int(&call);
	}
	return done;
}

static bool
load_intervals(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	struct interval *intervals = NULL;
	size_t count = 0;
	size_t at = 0;
	size_t room = room_for(loading, LOADS_INTERVALS, loading->counts.intervals);
	load_room(loading, room, sizeof *intervals, &intervals);
	if (!load_open(loading, LOAD_INTERVALS, room, &call, fault)) {
		return false;
	}
	while (load_next(&call, count < room, &done, fault)) {
		struct item *item = owner_item(loading, &at, take_int(&call));
		if (item == NULL) {
			continue;
		}
		if (item->interval_count++ == 0) {
			item->intervals = &intervals[count];
		}
		struct interval *interval = &intervals[count++];
		interval->task = (enum task)take_code(&call, &TASK_CODES);
		interval->on = take_day(&call);
		interval->months = (int)take_int(&call);
		interval->first_months = (int)take_int(&call);
		int from = (int)take_code(&call, &COUNTS_FROM_CODES);
		interval->from_said = from > 0;
		interval->from = (enum anchor)(from > 0 ? from - 1 : ANCHOR_MADE);
		interval->paper = take_text(&call, loading->arena);
	}
	return done;
}

static bool
load_movements(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	struct movement *movements = NULL;
	size_t count = 0;
	size_t at = 0;
	size_t room = room_for(loading, LOADS_MOVEMENTS, loading->counts.movements);
	load_room(loading, room, sizeof *movements, &movements);
	if (!load_open(loading, LOAD_MOVEMENTS, room, &call, fault)) {
		return false;
	}
	while (load_next(&call, count < room, &done, fault)) {
		struct item *item = owner_item(loading, &at, take_int(&call));
		if (item == NULL) {
			continue;
		}
		if (item->movement_count++ == 0) {
			item->movements = &movements[count];
		}
		struct movement *movement = &movements[count++];
		movement->move = (enum move)take_code(&call, &MOVE_CODES);
		movement->on = take_day(&call);
		movement->was = (enum place_state)take_code(&call, &PLACE_CODES);
		movement->vessel = take_text(&call, loading->arena);
		movement->was_vessel = take_text(&call, loading->arena);
		movement->station = take_text(&call, loading->arena);
		movement->stands_for = take_text(&call, loading->arena);
		movement->certificate = take_text(&call, loading->arena);
		movement->serial = take_text(&call, loading->arena);
		movement->because = (enum because)take_code(&call, &BECAUSE_CODES);
		movement->result = (enum result)take_code(&call, &RESULT_CODES);
		movement->price_minor = take_int(&call);
		movement->note = take_text(&call, loading->arena);
		movement->asked = take_codes(&call, &TASK_CODES);
	}
	return done;
}

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
	size_t first = item->extension_count == 0
			   ? 0
			   : (size_t)(item->extensions - loading->extensions);
	size_t kept = 0;
	for (size_t i = 0; i < item->extension_count; i++) {
		const struct extension extension = loading->extensions[first + i];
		if (!is_of_old(&extension, renewal)) {
			loading->extensions[first + kept++] = extension;
		}
	}
	item->extension_count = kept;
}

/* Sets apart what is from before the last renewal: it was about another thing. A record of
 * the same day stays, since it may well be the new thing's first paper; what happened on it
 * stays unless it was entered before. */
static void
cut_at_renewal(struct loading *loading, struct item *item)
{
	const struct record *renewal = NULL;
	for (size_t i = 0; i < item->record_count; i++) {
		if (item->records[i].task == TASK_RENEW) {
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

/* Puts the items in their final order, then turns parents' numbers into indices. `parents`
 * is in the order of the items' numbers, and so are the places. */
static void
settle_items(struct loading *loading, const int64_t *parents)
{
	struct place_of_id *places = NULL;
	size_t count = loading->item_count;
	load_room(loading, count, sizeof *places, &places);
	qsort(loading->items, count, sizeof *loading->items, compare_items);
	for (size_t i = 0; i < count; i++) {
		places[i] = (struct place_of_id){loading->items[i].id, i};
	}
	qsort(places, count, sizeof *places, compare_places);
	for (size_t i = 0; i < count; i++) {
		const struct place_of_id *parent = place_find(places, count, parents[i]);
		if (parent != NULL) {
			loading->items[places[i].index].parent = parent->index;
		}
	}
}

bool
load_items(struct loading *loading, struct fault *fault)
{
	size_t room = loading->counts.items;
	int64_t *parents = NULL;
	load_room(loading, room, sizeof(struct item), &loading->items);
	load_room(loading, room, sizeof *parents, &parents);
	if (!load_item_rows(loading, parents, fault) || !load_records(loading, fault) ||
	    !load_events(loading, fault) || !load_extensions(loading, fault) ||
	    !load_movements(loading, fault) || !load_intervals(loading, fault)) {
		return fault_prefix(fault, "gear");
	}
	if ((loading->taken & LOADS_LISTS) != 0) {
		load_lists_taken(loading);
	}
	for (size_t i = 0; i < loading->item_count; i++) {
		cut_at_renewal(loading, &loading->items[i]);
	}
	settle_items(loading, parents);
	return true;
}
