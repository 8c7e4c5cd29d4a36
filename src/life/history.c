#include "life/history.h"

#include "base/memory.h"
#include "base/numbers.h"
#include "life/serials.h"

#include <stdlib.h>
#include <string.h>

struct history_telling {
	const struct inventory *inventory;
	const char *serial; /* NULL for everything under a tag */
	struct history history;
};

/* The number of the thing that bore the tag on a day. On the day of a renewal the new one
 * does. */
static const char *
serial_on(const struct item *item, day_t day)
{
	for (size_t i = 0; i < item->movement_count; i++) {
		const struct movement *movement = &item->movements[i];
		if (movement->move == MOVE_RENEWED && day < movement->on) {
			return movement->serial;
		}
	}
	return item->serial;
}

/* The number a movement is about: a renewal's is that of the thing that went. */
static const char *
serial_of_movement(const struct item *item, const struct movement *movement)
{
	return movement->move == MOVE_RENEWED ? movement->serial
					      : serial_on(item, movement->on);
}

static bool
meant(const struct history_telling *telling, const char *serial)
{
	return telling->serial == NULL || serial_same(serial, telling->serial);
}

static void
tell(struct history_telling *telling, struct happening happening)
{
	telling->history.items[telling->history.count++] = happening;
}

static void
tell_records(struct history_telling *telling, size_t index, const struct record *records,
    size_t count)
{
	const struct item *item = &telling->inventory->items[index];
	for (size_t i = 0; i < count; i++) {
		day_t on = stamp_first(records[i].on);
		if (meant(telling, serial_on(item, on))) {
			tell(
			    telling, (struct happening){
					 .on = on, .item = index, .record = &records[i]});
		}
	}
}

static void
tell_events(struct history_telling *telling, size_t index, const struct event *events,
    size_t count)
{
	const struct item *item = &telling->inventory->items[index];
	for (size_t i = 0; i < count; i++) {
		if (meant(telling, serial_on(item, events[i].on))) {
			tell(telling,
			    (struct happening){
				.on = events[i].on, .item = index, .event = &events[i]});
		}
	}
}

static void
tell_item(struct history_telling *telling, size_t index)
{
	const struct item *item = &telling->inventory->items[index];
	tell_records(telling, index, item->past_records, item->past_record_count);
	tell_records(telling, index, item->records, item->record_count);
	tell_events(telling, index, item->past_events, item->past_event_count);
	tell_events(telling, index, item->events, item->event_count);
	for (size_t i = 0; i < item->movement_count; i++) {
		if (meant(telling, serial_of_movement(item, &item->movements[i]))) {
			tell(telling, (struct happening){.on = item->movements[i].on,
					  .item = index,
					  .movement = &item->movements[i]});
		}
	}
}

static bool
bears(const struct item *item, const char *serial)
{
	if (serial_same(item->serial, serial)) {
		return true;
	}
	for (size_t i = 0; i < item->movement_count; i++) {
		if (item->movements[i].move == MOVE_RENEWED &&
		    serial_same(item->movements[i].serial, serial)) {
			return true;
		}
	}
	return false;
}

/* By day; of one day as they were told, which is work, events, movements of each item. */
struct placed {
	struct happening happening;
	size_t place;
};

static int
compare_placed(const void *left, const void *right)
{
	const struct placed *a = left;
	const struct placed *b = right;
	int order = ORDER(a->happening.on, b->happening.on);
	return ORDER_THEN(order, a->place, b->place);
}

static void
sort(struct history *history)
{
	struct placed *placed = memory_zeroed(history->count + 1, sizeof *placed);
	for (size_t i = 0; i < history->count; i++) {
		placed[i] = (struct placed){history->items[i], i};
	}
	ARRAY_SORT(placed, history->count, compare_placed);
	for (size_t i = 0; i < history->count; i++) {
		history->items[i] = placed[i].happening;
	}
	free(placed);
}

/* The bearers of a number, or else the item with that tag. */
static void
find_bearers(struct history_telling *telling, const char *words, struct arena *arena)
{
	const struct inventory *inventory = telling->inventory;
	struct history *history = &telling->history;
	history->bearers =
	    arena_alloc(arena, (inventory->item_count + 1) * sizeof *history->bearers);
	telling->serial = words;
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (bears(&inventory->items[i], words)) {
			history->bearers[history->bearer_count++] = i;
		}
	}
	size_t tagged = inventory_tagged(inventory, words);
	if (history->bearer_count == 0 && tagged != ITEM_NO_PARENT) {
		history->bearers[history->bearer_count++] = tagged;
		telling->serial = NULL;
	}
}

void
history_find(const struct inventory *inventory, const char *words, struct arena *arena,
    struct history *out)
{
	struct history_telling telling = {.inventory = inventory};
	size_t most = 1;
	find_bearers(&telling, words, arena);
	struct history *history = &telling.history;
	for (size_t i = 0; i < history->bearer_count; i++) {
		const struct item *item = &inventory->items[history->bearers[i]];
		most += item->record_count + item->past_record_count + item->event_count +
			item->past_event_count + item->movement_count;
	}
	history->items = arena_alloc(arena, most * sizeof *history->items);
	for (size_t i = 0; i < history->bearer_count; i++) {
		tell_item(&telling, history->bearers[i]);
	}
	sort(history);
	*out = *history;
}
