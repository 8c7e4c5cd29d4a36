/* The roll call of one day: what counts in each line, and what that is short of. */
#include "muster/inside.h"

/* Notes a piece in date of which more must be known, if anything must. */
static void
note_untold(struct muster_line *line, struct muster_untold untold, enum count_state state)
{
	if (untold.asks[0] != '\0' && (state == COUNT_YES || state == COUNT_REMARK)) {
		line->untold[line->untold_count++] = untold;
	}
}

/* Notes the parts of a piece that counts that have lapsed. */
static void
note_parts(struct muster_line *line, const struct piece *piece, day_t day)
{
	for (size_t i = 0; i < piece->part_count; i++) {
		if (spans_have(piece->parts[i].lapsed, day)) {
			line->parts.items[line->parts.count++] = piece->parts[i].item;
		}
	}
}

/* Counts the pieces of one line, whose need is told; `worths` are theirs in it. The lists, where
 * they have room, are filled. */
static void
count_pieces(const struct roll *roll, const struct piece_worth *worths, day_t day,
    struct muster_line *line)
{
	const struct item *items = roll->engine->inventory->items;
	for (size_t i = 0; i < roll->pieces.count; i++) {
		const struct piece *piece = &roll->pieces.items[i];
		const struct item *item = &items[piece->item];
		if (worths[i].worth == 0 && worths[i].asks[0] == '\0') {
			continue;
		}
		enum count_state state = piece_on(piece, day);
		note_untold(
		    line, (struct muster_untold){piece->item, worths[i].asks}, state);
		if (worths[i].worth == 0) {
			continue;
		}
		roll->quantities[line->counted.count] =
		    piece->only > 0 ? piece->only : item->quantity;
		switch (state) {
		case COUNT_REMARK:
			line->remarks.items[line->remarks.count++] = piece->item;
			line->counted.items[line->counted.count++] = piece->item;
			note_parts(line, piece, day);
			break;
		case COUNT_YES:
			line->counted.items[line->counted.count++] = piece->item;
			note_parts(line, piece, day);
			break;
		case COUNT_LAPSED:
			line->lapsed.items[line->lapsed.count++] = piece->item;
			break;
		case COUNT_UNKNOWN:
			line->unknown.items[line->unknown.count++] = piece->item;
			break;
		}
	}
	line->have = line_total(line->line, items, line->counted.items, roll->quantities,
	    line->counted.count);
}

static bool
is_met(const struct muster_line *line)
{
	return line->asks[0] == '\0' && line->have >= line->need;
}

/* True when the line is met with all that is needed together with it. */
static bool
way_is_met(const struct roll *roll, const struct muster_line *line)
{
	for (size_t i = 0; i < roll->found_count; i++) {
		const struct muster_line *other = &roll->found[i];
		if (lines_together(line->line, other->line) && !is_met(other)) {
			return false;
		}
	}
	return true;
}

static bool
group_is_met(const struct roll *roll, const struct muster_line *line)
{
	for (size_t i = 0; i < roll->found_count; i++) {
		const struct muster_line *other = &roll->found[i];
		if (lines_alternate(line->line, other->line) && way_is_met(roll, other)) {
			return true;
		}
	}
	return false;
}

/* Empties a line's lists but keeps their room; what it needs and has is counted after that. */
static void
start_line(struct muster_line *line, const struct carriage *carriage, const char *asks)
{
	line->line = carriage;
	line->asks = asks;
	line->missing = 0;
	line->counted.count = 0;
	line->lapsed.count = 0;
	line->unknown.count = 0;
	line->remarks.count = 0;
	line->parts.count = 0;
	line->untold_count = 0;
}

bool
roll_day(struct roll *roll, day_t day)
{
	int persons = vessel_period_on(roll->vessel, day)->persons;
	roll->found_count = 0;
	for (size_t i = 0; i < roll->line_count; i++) {
		const char *asks = "";
		int holds = line_holds(roll->vessel, roll->lines[i], day, &asks);
		if (holds == 0) {
			continue;
		}
		struct muster_line *line = &roll->found[roll->found_count++];
		start_line(line, roll->lines[i], asks);
		line->need = holds == 1 ? line_need(roll->lines[i], persons) : 0;
		count_pieces(roll, roll->worths + i * roll->pieces.count, day, line);
	}
	bool ok = roll->found_count > 0;
	for (size_t i = 0; i < roll->found_count; i++) {
		struct muster_line *line = &roll->found[i];
		if (is_met(line) || group_is_met(roll, line)) {
			continue;
		}
		ok = false;
		line->missing = line->asks[0] == '\0' ? line->need - line->have : 0;
	}
	return ok;
}

/* What a piece is worth does not change from day to day: it is asked once for all of them. */
static void
find_worths(struct roll *roll, struct arena *arena)
{
	const struct item *items = roll->engine->inventory->items;
	size_t count = roll->pieces.count;
	roll->worths = ARENA_MANY(arena, struct piece_worth, roll->line_count * count);
	for (size_t i = 0; i < roll->line_count * count; i++) {
		struct piece_worth *of = &roll->worths[i];
		of->worth = line_worth(roll->lines[i / count],
		    &items[roll->pieces.items[i % count].item], &of->asks);
	}
}

void
roll_room(struct roll *roll, struct arena *arena)
{
	find_worths(roll, arena);
	size_t pieces = roll->pieces.count + 1;
	size_t parts = 1;
	for (size_t i = 0; i < roll->pieces.count; i++) {
		parts += roll->pieces.items[i].part_count;
	}
	size_t lines = roll->line_count + 1;
	roll->found = arena_alloc(arena, lines * sizeof *roll->found);
	roll->shortages = arena_alloc(arena, lines * sizeof *roll->shortages);
	roll->lapses = arena_alloc(arena, pieces * sizeof *roll->lapses);
	roll->quantities = arena_alloc(arena, pieces * sizeof *roll->quantities);
	roll->missing[0] = arena_alloc(arena, lines * sizeof *roll->missing[0]);
	roll->missing[1] = arena_alloc(arena, lines * sizeof *roll->missing[1]);
	for (size_t i = 0; i < roll->line_count; i++) {
		struct muster_items *lists[] = {&roll->found[i].counted,
		    &roll->found[i].lapsed, &roll->found[i].unknown,
		    &roll->found[i].remarks};
		for (size_t j = 0; j < sizeof lists / sizeof lists[0]; j++) {
			lists[j]->items =
			    arena_alloc(arena, pieces * sizeof *lists[j]->items);
		}
		struct muster_untold **untold = &roll->found[i].untold;
		size_t **listed = &roll->found[i].parts.items;
		*untold = arena_alloc(arena, pieces * sizeof **untold);
		*listed = arena_alloc(arena, parts * sizeof **listed);
	}
}
