/* One group of the rota: its spares, its slots, and what is said of them. */
#include "muster/leave.h"
#include "rota/inside.h"

#include <limits.h>
#include <string.h>

/* What is late may be handed in up to this many days after the last day of the rota. */
enum { LATE_DAYS = 366 };

static const struct item *
item_at(const struct rota_making *making, size_t item)
{
	return &making->ask->engine->inventory->items[item];
}

/* ---- spares ---- */

/* Whether a spare from a store is of the same sort as the group's pieces. */
static bool
is_of_group(
    const struct rota_making *making, struct rota_slice slice, const struct item *spare)
{
	const struct vessel *vessels = making->ask->engine->inventory->vessels;
	const struct item *piece = item_at(making, slice.pieces[0].item);
	return strcmp(vessels[spare->vessel].base,
		   vessels[slice.pieces[0].vessel].base) == 0 &&
	       strcmp(spare->kind, piece->kind) == 0 &&
	       strcmp(spare->rating, piece->rating) == 0 &&
	       spare->quantity == piece->quantity;
}

/* How long a spare counts aboard every boat of the group. */
static void
find_counts_through(
    const struct rota_making *making, struct rota_slice slice, struct rota_spare *spare)
{
	size_t before = SLOT_NONE;
	spare->counts_through = DAY_NEVER;
	for (size_t i = 0; i < slice.count; i++) {
		day_t last = DAY_NONE;
		if (slice.pieces[i].vessel == before) {
			continue;
		}
		before = slice.pieces[i].vessel;
		arena_reset(making->scratch);
		muster_counts_through(making->ask->engine, spare->item, before,
		    making->ask->days.first, making->scratch, &last);
		spare->counts_through = day_min(spare->counts_through, last);
	}
}

static void
find_spares(
    const struct rota_making *making, struct rota_slice slice, struct rota_group *group)
{
	group->spares = arena_alloc(
	    making->arena, (making->stored_count + 1) * sizeof *group->spares);
	for (size_t i = 0; i < making->stored_count; i++) {
		struct rota_spare spare = {.item = making->stored[i]};
		if (!is_of_group(making, slice, item_at(making, spare.item))) {
			continue;
		}
		find_counts_through(making, slice, &spare);
		group->spares[group->spare_count++] = spare;
	}
}

/* ---- slots ---- */

/* The pieces of a boat that are already planned to be away bare and serve a line
 * together with gear of a kind. */
static void
find_bares(const struct rota_making *making, size_t vessel, const char *kind,
    struct slot_bare **out, size_t *count_out)
{
	const struct due_engine *engine = making->ask->engine;
	size_t aboard = 0;
	size_t count = 0;
	size_t first = inventory_aboard(engine->inventory, vessel, &aboard);
	struct slot_bare *bares = ARENA_MANY(making->arena, struct slot_bare, aboard);
	for (size_t item = first; item < first + aboard; item++) {
		size_t at = making->piece_of_item[item];
		const struct rota_piece *piece =
		    at == 0 ? NULL : &making->pieces.items[at - 1];
		if (piece != NULL && piece->line.planned &&
		    piece->line.cover == ROTA_BARE &&
		    muster_kinds_meet(
			engine, vessel, engine->inventory->items[item].kind, kind)) {
			bares[count++] = (struct slot_bare){
			    piece->line.hand_in, piece->line.collect, piece->bare_most};
		}
	}
	*out = bares;
	*count_out = count;
}

/* The days of her bookings. */
static const struct span *
booked_days(const struct rota_making *making, size_t vessel)
{
	const struct vessel *boat = &making->ask->engine->inventory->vessels[vessel];
	struct span *days = ARENA_MANY(making->arena, struct span, boat->booking_count);
	for (size_t i = 0; i < boat->booking_count; i++) {
		days[i] = boat->bookings[i].days;
	}
	return days;
}

