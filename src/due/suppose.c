#include "due/suppose.h"

/* Takes what the supposition says over into a period that starts on or after its day. */
static void
apply(const struct supposition *supposition, unsigned says, struct period *period)
{
	if ((says & SAYS_USE) != 0) {
		period->use = supposition->use;
	}
	if ((says & SAYS_AREA) != 0) {
		period->area = supposition->area;
	}
	if ((says & SAYS_PERSONS) != 0) {
		period->persons = supposition->persons;
	}
	if ((says & SAYS_SHEETS) != 0) {
		period->sheets = supposition->sheets;
		period->sheet_count = supposition->sheet_count;
	}
}

/* Where sheets are supposed from a day on, her own are named in every period. */
static void
follow(const struct vessel *vessel, const struct supposition *supposition,
    struct period *period)
{
	bool supposed = (supposition->says & SAYS_SHEETS) != 0;
	if (supposed && supposition->sheet_count == 0) {
		period->sheet_count = 0;
	} else if (supposed && period->sheet_count == 0) {
		period->sheets = vessel->sheets;
		period->sheet_count = vessel->sheet_count;
	}
}

void
vessel_suppose(const struct vessel *vessel, const struct supposition *supposition,
    struct arena *arena, struct vessel *out)
{
	struct period *periods =
	    arena_alloc(arena, (vessel->period_count + 1) * sizeof *periods);
	size_t count = 0;
	size_t i = 0;
	while (i < vessel->period_count && vessel->periods[i].from <= supposition->from) {
		periods[count] = vessel->periods[i++];
		follow(vessel, supposition, &periods[count++]);
	}
	/* her first period is from before all days */
	if (periods[count - 1].from < supposition->from) {
		periods[count] = periods[count - 1];
		periods[count].from = supposition->from;
		periods[count].says = 0;
		count++;
	}
	apply(supposition, supposition->says, &periods[count - 1]);
	periods[count - 1].says |= supposition->says;
	unsigned left = supposition->says;
	for (; i < vessel->period_count; i++) {
		periods[count] = vessel->periods[i];
		follow(vessel, supposition, &periods[count]);
		left &= ~vessel->periods[i].says;
		apply(supposition, left, &periods[count]);
		count++;
	}
	*out = *vessel;
	out->periods = periods;
	out->period_count = count;
}

static const struct obligation *
find_task(
    const struct obligation *obligations, size_t count, enum task task, bool routine)
{
	for (size_t i = 0; i < count; i++) {
		if (obligations[i].task == task && obligations[i].routine == routine) {
			return &obligations[i];
		}
	}
	return NULL;
}

static struct change_side
side_of(const struct obligation *obligation)
{
	if (obligation == NULL || obligation_is_idle(obligation)) {
		return (struct change_side){.state = STATE_IN_DATE,
		    .due = DAY_NONE,
		    .good_through = DAY_NEVER,
		    .rule = "",
		    .missing = ""};
	}
	const struct reading *binding = obligation->binding;
	return (struct change_side){
	    .there = true,
	    .state = obligation->state,
	    .due = obligation->due,
	    .good_through = obligation->good_through,
	    .grade = obligation->grade,
	    .rule = binding == NULL ? "" : binding->rule_id,
	    .missing = obligation_asks(obligation),
	};
}

/* The obligations of one item from the three points of view. */
struct views {
	struct obligation *now;
	size_t now_count;
	struct obligation *then; /* as she would be, seen from today */
	size_t then_count;
	struct obligation *day; /* as she would be, seen on the day of the switch */
	size_t day_count;
};

static day_t
looked_at(const struct what_if *what_if)
{
	return day_max(what_if->from, what_if->today);
}

static void
open_views(
    const struct what_if *what_if, size_t item, struct arena *arena, struct views *out)
{
	due_of_item(
	    what_if->now, item, what_if->today, arena, &out->now, &out->now_count);
	due_of_item(
	    what_if->then, item, what_if->today, arena, &out->then, &out->then_count);
	due_of_item(
	    what_if->then, item, looked_at(what_if), arena, &out->day, &out->day_count);
}

