/* Clocks read for one item: what they count from, and where that leads. */
#include "due/assess.h"

bool
rule_counts(const struct rule *rule, enum task done)
{
	return rule->task == done || (rule->counts & 1U << done) != 0;
}

bool
readings_add(struct arena *arena, struct readings *readings,
    const struct reading *reading, struct fault *fault)
{
	if (!ARENA_ROOM(arena, readings, fault)) {
		return false;
	}
	readings->items[readings->count++] = *reading;
	return true;
}

day_t
clock_due(const struct clock_rule *clock, day_t from)
{
	day_t due =
	    clock->days > 0 ? from + clock->days : day_add_months(from, clock->months);
	switch (clock->through) {
	case THROUGH_DAY:
		break;
	case THROUGH_MONTH_END:
		due = day_month_end(due);
		break;
	case THROUGH_YEAR_END:
		due = day_year_end(due);
		break;
	}
	return clock->before ? due - 1 : due;
}

static const struct record *
last_record(const struct item *item, const struct rule *rule)
{
	for (size_t i = item->record_count; i > 0; i--) {
		if (rule_counts(rule, item->records[i - 1].task)) {
			return &item->records[i - 1];
		}
	}
	return NULL;
}

static int
times_done(const struct item *item, const struct rule *rule)
{
	int times = 0;
	for (size_t i = 0; i < item->record_count; i++) {
		times += rule_counts(rule, item->records[i].task) ? 1 : 0;
	}
	return times;
}

static bool
clock_holds(const struct clock_rule *clock, int times)
{
	return times >= clock->done_from && times <= clock->done_until;
}

static struct stamp
own_stamp(const struct item *item, enum anchor anchor)
{
	switch (anchor) {
	case ANCHOR_MADE:
		return item->made;
	case ANCHOR_PACKED:
		return item->packed;
	case ANCHOR_BOUGHT:
		return item->bought;
	case ANCHOR_FITTED:
		return item->fitted;
	case ANCHOR_MARKED:
		return item->expires;
	case ANCHOR_LAST:
	case ANCHOR_EVENT:
	case ANCHOR_CERTIFICATE:
	case ANCHOR_CONTENTS:
	case ANCHOR_HIRE:
		break;
	}
	return (struct stamp){0};
}

/* The newest event a clock speaks of that the rule's task has not followed; NULL when there
 * is none. A record of the event's own day counts as having followed it when it names that
 * day; a coarse one is in doubt and does not. */
static const struct event *
open_event(const struct item *item, const struct rule *rule, unsigned events)
{
	const struct record *record = last_record(item, rule);
	day_t dealt = record == NULL ? DAY_NONE : stamp_first(record->on);
	for (size_t i = item->event_count; i > 0; i--) {
		const struct event *event = &item->events[i - 1];
		bool meant = events == 0 || (events & 1U << event->kind) != 0;
		if (meant && event->on > dealt) {
			return event;
		}
	}
	return NULL;
}

/* What a person would have to enter for an anchor to be known. */
static const char *
anchor_asks(enum anchor anchor)
{
	switch (anchor) {
	case ANCHOR_MADE:
	case ANCHOR_PACKED:
	case ANCHOR_BOUGHT:
	case ANCHOR_FITTED:
		return anchor_word(anchor);
	case ANCHOR_LAST:
		return "served";
	case ANCHOR_MARKED:
	case ANCHOR_CONTENTS:
		return "expires";
	case ANCHOR_CERTIFICATE:
		return "next";
	case ANCHOR_EVENT:
	case ANCHOR_HIRE:
		break;
	}
	return "";
}

static day_t
earliest_due(const struct item *item, const struct rule *rule, day_t last, int times)
{
	day_t earliest = DAY_NEVER;
	for (size_t i = 0; i < rule->clock_count; i++) {
		const struct clock_rule *clock = &rule->clocks[i];
		if (!clock_holds(clock, times)) {
			continue;
		}
		for (size_t j = 0; j < clock->anchor_count; j++) {
			day_t from =
			    clock->anchors[j] == ANCHOR_LAST
				? last
				: stamp_first(own_stamp(item, clock->anchors[j]));
			if (from != DAY_NONE) {
				earliest = day_min(earliest, clock_due(clock, from));
				break;
			}
		}
	}
	return earliest;
}

/* The day the `last` clocks count from where a rule keeps the anniversary: done inside or
 * after its window the old due day stays, done before the window the clock restarts. Replays
 * the records, since each due day depends on the one before. */
static day_t
anniversary_base(const struct item *item, const struct rule *rule)
{
	day_t base = DAY_NONE;
	int times = 0;
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		if (!rule_counts(rule, record->task)) {
			continue;
		}
		day_t done = stamp_first(record->on);
		day_t due = earliest_due(item, rule, base, times);
		bool early = due == DAY_NEVER ||
			     done < day_add_months(due, -rule->window.early_months);
		base = early ? done : due;
		times++;
		/* So late that whole intervals were missed: keep the anniversary's day, in the
		 * interval the work was done in. */
		day_t next = earliest_due(item, rule, base, times);
		while (!early && next != DAY_NEVER && next > base && next <= done) {
			base = next;
			next = earliest_due(item, rule, base, times);
		}
	}
	return base;
}

