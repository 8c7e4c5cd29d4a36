/* When a rule is in force on one item: its conditions as spans of days. A condition that
 * can't be told is not assumed true; it is asked for by name. */
#include "base/text.h"
#include "due/inside.h"
#include "rules/meets.h"
#include "rules/rating.h"

#include <string.h>

/* One condition's answer. */
struct condition_answer {
	struct spans spans; /* the days it holds */
	bool unknown;
	const char *asks;
};

static struct condition_answer
always_or_never(bool holds)
{
	return (struct condition_answer){
	    .spans = holds ? spans_always() : (struct spans){0}};
}

static struct condition_answer
not_known(const char *asks)
{
	return (struct condition_answer){.unknown = true, .asks = asks};
}

/* Joins a condition's answer to what the conditions before it gave. */
static void
join(const struct assess *assess, struct force *force, struct condition_answer answer)
{
	if (answer.unknown) {
		force->spans = (struct spans){0};
		if (force->asks[0] == '\0') {
			force->asks = answer.asks;
		}
		return;
	}
	spans_both(assess->arena, force->spans, answer.spans, &force->spans);
	spans_both(assess->arena, force->perhaps, answer.spans, &force->perhaps);
}

/* Adds a span after the others, or to the last one where they touch. */
static void
add_touching(struct span *spans, size_t *count, struct span span)
{
	if (*count > 0 && spans[*count - 1].last + 1 == span.first) {
		spans[*count - 1].last = span.last;
	} else {
		spans[(*count)++] = span;
	}
}

/* The same as join_periods for a vessel with one period, which is of all days: nearly every one. */
static void
join_only_period(
    const struct assess *assess, const struct conditions *when, struct force *force)
{
	const char *asks = "";
	int holds = period_meets(&assess->vessel->periods[0], when, &asks);
	if (holds == -1) {
		join(assess, force, not_known(asks));
	} else if (holds == 0) {
		force->spans = (struct spans){0};
		force->perhaps = (struct spans){0};
	}
}

/* Joins the days on which what is true of the boat for a time fits. */
static void
join_periods(
    const struct assess *assess, const struct conditions *when, struct force *force)
{
	const struct vessel *vessel = assess->vessel;
	if (vessel->period_count == 1) {
		join_only_period(assess, when, force);
		return;
	}
	struct span *certain =
	    arena_alloc(assess->arena, (vessel->period_count + 1) * sizeof *certain);
	struct span *perhaps =
	    arena_alloc(assess->arena, (vessel->period_count + 1) * sizeof *perhaps);
	size_t certain_count = 0;
	size_t perhaps_count = 0;
	for (size_t i = 0; i < vessel->period_count; i++) {
		bool newest = i + 1 == vessel->period_count;
		struct span span = {vessel->periods[i].from,
		    newest ? DAY_NEVER : vessel->periods[i + 1].from - 1};
		const char *asks = "";
		int holds = period_meets(&vessel->periods[i], when, &asks);
		if (holds == 1) {
			add_touching(certain, &certain_count, span);
		}
		if (holds != 0) {
			add_touching(perhaps, &perhaps_count, span);
		}
		if (holds == -1 && span.last >= assess->today && force->asks[0] == '\0') {
			force->asks = asks;
		}
	}
	spans_both(assess->arena, force->spans, (struct spans){certain, certain_count},
	    &force->spans);
	spans_both(assess->arena, force->perhaps, (struct spans){perhaps, perhaps_count},
	    &force->perhaps);
}

