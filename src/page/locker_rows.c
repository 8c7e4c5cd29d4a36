/* Which gear the locker shows, in which order, and how the state of a task stands there
 * and in its lanes. */
#include "base/numbers.h"
#include "page/draw.h"
#include "page/pieces.h"
#include "page/shell.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

/* As the agenda sorts: what has lapsed or is not known before what is in date, then by day. */
static bool
comes_before(const struct obligation *a, const struct first_due *b)
{
	bool lapsed = a->state != STATE_IN_DATE;
	bool other = b->state != STATE_IN_DATE;
	return !b->any || (lapsed != other ? lapsed : a->due < b->due);
}

void
locker_first_due(
    struct desk *desk, size_t item, struct arena *arena, struct first_due *out)
{
	struct obligation *all = NULL;
	size_t count = 0;
	*out = (struct first_due){.due = DAY_NONE};
	due_of_item(&desk->engine, item, desk->today, arena, &all, &count);
	for (size_t i = 0; i < count; i++) {
		bool none = all[i].state == STATE_IN_DATE &&
			    (all[i].due == DAY_NEVER || all[i].due == DAY_NONE);
		if (!all[i].routine && !none && comes_before(&all[i], out)) {
			*out = (struct first_due){
			    true, all[i].task, all[i].state, all[i].due};
		}
	}
}

/* The outermost thing that it is part of on the same boat. */
static size_t
root_of(const struct inventory *inventory, size_t item)
{
	size_t parent = inventory->items[item].parent;
	while (parent != ITEM_NO_PARENT &&
	       inventory->items[parent].vessel == inventory->items[item].vessel) {
		item = parent;
		parent = inventory->items[item].parent;
	}
	return item;
}

static const char *
group_of(const struct desk *desk, const struct locker_asked *asked, size_t item)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct item *it = &inventory->items[item];
	if (strcmp(asked->by, "kind") == 0) {
		return kind_name(desk->engine.kinds, it->kind);
	}
	if (asked->any && inventory->vessel_count > 1) {
		return inventory->vessels[it->vessel].name;
	}
	return inventory->items[root_of(inventory, item)].place;
}

/* By group, the one without a name last; then wholes with their parts after them. */
static int
compare_rows(const void *left, const void *right)
{
	const struct locker_row *a = left;
	const struct locker_row *b = right;
	int order = ORDER(a->group[0] == '\0', b->group[0] == '\0');
	order = order != 0 ? order : strcmp(a->group, b->group);
	order = ORDER_THEN(order, a->root, b->root);
	order = ORDER_THEN(order, a->item != a->root, b->item != b->root);
	return ORDER_THEN(order, a->item, b->item);
}

/* A mark an item for those that the words mean; all of them without words. */
static const bool *
meant(struct desk *desk, const char *words)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct known_gear known = {inventory, desk->engine.kinds,
	    desk->contents.stations, desk->contents.station_count};
	struct whereabouts_list list = {0};
	bool *marks =
	    arena_alloc(&desk->arena, (inventory->item_count + 1) * sizeof *marks);
	if (words[0] == '\0') {
		for (size_t i = 0; i < inventory->item_count; i++) {
			marks[i] = inventory->items[i].state != PLACE_WITHDRAWN;
		}
		return marks;
	}
	whereabouts_find(&known, words, &desk->arena, &list);
	for (size_t i = 0; i < list.count; i++) {
		marks[list.items[i].item] = true;
	}
	return marks;
}

void
locker_find(struct desk *desk, const struct locker_asked *asked, struct locker_rows *out)
{
	SCOPED_ARENA scratch = {0};
	const struct inventory *inventory = &desk->contents.inventory;
	bool only_wrong = strcmp(asked->by, "wrong") == 0;
	const bool *marks = meant(desk, asked->words);
	struct locker_row *rows =
	    arena_alloc(&desk->arena, (inventory->item_count + 1) * sizeof *rows);
	*out = (struct locker_rows){.items = rows};
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		struct first_due first;
		struct working working = {0};
		bool here = asked->any || strcmp(inventory->vessels[item->vessel].name,
					      asked->boat) == 0;
		if (!marks[i] || !here) {
			continue;
		}
		arena_reset(&scratch);
		locker_first_due(desk, i, &scratch, &first);
		due_working(
		    &desk->engine, i, item->vessel, desk->today, &scratch, &working);
		bool wrong =
		    (first.any && first.state != STATE_IN_DATE) ||
		    (working.trouble != PART_FINE && item->state != PLACE_WITHDRAWN);
		if (only_wrong && (!wrong || item->state == PLACE_RESERVE)) {
			continue;
		}
		rows[out->count++] = (struct locker_row){i, root_of(inventory, i),
		    group_of(desk, asked, i), first, working.trouble, working.part};
	}
	qsort(rows, out->count, sizeof *rows, compare_rows);
}

void
draw_state(struct visit *visit, enum state state, day_t due)
{
	static const enum state_mark MARKS[] = {
	    [STATE_OVERDUE] = MARK_OVERDUE,
	    [STATE_EXPIRED] = MARK_EXPIRED,
	    [STATE_LIFE_EXPIRED] = MARK_LIFE_EXPIRED,
	    [STATE_DATE_UNKNOWN] = MARK_DATE_UNKNOWN,
	};

	bool dated = due != DAY_NONE && due != DAY_NEVER;
	if (state == STATE_IN_DATE) {
		if (dated) {
			shell_day(visit, due);
		}
		return;
	}
	markup_begin_class(visit->markup, "span", "state");
	draw_mark(visit->markup, MARKS[state]);
	markup_text(visit->markup,
	    state == STATE_DATE_UNKNOWN ? "date unknown" : state_word(state));
	markup_end(visit->markup);
	if (dated) {
		markup_text(visit->markup, " ");
		markup_begin_class(visit->markup, "span", "small");
		shell_day(visit, due);
		markup_end(visit->markup);
	}
}
