/* Which pieces must be serviced, when, and where they may go. */
#include "base/text.h"
#include "gear/going.h"
#include "rota/inside.h"

#include <string.h>

static bool
is_asked(const struct rota_ask *ask, const char *kind)
{
	return ask->kind_count == 0 || words_have(ask->kinds, ask->kind_count, kind);
}

/* ---- what is to be done ---- */

/* Notes the state of what is due first; what is not in date comes before all. */
static void
note_due(struct rota_line *line, const struct obligation *obligation)
{
	bool in_date = obligation->state == STATE_IN_DATE;
	bool was_in_date = line->state == STATE_IN_DATE;
	line->due_last = day_max(line->due_last, obligation->due);
	if (line->tasks == 0 || (was_in_date && !in_date) ||
	    (was_in_date == in_date && obligation->due < line->due)) {
		line->state = obligation->state;
		line->due = obligation->due;
	}
	if (in_date) {
		line->good_through =
		    line->good_through == DAY_NONE
			? obligation->good_through
			: day_min(line->good_through, obligation->good_through);
	}
}

static void
add_works_of(const struct rota_making *making, struct rota_piece *piece, size_t item)
{
	const struct rota_ask *ask = making->ask;
	struct obligation *obligations = NULL;
	size_t count = 0;
	arena_reset(making->scratch);
	due_of_item(
	    ask->engine, item, ask->days.first, making->scratch, &obligations, &count);
	for (size_t i = 0; i < count; i++) {
		const struct obligation *due = &obligations[i];
		if (due->doer == DOER_STATION && !due->routine &&
		    (due->state != STATE_IN_DATE ||
			(due->due != DAY_NONE && due->due <= ask->days.last))) {
			struct rota_work work = {item, due->task};
			note_due(&piece->line, due);
			ARENA_ADD(making->arena, &piece->works, work);
			piece->line.tasks |= 1U << work.task;
		}
	}
}

/* The works on an item and on its parts that are with it. */
static void
add_works(const struct rota_making *making, struct rota_piece *piece, size_t item)
{
	const struct due_engine *engine = making->ask->engine;
	add_works_of(making, piece, item);
	size_t part =
	    engine->first_part == NULL ? ITEM_NO_PARENT : engine->first_part[item];
	for (; part != ITEM_NO_PARENT; part = engine->next_part[part]) {
		if (engine->inventory->items[part].state == PLACE_ABOARD) {
			add_works(making, piece, part);
		}
	}
}

/* ---- between which days ---- */

/* Whether nothing that is done on this day is due again before the last day of the
 * rota. */
static bool
carries(const struct rota_making *making, const struct rota_piece *piece, day_t day)
{
	bool carries = true;
	for (size_t i = 0; i < piece->works.count && carries; i++) {
		carries = rota_again(making, piece, piece->works.items[i], day) >=
			  making->ask->days.last;
	}
	return carries;
}

/* The first day on which doing it lasts to the end of the rota, or the rota's first
 * day where none up to the last does. */
static void
find_first(const struct rota_making *making, struct rota_piece *piece)
{
	day_t low = making->ask->days.first;
	day_t high = piece->line.last;
	piece->line.first = low;
	if (!carries(making, piece, high)) {
		return;
	}
	/* Doing it later never makes it lapse sooner, so the range can be halved. */
	while (low < high) {
		day_t middle = low + (high - low) / 2;
		bool holds = carries(making, piece, middle);
		low = holds ? low : middle + 1;
		high = holds ? middle : high;
	}
	piece->line.first = low;
}

/* The first day on which a station takes it in and the boat has no booking until it
 * is collected; where no such day exists, the first on which a station takes it in. */
static day_t
first_free(const struct rota_making *making, const struct rota_piece *piece)
{
	const struct vessel *vessel =
	    &making->ask->engine->inventory->vessels[piece->vessel];
	struct span days = making->ask->days;
	day_t open = DAY_NEVER;
	for (day_t day = days.first; day <= days.last; day++) {
		for (size_t i = 0; i < piece->place_count; i++) {
			const struct station *station =
			    &making->stations[piece->places[i]];
			if (!station_open(station, day)) {
				continue;
			}
			open = day_min(open, day);
			if (!booking_meets(vessel->bookings, vessel->booking_count,
				(struct span){day, station_collect(station, day)})) {
				return day;
			}
		}
	}
	return open == DAY_NEVER ? days.first : open;
}

