#include "muster/leave.h"

#include "muster/inside.h"

#include <string.h>

/* A vessel's pieces being sent on leave. All borrowed. */
struct leaving {
	const struct due_engine *engine;
	const struct muster_leaves *all;
	struct arena *arena;
};

/* The leave of an item, or of what it is part of; NULL when it stays. */
static const struct muster_leave *
find_leave(const struct leaving *leaving, size_t item)
{
	const struct item *items = leaving->engine->inventory->items;
	for (; item != ITEM_NO_PARENT; item = items[item].parent) {
		for (size_t i = 0; i < leaving->all->count; i++) {
			if (leaving->all->items[i].item == item) {
				return &leaving->all->items[i];
			}
		}
	}
	return NULL;
}

/* The first part of an item, or of one of its parts, that is of a kind; ITEM_NO_PARENT when
 * there is none. */
static size_t
part_of_kind(const struct due_engine *engine, size_t item, const char *kind)
{
	const struct item *items = engine->inventory->items;
	size_t part =
	    engine->first_part == NULL ? ITEM_NO_PARENT : engine->first_part[item];
	for (; part != ITEM_NO_PARENT; part = engine->next_part[part]) {
		size_t inner = strcmp(items[part].kind, kind) == 0
				   ? part
				   : part_of_kind(engine, part, kind);
		if (inner != ITEM_NO_PARENT) {
			return inner;
		}
	}
	return ITEM_NO_PARENT;
}

/* What stands in for an item of a leave with a spare: the spare itself, or a part of it. A
 * second part of the same kind goes without. ITEM_NO_PARENT for nothing. */
static size_t
stand_in_for(const struct leaving *leaving, const struct muster_leave *leave, size_t item)
{
	const struct due_engine *engine = leaving->engine;
	const char *kind = engine->inventory->items[item].kind;
	if (item == leave->item) {
		return leave->spare;
	}
	return part_of_kind(engine, leave->item, kind) == item
		   ? part_of_kind(engine, leave->spare, kind)
		   : ITEM_NO_PARENT;
}

/* What there is in the place of a piece while it is away. */
static void
read_cover(const struct leaving *leaving, const struct muster_leave *leave, size_t item,
    struct piece *out)
{
	size_t spare = ITEM_NO_PARENT;
	*out = (struct piece){.item = item};
	if (leave->cover == LEAVE_HIRED) {
		return;
	}
	if (leave->cover == LEAVE_SPARE) {
		spare = stand_in_for(leaving, leave, item);
	}
	if (spare == ITEM_NO_PARENT ||
	    !item_is_there(leaving->engine->inventory, spare)) {
		out->lapsed = spans_always();
		return;
	}
	piece_read(leaving->engine, spare, leaving->all->vessel, leaving->all->days.first,
	    leaving->arena, out);
}

/* Adds the days of a set that are in a span. */
static void
add_within(
    const struct leaving *leaving, struct spans from, struct span span, struct spans *set)
{
	struct spans within = {0};
	spans_one(leaving->arena, span, &within);
	spans_both(leaving->arena, from, within, &within);
	spans_either(leaving->arena, *set, within, set);
}

static void
add_piece(const struct leaving *leaving, const struct piece *from, struct span span,
    struct piece *out)
{
	add_within(leaving, from->lapsed, span, &out->lapsed);
	add_within(leaving, from->unknown, span, &out->unknown);
	add_within(leaving, from->practice, span, &out->practice);
}

/* Makes of a piece what it is while it is there, while it is away, and once it is back. */
static void
send(const struct leaving *leaving, const struct muster_leave *leave, struct piece *piece)
{
	struct piece away = {0};
	struct piece back = {0};
	struct piece sent = {.item = piece->item};
	read_cover(leaving, leave, piece->item, &away);
	piece_read(leaving->all->done, piece->item, leaving->all->vessel, leave->hand_in,
	    leaving->arena, &back);
	add_piece(leaving, piece, (struct span){DAY_NONE, leave->hand_in - 1}, &sent);
	add_piece(
	    leaving, &away, (struct span){leave->hand_in, leave->collect - 1}, &sent);
	add_piece(leaving, &back, (struct span){leave->collect, DAY_NEVER}, &sent);
	*piece = sent;
}

static void
gather(const struct leaving *leaving, struct pieces *out)
{
	pieces_gather(leaving->engine, leaving->all->vessel, leaving->all->days.first,
	    leaving->arena, out);
	for (size_t i = 0; i < out->count; i++) {
		const struct muster_leave *leave =
		    find_leave(leaving, out->items[i].item);
		if (leave != NULL) {
			send(leaving, leave, &out->items[i]);
		}
	}
}

void
muster_on_leave(const struct due_engine *engine, const struct muster_leaves *leaves,
    struct arena *arena, struct muster *out)
{
	SCOPED_ARENA scratch = {0};
	struct pieces pieces = {0};
	const struct leaving leaving = {engine, leaves, &scratch};
	gather(&leaving, &pieces);
	muster_of_pieces(
	    engine, leaves->vessel, leaves->days, pieces, &scratch, arena, out);
}