/* Fills anchor, stamp and from for the first anchor that is known. False when none is. */
static bool
find_anchor(const struct assess *assess, const struct rule *rule,
    const struct clock_rule *clock, struct reading *reading)
{
	const struct item *item = assess->item;
	const struct record *record = last_record(item, rule);
	for (size_t i = 0; i < clock->anchor_count; i++) {
		enum anchor anchor = clock->anchors[i];
		struct stamp stamp = own_stamp(item, anchor);
		if (anchor == ANCHOR_LAST && record != NULL) {
			stamp = record->on;
		} else if (anchor == ANCHOR_CERTIFICATE && record != NULL) {
			stamp = record->next;
		}
		if (stamp.precision == STAMP_NONE) {
			continue;
		}
		reading->anchor = anchor;
		reading->stamp = stamp;
		reading->from = clock->stamp_end ? stamp_last(stamp) : stamp_first(stamp);
		if (anchor == ANCHOR_LAST && rule->window.from_due) {
			reading->from = anniversary_base(item, rule);
		}
		return true;
	}
	reading->anchor = clock->anchors[0];
	return false;
}

/* A mark or a paper's next date is good through its last day, worded as it is; "strictly
 * before" ends on the day before the marked period starts. */
static day_t
marked_due(const struct clock_rule *clock, struct stamp mark)
{
	if (clock->before) {
		return day_min(stamp_good_through(mark), stamp_first(mark) - 1);
	}
	return clock_due(clock, stamp_good_through(mark));
}

static day_t
reading_due(const struct clock_rule *clock, const struct reading *reading)
{
	bool marked =
	    reading->anchor == ANCHOR_MARKED || reading->anchor == ANCHOR_CERTIFICATE;
	return marked ? marked_due(clock, reading->stamp)
		      : clock_due(clock, reading->from);
}

/* The extension that reaches past a due day, cut to what the rules allow; NULL when none. */
static const struct extension *
extend(const struct item *item, enum task task, int most_months, struct reading *reading)
{
	const struct extension *found = NULL;
	for (size_t i = 0; i < item->extension_count && most_months > 0; i++) {
		const struct extension *extension = &item->extensions[i];
		day_t until =
		    day_min(extension->until, day_add_months(reading->due, most_months));
		if (extension->task == task && until > reading->good_through) {
			reading->good_through = until;
			found = extension;
		}
	}
	return found;
}

/* An event puts the item out from its own day on, unless the clock gives time. */
static bool
read_event(const struct assess *assess, const struct rule *rule,
    const struct clock_rule *clock, struct reading *reading)
{
	const struct event *event = open_event(assess->item, rule, clock->events);
	if (event == NULL) {
		return false;
	}
	bool at_once = clock->months == 0 && clock->days == 0;
	reading->anchor = ANCHOR_EVENT;
	reading->stamp = stamp_of_day(event->on);
	reading->from = event->on;
	reading->due = at_once ? event->on - 1 : clock_due(clock, event->on);
	reading->good_through = reading->due;
	reading->state = READING_RUNS;
	return true;
}

static void
read_clock(const struct assess *assess, const struct rule *rule,
    const struct clock_rule *clock, struct reading *reading)
{
	if (!clock_holds(clock, times_done(assess->item, rule))) {
		reading->state = READING_DONE;
		reading->anchor = clock->anchors[0];
		return;
	}
	if (!find_anchor(assess, rule, clock, reading)) {
		reading->state = READING_NOT_KNOWN;
		reading->asks = anchor_asks(reading->anchor);
		return;
	}
	reading->state = READING_RUNS;
	reading->due = reading_due(clock, reading);
	reading->good_through = day_add_months(reading->due, rule->window.late_months);
	reading->extension =
	    extend(assess->item, rule->task, rule->extension_months, reading);
}

/* What every reading of a rule starts from. */
static struct reading
blank_reading(const struct rule *rule, const struct force *force)
{
	return (struct reading){
	    .rule = rule,
	    .rule_id = rule->id,
	    .from = DAY_NONE,
	    .due = DAY_NONE,
	    .good_through = DAY_NONE,
	    .in_force = force->spans,
	    .grade = rule->grade,
	    .lapse = rule->lapse,
	    .doer = rule->doer,
	    .source = rule->source,
	    .asks = "",
	};
}

