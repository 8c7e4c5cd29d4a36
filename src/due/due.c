/* Obligations: the clocks of one task put together. */
#include "due/due.h"

#include "due/assess.h"

#include <string.h>

/* Opens the case of one item, aboard the vessel it names. */
static struct assess
open_case(const struct due_engine *engine, size_t index, const struct item *item,
    day_t today, struct arena *arena)
{
	struct assess assess = {
	    .engine = engine,
	    .index = index,
	    .item = item,
	    .aboard = item->vessel,
	    .vessel = &engine->inventory->vessels[item->vessel],
	    .today = today,
	    .arena = arena,
	};
	assess.rules =
	    rulebook_for(engine->rulebooks[item->vessel], item->kind, &assess.rule_count);
	return assess;
}

/* Takes the days on which `rule` stands instead of others away from those others. */
static bool
stand_instead(const struct assess *assess, const struct rule *rule, struct spans days,
    struct force *forces, struct fault *fault)
{
	for (size_t i = 0; i < assess->rule_count; i++) {
		bool named = false;
		for (size_t j = 0; j < rule->instead_of_count; j++) {
			named = named ||
				strcmp(assess->rules[i]->id, rule->instead_of[j]) == 0;
		}
		if (named && !spans_except(assess->arena, forces[i].spans, days,
				 &forces[i].spans, fault)) {
			return false;
		}
	}
	return true;
}

/* When each rule is in force: the days its conditions hold, less the days of rules that
 * stand instead of it. In the arena, one a rule; NULL with the fault set on failure. */
static struct force *
rules_in_force(const struct assess *assess, struct fault *fault)
{
	size_t count = assess->rule_count;
	struct force *own = arena_alloc(assess->arena, (count + 1) * sizeof *own);
	struct force *forces = arena_alloc(assess->arena, (count + 1) * sizeof *forces);
	if (own == NULL || forces == NULL) {
		(void)fault_memory(fault);
		return NULL;
	}
	for (size_t i = 0; i < count; i++) {
		if (!conditions_hold(assess, &assess->rules[i]->when, &own[i], fault)) {
			return NULL;
		}
		forces[i] = own[i];
	}
	for (size_t i = 0; i < count; i++) {
		if (!stand_instead(
			assess, assess->rules[i], own[i].spans, forces, fault)) {
			return NULL;
		}
	}
	return forces;
}

/* The days on which a running clock makes the item lapsed. */
static bool
lapse_of(struct arena *arena, const struct reading *reading, struct spans *out,
    struct fault *fault)
{
	struct spans after = {0};
	struct span past = {reading->good_through + 1, DAY_NEVER};
	return spans_one(arena, past, &after, fault) &&
	       spans_both(arena, after, reading->in_force, out, fault);
}

static bool
in_force_on(const struct reading *reading, day_t day)
{
	return spans_have(reading->in_force, day);
}

/* True when the clock gives a day, be its rule in force from today on or only before: a lapse
 * may have begun under a rule that no longer holds. */
static bool
gives_a_day(const struct reading *reading)
{
	return reading->due != DAY_NONE;
}

/* The reading that makes the item lapsed on `day`: the one that ran out first, then the more
 * binding grade. NULL when none does. */
static const struct reading *
reading_that_lapses(const struct reading *readings, size_t count, day_t day)
{
	const struct reading *found = NULL;
	for (size_t i = 0; i < count; i++) {
		const struct reading *reading = &readings[i];
		if (!gives_a_day(reading) || reading->good_through >= day ||
		    !in_force_on(reading, day)) {
			continue;
		}
		if (found == NULL || reading->good_through < found->good_through ||
		    (reading->good_through == found->good_through &&
			reading->grade < found->grade)) {
			found = reading;
		}
	}
	return found;
}

/* True when the clocks in force today can't tell: none of them runs and some can't start. The
 * end of a hire says nothing of the thing's own dates. */
static bool
can_not_tell(const struct reading *readings, size_t count, day_t today)
{
	bool unknown = false;
	for (size_t i = 0; i < count; i++) {
		if (!in_force_on(&readings[i], today) ||
		    readings[i].anchor == ANCHOR_HIRE) {
			continue;
		}
		if (readings[i].state == READING_RUNS) {
			return false;
		}
		unknown = unknown || readings[i].state == READING_NOT_KNOWN ||
			  readings[i].state == READING_ASKS;
	}
	return unknown;
}

