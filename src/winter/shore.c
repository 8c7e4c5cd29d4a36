/* The shore list: every obligation of one vessel put in its place. */
#include "winter/shore.h"

#include <stdlib.h>

bool
lines_add(struct arena *arena, struct shore_lines *lines, const struct shore_line *line,
    struct fault *fault)
{
	if (!ARENA_ROOM(arena, lines, fault)) {
		return false;
	}
	lines->items[lines->count++] = *line;
	return true;
}

/* What this winter does to each item, indexed like the inventory. */
enum {
	MARK_ASHORE = 1,   /* handed in for a task of its own, or ashore for it already */
	MARK_SERVICE = 2,  /* and that task is its service */
	MARK_REPLACED = 4, /* bought new: its other tasks and its parts fall away */
};

static int64_t
price_of(const struct item *item, enum task task)
{
	if (task == TASK_RENEW) {
		return item->price_minor < 0 ? -1 : item->price_minor * item->quantity;
	}
	for (size_t i = item->record_count; i > 0; i--) {
		const struct record *record = &item->records[i - 1];
		if (record->task == task && record->price_minor >= 0) {
			return record->price_minor;
		}
	}
	return -1;
}

static const char *
what_to_do(const struct obligation *obligation)
{
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		bool meant = obligation->binding == NULL || reading->binds;
		if (meant && reading->rule != NULL) {
			return reading->rule->what;
		}
	}
	return "";
}

static unsigned
counting_tasks(const struct obligation *obligation)
{
	const struct reading *binding = obligation->binding;
	if (binding == NULL && obligation->reading_count > 0) {
		binding = &obligation->readings[0];
	}
	return binding == NULL || binding->rule == NULL ? 0 : binding->rule->counts;
}

static const char FIND_THE_DATE[] =
    "find its date on the label and enter it; until then it does not count, and if there is "
    "none to be found, renew it";

static const char GIVE_IT_BACK[] =
    "give it back by the last day of its hire, or agree on a later one and enter it";

static struct shore_line
line_of(const struct planning *planning, const struct obligation *obligation)
{
	const struct item *item = &planning->engine->inventory->items[obligation->item];
	bool no_date =
	    obligation->task == TASK_RENEW && obligation->state == STATE_DATE_UNKNOWN;
	bool hire =
	    obligation->binding != NULL && obligation->binding->anchor == ANCHOR_HIRE;
	return (struct shore_line){
	    .item = obligation->item,
	    .task = obligation->task,
	    .state = obligation->state,
	    .due = obligation->due,
	    .not_before = DAY_NONE,
	    .not_after = DAY_NONE,
	    .due_again = DAY_NONE,
	    .carries = true,
	    .give_back = hire,
	    .price_minor = hire ? -1 : price_of(item, obligation->task),
	    .grade = obligation->grade,
	    .what = hire      ? GIVE_IT_BACK
		    : no_date ? FIND_THE_DATE
			      : what_to_do(obligation),
	    .why = "",
	    .first_possible = DAY_NONE,
	    .cure = "",
	    .note = "",
	};
}

/* An old extra that has expired is still to be got rid of with care. */
static bool
sort_reserve(const struct planning *planning, const struct obligation *obligation,
    struct fault *fault)
{
	if (obligation->task != TASK_RENEW || obligation->state == STATE_IN_DATE ||
	    obligation->state == STATE_DATE_UNKNOWN) {
		return true;
	}
	struct shore_line line = line_of(planning, obligation);
	return lines_add(planning->arena, &planning->list->dispose, &line, fault);
}

/* Obligations of this winter wait until all of the vessel's are known. */
static void
sort_this_winter(struct sorting *sorting, const struct obligation *obligation)
{
	const struct planning *planning = sorting->planning;
	struct shore_line line = line_of(planning, obligation);
	bool replaced = obligation->task == TASK_RENEW && !line.give_back &&
			obligation->doer == DOER_OWNER &&
			obligation->state != STATE_DATE_UNKNOWN;
	if (replaced) {
		sorting->marks[line.item] |= MARK_REPLACED;
	} else if (obligation->doer == DOER_STATION &&
		   obligation->task != TASK_REGISTER) {
		sorting->marks[line.item] |= MARK_ASHORE;
		if (obligation->task == TASK_SERVICE) {
			sorting->marks[line.item] |= MARK_SERVICE;
		}
	}
	sorting->pending[sorting->pending_count++] =
	    (struct pending){line, obligation->doer, counting_tasks(obligation)};
}

static const struct item *
item_at(const struct planning *planning, size_t index)
{
	return &planning->engine->inventory->items[index];
}

