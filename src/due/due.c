/* Obligations: the clocks of one task put together, of what is and of what would be. */
#include "due/due.h"

#include "due/inside.h"

#include <limits.h>

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
	    .serviced = DAY_NONE,
	};
	assess.rules =
	    rulebook_for(engine->rulebooks[item->vessel], item->kind, &assess.rule_count);
	return assess;
}

static void obligations_aboard(const struct due_engine *engine, struct item_aboard aboard,
    bool over_too, struct arena *arena, struct obligation **out, size_t *count_out);

/* Adds the dated parts as clocks of a rule whose contents bind. Parts go where the whole goes. */
static void
clocks_of_contents(const struct assess *assess, const struct rule *rule,
    const struct force *force, struct readings *out)
{
	const struct due_engine *engine = assess->engine;
	const struct item *items = engine->inventory->items;
	bool lent = assess->aboard != items[assess->index].vessel;
	if (!rule->contents_bind || engine->first_part == NULL) {
		return;
	}
	for (size_t part = engine->first_part[assess->index]; part != ITEM_NO_PARENT;
	     part = engine->next_part[part]) {
		size_t vessel = lent ? assess->aboard : items[part].vessel;
		struct item_aboard seen = {part, vessel, assess->today};
		struct part_dates dates = {.tag = items[part].tag};
		struct obligation *obligations = NULL;
		struct obligation anew = {0};
		if (assess->serviced == DAY_NONE) {
			obligations_aboard(engine, seen, true, assess->arena,
			    &obligations, &dates.count);
		} else if (items[part].state != PLACE_WITHDRAWN) {
			due_if_done(engine, part, TASK_RENEW, assess->serviced,
			    assess->arena, &anew);
			obligations = &anew;
			dates.count = anew.state == STATE_IN_DATE ? 1 : 0;
		}
		dates.obligations = obligations;
		clocks_of_part(assess, rule, force, &dates, out);
	}
}

/* Gathers the readings of one task, routine or not, and decides. `*made_out` tells whether
 * there is an obligation. */