static void
find_days(const struct rota_making *making, struct rota_piece *piece)
{
	bool in_time = piece->line.due >= making->ask->days.first;
	/* lapsed, or past its day in its window */
	if (piece->line.state != STATE_IN_DATE || !in_time) {
		piece->line.first = making->ask->days.first;
		piece->line.last = first_free(making, piece);
		return;
	}
	piece->line.last = piece->line.due;
	find_first(making, piece);
}

/* ---- where ---- */

static void
find_places(const struct rota_making *making, struct rota_piece *piece)
{
	const struct rota_ask *ask = making->ask;
	const struct item *item = &ask->engine->inventory->items[piece->item];
	const struct vessel *vessel = &ask->engine->inventory->vessels[piece->vessel];
	size_t *places = ARENA_MANY(making->arena, size_t, ask->station_count);
	size_t count = 0;
	for (size_t i = 0; i < ask->station_count; i++) {
		if (station_in_reach(&ask->stations[i], vessel->base, item) &&
		    station_fit(&ask->stations[i], item->kind, item->make) == FIT_YES) {
			places[count++] = i;
		}
	}
	if (count == 0) {
		places[count++] = ask->station_count;
	}
	piece->places = places;
	piece->place_count = count;
}

/* ---- what was given out ---- */

/* Keeps a piece on the day and at the station it was given out for, where that lies
 * ahead. */
static void
keep_given(const struct rota_making *making, struct rota_piece *piece)
{
	const struct rota_ask *ask = making->ask;
	const struct inventory *inventory = ask->engine->inventory;
	const struct vessel *vessel = &inventory->vessels[piece->vessel];
	for (size_t i = 0; i < ask->settled_count; i++) {
		const struct settled_hand_in *of = &ask->settled[i];
		bool hers = settled_is_of(of, vessel) &&
			    settled_has_work(
				of, inventory->items[piece->item].tag, piece->line.due);
		if (!hers || of->day < ask->days.first) {
			continue;
		}
		for (size_t k = 0; k < piece->place_count; k++) {
			const struct station *station =
			    &making->stations[piece->places[k]];
			if (strcmp(station->name, of->station) == 0) {
				piece->places += k;
				piece->place_count = 1;
				piece->given = true;
				piece->line.first = of->day;
				piece->line.last = of->day;
				return;
			}
		}
	}
}

/* ---- all of it ---- */

/* Notes what is ashore, for as long as it is. */
static void
note_ashore(struct rota_making *making, size_t item)
{
	const struct rota_ask *ask = making->ask;
	const struct item *landed = &ask->engine->inventory->items[item];
	struct slot_taken taken = {
	    SLOT_NONE, landed->landed_on, DAY_NONE, landed->quantity, false};
	bool assumed = false;
	taken.collect = ashore_collect(
	    ask->engine->inventory, landed, ask->stations, ask->station_count, &assumed);
	for (size_t i = 0; i < ask->station_count; i++) {
		if (strcmp(ask->stations[i].name, landed->landed_to) == 0) {
			taken.place = i;
		}
	}
	if (taken.collect != DAY_NONE) {
		making->taken_items[making->taken_count] = item;
		making->taken[making->taken_count++] = taken;
	}
}