static void
add_price(struct shore_list *list, const struct shore_line *line)
{
	if (line->price_minor < 0) {
		list->unpriced++;
	} else {
		list->cost_minor += line->price_minor;
	}
}

/* A station's work on what is ashore, and the renewal of a part inside it, are seen to where
 * it is. What has no date is not: the station can't know. */
static bool
in_hand(const struct planning *planning, const struct obligation *obligation)
{
	const struct item *item = item_at(planning, obligation->item);
	bool part = item->parent != ITEM_NO_PARENT && obligation->task == TASK_RENEW &&
		    obligation->state != STATE_DATE_UNKNOWN &&
		    is_ashore(planning, item->parent);
	bool work = obligation->doer == DOER_STATION && obligation->task != TASK_REGISTER;
	return is_ashore(planning, obligation->item) && (work || part);
}

/* What falls due only after a hired item was given back is its owner's to see to. */
static bool
outlasts_hire(const struct item *item, const struct obligation *obligation)
{
	bool hire =
	    obligation->binding != NULL && obligation->binding->anchor == ANCHOR_HIRE;
	return item->hired_until != DAY_NONE && !hire &&
	       obligation->state == STATE_IN_DATE &&
	       obligation->good_through >= item->hired_until;
}

static bool
sort_obligation(
    struct sorting *sorting, const struct obligation *obligation, struct fault *fault)
{
	struct planning *planning = sorting->planning;
	struct shore_list *list = planning->list;
	const struct item *item = &planning->engine->inventory->items[obligation->item];
	struct shore_line line = line_of(planning, obligation);
	if (item->state == PLACE_RESERVE) {
		return sort_reserve(planning, obligation, fault);
	}
	if (obligation->routine) {
		return lines_add(planning->arena, &list->routines, &line, fault);
	}
	if (obligation->good_through == DAY_NEVER || outlasts_hire(item, obligation)) {
		return true;
	}
	line.winter = winter_of_obligation(planning->vessel, obligation, planning->today);
	bool out = obligation->state != STATE_IN_DATE;
	bool this_winter = list->has_winter && line.winter == list->winter.year;
	if ((this_winter || out) && in_hand(planning, obligation)) {
		sorting->marks[line.item] |=
		    MARK_ASHORE | (line.task == TASK_SERVICE ? MARK_SERVICE : 0);
		price_ashore(planning, &line);
		add_ashore_task(planning, &line);
		add_price(list, &line);
		return true;
	}
	if (this_winter) {
		sort_this_winter(sorting, obligation);
		return true;
	}
	if (out || (list->has_winter && line.winter == 0)) {
		return lines_add(planning->arena, &list->now, &line, fault);
	}
	if (!list->has_winter || line.winter > list->winter.year) {
		return lines_add(planning->arena, &list->waits, &line, fault);
	}
	return true;
}

/* True when a line falls away because the thing itself, or what it is part of, is bought
 * new. */
static bool
falls_away(const struct sorting *sorting, const struct shore_line *line)
{
	const struct item *item = item_at(sorting->planning, line->item);
	bool own = line->task != TASK_RENEW && line->task != TASK_REGISTER &&
		   (sorting->marks[line->item] & MARK_REPLACED) != 0;
	bool with_parent = item->parent != ITEM_NO_PARENT &&
			   (sorting->marks[item->parent] & MARK_REPLACED) != 0;
	return own || with_parent;
}

/* True when the part goes with its parent, which is handed in for service anyway. */
static bool
goes_with_parent(const struct sorting *sorting, const struct shore_line *line)
{
	const struct item *item = item_at(sorting->planning, line->item);
	return item->parent != ITEM_NO_PARENT && line->task == TASK_RENEW &&
	       line->state != STATE_DATE_UNKNOWN &&
	       (sorting->marks[item->parent] & MARK_SERVICE) != 0;
}