static void
assess_task(const struct assess *assess, const struct force *forces, enum task task,
    bool routine, struct obligation *out, bool *made_out)
{
	struct readings readings = {0};
	const struct rule *first = NULL;
	bool maker = maker_speaks(assess->item, task, routine);
	for (size_t i = 0; i < assess->rule_count; i++) {
		const struct rule *rule = assess->rules[i];
		if (rule->task != task || rule_is_routine(rule) != routine) {
			continue;
		}
		size_t before = readings.count;
		clocks_of_rule(assess, rule, &forces[i], &readings);
		if (maker && rule->grade == GRADE_PRACTICE) {
			readings_replace(&readings, before);
		}
		clocks_of_contents(assess, rule, &forces[i], &readings);
		bool holds = spans_from(forces[i].perhaps, assess->today) != NULL;
		first = first == NULL && holds ? rule : first;
	}
	clocks_of_maker(assess, forces, task, routine, &readings);
	if (!routine) {
		clocks_of_papers(assess, forces, task, &readings);
	}
	*made_out = assess->over_too ||
		    readings_oblige(readings.items, readings.count, assess->today);
	if (!*made_out) {
		return;
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
	readings_decide(assess, readings.items, readings.count, &obligation);
	*out = obligation;
}

/* The bit of a task, routine or not. */
static unsigned
task_bit(enum task task, bool routine)
{
	return 1U << (2 * (unsigned)task + (routine ? 1 : 0));
}

/* Bits of the tasks that anything may be read of: others oblige to nothing. Of most there is
 * no rule. */
static unsigned
tasks_spoken_of(const struct assess *assess)
{
	const struct item *item = assess->item;
	unsigned tasks = task_bit(TASK_RENEW, false);
	if (assess->over_too || item->interval_count > 0) {
		return UINT_MAX;
	}
	for (size_t i = 0; i < assess->rule_count; i++) {
		const struct rule *rule = assess->rules[i];
		tasks |= task_bit(rule->task, rule_is_routine(rule));
	}
	for (size_t i = 0; i < item->record_count; i++) {
		tasks |= task_bit(item->records[i].task, false);
	}
	return item->event_count > 0 ? tasks | task_bit(TASK_SERVICE, false) : tasks;
}

/* All obligations of the case, in task order. */
static void
assess_item(const struct assess *assess, struct obligation **out, size_t *count_out)
{
	struct force *forces = rules_in_force(assess);
	struct obligation *obligations =
	    arena_alloc(assess->arena, 2 * (size_t)TASK_COUNT * sizeof *obligations);
	size_t count = 0;
	unsigned spoken_of = tasks_spoken_of(assess);
	for (int task = 0; task < TASK_COUNT; task++) {
		for (int routine = 0; routine < 2; routine++) {
			bool made = false;
			if ((spoken_of & task_bit((enum task)task, routine == 1)) == 0) {
				continue;
			}
			assess_task(assess, forces, (enum task)task, routine == 1,
			    &obligations[count], &made);
			count += made ? 1 : 0;
		}
	}
	*out = obligations;
	*count_out = count;
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

/* What due_of_item_aboard gives; with `over_too` also what nothing asks for any more. */
static void
obligations_aboard(const struct due_engine *engine, struct item_aboard aboard,
    bool over_too, struct arena *arena, struct obligation **out, size_t *count_out)
{
	const struct item *gear = &engine->inventory->items[aboard.item];
	if (gear->state == PLACE_WITHDRAWN) {
		*out = NULL;
		*count_out = 0;
		return;
	}
	struct item seen = *gear;
	seen.vessel = aboard.vessel;
	seen.record_count = records_by(gear, aboard.today);
	struct assess assess = open_case(engine, aboard.item, &seen, aboard.today, arena);
	assess.over_too = over_too;
	assess_item(&assess, out, count_out);
}

void
due_of_item_aboard(const struct due_engine *engine, struct item_aboard aboard,
    struct arena *arena, struct obligation **out, size_t *count_out)
{
	obligations_aboard(engine, aboard, false, arena, out, count_out);
}

void
due_of_item(const struct due_engine *engine, size_t item, day_t today,
    struct arena *arena, struct obligation **out, size_t *count_out)
{
	size_t vessel = engine->inventory->items[item].vessel;
	due_of_item_aboard(
	    engine, (struct item_aboard){item, vessel, today}, arena, out, count_out);
}

/* A new thing is not the one the maker's interval was known of before. */
static void
drop_intervals(struct item *item, day_t renewed)
{
	while (item->interval_count > 0 && item->intervals->on < renewed) {
		item->intervals++;
		item->interval_count--;
	}
}

struct record
due_record(enum task task, day_t done)
{
	return (struct record){
	    .task = task,
	    .on = stamp_of_day(done),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1,
	    .entered = INT64_MAX, /* after all that is on record */
	};
}

/* A copy of an item with one more record, which ends what is known of it. */
static void
add_record(const struct item *item, const struct record *record, struct arena *arena,
    struct item *out)
{
	size_t count = records_by(item, stamp_first(record->on));
	struct record *records = ARENA_MANY(arena, struct record, count + 1);
	for (size_t i = 0; i < count; i++) {
		records[i] = item->records[i];
	}
	records[count] = *record;
	*out = *item;
	out->records = records;
	out->record_count = count + 1;
}

/* Makes the item another one, of which nothing is known but when it was fitted. */
static void
renew(struct item *item, day_t done)
{
	const struct stamp none = {0};
	item->made = none;
	item->packed = none;
	item->bought = none;
	item->expires = none;
	item->fitted = stamp_of_day(done);
	item->extension_count = 0;
	while (item->event_count > 0 && item->events->on <= done) {
		item->events++;
		item->event_count--;
	}
	drop_intervals(item, done);
}

bool
due_refits(const struct due_engine *engine, const struct item *item)
{
	const struct renewal_rules renewals =
	    rulebook_renewals(engine->rulebooks[item->vessel], item->kind);
	return renewals.refits > 0 && renewals.refits == renewals.count &&
	       item_interval(item, TASK_RENEW) == NULL;
}

void
due_item_after(const struct item *item, enum task task, day_t done, bool refit,
    struct arena *arena, struct item *out)
{
	struct item before = *item;
	struct record record = due_record(task, done);
	record.refit = task == TASK_RENEW && refit;
	if (record.refit) {
		before.expires = (struct stamp){0};
	} else if (task == TASK_RENEW) {
		before.record_count = 0;
		renew(&before, done);
	}
	add_record(&before, &record, arena, out);
}

void
due_if_done_seen(const struct due_engine *engine, size_t item, struct task_done what,
    struct arena *arena, struct obligation *out)
{
	struct item after = {0};
	const struct item *gear = &engine->inventory->items[item];
	due_item_after(
	    gear, what.task, what.done, due_refits(engine, gear), arena, &after);
	struct assess assess = open_case(engine, item, &after, what.seen, arena);
	assess.serviced = what.task == TASK_SERVICE ? what.done : DAY_NONE;
	const struct force *forces = rules_in_force(&assess);
	bool made = false;
	struct obligation obligation = {.item = item, .task = what.task};
	assess_task(&assess, forces, what.task, false, &obligation, &made);
	if (!made) {
		obligation.state = STATE_IN_DATE;
		obligation.due = DAY_NONE;
		obligation.good_through = DAY_NEVER;
	}
	*out = obligation;
}

void
due_if_done(const struct due_engine *engine, size_t item, enum task task, day_t done,
    struct arena *arena, struct obligation *out)
{
	due_if_done_seen(engine, item, (struct task_done){task, done, done}, arena, out);
}

day_t
due_again(const struct due_engine *engine, size_t item, enum task task, day_t done,
    struct arena *arena)
{
	struct obligation again;
	due_if_done(engine, item, task, done, arena, &again);
	if (again.state != STATE_IN_DATE) {
		return DAY_NONE;
	}
	return again.due == DAY_NONE ? DAY_NEVER : again.due;
}