static void
gather_item(struct rota_making *making, size_t index)
{
	const struct item *item = &making->ask->engine->inventory->items[index];
	struct rota_piece piece = {.item = index, .vessel = item->vessel};
	/* a thing of the boat's own that is aboard, or ashore and coming back, and
	 * no part of another */
	if (item->parent != ITEM_NO_PARENT || item->hired_until != DAY_NONE ||
	    (item->state != PLACE_ABOARD && item->state != PLACE_LANDED)) {
		return;
	}
	if (item->state == PLACE_LANDED) {
		note_ashore(making, index);
		return;
	}
	if (!is_asked(making->ask, item->kind)) {
		return;
	}
	piece.line = (struct rota_line){.item = index,
	    .due = DAY_NONE,
	    .due_last = DAY_NONE,
	    .good_through = DAY_NONE};
	add_works(making, &piece, index);
	if (piece.works.count == 0) {
		return;
	}
	find_places(making, &piece);
	find_days(making, &piece);
	keep_given(making, &piece);
	ARENA_ADD(making->arena, &making->pieces, piece);
}

static void
gather_stores(struct rota_making *making)
{
	const struct inventory *inventory = making->ask->engine->inventory;
	size_t room = 1;
	for (size_t i = 0; i < inventory->item_count; i++) {
		room += inventory->vessels[inventory->items[i].vessel].store;
	}
	making->stored = ARENA_MANY(making->arena, size_t, room);
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		if (inventory->vessels[item->vessel].store &&
		    item->state == PLACE_ABOARD && item->parent == ITEM_NO_PARENT) {
			making->stored[making->stored_count++] = i;
		}
	}
}

/* What decides which pieces are planned together. */
struct group_key {
	const char *base;
	const char *kind;
	const char *rating;
	int quantity;
	size_t item; /* the order within a group */
	size_t at;   /* where the piece stands */
};

static int
compare_groups(const struct group_key *a, const struct group_key *b)
{
	int order = strcmp(a->base, b->base);
	order = order != 0 ? order : strcmp(a->kind, b->kind);
	order = order != 0 ? order : strcmp(a->rating, b->rating);
	return ORDER_THEN(order, a->quantity, b->quantity);
}

static int
compare_keys(const void *left, const void *right)
{
	const struct group_key *a = left;
	const struct group_key *b = right;
	return ORDER_THEN(compare_groups(a, b), a->item, b->item);
}

static struct group_key
key_of(const struct rota_making *making, size_t at)
{
	const struct inventory *inventory = making->ask->engine->inventory;
	const struct rota_piece *piece = &making->pieces.items[at];
	const struct item *item = &inventory->items[piece->item];
	return (struct group_key){inventory->vessels[piece->vessel].base, item->kind,
	    item->rating, item->quantity, piece->item, at};
}

static void
sort_pieces(struct rota_making *making)
{
	size_t count = making->pieces.count;
	struct group_key *keys = ARENA_MANY(making->arena, struct group_key, count);
	struct rota_piece *sorted = ARENA_MANY(making->arena, struct rota_piece, count);
	for (size_t i = 0; i < count; i++) {
		keys[i] = key_of(making, i);
	}
	ARRAY_SORT(keys, count, compare_keys);
	for (size_t i = 0; i < count; i++) {
		sorted[i] = making->pieces.items[keys[i].at];
		making->piece_of_item[sorted[i].item] = i + 1;
	}
	making->pieces.items = sorted;
}

struct rota_slice
rota_slice_at(const struct rota_making *making, size_t from)
{
	struct group_key key = key_of(making, from);
	size_t end = from + 1;
	while (end < making->pieces.count) {
		struct group_key next = key_of(making, end);
		if (compare_groups(&key, &next) != 0) {
			break;
		}
		end++;
	}
	return (struct rota_slice){&making->pieces.items[from], end - from};
}

void
rota_gather(struct rota_making *making)
{
	const struct rota_ask *ask = making->ask;
	size_t all = ask->engine->inventory->item_count;
	making->taken = arena_alloc(making->arena, all * sizeof *making->taken);
	making->taken_items = ARENA_MANY(making->arena, size_t, all);
	making->piece_of_item = ARENA_MANY(making->arena, size_t, all);
	for (size_t i = 0; i < ask->vessel_count; i++) {
		size_t count = 0;
		size_t first =
		    inventory_aboard(ask->engine->inventory, ask->vessels[i], &count);
		for (size_t item = first; item < first + count; item++) {
			gather_item(making, item);
		}
	}
	gather_stores(making);
	sort_pieces(making);
}
