/* Parts, and what their dates mean for what they are inside of. */
#include "due/inside.h"

/* The part's grade, or that of a more binding clock of it that runs out by its last good day. */
static enum grade
part_grade(const struct obligation *renewal, day_t today)
{
	enum grade grade = renewal->grade;
	day_t good = renewal->good_through;
	day_t seen = good == DAY_NEVER ? today : day_max(today, good + 1);
	for (size_t i = 0; i < renewal->reading_count; i++) {
		const struct reading *reading = &renewal->readings[i];
		if (reading_gives_a_day(reading) && reading->good_through <= good &&
		    reading->grade < grade && spans_have(reading->in_force, seen)) {
			grade = reading->grade;
		}
	}
	return grade;
}

/* A part's renewal read as one more clock of its parent, no less binding than the part's. */
static struct reading
part_reading(const struct rule *rule, const struct force *force,
    const struct obligation *renewal, const char *tag, day_t today)
{
	bool unknown = renewal->state == STATE_DATE_UNKNOWN;
	enum grade grade = unknown ? rule->grade : part_grade(renewal, today);
	return (struct reading){
	    .rule = rule,
	    .rule_id = rule->id,
	    .state = unknown ? READING_NOT_KNOWN : READING_RUNS,
	    .anchor = ANCHOR_CONTENTS,
	    .part = tag,
	    .from = renewal->due,
	    .due = renewal->due,
	    .good_through = renewal->good_through,
	    .in_force = force->perhaps,
	    .sure = force->spans,
	    .grade = grade < rule->grade ? grade : rule->grade,
	    .lapse = rule->lapse,
	    .doer = rule->doer,
	    .source = rule->source,
	    .asks = unknown ? "expires" : "",
	};
}

/* Leaves out the days on which the part will be in date again: its rule may hold for a time. */
static void
leave_out_gaps(const struct assess *assess, const struct obligation *renewal,
    struct reading *reading)
{
	struct span until = {DAY_NONE, renewal->good_through};
	struct spans days = {0};
	spans_one(assess->arena, until, &days);
	spans_either(assess->arena, days, renewal->lapsed, &days);
	spans_both(assess->arena, reading->in_force, days, &reading->in_force);
}

/* Reads the clocks of a part that its due day does not show: those by which it was lapsed
 * before its present lapse, for the whole was out on those days and may be out since;
 * and, where its date is unknown, those by which it has lapsed or will lapse, for that
 * much is known. */
static void
read_clocks_inside(const struct assess *assess, const struct force *force,
    const struct obligation *renewal, struct reading as_part, struct readings *out)
{
	day_t last = assess->today - 1;
	if (renewal->state == STATE_DATE_UNKNOWN) {
		last = DAY_NEVER;
	} else if (renewal->due != DAY_NONE) {
		last = day_min(last, renewal->due);
	}
	struct spans days = {0};
	spans_one(assess->arena, (struct span){DAY_NONE, last}, &days);
	spans_both(assess->arena, days, force->perhaps, &days);
	for (size_t i = 0; i < renewal->reading_count; i++) {
		const struct reading *inner = &renewal->readings[i];
		struct reading reading = as_part;
		if (!reading_gives_a_day(inner)) {
			continue;
		}
		spans_both(assess->arena, days, inner->in_force, &reading.in_force);
		if (spans_from(reading.in_force, inner->due + 1) == NULL) {
			continue; /* never lapsed by it */
		}
		bool holds = spans_from(reading.in_force, assess->today) != NULL;
		reading.state = holds ? READING_RUNS : READING_NOT_IN_FORCE;
		reading.sure = (struct spans){0};
		reading.from = inner->due;
		reading.due = inner->due;
		reading.good_through = inner->good_through;
		reading.grade = inner->grade < as_part.rule->grade ? inner->grade
								   : as_part.rule->grade;
		reading.asks = "";
		readings_add(assess->arena, out, &reading);
	}
}

void
clocks_of_part(const struct assess *assess, const struct rule *rule,
    const struct force *force, const struct part_dates *part, struct readings *out)
{
	for (size_t i = 0; i < part->count; i++) {
		const struct obligation *inner = &part->obligations[i];
		bool dated = inner->state == STATE_DATE_UNKNOWN || inner->due != DAY_NONE;
		if (inner->task != TASK_RENEW) {
			continue;
		}
		struct reading reading =
		    part_reading(rule, force, inner, part->tag, assess->today);
		read_clocks_inside(assess, force, inner, reading, out);
		if (reading.due != DAY_NONE) {
			leave_out_gaps(assess, inner, &reading);
		}
		if (dated) {
			readings_add(assess->arena, out, &reading);
		}
	}
}

void
due_index_parts(const struct inventory *inventory, struct arena *arena,
    const size_t **first_part_out, const size_t **next_part_out)
{
	size_t count = inventory->item_count;
	size_t *first = arena_alloc(arena, (count + 1) * sizeof *first);
	size_t *next = arena_alloc(arena, (count + 1) * sizeof *next);
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
}
