/* A vessel mustered over days: the days that matter, and what is kept of them. */
#include "muster/muster.h"

#include "base/numbers.h"
#include "muster/inside.h"
#include "rules/meets.h"

#include <string.h>

/* The days on which something may change. */
struct days {
	day_t *items; /* in the arena */
	size_t count;
	size_t capacity;
};

static void
add_day(struct arena *arena, struct days *days, day_t day)
{
	ARENA_ROOM(arena, days);
	days->items[days->count++] = day;
}

static void
add_changes(struct arena *arena, struct days *days, struct spans spans)
{
	for (size_t i = 0; i < spans.count; i++) {
		add_day(arena, days, spans.items[i].first);
		if (spans.items[i].last != DAY_NEVER) {
			add_day(arena, days, spans.items[i].last + 1);
		}
	}
}

static int
compare_days(const void *left, const void *right)
{
	const day_t *a = left;
	const day_t *b = right;
	return ORDER(*a, *b);
}

/* Every day on which a piece or the vessel changes, in order; some more than once. */
static void
find_changes(const struct roll *roll, struct arena *arena, struct days *out)
{
	size_t periods = roll->vessel->period_count;
	struct days days = {arena_alloc(arena, periods * sizeof *days.items), 0, periods};
	for (size_t i = 0; i < periods; i++) {
		add_day(arena, &days, roll->vessel->periods[i].from);
	}
	for (size_t i = 0; i < roll->pieces.count; i++) {
		add_changes(arena, &days, roll->pieces.items[i].lapsed);
		add_changes(arena, &days, roll->pieces.items[i].unknown);
	}
	ARRAY_SORT(days.items, days.count, compare_days);
	*out = days;
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
	day_t bad = roll_day(roll, days.first) ? DAY_NEVER : days.first;
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
		if (!roll_day(roll, day) && bad == DAY_NEVER) {
			bad = day;
		}
		if (day <= days.last) {
			note_shortages(roll, day);
		}
		before = day;
	}
	return bad;
}

/* Copies an array of `count` elements of `size` bytes to the arena. */
static void *
keep(struct arena *arena, const void *items, size_t count, size_t size)
{
	return memcpy(arena_alloc(arena, count * size), items, count * size);
}

static void
keep_list(struct arena *arena, struct muster_items *list)
{
	list->items = keep(arena, list->items, list->count, sizeof *list->items);
}

/* Copies what was found from the scratch, where there is room for the most there could be,
 * to the arena. */
static void
keep_found(const struct roll *roll, struct arena *arena, struct muster *out)
{
	struct muster_line *lines =
	    keep(arena, roll->found, roll->found_count, sizeof *lines);
	out->shortages =
	    keep(arena, roll->shortages, roll->shortage_count, sizeof *roll->shortages);
	out->lapses = keep(arena, roll->lapses, roll->lapse_count, sizeof *roll->lapses);
	for (size_t i = 0; i < roll->found_count; i++) {
		lines[i].untold = keep(arena, lines[i].untold, lines[i].untold_count,
		    sizeof *lines[i].untold);
		keep_list(arena, &lines[i].counted);
		keep_list(arena, &lines[i].lapsed);
		keep_list(arena, &lines[i].unknown);
		keep_list(arena, &lines[i].remarks);
		keep_list(arena, &lines[i].parts);
	}
	out->lines = lines;
	out->line_count = roll->found_count;
	out->shortage_count = roll->shortage_count;
	out->lapse_count = roll->lapse_count;
}

/* What her sheets say nothing of as to what must be carried, as far as it may concern her. */
static void
keep_subjects(const struct roll *roll, struct arena *arena, struct muster *muster)
{
	size_t count = 0;
	const struct not_stated *const *all =
	    rulebook_not_stated(roll->engine->rulebooks[muster->vessel], &count);
	muster->subjects =
	    arena_alloc(arena, (count + 1) * sizeof(const struct not_stated *));
	for (size_t i = 0; i < count; i++) {
		const char *asks = "";
		if (all[i]->carriage &&
		    period_follows(
			vessel_period_on(roll->vessel, muster->on), all[i]->sheet) &&
		    vessel_meets(roll->vessel, &all[i]->when, muster->on, &asks) != 0) {
			muster->subjects[muster->subject_count++] = all[i];
		}
	}
}