/* Work a person does himself, and what he buys, has the whole winter. */
static bool
add_own_work(struct sorting *sorting, struct pending *pending, struct fault *fault)
{
	struct planning *planning = sorting->planning;
	struct shore_list *list = planning->list;
	struct shore_line *line = &pending->line;
	if (line->give_back) {
		line->not_after = line->due;
		return lines_add(planning->arena, &list->self, line, fault);
	}
	line->not_after = list->winter.fitting_out - planning->vessel->margin_days;
	if (!find_not_before(planning, line->item, line->task, line->not_after,
		&line->not_before, &line->carries, fault)) {
		return false;
	}
	day_t last = day_max(line->not_after, planning->today);
	if (!find_due_again(
		planning, line->item, line->task, last, &line->due_again, fault)) {
		return false;
	}
	if (line->not_after < planning->today) {
		line->why = "fitting-out, less her margin, is already past";
		line->first_possible = planning->today;
		return lines_add(planning->arena, &list->cannot, line, fault);
	}
	if (line->task == TASK_REGISTER || pending->doer == DOER_AUTHORITY) {
		return lines_add(planning->arena, &list->paperwork, line, fault);
	}
	if (line->task != TASK_RENEW || line->state == STATE_DATE_UNKNOWN) {
		/* What has no date is not thrown away unread: look for the date first. */
		return lines_add(planning->arena, &list->self, line, fault);
	}
	const struct kind *kind =
	    kinds_find(planning->engine->kinds, item_at(planning, line->item)->kind);
	if (kind != NULL && kind->hazard != HAZARD_NONE &&
	    !lines_add(planning->arena, &list->dispose, line, fault)) {
		return false;
	}
	return lines_add(planning->arena, &list->buy, line, fault);
}

/* Puts every obligation of this winter in its part of the list, parts that go with their
 * parent excepted. */
static bool
place_pending(struct sorting *sorting, struct fault *fault)
{
	struct planning *planning = sorting->planning;
	for (size_t i = 0; i < sorting->pending_count; i++) {
		struct pending *pending = &sorting->pending[i];
		bool covered = (sorting->marks[pending->line.item] & MARK_SERVICE) != 0 &&
			       (pending->counts & 1U << TASK_SERVICE) != 0;
		if (covered || falls_away(sorting, &pending->line) ||
		    goes_with_parent(sorting, &pending->line)) {
			continue;
		}
		bool ashore =
		    pending->doer == DOER_STATION && pending->line.task != TASK_REGISTER;
		bool placed =
		    ashore ? find_ways(planning, pending->line, &sorting->hand_ins, fault)
			   : add_own_work(sorting, pending, fault);
		if (!placed) {
			return false;
		}
		arena_reset(planning->scratch);
	}
	return true;
}

/* The line under which a parent is handed in for service, and its trip; NULL when it is not
 * (because it can't be done in time). */
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
static bool
add_with_parent(const struct planning *planning, struct shore_line line,
    const struct shore_line *parent, struct trip *trip, struct fault *fault)
{
	line.with_parent = true;
	line.not_before = parent->not_before;
	line.not_after = parent->not_after;
	line.winter = 0;
	return find_due_again(planning, line.item, line.task, trip->hand_in,
		   &line.due_again, fault) &&
	       lines_add(planning->arena, &trip->lines, &line, fault);
}

/* Parts due this winter whose parent is on its way to a station go along; one whose parent
 * can't be handed in is done on its own. */
static bool
place_parts(struct sorting *sorting, struct fault *fault)
{
	struct planning *planning = sorting->planning;
	for (size_t i = 0; i < sorting->pending_count; i++) {
		struct pending *pending = &sorting->pending[i];
		struct trip *trip = NULL;
		if (!goes_with_parent(sorting, &pending->line) ||
		    falls_away(sorting, &pending->line)) {
			continue;
		}
		const struct shore_line *service = find_service(
		    planning->list, item_at(planning, pending->line.item)->parent, &trip);
		bool done = service != NULL ? add_with_parent(planning, pending->line,
						  service, trip, fault)
					    : add_own_work(sorting, pending, fault);
		if (!done) {
			return false;
		}
	}
	return true;
}

/* True when a part ashore with its whole would lapse before the next service of that whole
 * but this one: the station is to renew it now. */
static bool
renewed_ashore(const struct planning *planning, const struct shore_line *line, bool *out,
    struct fault *fault)
{
	const struct item *item = item_at(planning, line->item);
	const struct ashore_line *ashore = item->parent == ITEM_NO_PARENT ||
						   line->task != TASK_RENEW ||
						   !is_ashore(planning, line->item)
					       ? NULL
					       : find_ashore(planning, item->parent);
	day_t again = DAY_NONE;
	*out = false;
	if (ashore == NULL || (ashore->tasks & 1U << TASK_SERVICE) == 0) {
		return true;
	}
	day_t done = ashore->collect == DAY_NONE ? planning->today : ashore->collect;
	if (!find_due_again(planning, item->parent, TASK_SERVICE, done, &again, fault)) {
		return false;
	}
	*out = again != DAY_NONE && line->due < again;
	return true;
}

/* Looks through what waits. What is bought new this winter has nothing left to wait for. A
 * dated part that would lapse before its parent's next service is renewed at this one
 * (MSC.1/Circ.1328 6.1.5: read), so it moves to its parent's trip. */