/* Reads the due day from the reading that decides. */
static void
bind(struct obligation *obligation, const struct reading *binding, day_t first_lapsed)
{
	obligation->binding = binding;
	obligation->good_through = first_lapsed - 1;
	bool by_its_own_clock = binding->good_through == first_lapsed - 1;
	obligation->due = by_its_own_clock ? binding->due : first_lapsed - 1;
	obligation->grade = binding->grade;
	obligation->doer = binding->doer;
}

static void
mark_longer_papers(struct reading *readings, size_t count, day_t due)
{
	for (size_t i = 0; i < count; i++) {
		readings[i].paper_allows_longer =
		    readings[i].anchor == ANCHOR_CERTIFICATE && !readings[i].binds &&
		    readings[i].state == READING_RUNS && readings[i].due > due;
	}
}

/* Decides state and due day of a task from its readings. */
static bool
decide(const struct assess *assess, struct reading *readings, size_t count,
    struct obligation *obligation, struct fault *fault)
{
	struct spans lapsed = {0};
	for (size_t i = 0; i < count; i++) {
		struct spans lapse = {0};
		obligation->asks = obligation->asks ||
				   readings[i].state == READING_NOT_KNOWN ||
				   readings[i].state == READING_ASKS;
		if (!gives_a_day(&readings[i])) {
			continue;
		}
		if (!lapse_of(assess->arena, &readings[i], &lapse, fault) ||
		    !spans_either(assess->arena, lapsed, lapse, &lapsed, fault)) {
			return false;
		}
	}
	obligation->lapsed = lapsed;
	obligation->due = DAY_NONE;
	obligation->good_through = DAY_NEVER;
	obligation->state = STATE_IN_DATE;
	if (can_not_tell(readings, count, assess->today)) {
		obligation->state = STATE_DATE_UNKNOWN;
		obligation->good_through = DAY_NONE;
		return true;
	}
	const struct span *lapse = spans_from(lapsed, assess->today);
	if (lapse == NULL) {
		return true;
	}
	/* What binds is in force today, even where the lapse began under another rule. */
	day_t seen = day_max(lapse->first, assess->today);
	const struct reading *binding = reading_that_lapses(readings, count, seen);
	readings[binding - readings].binds = true;
	bind(obligation, binding, lapse->first);
	if (lapse->first <= assess->today) {
		obligation->state = binding->lapse;
	}
	mark_longer_papers(readings, count, obligation->due);
	return true;
}

/* True when the readings make an obligation at all: something runs, could run, or was done
 * and is thereby settled. */
static bool
obliges(const struct reading *readings, size_t count, day_t today)
{
	for (size_t i = 0; i < count; i++) {
		bool counts = readings[i].state != READING_NOT_IN_FORCE;
		if (counts && spans_from(readings[i].in_force, today) != NULL) {
			return true;
		}
	}
	return false;
}

/* A part's renewal read as one more clock of its parent. */
static struct reading
part_reading(
    const struct rule *rule, const struct force *force, const struct obligation *renewal)
{
	bool unknown = renewal->state == STATE_DATE_UNKNOWN;
	return (struct reading){
	    .rule = rule,
	    .rule_id = rule->id,
	    .state = unknown ? READING_NOT_KNOWN : READING_RUNS,
	    .anchor = ANCHOR_CONTENTS,
	    .from = renewal->due,
	    .due = renewal->due,
	    .good_through = renewal->good_through,
	    .in_force = force->spans,
	    .grade = rule->grade,
	    .lapse = rule->lapse,
	    .doer = rule->doer,
	    .source = rule->source,
	    .asks = unknown ? "expires" : "",
	};
}