/* Whether the task done on `done` would be in date on the day of the switch. What is printed
 * on a new thing is not known before it is bought: whoever buys it sees to that. */
static void
carries(const struct what_if *what_if, const struct change *change, day_t done,
    struct arena *arena, bool *carries_out, bool *printed_out)
{
	struct obligation after = {0};
	due_if_done_seen(what_if->then, change->item,
	    (struct task_done){change->task, done, looked_at(what_if)}, arena, &after);
	*printed_out = change->task == TASK_RENEW && after.state == STATE_DATE_UNKNOWN;
	*carries_out = after.state == STATE_IN_DATE;
}

/* Finds between which days the task must be done. A routine is done every few days anyway;
 * due_if_done does not speak of it. */
static void
find_days(const struct what_if *what_if, struct arena *arena, struct change *change)
{
	day_t high = day_max(what_if->from - 1, what_if->today);
	day_t low = what_if->today;
	bool holds = false;
	bool printed = false;
	change->by = high;
	if (change->routine) {
		return;
	}
	carries(what_if, change, high, arena, &holds, &printed);
	change->printed = printed;
	if (printed) {
		return;
	}
	if (!holds) {
		change->cannot = true;
		change->by = DAY_NONE;
		return;
	}
	while (low < high) {
		day_t middle = low + (high - low) / 2;
		carries(what_if, change, middle, arena, &holds, &printed);
		if (holds) {
			high = middle;
		} else {
			low = middle + 1;
		}
	}
	change->not_before = low;
}

static void
change_of_task(const struct what_if *what_if, const struct views *views,
    struct arena *arena, struct change *change)
{
	const struct obligation *day =
	    find_task(views->day, views->day_count, change->task, change->routine);
	struct change_side on_the_day = side_of(day);
	change->now = side_of(
	    find_task(views->now, views->now_count, change->task, change->routine));
	change->then = side_of(
	    find_task(views->then, views->then_count, change->task, change->routine));
	change->on_the_day = on_the_day.state;
	change->must = on_the_day.there && on_the_day.state != STATE_IN_DATE;
	change->not_before = DAY_NONE;
	change->by = DAY_NONE;
	if (change->must) {
		find_days(what_if, arena, change);
	}
}

void
changes_of_item(
    const struct what_if *what_if, size_t item, struct arena *arena, struct changes *out)
{
	struct views views = {0};
	struct change *changes =
	    arena_alloc(arena, 2 * (size_t)TASK_COUNT * sizeof *changes);
	open_views(what_if, item, arena, &views);
	size_t count = 0;
	for (int task = 0; task < TASK_COUNT; task++) {
		for (int routine = 0; routine < 2; routine++) {
			struct change *change = &changes[count];
			*change = (struct change){.item = item,
			    .task = (enum task)task,
			    .routine = routine == 1};
			change_of_task(what_if, &views, arena, change);
			bool there =
			    change->now.there || change->then.there || change->must;
			count += there ? 1 : 0;
		}
	}
	*out = (struct changes){changes, count};
}

void
changes_add(const struct what_if *what_if, size_t item, bool routine, struct arena *arena,
    struct change_rows *rows)
{
	SCOPED_ARENA scratch = {0};
	struct changes changes = {0};
	changes_of_item(what_if, item, &scratch, &changes);
	for (size_t i = 0; i < changes.count; i++) {
		if (!changes.items[i].routine || routine) {
			ARENA_ROOM(arena, rows);
			rows->items[rows->count++] = changes.items[i];
		}
	}
}

bool
change_matters(const struct change *change)
{
	return change->now.there != change->then.there ||
	       change->now.state != change->then.state ||
	       change->now.due != change->then.due ||
	       change->now.good_through != change->then.good_through;
}
