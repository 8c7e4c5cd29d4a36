/* Pieces of gear, and the days on which each of them counts. */
#include "muster/inside.h"

bool
reading_binds_count(const struct reading *reading)
{
	return reading->grade != GRADE_PRACTICE;
}

static void
add_spans(struct arena *arena, struct spans *set, struct spans more)
{
	spans_either(arena, *set, more, set);
}

static void
add_lapse(struct arena *arena, const struct reading *reading, struct piece *piece)
{
	struct spans lapse = {0};
	if (!reading_gives_a_day(reading)) {
		return;
	}
	spans_after(arena, reading->good_through, &lapse);
	spans_both(arena, lapse, reading->in_force, &lapse);
	add_spans(arena, reading_binds_count(reading) ? &piece->lapsed : &piece->practice,
	    lapse);
}

/* One task: its lapses by grade, and the days on which none of the clocks in force runs
 * while some can't start. `*dated` gathers the days with a renewal date. */
static void
add_task(struct arena *arena, const struct obligation *obligation, struct piece *piece,
    struct spans *dated)
{
	struct spans runs = {0};
	struct spans stuck = {0};
	struct spans papers = {0};
	struct spans wants = {0};
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		struct spans force = reading->in_force;
		bool can = reading_tells(reading);
		bool cant = reading_is_stuck(reading);
		/* the end of a hire is no date of the thing's own */
		bool own_day =
		    reading_gives_a_day(reading) && reading->anchor != ANCHOR_HIRE;
		add_lapse(arena, reading, piece);
		if (can) {
			add_spans(arena, &runs, reading->sure);
		}
		if (can && reading->anchor == ANCHOR_CERTIFICATE) {
			add_spans(arena, &papers, reading->sure);
		}
		if (cant && reading->wants_maker) {
			add_spans(arena, &wants, force);
		}
		if (cant) {
			add_spans(arena, &stuck, force);
		}
		if (obligation->task == TASK_RENEW && own_day) {
			add_spans(arena, dated, force);
		}
	}
	spans_except(arena, stuck, runs, &stuck);
	spans_except(arena, wants, papers, &wants);
	add_spans(arena, &piece->unknown, stuck);
	add_spans(arena, &piece->unknown, wants);
}

bool
obligation_counts(const struct item *item, const struct obligation *obligation)
{
	if (!obligation->routine) {
		return true;
	}
	for (size_t i = 0; i < item->record_count; i++) {
		if (item->records[i].task == obligation->task) {
			return true;
		}
	}
	return false;
}

/* The days on which a part has lapsed, by any of its clocks but routines. */
static void
read_lapses(const struct due_engine *engine, size_t part, size_t vessel, day_t today,
    struct arena *arena, struct spans *out)
{
	struct obligation *tasks = NULL;
	size_t count = 0;
	*out = (struct spans){0};
	due_of_item_aboard(
	    engine, (struct item_aboard){part, vessel, today}, arena, &tasks, &count);
	for (size_t i = 0; i < count; i++) {
		if (!tasks[i].routine) {
			add_spans(arena, out, tasks[i].lapsed);
		}
	}
}

/* The parts aboard with a piece that works without them. */
static void
read_parts(const struct due_engine *engine, size_t vessel, day_t today,
    struct arena *arena, struct piece *piece)
{
	const struct item *items = engine->inventory->items;
	size_t first =
	    engine->first_part == NULL ? ITEM_NO_PARENT : engine->first_part[piece->item];
	size_t most = 0;
	for (size_t i = first; i != ITEM_NO_PARENT; i = engine->next_part[i]) {
		most++;
	}
	piece->parts = arena_alloc(arena, (most + 1) * sizeof *piece->parts);
	for (size_t i = first; i != ITEM_NO_PARENT; i = engine->next_part[i]) {
		struct piece_part *part = &piece->parts[piece->part_count];
		bool there = items[i].state == PLACE_ABOARD &&
			     !kinds_work_together(
				 engine->kinds, items[piece->item].kind, items[i].kind);
		part->item = i;
		if (there) {
			read_lapses(engine, i, vessel, today, arena, &part->lapsed);
		}
		piece->part_count += there && part->lapsed.count > 0;
	}
}