static void
fill_jobs(
    const struct rota_making *making, struct rota_slice slice, struct slot_job *jobs)
{
	struct slot_bare *bares = NULL;
	size_t bare_count = 0;
	const struct vessel *vessels = making->ask->engine->inventory->vessels;
	const struct span *busy = NULL;
	for (size_t i = 0; i < slice.count; i++) {
		const struct rota_piece *piece = &slice.pieces[i];
		const struct item *item = item_at(making, piece->item);
		bool next_boat = i == 0 || piece->vessel != slice.pieces[i - 1].vessel;
		busy = next_boat ? booked_days(making, piece->vessel) : busy;
		if (next_boat) {
			find_bares(
			    making, piece->vessel, item->kind, &bares, &bare_count);
		}
		jobs[i] = (struct slot_job){
		    .boat = piece->vessel,
		    .first = piece->line.first,
		    .last = piece->line.last,
		    .places = piece->places,
		    .place_count = piece->place_count,
		    .pieces = item->quantity,
		    .bare_most = piece->needed ? 0 : piece->bare_most,
		    .capacity = item->capacity,
		    .bares = bares,
		    .bare_count = bare_count,
		    .busy = busy,
		    .busy_count = vessels[piece->vessel].booking_count,
		};
	}
}

/* Fills in the group's spares that count at all, then those to be hired. Returns how
 * many. */
static size_t
fill_spares(const struct rota_making *making, const struct rota_group *group,
    struct slot_spare *spares)
{
	size_t count = 0;
	for (size_t i = 0; i < group->spare_count; i++) {
		const struct rota_spare *spare = &group->spares[i];
		if (spare->counts_through != DAY_NONE) {
			spares[count++] =
			    (struct slot_spare){{DAY_NONE, spare->counts_through},
				item_at(making, spare->item)->capacity};
		}
	}
	for (int i = 0; i < making->ask->stand_ins; i++) {
		spares[count++] = (struct slot_spare){{DAY_NONE, DAY_NEVER}, INT_MAX};
	}
	return count;
}

static void
make_slots(struct rota_making *making, struct rota_slice slice,
    const struct rota_group *group, struct rota_slots *out)
{
	const struct rota_ask *ask = making->ask;
	struct rota_slots slots = {0};
	/* One more spare for each piece is all that could ever help. */
	slots.spare_room = group->spare_count + (size_t)ask->stand_ins + slice.count;
	slots.jobs = ARENA_MANY(making->arena, struct slot_job, slice.count);
	slots.spares =
	    arena_alloc(making->arena, (slots.spare_room + 1) * sizeof *slots.spares);
	fill_jobs(making, slice, slots.jobs);
	/* What of the group is ashore already counts towards the most that may be. */
	for (size_t i = 0; i < making->taken_count; i++) {
		const struct item *item = item_at(making, making->taken_items[i]);
		making->taken[i].counts = is_of_group(making, slice, item);
	}
	slots.problem = (struct slot_problem){
	    .stations = making->stations,
	    .station_count = making->station_count,
	    .jobs = slots.jobs,
	    .job_count = slice.count,
	    .spares = slots.spares,
	    .spare_count = fill_spares(making, group, slots.spares),
	    .taken = making->taken,
	    .taken_count = making->taken_count,
	    .most_away = ask->most_away,
	    .together_days = ask->together_days,
	    .until = ask->days.last + LATE_DAYS,
	    .most_looks = ask->most_looks,
	};
	*out = slots;
}

/* ---- what came of it ---- */

/* Names on the line what stands in: the item of a spare, which is marked as used, or
 * the number of a hired one. */
static void
name_cover(struct rota_group *group, size_t spare, struct rota_line *line)
{
	size_t at = 0;
	for (size_t i = 0; i < group->spare_count; i++) {
		if (group->spares[i].counts_through == DAY_NONE) {
			continue;
		}
		if (at++ == spare) {
			group->spares[i].used = true;
			line->cover = ROTA_SPARE;
			line->cover_item = group->spares[i].item;
			return;
		}
	}
	line->cover = ROTA_HIRED;
	line->cover_item = spare - at + 1;
}

static void
read_slot(const struct rota_making *making, const struct slot *slot,
    struct rota_group *group, struct rota_line *line)
{
	line->planned = slot->place != SLOT_NONE;
	line->late = !line->planned || slot->late;
	line->hand_in = slot->hand_in;
	line->collect = slot->collect;
	line->station = line->planned && slot->place < making->ask->station_count
			    ? slot->place
			    : NO_STATION;
	line->cover = line->planned ? ROTA_BARE : ROTA_NOT;
	if (slot->spare != SLOT_NONE) {
		name_cover(group, slot->spare, line);
	}
}

