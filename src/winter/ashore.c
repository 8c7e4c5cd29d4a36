/* What is ashore already, and when it can be fetched. */
#include "gear/going.h"
#include "winter/shore.h"

#include <string.h>

bool
is_ashore(const struct planning *planning, size_t item)
{
	return planning_item(planning, item)->state == PLACE_LANDED;
}

/* The item whose line stands for one that is ashore: the outermost one of her own that is so at
 * the same station. A part that went to a different station has a line of its own, and so has a
 * part of another vessel's thing, which a careless book may hold. */
static size_t
line_item(const struct planning *planning, size_t item)
{
	const struct item *items = planning->engine->inventory->items;
	size_t found = item;
	for (size_t at = items[item].parent; at != ITEM_NO_PARENT;
	     at = items[at].parent) {
		bool apart = items[at].vessel != items[item].vessel ||
			     strcmp(items[at].landed_to, items[found].landed_to) != 0;
		if (items[at].state == PLACE_LANDED && !apart) {
			found = at;
		}
	}
	return found;
}

static struct ashore_line
line_of(const struct planning *planning, size_t index)
{
	const struct item *item = planning_item(planning, index);
	struct ashore_line line = {
	    .item = index,
	    .station = item->landed_to,
	    .since = item->landed_on,
	    .due = DAY_NONE,
	};
	line.collect = ashore_collect(planning->engine->inventory, item,
	    planning->stations, planning->station_count, &line.assumed);
	return line;
}

static int
compare_lines(const void *left, const void *right)
{
	const struct ashore_line *a = left;
	const struct ashore_line *b = right;
	return ORDER_THEN(ORDER(a->collect, b->collect), a->item, b->item);
}

void
gather_ashore(const struct planning *planning, size_t first, size_t end)
{
	const struct item *items = planning->engine->inventory->items;
	struct ashore_lines lines = {
	    arena_alloc(planning->arena, (end - first + 1) * sizeof *lines.items), 0};
	for (size_t i = first; i < end; i++) {
		if (items[i].state == PLACE_LANDED && line_item(planning, i) == i) {
			lines.items[lines.count++] = line_of(planning, i);
		}
	}
	ARRAY_SORT(lines.items, lines.count, compare_lines);
	planning->list->ashore = lines;
}

struct ashore_line *
find_ashore(const struct planning *planning, size_t item)
{
	const struct ashore_lines *lines = &planning->list->ashore;
	for (size_t i = 0; i < lines->count; i++) {
		if (lines->items[i].item == item) {
			return &lines->items[i];
		}
	}
	return NULL;
}

void
add_ashore_task(const struct planning *planning, const struct shore_line *line)
{
	struct ashore_line *ashore =
	    find_ashore(planning, line_item(planning, line->item));
	if (ashore == NULL) {
		return;
	}
	if (ashore->tasks == 0 || line->due < ashore->due) {
		ashore->due = line->due;
		ashore->state = line->state;
	}
	ashore->tasks |= 1U << line->task;
}

void
price_ashore(const struct planning *planning, struct shore_line *line)
{
	const struct item *item = planning_item(planning, line->item);
	const struct item *landed =
	    planning_item(planning, line_item(planning, line->item));
	const struct station *station =
	    station_named(planning->stations, planning->station_count, landed->landed_to);
	if (station == NULL || line->task == TASK_RENEW) {
		return;
	}
	day_t day = landed->landed_on == DAY_NONE ? planning->today : landed->landed_on;
	const struct station_price *price =
	    station_price(station, item->kind, line->task, item_age(item, day));
	if (price != NULL) {
		line->price_minor = price->minor * item->quantity;
	}
}
