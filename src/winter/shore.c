/* The shore list: what waits to be placed, parts that go along, order and sums. */
#include "winter/shore.h"

const char *
shore_line_word(const struct shore_line *line)
{
	return line->give_back ? "give back" : task_word(line->task);
}

void
add_price(struct shore_list *list, const struct shore_line *line)
{
	if (line->price_minor < 0) {
		list->unpriced++;
	} else {
		list->cost_minor += line->price_minor;
	}
}

static bool
is_station_work(const struct pending *pending)
{
	return station_does(pending->doer, pending->line.task);
}

/* True when a station does both tasks to one item, and a record of the second counts
 * as the first. */
static bool
counts_as(const struct pending *of, const struct pending *other)
{
	return of != other && other->line.item == of->line.item && is_station_work(of) &&
	       is_station_work(other) && (of->line.counts & 1U << other->line.task) != 0;
}

void
mark_counted(const struct pending *all, size_t count, struct pending *of)
{
	for (size_t i = 0; i < count && !of->line.counted; i++) {
		bool itself = false;
		if (!counts_as(of, &all[i])) {
			continue;
		}
		for (size_t k = 0; k < count; k++) {
			/* of two tasks that count as each other, the first is done */
			bool each_other = &all[k] == of && of > &all[i];
			itself = itself || (counts_as(&all[i], &all[k]) && !each_other);
		}
		of->line.counted = !itself;
		of->line.counted_by = all[i].line.task;
	}
}

/* True when a line is not needed because the thing itself, or the item it is part of,
 * is bought new. */
static bool
falls_away(const struct sorting *sorting, const struct shore_line *line)
{
	const struct item *item = planning_item(sorting->planning, line->item);
	bool own = line->task != TASK_RENEW && line->task != TASK_REGISTER &&
		   (sorting->marks[line->item] & WINTER_REPLACED) != 0;
	bool with_parent = item->parent != ITEM_NO_PARENT &&
			   (sorting->marks[item->parent] & WINTER_REPLACED) != 0;
	return own || with_parent;
}

/* True when the part goes with its parent, which is handed in for service anyway; it can't where
 * it is ashore by itself. */
static bool
goes_with_parent(const struct sorting *sorting, const struct shore_line *line)
{
	const struct item *item = planning_item(sorting->planning, line->item);
	return item->parent != ITEM_NO_PARENT && line->task == TASK_RENEW &&
	       line->state != STATE_DATE_UNKNOWN &&
	       !is_ashore(sorting->planning, line->item) &&
	       (sorting->marks[item->parent] & WINTER_SERVICE) != 0;
}

/* The part of the list for what a person does without a station. */
static enum own_part
own_part_of(const struct pending *pending)
{
	const struct shore_line *line = &pending->line;
	if (line->task == TASK_REGISTER || pending->doer == DOER_AUTHORITY) {
		return PART_PAPERWORK;
	}
	/* What has no date is not thrown away before somebody has looked for the date. */
	bool look = line->task != TASK_RENEW || line->state == STATE_DATE_UNKNOWN;
	return look ? PART_SELF : PART_BUY;
}

static void
put(const struct planning *planning, struct shore_lines *lines,
    const struct shore_line *line)
{
	ARENA_ADD(planning->arena, lines, *line);
}

/* Adds what is bought; what it replaces is listed for disposal where that needs care. */
static void
add_bought(const struct planning *planning, const struct shore_line *line)
{
	const struct kind *kind = kinds_find(
	    planning->engine->kinds, planning_item(planning, line->item)->kind);
	if (kind != NULL && kind->hazard != HAZARD_NONE) {
		put(planning, &planning->list->dispose, line);
	}
	put(planning, &planning->list->buy, line);
}