void
muster_of_pieces(const struct due_engine *engine, size_t vessel, struct span days,
    struct pieces pieces, struct arena *scratch, struct arena *arena, struct muster *out)
{
	struct roll roll = {
	    .engine = engine,
	    .vessel = &engine->inventory->vessels[vessel],
	    .pieces = pieces,
	};
	struct days changes = {0};
	roll.lines = rulebook_carriage(engine->rulebooks[vessel], &roll.line_count);
	roll_room(&roll, scratch);
	find_changes(&roll, scratch, &changes);
	day_t bad = walk(&roll, &changes, days);
	roll_lapses(&roll, days.first);
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
	(void)roll_day(&roll, muster.on);
	keep_found(&roll, arena, &muster);
	keep_subjects(&roll, arena, &muster);
	roll_silences(&roll, arena, &muster);
	*out = muster;
}

/* Her pieces, and with them the extra ones. */
static void
gather(const struct due_engine *engine, size_t vessel, day_t today,
    struct cure_given extra, struct arena *scratch, struct pieces *out)
{
	struct pieces own = {0};
	pieces_gather(engine, vessel, today, scratch, &own);
	size_t count = own.count;
	struct piece *items =
	    arena_alloc(scratch, (count + extra.count + 1) * sizeof *items);
	if (count > 0) {
		memcpy(items, own.items, count * sizeof *items);
	}
	for (size_t i = 0; i < extra.count; i++) {
		piece_read(
		    engine, extra.moves[i].item, vessel, today, scratch, &items[count]);
		items[count++].only = extra.moves[i].quantity;
	}
	*out = (struct pieces){items, count};
}

void
muster_with(const struct due_engine *engine, size_t vessel, struct span days,
    struct cure_given extra, struct arena *arena, struct muster *out)
{
	struct arena scratch = {0};
	struct pieces pieces = {0};
	gather(engine, vessel, days.first, extra, &scratch, &pieces);
	muster_of_pieces(engine, vessel, days, pieces, &scratch, arena, out);
	arena_clear(&scratch);
}

void
muster_vessel(const struct due_engine *engine, size_t vessel, struct span days,
    struct arena *arena, struct muster *out)
{
	const struct cure_given nothing = {0};
	muster_with(engine, vessel, days, nothing, arena, out);
}

/* Musters her on each day on which something changes; what is found holds until the next
 * such day. */
static void
short_spans(struct roll *roll, const struct days *changes, struct span days,
    struct arena *arena, struct spans *out)
{
	struct span *spans = arena_alloc(arena, (changes->count + 2) * sizeof *spans);
	size_t count = 0;
	bool was = false;
	for (size_t i = 0; i <= changes->count; i++) {
		day_t day = i == 0 ? days.first : changes->items[i - 1];
		bool again = i > 1 && day == changes->items[i - 2];
		if (day > days.last || again || (i > 0 && day <= days.first)) {
			continue;
		}
		bool is = !roll_day(roll, day);
		if (is && !was) {
			spans[count++] = (struct span){day, days.last};
		} else if (was && !is) {
			spans[count - 1].last = day - 1;
		}
		was = is;
	}
	*out = (struct spans){spans, count};
}

void
muster_short_days(const struct due_engine *engine, size_t vessel, struct span days,
    struct arena *arena, struct spans *out)
{
	SCOPED_ARENA scratch = {0};
	struct days changes = {0};
	struct roll roll = {
	    .engine = engine, .vessel = &engine->inventory->vessels[vessel]};
	pieces_gather(engine, vessel, days.first, &scratch, &roll.pieces);
	roll.lines = rulebook_carriage(engine->rulebooks[vessel], &roll.line_count);
	roll_room(&roll, &scratch);
	find_changes(&roll, &scratch, &changes);
	short_spans(&roll, &changes, days, arena, out);
}