static bool
sift_waits(struct sorting *sorting, struct fault *fault)
{
	struct planning *planning = sorting->planning;
	struct shore_lines *waits = &planning->list->waits;
	size_t kept = 0;
	for (size_t i = 0; i < waits->count; i++) {
		struct shore_line line = waits->items[i];
		struct trip *trip = NULL;
		bool ashore = false;
		if (falls_away(sorting, &line)) {
			continue;
		}
		if (!renewed_ashore(planning, &line, &ashore, fault)) {
			return false;
		}
		if (ashore) {
			add_ashore_task(planning, &line);
			add_price(planning->list, &line);
			continue;
		}
		const struct shore_line *service =
		    goes_with_parent(sorting, &line)
			? find_service(
			      planning->list, item_at(planning, line.item)->parent, &trip)
			: NULL;
		bool early = service != NULL && service->due_again != DAY_NONE &&
			     line.due < service->due_again;
		if (!early) {
			waits->items[kept++] = line;
		} else if (!add_with_parent(planning, line, service, trip, fault)) {
			return false;
		}
	}
	waits->count = kept;
	return true;
}

/* By due day, unknown and lapsed first as they are, then as the inventory has them. */
static int
compare_lines(const void *left, const void *right)
{
	const struct shore_line *a = left;
	const struct shore_line *b = right;
	if (a->due != b->due) {
		return a->due < b->due ? -1 : 1;
	}
	if (a->item != b->item) {
		return a->item < b->item ? -1 : 1;
	}
	return (int)a->task - (int)b->task;
}

static int
compare_lines_by_item(const void *left, const void *right)
{
	const struct shore_line *a = left;
	const struct shore_line *b = right;
	if (a->item != b->item) {
		return a->item < b->item ? -1 : 1;
	}
	return (int)a->task - (int)b->task;
}

static void
sort_lines(struct shore_lines *lines, int (*compare)(const void *, const void *))
{
	if (lines->count > 1) {
		qsort(lines->items, lines->count, sizeof *lines->items, compare);
	}
}

static void
finish(const struct planning *planning)
{
	struct shore_list *list = planning->list;
	struct shore_lines *by_due[] = {&list->self, &list->buy, &list->paperwork,
	    &list->dispose, &list->waits, &list->cannot, &list->now};
	for (size_t i = 0; i < sizeof by_due / sizeof by_due[0]; i++) {
		sort_lines(by_due[i], compare_lines);
	}
	sort_lines(&list->routines, compare_lines_by_item);
	for (size_t i = 0; i < list->hand_in.count; i++) {
		struct trip *trip = &list->hand_in.items[i];
		sort_lines(&trip->lines, compare_lines_by_item);
		for (size_t j = 0; j < trip->lines.count; j++) {
			add_price(list, &trip->lines.items[j]);
		}
		list->cost_minor += trip->share_minor;
	}
	for (size_t i = 0; i < list->buy.count; i++) {
		add_price(list, &list->buy.items[i]);
	}
}

/* Every obligation of the vessel, sorted. What a line keeps of one is copied, so that the
 * scratch can be emptied after each item. */
static bool
sort_all(struct sorting *sorting, size_t first, size_t end, struct fault *fault)
{
	const struct planning *planning = sorting->planning;
	for (size_t i = first; i < end; i++) {
		struct obligation *obligations = NULL;
		size_t count = 0;
		if (!due_of_item(planning->engine, i, planning->today, planning->scratch,
			&obligations, &count, fault)) {
			return false;
		}
		for (size_t j = 0; j < count; j++) {
			if (!sort_obligation(sorting, &obligations[j], fault)) {
				return false;
			}
		}
		arena_reset(planning->scratch);
	}
	return true;
}

bool
shore_sort(struct sorting *sorting, struct fault *fault)
{
	struct planning *planning = sorting->planning;
	size_t count = 0;
	size_t first =
	    inventory_aboard(planning->engine->inventory, planning->list->vessel, &count);
	sorting->pending = arena_alloc(planning->arena,
	    (count * 2 * (size_t)TASK_COUNT + 1) * sizeof *sorting->pending);
	if (sorting->pending == NULL) {
		return fault_memory(fault);
	}
	return ready_stations(planning, fault) &&
	       gather_ashore(planning, first, first + count, fault) &&
	       sort_all(sorting, first, first + count, fault) &&
	       place_pending(sorting, fault);
}

bool
shore_finish(struct sorting *sorting, struct fault *fault)
{
	if (!place_parts(sorting, fault) || !sift_waits(sorting, fault)) {
		return false;
	}
	finish(sorting->planning);
	arena_reset(sorting->planning->scratch);
	return true;
}
