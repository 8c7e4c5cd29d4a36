/* The maker's interval for one piece, read as a rule of its own. */
#include "due/inside.h"

/* The interval as a rule: first and again; a renewal by age from the same date each time. */
struct makers_rule {
	struct rule rule;
	struct clock_rule clocks[2];
};

bool
maker_speaks(const struct item *item, enum task task, bool routine)
{
	const struct interval *interval = item_interval(item, task);
	bool is_short =
	    interval != NULL && interval->months < 12 && interval->first_months < 12;
	return interval != NULL && is_short == routine;
}

/* What it counts from before the task was first done. Where the paper does not say: manufacture,
 * or else the earliest date that is known. */
static enum anchor
first_anchor(const struct item *item, const struct interval *interval)
{
	static const enum anchor UNSAID[] = {ANCHOR_PACKED, ANCHOR_BOUGHT, ANCHOR_FITTED};

	enum anchor found = ANCHOR_MADE;
	if (interval->from_said) {
		return interval->from;
	}
	for (size_t i = 0; i < 3 && item->made.precision == STAMP_NONE; i++) {
		day_t day = stamp_first(item_stamp(item, UNSAID[i]));
		day_t best = stamp_first(item_stamp(item, found));
		if (day != DAY_NONE && (best == DAY_NONE || day < best)) {
			found = UNSAID[i];
		}
	}
	return found;
}

/* Who does it is as the rules of her sheets have it. Another task's record counts as doing it
 * where every rule in force for the task says so: the reading that is never the later. */
static void
take_from_rules(
    const struct assess *assess, const struct force *forces, struct rule *rule)
{
	bool named = false;
	bool counted = false;
	for (size_t i = 0; i < assess->rule_count; i++) {
		const struct rule *other = assess->rules[i];
		if (other->task != rule->task) {
			continue;
		}
		if (!named && !rule_is_routine(other)) {
			rule->doer = other->doer;
			named = true;
		}
		if (spans_have(forces[i].perhaps, assess->today)) {
			rule->counts =
			    counted ? rule->counts & other->counts : other->counts;
			counted = true;
		}
	}
}

static void
make_rule(const struct assess *assess, const struct force *forces,
    const struct interval *interval, struct makers_rule *out)
{
	enum task task = interval->task;
	bool renew = task == TASK_RENEW;
	enum anchor since = first_anchor(assess->item, interval);
	/* unsaid, a renewal is asked for by age, its first figure, and by the last one: the
	 * earlier */
	bool by_age = renew && interval->from_said && interval->from != ANCHOR_LAST;
	int first =
	    interval->first_months > 0 ? interval->first_months : interval->months;
	*out = (struct makers_rule){
	    .rule = {.id = "maker",
		.task = task,
		.doer = renew ? DOER_OWNER : DOER_STATION,
		.grade = GRADE_MAKER,
		.lapse = renew ? STATE_EXPIRED : STATE_OVERDUE,
		.source = interval->paper,
		.clock_count = 2},
	    .clocks = {{.anchors = {since},
			   .anchor_count = 1,
			   .months = first,
			   .done_until = renew && !interval->from_said ? INT_MAX : 0},
		{.anchors = {by_age ? since : ANCHOR_LAST},
		    .anchor_count = 1,
		    .months = interval->months,
		    .done_from = 1,
		    .done_until = INT_MAX}},
	};
	out->rule.clocks = out->clocks;
	take_from_rules(assess, forces, &out->rule);
}

/* The days on which no rule in force asks for the maker's interval: on the others it is read
 * with that rule's window and grade. */
static void
days_left(const struct assess *assess, const struct force *forces, enum task task,
    struct spans *out)
{
	*out = spans_always();
	for (size_t i = 0; i < assess->rule_count; i++) {
		const struct rule *rule = assess->rules[i];
		bool asks = false;
		for (size_t j = 0; j < rule->clock_count; j++) {
			asks = asks || rule->clocks[j].by_maker;
		}
		if (asks) {
			if (rule->task == task) {
				spans_except(assess->arena, *out, forces[i].spans, out);
			}
		}
	}
}

void
clocks_of_maker(const struct assess *assess, const struct force *forces, enum task task,
    bool routine, struct readings *out)
{
	if (!maker_speaks(assess->item, task, routine)) {
		return;
	}
	const struct interval *interval = item_interval(assess->item, task);
	struct makers_rule rule;
	struct force force = {.asks = ""};
	size_t first = out->count;
	make_rule(assess, forces, interval, &rule);
	days_left(assess, forces, task, &force.spans);
	if (force.spans.count == 0) {
		return; /* a rule has it on every day */
	}
	force.perhaps = force.spans;
	clocks_of_rule(assess, &rule.rule, &force, out);
	/* The rule is this function's own: what outlives it is a word of the papers. */
	for (size_t i = first; i < out->count; i++) {
		out->items[i].rule = NULL;
		out->items[i].interval = interval;
	}
}

void
readings_replace(struct readings *readings, size_t first)
{
	for (size_t i = first; i < readings->count; i++) {
		struct reading *reading = &readings->items[i];
		if (reading_is_own_word(reading) || reading->interval != NULL ||
		    reading->state == READING_DONE) {
			continue;
		}
		if (reading->state == READING_NOT_IN_FORCE) {
			/* replaced on the days it held, too: no lapse began by it */
			reading->due = DAY_NONE;
			reading->good_through = DAY_NONE;
			continue;
		}
		reading->state = READING_REPLACED;
		reading->asks = "";
	}
}
