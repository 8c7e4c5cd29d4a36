/* Clocks that no rule gives: what the item's own papers say, and events. */
#include "due/inside.h"

/* What every reading of the item's own papers starts from. */
static struct reading
paper_reading(const char *id, enum task task, enum anchor anchor, struct stamp stamp)
{
	return (struct reading){
	    .rule_id = id,
	    .state = READING_RUNS,
	    .anchor = anchor,
	    .stamp = stamp,
	    .from = stamp_first(stamp),
	    .due = stamp_good_through(stamp),
	    .good_through = stamp_good_through(stamp),
	    .in_force = spans_always(),
	    .sure = spans_always(),
	    .grade = GRADE_MAKER,
	    .lapse = task == TASK_RENEW ? STATE_EXPIRED : STATE_OVERDUE,
	    .doer = task == TASK_RENEW ? DOER_OWNER : DOER_STATION,
	    .asks = "",
	};
}

/* Fills who does it, as the rules of the same task have it. The tasks whose record counts as
 * this one, as bits. */
static unsigned
take_from_rules(const struct assess *assess, enum task task, struct reading *reading)
{
	unsigned counts = 0;
	bool found = false;
	for (size_t i = 0; i < assess->rule_count; i++) {
		const struct rule *rule = assess->rules[i];
		if (rule->task != task) {
			continue;
		}
		if (!found) {
			reading->doer = rule->doer;
			found = true;
		}
		counts |= rule->counts;
	}
	return counts;
}

/* The days on which no rule in force reads the mark: on the others the rule has the day, in its
 * own shape and grade. */
static void
days_of_label(
    const struct assess *assess, const struct readings *readings, struct spans *out)
{
	*out = spans_always();
	for (size_t i = 0; i < readings->count; i++) {
		const struct reading *reading = &readings->items[i];
		if (reading->anchor == ANCHOR_MARKED) {
			if (reading->due != DAY_NONE) {
				spans_except(assess->arena, *out, reading->sure, out);
			}
		}
	}
}

/* A printed expiry counts on every day, whatever sheets are followed. */
static void
add_label(const struct assess *assess, struct readings *out)
{
	struct reading reading =
	    paper_reading("label", TASK_RENEW, ANCHOR_MARKED, assess->item->expires);
	if (assess->item->expires.precision == STAMP_NONE) {
		return;
	}
	days_of_label(assess, out, &reading.in_force);
	reading.sure = reading.in_force;
	(void)take_from_rules(assess, TASK_RENEW, &reading);
	reading.record = last_refit(assess->item);
	reading.source = "the date marked on it";
	if (reading.in_force.count != 0) {
		readings_add(assess->arena, out, &reading);
	}
}

/* The last record of the task that is a refit, or that is none; NULL without one. */
static const struct record *
last_of_task(const struct item *item, enum task task, bool refit)
{
	for (size_t i = item->record_count; i > 0; i--) {
		const struct record *record = &item->records[i - 1];
		if (record->task == task && record->refit == refit) {
			return record;
		}
	}
	return NULL;
}

/* The days on which a paper's next date still speaks: it ends with a record of another task and
 * a later day, on the days on which a rule of the paper's task counts that as doing it; a refit
 * ends that of a refit alone. What was done on the paper's own day was known to whoever
 * wrote it. */
static void
days_of_paper(const struct assess *assess, const struct force *forces,
    const struct record *paper, struct spans *out)
{
	const struct item *item = assess->item;
	const struct record *end = item->records + item->record_count;
	*out = spans_always();
	for (size_t i = 0; i < assess->rule_count; i++) {
		const struct rule *rule = assess->rules[i];
		bool counted = false;
		for (const struct record *later = paper + 1; later < end; later++) {
			counted = counted || ((paper->refit || !later->refit) &&
						 rule_counts(rule, later) &&
						 !stamp_same(later->on, paper->on));
		}
		if (counted && rule->task == paper->task && !rule_is_routine(rule)) {
			spans_except(assess->arena, *out, forces[i].spans, out);
		}
	}
}

/* The next date that a record's paper states. */
static void
add_certificate(const struct assess *assess, const struct force *forces, enum task task,
    const struct record *record, struct readings *out)
{
	if (record == NULL || record->next.precision == STAMP_NONE) {
		return;
	}
	struct reading reading =
	    paper_reading("certificate", task, ANCHOR_CERTIFICATE, record->next);
	days_of_paper(assess, forces, record, &reading.in_force);
	reading.sure = reading.in_force;
	unsigned counts = take_from_rules(assess, task, &reading);
	reading_extend(assess, task, counts, 0, &reading);
	reading.source = "the paper of the last record";
	if (reading.in_force.count != 0) {
		readings_add(assess->arena, out, &reading);
	}
}

/* The days on which no rule that reads this kind of event is surely in force. A rule of another
 * use or age names no task then, and yet what was used is out. */
static void
days_of_loose_event(const struct assess *assess, const struct force *forces,
    enum event_kind kind, struct spans *out)
{
	*out = spans_always();
	for (size_t i = 0; i < assess->rule_count; i++) {
		const struct rule *rule = assess->rules[i];
		bool reads = false;
		for (size_t j = 0; j < rule->clock_count; j++) {
			const struct clock_rule *clock = &rule->clocks[j];
			reads = reads || (clock->anchors[0] == ANCHOR_EVENT &&
					     (clock->events == 0 ||
						 (clock->events >> kind & 1U) != 0));
		}
		if (reads) {
			spans_except(assess->arena, *out, forces[i].spans, out);
		}
	}
}

/* An event that no rule deals with puts the item out until it was serviced. */
static void
add_loose_event(const struct assess *assess, const struct force *forces,
    enum event_kind kind, struct readings *out)
{
	const struct event *event = first_open_event(assess, 1U << kind, NULL);
	if (event == NULL) {
		return;
	}
	struct reading reading =
	    paper_reading("event", TASK_SERVICE, ANCHOR_EVENT, stamp_of_day(event->on));
	days_of_loose_event(assess, forces, kind, &reading.in_force);
	reading.sure = reading.in_force;
	reading.event = event;
	reading.due = event->on - 1;
	reading.good_through = reading.due;
	reading.source = "after use it is out until it has been serviced";
	if (reading.in_force.count != 0) {
		readings_add(assess->arena, out, &reading);
	}
}

static void
add_loose_events(
    const struct assess *assess, const struct force *forces, struct readings *out)
{
	for (int kind = 0; kind < EVENT_COUNT; kind++) {
		add_loose_event(assess, forces, (enum event_kind)kind, out);
	}
}

void
clocks_of_papers(const struct assess *assess, const struct force *forces, enum task task,
    struct readings *out)
{
	const struct item *item = assess->item;
	/* the paper of the thing and that of what was put in it since: the earlier counts */
	add_certificate(assess, forces, task, last_of_task(item, task, false), out);
	add_certificate(assess, forces, task, last_of_task(item, task, true), out);
	if (task == TASK_RENEW) {
		add_label(assess, out);
	}
	if (task == TASK_RENEW && item->hired_until != DAY_NONE) {
		struct reading reading = paper_reading(
		    "hire", task, ANCHOR_HIRE, stamp_of_day(item->hired_until));
		reading.source = "the last day of its hire";
		readings_add(assess->arena, out, &reading);
	}
	if (task == TASK_SERVICE) {
		add_loose_events(assess, forces, out);
	}
}