/* The slot of a piece. A piece that was given out and has no slot on its day keeps
 * that day all the same, and nothing stands in for it. */
static struct slot
slot_of(const struct rota_making *making, const struct rota_piece *piece,
    const struct slot *found)
{
	const struct rota_line *line = &piece->line;
	if (!piece->given ||
	    (found->place != SLOT_NONE && found->hand_in == line->first)) {
		return *found;
	}
	const struct station *station = &making->stations[piece->places[0]];
	return (struct slot){.place = piece->places[0],
	    .hand_in = line->first,
	    .collect = station_collect(station, line->first),
	    .spare = SLOT_NONE,
	    .late = line->state == STATE_IN_DATE && line->first > line->due};
}

/* Adds a planned slot to what is taken, for the groups that follow. */
static void
take_slot(
    struct rota_making *making, const struct rota_piece *piece, const struct slot *slot)
{
	if (slot->place == SLOT_NONE) {
		return;
	}
	making->taken_items[making->taken_count] = piece->item;
	making->taken[making->taken_count++] = (struct slot_taken){slot->place,
	    slot->hand_in, slot->collect, item_at(making, piece->item)->quantity, false};
}

static int
compare_lines(const void *left, const void *right)
{
	const struct rota_line *a = left;
	const struct rota_line *b = right;
	int order = ORDER(b->planned, a->planned);
	order = a->planned ? ORDER_THEN(order, a->hand_in, b->hand_in) : order;
	return ORDER_THEN(order, a->item, b->item);
}

/* The lines by hand-in, and which of them failed. */
static void
keep_lines(const struct rota_making *making, struct rota_slice slice, size_t failed,
    struct rota_group *group)
{
	group->lines = ARENA_MANY(making->arena, struct rota_line, slice.count);
	group->line_count = slice.count;
	group->failed = SLOT_NONE;
	for (size_t i = 0; i < slice.count; i++) {
		group->lines[i] = slice.pieces[i].line;
	}
	ARRAY_SORT(group->lines, slice.count, compare_lines);
	for (size_t i = 0; failed != SLOT_NONE && i < slice.count; i++) {
		if (group->lines[i].item == slice.pieces[failed].item) {
			group->failed = i;
		}
	}
}

static void
read_plan(struct rota_making *making, struct rota_slice slice,
    const struct slot_plan *plan, struct rota_group *group)
{
	for (size_t i = 0; i < slice.count; i++) {
		struct rota_piece *piece = &slice.pieces[i];
		const struct slot slot = slot_of(making, piece, &plan->slots[i]);
		read_slot(making, &slot, group, &piece->line);
		if (piece->given && piece->needed && slot.spare == SLOT_NONE) {
			piece->line.cover = ROTA_NOT;
		}
		take_slot(making, piece, &slot);
		if (piece->line.planned) {
			rota_service(making, piece);
		}
	}
	group->possible = plan->possible;
	group->proven = plan->proven;
	group->stood_in = plan->spares;
	group->least_spares = plan->least_spares;
	keep_lines(making, slice, plan->failed, group);
}

void
rota_plan_group(
    struct rota_making *making, struct rota_slice slice, struct rota_group *out)
{
	const struct item *first = item_at(making, slice.pieces[0].item);
	struct rota_group group = {
	    .base = making->ask->engine->inventory->vessels[slice.pieces[0].vessel].base,
	    .kind = first->kind,
	    .rating = first->rating,
	    .quantity = first->quantity,
	};
	struct rota_slots slots = {0};
	struct slot_plan plan = {0};
	find_spares(making, slice, &group);
	make_slots(making, slice, &group, &slots);
	slots_solve(&slots.problem, making->arena, &plan);
	/* Fixes are tried first: the plan's own hand-ins must not count as taken in
	 * them. */
	if (!plan.possible) {
		rota_find_fixes(making, slice, &slots, &group);
	}
	read_plan(making, slice, &plan, &group);
	*out = group;
}