bool
clocks_of_rule(const struct assess *assess, const struct rule *rule,
    const struct force *force, struct readings *out, struct fault *fault)
{
	bool holds = spans_from(force->spans, assess->today) != NULL;
	for (size_t i = 0; i < rule->clock_count; i++) {
		const struct clock_rule *clock = &rule->clocks[i];
		struct reading reading = blank_reading(rule, force);
		reading.months = clock->months;
		reading.days = clock->days;
		if (clock->anchors[0] == ANCHOR_EVENT) {
			if (!read_event(assess, rule, clock, &reading)) {
				continue;
			}
		} else {
			read_clock(assess, rule, clock, &reading);
		}
		if (!holds && force->asks[0] != '\0' && reading.state != READING_DONE) {
			reading.state = READING_ASKS;
			reading.asks = force->asks;
			reading.in_force = force->perhaps;
		} else if (!holds) {
			reading.state = READING_NOT_IN_FORCE;
		}
		if (!readings_add(assess->arena, out, &reading, fault)) {
			return false;
		}
	}
	return true;
}

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
	    .grade = GRADE_MAKER,
	    .lapse = task == TASK_RENEW ? STATE_EXPIRED : STATE_OVERDUE,
	    .doer = task == TASK_RENEW ? DOER_OWNER : DOER_STATION,
	    .asks = "",
	};
}

/* Fills what the papers take from the rules of the same task: who does it, and the longest
 * extension an authority may give. */
static int
take_from_rules(const struct assess *assess, enum task task, struct reading *reading)
{
	int months = 0;
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
		months =
		    months > rule->extension_months ? months : rule->extension_months;
	}
	return months;
}

/* True when some reading of the mark already stands among those gathered. */
static bool
mark_is_read(const struct readings *readings)
{
	for (size_t i = 0; i < readings->count; i++) {
		if (readings->items[i].anchor == ANCHOR_MARKED &&
		    readings->items[i].state == READING_RUNS) {
			return true;
		}
	}
	return false;
}

static const struct record *
last_of_task(const struct item *item, enum task task)
{
	for (size_t i = item->record_count; i > 0; i--) {
		if (item->records[i - 1].task == task) {
			return &item->records[i - 1];
		}
	}
	return NULL;
}

/* True when some rule of the kind has a clock for this kind of event. */
static bool
rules_know_event(const struct assess *assess, enum event_kind kind)
{
	for (size_t i = 0; i < assess->rule_count; i++) {
		const struct rule *rule = assess->rules[i];
		for (size_t j = 0; j < rule->clock_count; j++) {
			const struct clock_rule *clock = &rule->clocks[j];
			bool meant =
			    clock->events == 0 || (clock->events & 1U << kind) != 0;
			if (clock->anchors[0] == ANCHOR_EVENT && meant) {
				return true;
			}
		}
	}
	return false;
}

/* An event that no rule deals with puts the item out until it was serviced. */
static bool
add_loose_event(const struct assess *assess, struct readings *out, struct fault *fault)
{
	const struct record *record = last_of_task(assess->item, TASK_SERVICE);
	day_t dealt = record == NULL ? DAY_NONE : stamp_first(record->on);
	for (size_t i = assess->item->event_count; i > 0; i--) {
		const struct event *event = &assess->item->events[i - 1];
		if (event->on <= dealt || rules_know_event(assess, event->kind)) {
			continue;
		}
		struct reading reading = paper_reading(
		    "event", TASK_SERVICE, ANCHOR_EVENT, stamp_of_day(event->on));
		reading.due = event->on - 1;
		reading.good_through = reading.due;
		reading.source = "after use it is out until it has been serviced";
		return readings_add(assess->arena, out, &reading, fault);
	}
	return true;
}

bool
clocks_of_papers(const struct assess *assess, enum task task, struct readings *out,
    struct fault *fault)
{
	const struct item *item = assess->item;
	const struct record *record = last_of_task(item, task);
	if (record != NULL && record->next.precision != STAMP_NONE) {
		struct reading reading =
		    paper_reading("certificate", task, ANCHOR_CERTIFICATE, record->next);
		reading.extension =
		    extend(item, task, take_from_rules(assess, task, &reading), &reading);
		reading.source = "the paper of the last record";
		if (!readings_add(assess->arena, out, &reading, fault)) {
			return false;
		}
	}
	if (task == TASK_RENEW && item->expires.precision != STAMP_NONE &&
	    !mark_is_read(out)) {
		struct reading reading =
		    paper_reading("label", task, ANCHOR_MARKED, item->expires);
		(void)take_from_rules(assess, task, &reading);
		reading.source = "the date marked on it";
		if (!readings_add(assess->arena, out, &reading, fault)) {
			return false;
		}
	}
	if (task == TASK_RENEW && item->hired_until != DAY_NONE) {
		struct reading reading = paper_reading(
		    "hire", task, ANCHOR_HIRE, stamp_of_day(item->hired_until));
		reading.source = "the last day of its hire";
		if (!readings_add(assess->arena, out, &reading, fault)) {
			return false;
		}
	}
	return task != TASK_SERVICE || add_loose_event(assess, out, fault);
}