/* Takes away the days on which she does not follow the rule's sheet. */
static void
join_followed(const struct assess *assess, const struct rule *rule, struct force *force)
{
	const struct vessel *vessel = assess->vessel;
	struct span *days =
	    arena_alloc(assess->arena, (vessel->period_count + 1) * sizeof *days);
	size_t count = 0;
	for (size_t i = 0; i < vessel->period_count; i++) {
		bool newest = i + 1 == vessel->period_count;
		day_t last = newest ? DAY_NEVER : vessel->periods[i + 1].from - 1;
		if (!period_follows(&vessel->periods[i], rule->sheet)) {
			continue;
		}
		if (count > 0 && days[count - 1].last + 1 == vessel->periods[i].from) {
			days[count - 1].last = last;
		} else {
			days[count++] = (struct span){vessel->periods[i].from, last};
		}
	}
	const struct spans followed = {days, count};
	spans_both(assess->arena, force->spans, followed, &force->spans);
	spans_both(assess->arena, force->perhaps, followed, &force->perhaps);
	if (spans_from(force->perhaps, assess->today) == NULL) {
		force->asks = "";
	}
}

/* Age counts from manufacture, or from packing where that is all that is known. A sheet's ages end
 * after they begin. */
static struct condition_answer
age_fits(const struct assess *assess, const struct conditions *when, struct span *span)
{
	day_t born = item_born(assess->item);
	if (born == DAY_NONE) {
		return not_known("made");
	}
	*span = (struct span){DAY_NONE, DAY_NEVER};
	if (when->age_from_months > 0) {
		span->first = day_add_months(born, when->age_from_months);
	}
	if (when->age_until_months > 0) {
		span->last = day_add_months(born, when->age_until_months) - 1;
	}
	return (struct condition_answer){.spans = {span, 1}};
}

static struct condition_answer
length_fits(const struct vessel *vessel, const struct conditions *when)
{
	if (vessel->length_cm == 0) {
		return not_known("length");
	}
	return always_or_never(
	    vessel->length_cm >= when->length_from_cm &&
	    (when->length_below_cm == 0 || vessel->length_cm < when->length_below_cm));
}

static struct condition_answer
built_fits(const struct vessel *vessel, const struct conditions *when)
{
	if (vessel->built == 0) {
		return not_known("built");
	}
	return always_or_never(
	    vessel->built >= when->built_from &&
	    (when->built_until == 0 || vessel->built <= when->built_until));
}

/* A coarse stamp that straddles a limit can't be told either; then the day is what is asked
 * for, since the month or year is known. */
static struct condition_answer
made_fits(const struct item *item, const struct conditions *when)
{
	day_t first = stamp_first(item->made);
	day_t last = stamp_last(item->made);
	if (first == DAY_NONE) {
		return not_known("made");
	}
	day_t from = when->made_from;
	day_t until = when->made_until == DAY_NONE ? DAY_NEVER : when->made_until;
	if (last < from || first > until) {
		return always_or_never(false);
	}
	if (first < from || last > until) {
		return not_known("made-day");
	}
	return always_or_never(true);
}

/* The last good day of the paper of a thing's last test, the cautious way: a month or year
 * counts from its first day. DAY_NONE when there is none. */
static day_t
test_good_through(const struct item *item)
{
	for (size_t i = item->record_count; i > 0; i--) {
		const struct record *record = &item->records[i - 1];
		if (record->task == TASK_TEST) {
			return day_min(
			    stamp_first(record->next), stamp_good_through(record->next));
		}
	}
	return DAY_NONE;
}

/* The same of an item: its own, or the earliest among the gas cylinders inside it, all of
 * which must have one. */
static day_t
cylinders_good_through(const struct assess *assess)
{
	const struct due_engine *engine = assess->engine;
	day_t good = test_good_through(assess->item);
	size_t part = good != DAY_NONE || engine->first_part == NULL
			  ? ITEM_NO_PARENT
			  : engine->first_part[assess->index];
	bool found = false;
	for (; part != ITEM_NO_PARENT; part = engine->next_part[part]) {
		const struct item *item = &engine->inventory->items[part];
		if (strcmp(item->kind, "gas-cylinder") != 0 ||
		    item->state == PLACE_WITHDRAWN) {
			continue;
		}
		day_t one = test_good_through(item);
		if (one == DAY_NONE) {
			return DAY_NONE;
		}
		good = found ? day_min(good, one) : one;
		found = true;
	}
	return good;
}

