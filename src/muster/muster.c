#include "muster/muster.h"

#include "muster/count.h"
#include "rules/meets.h"

#include <stdlib.h>
#include <string.h>

/* A vessel being mustered. All borrowed. */
struct roll {
	const struct due_engine *engine;
	const struct vessel *vessel;
	const struct carriage *const *lines;
	size_t line_count;
	struct pieces pieces;
	struct muster_line *found; /* room for all lines; this and below in the scratch */
	size_t found_count;
	struct muster_shortage *shortages; /* room for all lines */
	size_t shortage_count;
	struct muster_lapse *lapses; /* room for all pieces */
	size_t lapse_count;
	int *missing[2]; /* of every line, on a day and on the day after it */
};

/* The days on which something may change. */
struct days {
	day_t *items;
	size_t count;
};

/* Notes a piece in date of which more must be known, if anything must. */
static void
note_untold(struct muster_line *line, struct muster_untold untold, enum count_state state)
{
	if (untold.asks[0] != '\0' && (state == COUNT_YES || state == COUNT_REMARK)) {
		line->untold[line->untold_count++] = untold;
	}
}

/* Counts the pieces of one line, whose need is told. The lists, where they have room, are
 * filled. */
static void
count_pieces(const struct roll *roll, day_t day, struct muster_line *line)
{
	const struct item *items = roll->engine->inventory->items;
	for (size_t i = 0; i < roll->pieces.count; i++) {
		const struct piece *piece = &roll->pieces.items[i];
		const struct item *item = &items[piece->item];
		const char *asks = "";
		int worth = line_worth(line->line, item, &asks);
		enum count_state state = piece_on(piece, day);
		note_untold(line, (struct muster_untold){piece->item, asks}, state);
		if (worth == 0) {
			continue;
		}
		switch (state) {
		case COUNT_REMARK:
			line->remarks.items[line->remarks.count++] = piece->item;
			line->counted.items[line->counted.count++] = piece->item;
			break;
		case COUNT_YES:
			line->counted.items[line->counted.count++] = piece->item;
			break;
		case COUNT_LAPSED:
			line->lapsed.items[line->lapsed.count++] = piece->item;
			break;
		case COUNT_UNKNOWN:
			line->unknown.items[line->unknown.count++] = piece->item;
			break;
		}
	}
	line->have =
	    line_total(line->line, items, line->counted.items, line->counted.count);
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
	line->untold_count = 0;
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

/* Notes the lines that are short on a day that is asked about. */
static void
note_shortages(struct roll *roll, day_t day)
{
	for (size_t i = 0; i < roll->found_count; i++) {
		const struct muster_line *line = &roll->found[i];
		if (line->missing == 0) {
			continue;
		}
		size_t at = 0;
		while (
		    at < roll->shortage_count && roll->shortages[at].line != line->line) {
			at++;
		}
		struct muster_shortage *shortage = &roll->shortages[at];
		if (at == roll->shortage_count) {
			roll->shortage_count++;
			*shortage = (struct muster_shortage){line->line, day, 0};
		}
		if (line->missing > shortage->most) {
			shortage->most = line->missing;
		}
	}
}

/* Musters every day on which something changes, from the first day asked about to the last
 * and on to the first that is not all right, which is returned; DAY_NEVER when there is none. */
static day_t
walk(struct roll *roll, const struct days *changes, struct span days)
{
	day_t bad = muster_day(roll, days.first) ? DAY_NEVER : days.first;
	day_t before = days.first;
	note_shortages(roll, days.first);
	for (size_t i = 0; i < changes->count; i++) {
		day_t day = changes->items[i];
		if (day > days.last && bad != DAY_NEVER) {
			break;
		}
		if (day <= before) {
			continue;
		}
		if (!muster_day(roll, day) && bad == DAY_NEVER) {
			bad = day;
		}
		if (day <= days.last) {
			note_shortages(roll, day);
		}
		before = day;
	}
	return bad;
}

/* Room for every line with lists as long as there are pieces. */
static bool
make_room(struct roll *roll, struct arena *arena, struct fault *fault)
{
	size_t pieces = roll->pieces.count + 1;
	size_t lines = roll->line_count + 1;
	roll->found = arena_alloc(arena, lines * sizeof *roll->found);
	roll->shortages = arena_alloc(arena, lines * sizeof *roll->shortages);
	roll->lapses = arena_alloc(arena, pieces * sizeof *roll->lapses);
	roll->missing[0] = arena_alloc(arena, lines * sizeof *roll->missing[0]);
	roll->missing[1] = arena_alloc(arena, lines * sizeof *roll->missing[1]);
	if (roll->found == NULL || roll->shortages == NULL || roll->lapses == NULL ||
	    roll->missing[0] == NULL || roll->missing[1] == NULL) {
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
		struct muster_untold **untold = &roll->found[i].untold;
		*untold = arena_alloc(arena, pieces * sizeof **untold);
		if (*untold == NULL) {
			return fault_memory(fault);
		}
	}
	return true;
}

static int
compare_lapses(const void *left, const void *right)
{
	const struct muster_lapse *a = left;
	const struct muster_lapse *b = right;
	if (a->last != b->last) {
		return a->last < b->last ? -1 : 1;
	}
	return (a->item > b->item) - (a->item < b->item);
}

/* What every line is short of on a day, by its place among all lines. */
static void
missing_on(struct roll *roll, day_t day, int *missing)
{
	(void)muster_day(roll, day);
	size_t at = 0;
	for (size_t i = 0; i < roll->line_count; i++) {
		bool held =
		    at < roll->found_count && roll->found[at].line == roll->lines[i];
		missing[i] = held ? roll->found[at++].missing : 0;
	}
}

static bool
makes_short(const struct roll *roll, const struct muster_lapse *lapse)
{
	const struct item *item = &roll->engine->inventory->items[lapse->item];
	const char *asks = "";
	for (size_t i = 0; i < roll->line_count; i++) {
		if (roll->missing[1][i] > roll->missing[0][i] &&
		    line_worth(roll->lines[i], item, &asks) > 0) {
			return true;
		}
	}
	return false;
}

/* True when the piece counts for some line, all being known that must be. */
static bool
is_worth_something(const struct roll *roll, size_t index)
{
	const struct item *item = &roll->engine->inventory->items[index];
	const char *asks = "";
	for (size_t i = 0; i < roll->line_count; i++) {
		if (line_worth(roll->lines[i], item, &asks) > 0) {
			return true;
		}
	}
	return false;
}

/* The pieces that count on `first`, in the order in which they stop. */
static void
find_lapses(struct roll *roll, day_t first)
{
	for (size_t i = 0; i < roll->pieces.count; i++) {
		const struct piece *piece = &roll->pieces.items[i];
		enum count_state state = piece_on(piece, first);
		day_t day = piece_lapses(piece, first);
		bool counts = state == COUNT_YES || state == COUNT_REMARK;
		if (counts && day != DAY_NEVER && is_worth_something(roll, piece->item)) {
			roll->lapses[roll->lapse_count++] =
			    (struct muster_lapse){piece->item, day - 1, false};
		}
	}
	qsort(roll->lapses, roll->lapse_count, sizeof *roll->lapses, compare_lapses);
	if (roll->lapse_count > MUSTER_LAPSES_MOST) {
		roll->lapse_count = MUSTER_LAPSES_MOST;
	}
	for (size_t i = 0; i < roll->lapse_count; i++) {
		struct muster_lapse *lapse = &roll->lapses[i];
		if (i == 0 || lapse->last != roll->lapses[i - 1].last) {
			missing_on(roll, lapse->last, roll->missing[0]);
			missing_on(roll, lapse->last + 1, roll->missing[1]);
		}
		lapse->makes_short = makes_short(roll, lapse);
	}
}

/* Copies an array of `count` elements of `size` bytes to the arena; NULL when memory ran
 * out. */
static void *
keep(struct arena *arena, const void *items, size_t count, size_t size)
{
	void *kept = arena_alloc(arena, (count + 1) * size);
	return kept == NULL || count == 0 ? kept : memcpy(kept, items, count * size);
}

static bool
keep_list(struct arena *arena, struct muster_items *list, struct fault *fault)
{
	list->items = keep(arena, list->items, list->count, sizeof *list->items);
	return list->items != NULL || fault_memory(fault);
}

/* Copies what was found from the scratch, where there is room for the most there could be,
 * to the arena. */
static bool
keep_found(
    const struct roll *roll, struct arena *arena, struct muster *out, struct fault *fault)
{
	struct muster_line *lines =
	    keep(arena, roll->found, roll->found_count, sizeof *lines);
	out->shortages =
	    keep(arena, roll->shortages, roll->shortage_count, sizeof *roll->shortages);
	out->lapses = keep(arena, roll->lapses, roll->lapse_count, sizeof *roll->lapses);
	if (lines == NULL || out->shortages == NULL || out->lapses == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < roll->found_count; i++) {
		lines[i].untold = keep(arena, lines[i].untold, lines[i].untold_count,
		    sizeof *lines[i].untold);
		if (lines[i].untold == NULL) {
			return fault_memory(fault);
		}
		if (!keep_list(arena, &lines[i].counted, fault) ||
		    !keep_list(arena, &lines[i].lapsed, fault) ||
		    !keep_list(arena, &lines[i].unknown, fault) ||
		    !keep_list(arena, &lines[i].remarks, fault)) {
			return false;
		}
	}
	out->lines = lines;
	out->line_count = roll->found_count;
	out->shortage_count = roll->shortage_count;
	out->lapse_count = roll->lapse_count;
	return true;
}

/* What her sheets say nothing of as to what must be carried, as far as it may concern her. */
static bool
keep_subjects(const struct roll *roll, struct arena *arena, struct muster *muster,
    struct fault *fault)
{
	size_t count = 0;
	const struct not_stated *const *all =
	    rulebook_not_stated(roll->engine->rulebooks[muster->vessel], &count);
	muster->subjects =
	    arena_alloc(arena, (count + 1) * sizeof(const struct not_stated *));
	if (muster->subjects == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < count; i++) {
		const char *asks = "";
		if (all[i]->carriage &&
		    vessel_meets(roll->vessel, &all[i]->when, muster->on, &asks) != 0) {
			muster->subjects[muster->subject_count++] = all[i];
		}
	}
	return true;
}

bool
muster_of_pieces(const struct due_engine *engine, size_t vessel, struct span days,
    struct pieces pieces, struct arena *scratch, struct arena *arena, struct muster *out,
    struct fault *fault)
{
	struct roll roll = {
	    .engine = engine,
	    .vessel = &engine->inventory->vessels[vessel],
	    .pieces = pieces,
	};
	struct days changes = {0};
	roll.lines = rulebook_carriage(engine->rulebooks[vessel], &roll.line_count);
	if (!make_room(&roll, scratch, fault) ||
	    !find_changes(&roll, scratch, &changes, fault)) {
		return false;
	}
	day_t bad = walk(&roll, &changes, days);
	find_lapses(&roll, days.first);
	bool ok = bad > days.last;
	struct muster muster = {
	    .vessel = vessel,
	    .days = days,
	    .has_lines = roll.line_count > 0,
	    .ok = ok,
	    .on = ok ? days.first : bad,
	    .first_short = ok ? DAY_NONE : bad,
	    .good_through = bad == DAY_NEVER ? DAY_NEVER : bad - 1,
	};
	if (bad == days.first) {
		muster.good_through = DAY_NONE;
	}
	(void)muster_day(&roll, muster.on);
	if (!keep_found(&roll, arena, &muster, fault) ||
	    !keep_subjects(&roll, arena, &muster, fault)) {
		return false;
	}
	*out = muster;
	return true;
}

/* Her pieces, and with them the extra ones. */
static bool
gather(const struct due_engine *engine, size_t vessel, day_t today,
    const struct muster_items *extra, struct arena *scratch, struct pieces *out,
    struct fault *fault)
{
	struct pieces own = {0};
	if (!pieces_gather(engine, vessel, today, scratch, &own, fault)) {
		return false;
	}
	size_t count = own.count;
	struct piece *items =
	    arena_alloc(scratch, (count + extra->count + 1) * sizeof *items);
	if (items == NULL) {
		return fault_memory(fault);
	}
	if (count > 0) {
		memcpy(items, own.items, count * sizeof *items);
	}
	for (size_t i = 0; i < extra->count; i++) {
		if (!piece_read(engine, extra->items[i], vessel, today, scratch,
			&items[count++], fault)) {
			return false;
		}
	}
	*out = (struct pieces){items, count};
	return true;
}

bool
muster_with(const struct due_engine *engine, size_t vessel, struct span days,
    struct muster_items extra, struct arena *arena, struct muster *out,
    struct fault *fault)
{
	struct arena scratch = {0};
	struct pieces pieces = {0};
	bool done =
	    gather(engine, vessel, days.first, &extra, &scratch, &pieces, fault) &&
	    muster_of_pieces(engine, vessel, days, pieces, &scratch, arena, out, fault);
	arena_clear(&scratch);
	return done;
}

bool
muster_vessel(const struct due_engine *engine, size_t vessel, struct span days,
    struct arena *arena, struct muster *out, struct fault *fault)
{
	return muster_with(
	    engine, vessel, days, (struct muster_items){0}, arena, out, fault);
}
