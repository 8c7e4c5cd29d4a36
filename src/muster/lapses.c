/* Which of the pieces that count stop counting first, and what that does to her lines. */
#include "base/numbers.h"
#include "muster/inside.h"

static int
compare_lapses(const void *left, const void *right)
{
	const struct muster_lapse *a = left;
	const struct muster_lapse *b = right;
	int order = ORDER(a->last, b->last);
	return ORDER_THEN(order, a->item, b->item);
}

enum { NOT_HELD = -1 };

/* What every line is short of on a day, by its place among all lines; NOT_HELD for one that
 * does not hold then. */
static void
missing_on(struct roll *roll, day_t day, int *missing)
{
	(void)roll_day(roll, day);
	size_t at = 0;
	for (size_t i = 0; i < roll->line_count; i++) {
		bool held =
		    at < roll->found_count && roll->found[at].line == roll->lines[i];
		missing[i] = held ? roll->found[at++].missing : NOT_HELD;
	}
}

/* Judges a lapse by the lines that hold on its last day or on the next, what each is short of
 * being known for both. */
static void
judge(const struct roll *roll, struct muster_lapse *lapse)
{
	const struct item *item = &roll->engine->inventory->items[lapse->item];
	const char *asks = "";
	for (size_t i = 0; i < roll->line_count; i++) {
		int before = roll->missing[0][i];
		int after = roll->missing[1][i];
		if ((before != NOT_HELD || after != NOT_HELD) &&
		    line_worth(roll->lines[i], item, &asks) > 0) {
			lapse->counted = true;
			lapse->makes_short |= after > 0 && after > before;
		}
	}
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

void
roll_lapses(struct roll *roll, day_t first)
{
	for (size_t i = 0; i < roll->pieces.count; i++) {
		const struct piece *piece = &roll->pieces.items[i];
		enum count_state state = piece_on(piece, first);
		day_t day = piece_lapses(piece, first);
		bool counts = state == COUNT_YES || state == COUNT_REMARK;
		if (counts && day != DAY_NEVER && is_worth_something(roll, piece->item)) {
			roll->lapses[roll->lapse_count++] =
			    (struct muster_lapse){.item = piece->item, .last = day - 1};
		}
	}
	ARRAY_SORT(roll->lapses, roll->lapse_count, compare_lapses);
	if (roll->lapse_count > MUSTER_LAPSES_MOST) {
		roll->lapse_count = MUSTER_LAPSES_MOST;
	}
	for (size_t i = 0; i < roll->lapse_count; i++) {
		struct muster_lapse *lapse = &roll->lapses[i];
		if (i == 0 || lapse->last != roll->lapses[i - 1].last) {
			missing_on(roll, lapse->last, roll->missing[0]);
			missing_on(roll, lapse->last + 1, roll->missing[1]);
		}
		judge(roll, lapse);
	}
}