/* A person has the whole winter for what he does himself or buys. */
static void
add_own_work(struct sorting *sorting, struct pending *pending)
{
	struct planning *planning = sorting->planning;
	struct shore_list *list = planning->list;
	struct shore_line *line = &pending->line;
	enum own_part part = own_part_of(pending);
	if (line->give_back) {
		line->not_after = line->due;
		put(planning, &list->self, line);
		return;
	}
	line->not_after = list->winter.fitting_out - planning->vessel->margin_days;
	find_not_before(planning, line->item, line->task, line->not_after,
	    &line->not_before, &line->carries);
	day_t last = day_max(line->not_after, planning->today);
	line->due_again =
	    due_again(planning->engine, line->item, line->task, last, planning->scratch);
	if (line->not_after < planning->today) {
		line->why = "fitting-out, less her margin, is already past";
		line->own = part;
		line->first_possible = planning->today;
		put(planning, &list->cannot, line);
	} else if (part == PART_BUY) {
		add_bought(planning, line);
	} else {
		put(planning, part == PART_SELF ? &list->self : &list->paperwork, line);
	}
}

/* A station's work has the days on which it may be handed in. */
static void
add_hand_in(struct sorting *sorting, struct shore_line line)
{
	struct hand_in hand_in = {0};
	if (!find_ways(sorting->planning, line, &hand_in)) {
		add_cannot(sorting->planning, &hand_in);
		return;
	}
	if (hand_in.ways[0].station == NO_STATION) {
		note_make(sorting->planning, &hand_in.line);
	}
	ARENA_ADD(sorting->planning->passing, &sorting->hand_ins, hand_in);
}

void
place_pending(struct sorting *sorting)
{
	struct planning *planning = sorting->planning;
	for (size_t i = 0; i < sorting->pending_count; i++) {
		struct pending *pending = &sorting->pending[i];
		bool covered =
		    (sorting->marks[pending->line.item] & WINTER_SERVICE) != 0 &&
		    (pending->line.counts & 1U << TASK_SERVICE) != 0;
		if (covered || falls_away(sorting, &pending->line) ||
		    goes_with_parent(sorting, &pending->line)) {
			continue;
		}
		mark_counted(sorting->pending, sorting->pending_count, pending);
		if (is_station_work(pending)) {
			add_hand_in(sorting, pending->line);
		} else {
			add_own_work(sorting, pending);
		}
		arena_reset(planning->scratch);
	}
}

/* The line under which a parent is handed in for service, and its trip; NULL when it
 * is not handed in (because it can't be done in time). */
static const struct shore_line *
find_service(const struct shore_list *list, size_t parent, struct trip **trip_out)
{
	for (size_t i = 0; i < list->hand_in.count; i++) {
		struct trip *trip = &list->hand_in.items[i];
		for (size_t j = 0; j < trip->lines.count; j++) {
			const struct shore_line *line = &trip->lines.items[j];
			if (line->item == parent && line->task == TASK_SERVICE) {
				*trip_out = trip;
				return line;
			}
		}
	}
	return NULL;
}

/* Sends a part along with its parent, between the same days. */
static void
add_with_parent(const struct planning *planning, struct shore_line line,
    const struct shore_line *parent, struct trip *trip)
{
	line.with_parent = true;
	line.not_before = parent->not_before;
	line.not_after = parent->not_after;
	line.winter = 0;
	line.due_again = due_again(
	    planning->engine, line.item, line.task, trip->hand_in, planning->scratch);
	ARENA_ADD(planning->arena, &trip->lines, line);
}

/* Parts due this winter whose parent is on its way to a station go along with it; a
 * part whose parent can't be handed in is dealt with on its own. */
static void
place_parts(struct sorting *sorting)
{
	struct planning *planning = sorting->planning;
	for (size_t i = 0; i < sorting->pending_count; i++) {
		struct pending *pending = &sorting->pending[i];
		struct trip *trip = NULL;
		if (!goes_with_parent(sorting, &pending->line) ||
		    falls_away(sorting, &pending->line)) {
			continue;
		}
		const struct shore_line *service = find_service(planning->list,
		    planning_item(planning, pending->line.item)->parent, &trip);
		if (service != NULL) {
			add_with_parent(planning, pending->line, service, trip);
		} else {
			add_own_work(sorting, pending);
		}
	}
}