/* The last day a service can have been on, or packing or making where there was none. */
static day_t
last_service(const struct item *item)
{
	for (size_t i = item->record_count; i > 0; i--) {
		if (item->records[i - 1].task == TASK_SERVICE) {
			return stamp_last(item->records[i - 1].on);
		}
	}
	day_t packed = stamp_last(item->packed);
	return packed == DAY_NONE ? stamp_last(item->made) : packed;
}

static struct condition_answer
test_fits(const struct assess *assess, const struct conditions *when)
{
	day_t served = last_service(assess->item);
	day_t good = cylinders_good_through(assess);
	if (served == DAY_NONE) {
		return not_known("served");
	}
	if (good == DAY_NONE) {
		return not_known("test");
	}
	return always_or_never(good >= day_add_months(served, when->test_valid_months));
}

static struct condition_answer
rating_fits(const struct item *item, const struct conditions *when)
{
	if (item->rating[0] == '\0') {
		return not_known("rating");
	}
	for (size_t i = 0; i < when->rating_count; i++) {
		if (rating_same(item->rating, when->ratings[i])) {
			return always_or_never(true);
		}
	}
	return always_or_never(false);
}

static void
conditions_hold(
    const struct assess *assess, const struct conditions *when, struct force *out)
{
	struct force force = {spans_always(), spans_always(), ""};
	join_periods(assess, when, &force);
	struct condition_answer answers[7];
	size_t count = 0;
	if (when->age_from_months > 0 || when->age_until_months > 0) {
		struct span *span = arena_alloc(assess->arena, sizeof *span);
		answers[count++] = age_fits(assess, when, span);
	}
	if (when->marked != 0) {
		bool marked = assess->item->expires.precision != STAMP_NONE;
		answers[count++] = always_or_never(marked == (when->marked > 0));
	}
	if (when->length_from_cm > 0 || when->length_below_cm > 0) {
		answers[count++] = length_fits(assess->vessel, when);
	}
	if (when->built_from > 0 || when->built_until > 0) {
		answers[count++] = built_fits(assess->vessel, when);
	}
	if (when->made_from != DAY_NONE || when->made_until != DAY_NONE) {
		answers[count++] = made_fits(assess->item, when);
	}
	if (when->test_valid_months > 0) {
		answers[count++] = test_fits(assess, when);
	}
	if (when->rating_count > 0) {
		answers[count++] = rating_fits(assess->item, when);
	}
	for (size_t i = 0; i < count; i++) {
		join(assess, &force, answers[i]);
	}
	/* What can't hold anyway need not be asked for. */
	if (spans_from(force.perhaps, assess->today) == NULL) {
		force.asks = "";
	}
	*out = force;
}

/* Takes the days on which `rule` stands instead of others away from those others. */
static void
stand_instead(const struct assess *assess, const struct rule *rule, struct spans days,
    struct force *forces)
{
	for (size_t i = 0; i < assess->rule_count; i++) {
		bool named = words_have(
		    rule->instead_of, rule->instead_of_count, assess->rules[i]->id);
		if (!named) {
			continue;
		}
		spans_except(assess->arena, forces[i].spans, days, &forces[i].spans);
		spans_except(assess->arena, forces[i].perhaps, days, &forces[i].perhaps);
		if (spans_from(forces[i].perhaps, assess->today) == NULL) {
			forces[i].asks = "";
		}
	}
}

struct force *
rules_in_force(const struct assess *assess)
{
	size_t count = assess->rule_count;
	struct force *own = arena_alloc(assess->arena, (count + 1) * sizeof *own);
	struct force *forces = arena_alloc(assess->arena, (count + 1) * sizeof *forces);
	for (size_t i = 0; i < count; i++) {
		const struct rule *rule = assess->rules[i];
		conditions_hold(assess, &rule->when, &own[i]);
		if (assess->vessel->periods[0].sheet_count > 0) {
			join_followed(assess, rule, &own[i]);
		}
		forces[i] = own[i];
	}
	for (size_t i = 0; i < count; i++) {
		stand_instead(assess, assess->rules[i], own[i].spans, forces);
	}
	return forces;
}
