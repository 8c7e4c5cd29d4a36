#include "muster/muster.h"

#include "muster/count.h"

#include <stdlib.h>
#include <string.h>

/* A vessel being mustered. All borrowed. */
struct roll {
	const struct due_engine *engine;
	const struct vessel *vessel;
	const struct carriage *const *lines;
	size_t line_count;
	struct pieces pieces;
	struct muster_line *found; /* room for all lines */
	size_t found_count;
};

/* The days on which something may change. */
struct days {
	day_t *items;
	size_t count;
};

/* Counts the pieces of one line, whose need is told. The lists, where they have room, are
 * filled. */
static void
count_pieces(const struct roll *roll, day_t day, struct muster_line *line)
{
	const struct item *items = roll->engine->inventory->items;
	for (size_t i = 0; i < roll->pieces.count; i++) {
		const struct piece *piece = &roll->pieces.items[i];
		const struct item *item = &items[piece->item];
		int points = line_points(line->line, item->kind);
		if (points == 0) {
			continue;
		}
		switch (piece_on(piece, day)) {
		case COUNT_REMARK:
			line->remarks.items[line->remarks.count++] = piece->item;
			line->counted.items[line->counted.count++] = piece->item;
			line->have += points * item->quantity;
			break;
		case COUNT_YES:
			line->counted.items[line->counted.count++] = piece->item;
			line->have += points * item->quantity;
			break;
		case COUNT_LAPSED:
			line->lapsed.items[line->lapsed.count++] = piece->item;
			break;
		case COUNT_UNKNOWN:
			line->unknown.items[line->unknown.count++] = piece->item;
			break;
		}
	}
}

/* True when both are in one group of alternatives. */
static bool
same_group(const struct carriage *a, const struct carriage *b)
{
	return a->any_of[0] != '\0' && strcmp(a->any_of, b->any_of) == 0 &&
	       strcmp(a->sheet, b->sheet) == 0;
}

static bool
is_met(const struct muster_line *line)
{
	return line->asks[0] == '\0' && line->have >= line->need;
}

static bool
group_is_met(const struct roll *roll, const struct muster_line *line)
{
	for (size_t i = 0; i < roll->found_count; i++) {
		const struct muster_line *other = &roll->found[i];
		if (same_group(line->line, other->line) && is_met(other)) {
			return true;
		}
	}
	return false;
}

/* Empties a line's lists but keeps their room. */
static void
start_line(struct muster_line *line, const struct carriage *carriage, const char *asks)
{
	line->line = carriage;
	line->asks = asks;
	line->need = 0;
	line->have = 0;
	line->missing = 0;
	line->counted.count = 0;
	line->lapsed.count = 0;
	line->unknown.count = 0;
	line->remarks.count = 0;
}

/* Musters one day into roll->found; true when all is right. */
static bool
muster_day(struct roll *roll, day_t day)
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
		count_pieces(roll, day, line);
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

static void
add_changes(struct days *days, struct spans spans)
{
	for (size_t i = 0; i < spans.count; i++) {
		days->items[days->count++] = spans.items[i].first;
		if (spans.items[i].last != DAY_NEVER) {
			days->items[days->count++] = spans.items[i].last + 1;
		}
	}
}

static int
compare_days(const void *left, const void *right)
{
	const day_t *a = left;
	const day_t *b = right;
	return (*a > *b) - (*a < *b);
}

/* Every day on which a piece or the vessel changes, in order; some more than once. */
static bool
find_changes(
    const struct roll *roll, struct arena *arena, struct days *out, struct fault *fault)
{
	size_t most = roll->vessel->period_count;
	for (size_t i = 0; i < roll->pieces.count; i++) {
		const struct piece *piece = &roll->pieces.items[i];
		most += 2 * (piece->lapsed.count + piece->unknown.count);
	}
	struct days days = {arena_alloc(arena, (most + 1) * sizeof *days.items), 0};
	if (days.items == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < roll->vessel->period_count; i++) {
		days.items[days.count++] = roll->vessel->periods[i].from;
	}
	for (size_t i = 0; i < roll->pieces.count; i++) {
		add_changes(&days, roll->pieces.items[i].lapsed);
		add_changes(&days, roll->pieces.items[i].unknown);
	}
	qsort(days.items, days.count, sizeof *days.items, compare_days);
	*out = days;
	return true;
}

/* The first day from `first` on that is not all right; DAY_NEVER when there is none. */
static day_t
first_bad_day(struct roll *roll, const struct days *days, day_t first)
{
	if (!muster_day(roll, first)) {
		return first;
	}
	day_t before = first;
	for (size_t i = 0; i < days->count; i++) {
		day_t day = days->items[i];
		if (day <= before) {
			continue;
		}
		if (!muster_day(roll, day)) {
			return day;
		}
		before = day;
	}
	return DAY_NEVER;
}

/* Room for every line with lists as long as there are pieces. */
static bool
make_room(struct roll *roll, struct arena *arena, struct fault *fault)
{
	size_t pieces = roll->pieces.count + 1;
	roll->found = arena_alloc(arena, (roll->line_count + 1) * sizeof *roll->found);
	if (roll->found == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < roll->line_count; i++) {
		struct muster_items *lists[] = {&roll->found[i].counted,
		    &roll->found[i].lapsed, &roll->found[i].unknown,
		    &roll->found[i].remarks};
		for (size_t j = 0; j < sizeof lists / sizeof lists[0]; j++) {
			lists[j]->items =
			    arena_alloc(arena, pieces * sizeof *lists[j]->items);
			if (lists[j]->items == NULL) {
				return fault_memory(fault);
			}
		}
	}
	return true;
}

/* Musters with the readings of all pieces in `scratch`, the answer in `arena`. */
static bool
muster_days(struct roll *roll, struct span days, struct arena *scratch,
    struct arena *arena, struct muster *out, struct fault *fault)
{
	struct days changes = {0};
	size_t vessel = (size_t)(roll->vessel - roll->engine->inventory->vessels);
	if (!pieces_gather(
		roll->engine, vessel, days.first, scratch, &roll->pieces, fault) ||
	    !make_room(roll, arena, fault) ||
	    !find_changes(roll, scratch, &changes, fault)) {
		return false;
	}
	day_t bad = first_bad_day(roll, &changes, days.first);
	bool ok = bad > days.last;
	day_t shown = ok ? days.first : bad;
	(void)muster_day(roll, shown);
	*out = (struct muster){
	    .vessel = vessel,
	    .has_lines = roll->line_count > 0,
	    .ok = ok,
	    .on = shown,
	    .first_short = ok ? DAY_NONE : bad,
	    .good_through = bad == DAY_NEVER ? DAY_NEVER : bad - 1,
	    .lines = roll->found,
	    .line_count = roll->found_count,
	};
	if (bad == days.first) {
		out->good_through = DAY_NONE;
	}
	return true;
}

bool
muster_vessel(const struct due_engine *engine, size_t vessel, struct span days,
    struct arena *arena, struct muster *out, struct fault *fault)
{
	struct roll roll = {
	    .engine = engine,
	    .vessel = &engine->inventory->vessels[vessel],
	};
	struct arena scratch = {0};
	roll.lines = rulebook_carriage(engine->rulebooks[vessel], &roll.line_count);
	bool done = muster_days(&roll, days, &scratch, arena, out, fault);
	arena_clear(&scratch);
	return done;
}