void
piece_read(const struct due_engine *engine, size_t index, size_t vessel, day_t today,
    struct arena *arena, struct piece *out)
{
	const struct item *item = &engine->inventory->items[index];
	struct obligation *obligations = NULL;
	size_t count = 0;
	struct spans dated = {0};
	struct piece piece = {.item = index};
	due_of_item_aboard(engine, (struct item_aboard){index, vessel, today}, arena,
	    &obligations, &count);
	for (size_t i = 0; i < count; i++) {
		if (!obligation_counts(item, &obligations[i])) {
			continue;
		}
		add_task(arena, &obligations[i], &piece, &dated);
	}
	struct working working = {0};
	due_working(engine, index, vessel, today, arena, &working);
	add_spans(arena, &piece.lapsed, working.lapsed);
	add_spans(arena, &piece.unknown, working.unknown);
	read_parts(engine, vessel, today, arena, &piece);
	const struct kind *kind = kinds_find(engine->kinds, item->kind);
	if (kind != NULL && kind->hazard == HAZARD_PYROTECHNIC) {
		struct spans undated = {0};
		spans_except(arena, spans_always(), dated, &undated);
		add_spans(arena, &piece.unknown, undated);
	}
	*out = piece;
}

bool
item_is_there(const struct inventory *inventory, size_t index)
{
	size_t left = inventory->item_count; /* a damaged book may have parts in a loop */
	for (size_t i = index; i != ITEM_NO_PARENT; i = inventory->items[i].parent) {
		if (left-- == 0) {
			return false;
		}
		switch (inventory->items[i].state) {
		case PLACE_ABOARD:
		case PLACE_STAND_IN:
			break;
		case PLACE_RESERVE:
		case PLACE_LANDED:
		case PLACE_WITHDRAWN:
			return false;
		}
	}
	return true;
}

static bool
is_taken(const struct due_engine *engine, size_t index)
{
	const struct item *item = &engine->inventory->items[index];
	size_t count = 0;
	const struct carriage *const *lines =
	    rulebook_carriage(engine->rulebooks[item->vessel], &count);
	for (size_t i = 0; i < count; i++) {
		if (line_takes(lines[i], item->kind)) {
			return true;
		}
	}
	return false;
}

void
pieces_gather(const struct due_engine *engine, size_t vessel, day_t today,
    struct arena *arena, struct pieces *out)
{
	struct pieces pieces = {0};
	size_t count = 0;
	size_t first = inventory_aboard(engine->inventory, vessel, &count);
	pieces.items = arena_alloc(arena, (count + 1) * sizeof *pieces.items);
	for (size_t i = first; i < first + count; i++) {
		if (!item_is_there(engine->inventory, i) || !is_taken(engine, i)) {
			continue;
		}
		piece_read(engine, i, vessel, today, arena, &pieces.items[pieces.count]);
		pieces.count++;
	}
	*out = pieces;
}

/* The first day after `day` that is in the set; DAY_NEVER when there is none. */
static day_t
begins(struct spans set, day_t day)
{
	const struct span *span = spans_from(set, day);
	return span == NULL ? DAY_NEVER : span->first;
}

day_t
piece_lapses(const struct piece *piece, day_t day)
{
	return day_min(begins(piece->lapsed, day), begins(piece->unknown, day));
}

enum count_state
piece_on(const struct piece *piece, day_t day)
{
	if (spans_have(piece->lapsed, day)) {
		return COUNT_LAPSED;
	}
	if (spans_have(piece->unknown, day)) {
		return COUNT_UNKNOWN;
	}
	return spans_have(piece->practice, day) ? COUNT_REMARK : COUNT_YES;
}
