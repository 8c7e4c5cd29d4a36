/* Clocks read for one item: what they count from, and where that leads. */
#include "due/inside.h"

void
readings_add(
    struct arena *arena, struct readings *readings, const struct reading *reading)
{
	ARENA_ROOM(arena, readings);
	readings->items[readings->count++] = *reading;
}

/* The last record that counts for a rule; of several of one day, one of the rule's own task. */
static const struct record *
last_record(const struct item *item, const struct rule *rule)
{
	const struct record *last = NULL;
	for (size_t i = item->record_count; i > 0; i--) {
		const struct record *record = &item->records[i - 1];
		if (last != NULL && !stamp_same(record->on, last->on)) {
			break;
		}
		if (record->task == rule->task && rule_counts(rule, record)) {
			return record;
		}
		if (last == NULL && rule_counts(rule, record)) {
			last = record;
		}
	}
	return last;
}

/* How often a rule's task was done: what is on record of one day is one doing. */
static int
times_done(const struct item *item, const struct rule *rule)
{
	int times = 0;
	struct stamp before = {0};
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		if (rule_counts(rule, record)) {
			times += stamp_same(record->on, before) ? 0 : 1;
			before = record->on;
		}
	}
	return times;
}

const struct event *
first_open_event(const struct assess *assess, unsigned kinds, const struct rule *rule)
{
	const struct item *item = assess->item;
	for (size_t i = 0; i < item->event_count; i++) {
		const struct event *event = &item->events[i];
		bool open =
		    (kinds >> event->kind & 1U) != 0 && event->on <= assess->today;
		for (size_t j = 0; j < item->record_count && open; j++) {
			const struct record *record = &item->records[j];
			bool counts = rule == NULL ? record->task == TASK_SERVICE
						   : rule_counts(rule, record);
			open = !counts || !record_follows(record, event);
		}
		if (open) {
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

/* Fills anchor, stamp and from for the first anchor that is known. False when none is. */
static bool
find_anchor(const struct assess *assess, const struct rule *rule,
    const struct force *force, const struct clock_rule *clock, struct reading *reading)
{
	const struct item *item = assess->item;
	const struct record *record = last_record(item, rule);
	for (size_t i = 0; i < clock->anchor_count; i++) {
		enum anchor anchor = clock->anchors[i];
		struct stamp stamp = item_stamp(item, anchor);
		/* what is in it was fitted at the last refit, and its mark is told with that */
		bool by_refit =
		    anchor == ANCHOR_MARKED || (anchor == ANCHOR_FITTED && rule->refit);
		const struct record *refit = by_refit ? last_refit(item) : NULL;
		if (anchor == ANCHOR_LAST && record != NULL) {
			stamp = record->on;
		} else if (anchor == ANCHOR_FITTED && refit != NULL) {
			stamp = refit->on;
		} else if (anchor == ANCHOR_CERTIFICATE && record != NULL &&
			   record->task == rule->task) {
			stamp = record->next;
		}
		if (stamp.precision == STAMP_NONE) {
			continue;
		}
		reading->anchor = anchor;
		reading->stamp = stamp;
		reading->from = clock_start(clock, stamp);
		reading->record = anchor == ANCHOR_LAST ? record : refit;
		if (anchor == ANCHOR_LAST && rule->window.next != NEXT_FROM_DONE) {
			struct anniversary kept = rule_anniversary(item, rule, force);
			reading->from = clock_start(clock, kept.base);
			reading->kept = kept.day != DAY_NONE;
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

/* An event puts the item out from its own day on: a sheet can give no time after one. */
static bool
read_event(const struct assess *assess, const struct rule *rule,
    const struct clock_rule *clock, struct reading *reading)
{
	const struct event *event =
	    first_open_event(assess, clock->events == 0 ? ~0U : clock->events, rule);
	if (event == NULL) {
		return false;
	}
	reading->anchor = ANCHOR_EVENT;
	reading->stamp = stamp_of_day(event->on);
	reading->event = event;
	reading->from = event->on;
	reading->due = event->on - 1;
	reading->good_through = reading->due;
	reading->state = READING_RUNS;
	return true;
}

/* What a reading has from the maker's interval: its figure, and no lower a grade than its. */
static void
read_makers(const struct item *item, const struct rule *rule,
    const struct clock_rule *clock, bool runs, struct reading *reading)
{
	reading->interval = item_interval(item, rule->task);
	reading->wants_maker = !runs;
	reading->months = clock->months;
	if (reading->interval != NULL && reading->grade == GRADE_PRACTICE) {
		reading->grade = GRADE_MAKER;
	}
}

static void
read_clock(const struct assess *assess, const struct rule *rule,
    const struct force *force, const struct clock_rule *as_written,
    struct reading *reading)
{
	int times = times_done(assess->item, rule);
	struct clock_rule clock;
	if (!clock_holds(as_written, times)) {
		reading->state = READING_DONE;
		reading->anchor = as_written->anchors[0];
		return;
	}
	bool known = clock_of_piece(assess->item, rule, as_written, times, &clock);
	bool starts = find_anchor(assess, rule, force, &clock, reading);
	if (as_written->by_maker) {
		read_makers(assess->item, rule, &clock, known && starts, reading);
	}
	if (!known || !starts) {
		reading->state = READING_NOT_KNOWN;
		reading->asks = known ? anchor_asks(reading->anchor) : "interval";
		return;
	}
	reading->state = READING_RUNS;
	reading->due = reading_due(&clock, reading);
	int late = reading->anchor == ANCHOR_MARKED ? 0 : rule->window.late_months;
	reading->good_through = day_add_months(reading->due, late);
	if (rule->lapse != STATE_LIFE_EXPIRED) {
		reading_extend(
		    assess, rule->task, rule->counts, rule->extension_months, reading);
	}
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
	    .in_force = force->perhaps,
	    .sure = force->spans,
	    .grade = rule->grade,
	    .lapse = rule->lapse,
	    .doer = rule->doer,
	    .source = rule->source,
	    .asks = "",
	};
}

bool
reading_is_own_word(const struct reading *reading)
{
	return reading->anchor == ANCHOR_MARKED ||
	       reading->anchor == ANCHOR_CERTIFICATE || reading->anchor == ANCHOR_EVENT;
}

/* What the thing's own label or paper says, or that it was used, is the maker's word whoever
 * reads it: common practice neither lowers it nor makes a mark's day later. */
static void
speak_for_itself(const struct item *item, struct reading *reading)
{
	if (reading->grade != GRADE_PRACTICE || !reading_is_own_word(reading)) {
		return;
	}
	reading->grade = GRADE_MAKER;
	if (reading->anchor == ANCHOR_MARKED && reading->due != DAY_NONE) {
		reading->through = THROUGH_DAY;
		reading->due = day_min(reading->due, stamp_good_through(item->expires));
		reading->good_through = day_min(reading->good_through, reading->due);
	}
}

void
clocks_of_rule(const struct assess *assess, const struct rule *rule,
    const struct force *force, struct readings *out)
{
	/* surely, now or later, and not only perhaps for the time being */
	bool holds = spans_from(force->spans, assess->today) != NULL &&
		     (spans_have(force->spans, assess->today) ||
			 !spans_have(force->perhaps, assess->today));
	for (size_t i = 0; i < rule->clock_count; i++) {
		const struct clock_rule *clock = &rule->clocks[i];
		struct reading reading = blank_reading(rule, force);
		reading.months = clock->months;
		reading.days = clock->days;
		reading.through = clock->through;
		reading.before = clock->before;
		if (clock->anchors[0] == ANCHOR_EVENT) {
			if (!read_event(assess, rule, clock, &reading)) {
				continue;
			}
		} else {
			read_clock(assess, rule, force, clock, &reading);
		}
		speak_for_itself(assess->item, &reading);
		if (!holds && force->asks[0] != '\0' && reading.state != READING_DONE) {
			reading.state = READING_ASKS;
			reading.asks = force->asks;
		} else if (!holds) {
			reading.state = READING_NOT_IN_FORCE;
			reading.asks = "";
		}
		readings_add(assess->arena, out, &reading);
	}
}