static bool
read_part(const struct assess *assess, const struct rule *rule, const struct force *force,
    size_t part, struct readings *out, struct fault *fault)
{
	/* Parts go where the whole goes. */
	const struct item *items = assess->engine->inventory->items;
	bool lent = assess->aboard != items[assess->index].vessel;
	size_t aboard = lent ? assess->aboard : items[part].vessel;
	struct obligation *obligations = NULL;
	size_t count = 0;
	if (!due_of_item_aboard(assess->engine, part, aboard, assess->today,
		assess->arena, &obligations, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		const struct obligation *inner = &obligations[i];
		bool dated = inner->state == STATE_DATE_UNKNOWN || inner->due != DAY_NONE;
		if (inner->task != TASK_RENEW || !dated) {
			continue;
		}
		struct reading reading = part_reading(rule, force, inner);
		if (!readings_add(assess->arena, out, &reading, fault)) {
			return false;
		}
	}
	return true;
}

/* Adds the dated parts as clocks of a rule whose contents bind. */
static bool
read_contents(const struct assess *assess, const struct rule *rule,
    const struct force *force, struct readings *out, struct fault *fault)
{
	const struct due_engine *engine = assess->engine;
	if (!rule->contents_bind || engine->first_part == NULL) {
		return true;
	}
	for (size_t part = engine->first_part[assess->index]; part != ITEM_NO_PARENT;
	     part = engine->next_part[part]) {
		if (!read_part(assess, rule, force, part, out, fault)) {
			return false;
		}
	}
	return true;
}

/* Gathers the readings of one task, routine or not, and decides. `*made_out` tells whether
 * there is an obligation. */
static bool
assess_task(const struct assess *assess, const struct force *forces, enum task task,
    bool routine, struct obligation *out, bool *made_out, struct fault *fault)
{
	struct readings readings = {0};
	const struct rule *first = NULL;
	for (size_t i = 0; i < assess->rule_count; i++) {
		const struct rule *rule = assess->rules[i];
		if (rule->task != task || rule_is_routine(rule) != routine) {
			continue;
		}
		if (!clocks_of_rule(assess, rule, &forces[i], &readings, fault) ||
		    !read_contents(assess, rule, &forces[i], &readings, fault)) {
			return false;
		}
		bool holds = spans_from(forces[i].perhaps, assess->today) != NULL;
		first = first == NULL && holds ? rule : first;
	}
	if (!routine && !clocks_of_papers(assess, task, &readings, fault)) {
		return false;
	}
	*made_out = obliges(readings.items, readings.count, assess->today);
	if (!*made_out) {
		return true;
	}
	struct obligation obligation = {
	    .item = assess->index,
	    .task = task,
	    .routine = routine,
	    .grade = first == NULL ? GRADE_MAKER : first->grade,
	    .doer = first == NULL ? DOER_STATION : first->doer,
	    .readings = readings.items,
	    .reading_count = readings.count,
	};
	if (!decide(assess, readings.items, readings.count, &obligation, fault)) {
		return false;
	}
	*out = obligation;
	return true;
}

/* All obligations of the case, in task order. */
static bool
assess_item(const struct assess *assess, struct obligation **out, size_t *count_out,
    struct fault *fault)
{
	struct force *forces = rules_in_force(assess, fault);
	struct obligation *obligations =
	    arena_alloc(assess->arena, 2 * (size_t)TASK_COUNT * sizeof *obligations);
	if (forces == NULL) {
		return false;
	}
	if (obligations == NULL) {
		return fault_memory(fault);
	}
	size_t count = 0;
	for (int task = 0; task < TASK_COUNT; task++) {
		for (int routine = 0; routine < 2; routine++) {
			bool made = false;
			if (!assess_task(assess, forces, (enum task)task, routine == 1,
				&obligations[count], &made, fault)) {
				return false;
			}
			count += made ? 1 : 0;
		}
	}
	*out = obligations;
	*count_out = count;
	return true;
}

/* How many of an item's records, which are in the order of their days, are of `day` or
 * before. What is recorded for a day to come has not been done yet. */
static size_t
records_by(const struct item *item, day_t day)
{
	size_t count = item->record_count;
	while (count > 0 && stamp_first(item->records[count - 1].on) > day) {
		count--;
	}
	return count;
}

bool
due_of_item_aboard(const struct due_engine *engine, size_t item, size_t vessel,
    day_t today, struct arena *arena, struct obligation **out, size_t *count_out,
    struct fault *fault)
{
	const struct item *gear = &engine->inventory->items[item];
	if (gear->state == PLACE_WITHDRAWN) {
		*out = NULL;
		*count_out = 0;
		return true;
	}
	struct item seen = *gear;
	seen.vessel = vessel;
	seen.record_count = records_by(gear, today);
	struct assess assess = open_case(engine, item, &seen, today, arena);
	return assess_item(&assess, out, count_out, fault);
}

bool
due_of_item(const struct due_engine *engine, size_t item, day_t today,
    struct arena *arena, struct obligation **out, size_t *count_out, struct fault *fault)
{
	return due_of_item_aboard(engine, item, engine->inventory->items[item].vessel,
	    today, arena, out, count_out, fault);
}

bool
due_item_after(const struct item *item, enum task task, day_t done, struct arena *arena,
    struct item *out, struct fault *fault)
{
	struct item after = *item;
	if (task == TASK_RENEW) {
		struct stamp none = {0};
		after.made = none;
		after.packed = none;
		after.bought = none;
		after.expires = none;
		after.fitted = stamp_of_day(done);
		after.record_count = 0;
		after.event_count = 0;
		*out = after;
		return true;
	}
	struct record *records =
	    arena_alloc(arena, (item->record_count + 1) * sizeof *records);
	if (records == NULL) {
		return fault_memory(fault);
	}
	size_t count = records_by(item, done);
	for (size_t i = 0; i < count; i++) {
		records[i] = item->records[i];
	}
	records[count] = (struct record){
	    .task = task,
	    .on = stamp_of_day(done),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1,
	};
	after.records = records;
	after.record_count = count + 1;
	*out = after;
	return true;
}

bool
due_if_done_seen(const struct due_engine *engine, size_t item, enum task task, day_t done,
    day_t seen, struct arena *arena, struct obligation *out, struct fault *fault)
{
	struct item after = {0};
	if (!due_item_after(
		&engine->inventory->items[item], task, done, arena, &after, fault)) {
		return false;
	}
	struct assess assess = open_case(engine, item, &after, seen, arena);
	const struct force *forces = rules_in_force(&assess, fault);
	bool made = false;
	struct obligation obligation = {.item = item, .task = task};
	if (forces == NULL ||
	    !assess_task(&assess, forces, task, false, &obligation, &made, fault)) {
		return false;
	}
	if (!made) {
		obligation.state = STATE_IN_DATE;
		obligation.due = DAY_NONE;
		obligation.good_through = DAY_NEVER;
	}
	*out = obligation;
	return true;
}

bool
due_if_done(const struct due_engine *engine, size_t item, enum task task, day_t done,
    struct arena *arena, struct obligation *out, struct fault *fault)
{
	return due_if_done_seen(engine, item, task, done, done, arena, out, fault);
}

enum state
obligation_state_on(const struct obligation *obligation, day_t day)
{
	const struct span *lapse = spans_from(obligation->lapsed, day);
	if (obligation->state == STATE_DATE_UNKNOWN) {
		return STATE_DATE_UNKNOWN;
	}
	if (lapse == NULL || lapse->first > day) {
		return STATE_IN_DATE;
	}
	const struct reading *reading =
	    reading_that_lapses(obligation->readings, obligation->reading_count, day);
	return reading == NULL ? STATE_OVERDUE : reading->lapse;
}

bool
due_index_parts(const struct inventory *inventory, struct arena *arena,
    const size_t **first_part_out, const size_t **next_part_out, struct fault *fault)
{
	size_t count = inventory->item_count;
	size_t *first = arena_alloc(arena, (count + 1) * sizeof *first);
	size_t *next = arena_alloc(arena, (count + 1) * sizeof *next);
	if (first == NULL || next == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < count; i++) {
		first[i] = ITEM_NO_PARENT;
		next[i] = ITEM_NO_PARENT;
	}
	for (size_t i = count; i > 0; i--) {
		size_t parent = inventory->items[i - 1].parent;
		if (parent != ITEM_NO_PARENT) {
			next[i - 1] = first[parent];
			first[parent] = i - 1;
		}
	}
	*first_part_out = first;
	*next_part_out = next;
	return true;
}