/* True when a part that is ashore with its parent would lapse before the parent's next
 * service after this one: the station is to renew it now. */
static bool
renewed_ashore(const struct planning *planning, const struct shore_line *line)
{
	const struct item *item = planning_item(planning, line->item);
	const struct ashore_line *ashore = item->parent == ITEM_NO_PARENT ||
						   line->task != TASK_RENEW ||
						   !is_ashore(planning, line->item)
					       ? NULL
					       : find_ashore(planning, item->parent);
	if (ashore == NULL || (ashore->tasks & 1U << TASK_SERVICE) == 0) {
		return false;
	}
	day_t done = ashore->collect == DAY_NONE ? planning->today : ashore->collect;
	day_t again = due_again(
	    planning->engine, item->parent, TASK_SERVICE, done, planning->scratch);
	return again != DAY_NONE && line->due < again;
}

/* Looks through the lines that wait. What is bought new this winter has nothing left
 * to wait for. A dated part that would lapse before its parent's next service is
 * renewed at this one (MSC.1/Circ.1328 6.1.5: read), so it moves to its parent's trip. */
static void
sift_waits(struct sorting *sorting)
{
	struct planning *planning = sorting->planning;
	struct shore_lines *waits = &planning->list->waits;
	size_t kept = 0;
	for (size_t i = 0; i < waits->count; i++) {
		struct shore_line line = waits->items[i];
		struct trip *trip = NULL;
		if (falls_away(sorting, &line)) {
			continue;
		}
		if (renewed_ashore(planning, &line)) {
			add_ashore_task(planning, &line);
			add_price(planning->list, &line);
			continue;
		}
		const struct shore_line *service =
		    goes_with_parent(sorting, &line)
			? find_service(planning->list,
			      planning_item(planning, line.item)->parent, &trip)
			: NULL;
		if (service != NULL && service->due_again != DAY_NONE &&
		    line.due < service->due_again) {
			add_with_parent(planning, line, service, trip);
		} else {
			waits->items[kept++] = line;
		}
	}
	waits->count = kept;
}

/* By due day, unknown and lapsed first as their values are, then in the inventory's
 * order. */
static int
compare_lines(const void *left, const void *right)
{
	const struct shore_line *a = left;
	const struct shore_line *b = right;
	int order = ORDER_THEN(ORDER(a->due, b->due), a->item, b->item);
	return ORDER_THEN(order, a->task, b->task);
}

static int
compare_lines_by_item(const void *left, const void *right)
{
	const struct shore_line *a = left;
	const struct shore_line *b = right;
	return ORDER_THEN(ORDER(a->item, b->item), a->task, b->task);
}

static void
finish(const struct planning *planning)
{
	struct shore_list *list = planning->list;
	struct shore_lines *by_due[] = {&list->self, &list->buy, &list->paperwork,
	    &list->dispose, &list->waits, &list->cannot, &list->now};
	for (size_t i = 0; i < sizeof by_due / sizeof by_due[0]; i++) {
		ARRAY_SORT(by_due[i]->items, by_due[i]->count, compare_lines);
	}
	ARRAY_SORT(list->routines.items, list->routines.count, compare_lines_by_item);
	for (size_t i = 0; i < list->hand_in.count; i++) {
		struct trip *trip = &list->hand_in.items[i];
		ARRAY_SORT(trip->lines.items, trip->lines.count, compare_lines_by_item);
		for (size_t j = 0; j < trip->lines.count; j++) {
			add_price(list, &trip->lines.items[j]);
		}
		list->cost_minor += trip->share_minor;
	}
	for (size_t i = 0; i < list->buy.count; i++) {
		add_price(list, &list->buy.items[i]);
	}
}

void
shore_finish(struct sorting *sorting)
{
	place_parts(sorting);
	sift_waits(sorting);
	finish(sorting->planning);
	arena_reset(sorting->planning->scratch);
}
