#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

#define EVERY_PLAN                                                                       \
	"winters", "minor", "proven: no plan costs less",                                \
	    "bound: none costs less than this",                                          \
	    "when_due: what doing each thing only when it is due would cost",            \
	    "unpriced: lines no price is known for, counted as nothing",                 \
	    "supposed: lines counted at the highest price known for the same work",      \
	    "not_known: prices that could change the plan",                              \
	    "assumed: pieces whose successor's printed date is",                         \
	    "lapses: what can't be helped", "by_age: prices that change with it",        \
	    "age_not_known: tags", "currency"

static ANSWER_KEYS(OUTLOOK_KEYS, "the answer", EVERY_PLAN,
    "plans: each by itself, where there are several",
    "tips: what hangs on how many winters are looked at",
    "shore_list: what that has otherwise");

static ANSWER_KEYS(PLAN_KEYS, "a plan", EVERY_PLAN, "name: whose it is",
    "shore_list: what that has otherwise");

static ANSWER_KEYS(WINTER_KEYS, "a winter", "winter: the year it begins in", "trips",
    "items: what is done", "minor");

static ANSWER_KEYS(TRIP_KEYS, "a trip", "station", "minor");

static ANSWER_KEYS(DONE_KEYS, "what is done", "tag", "task", "minor", "carriage", "kind",
    "station: null for own work", "doer: owner, station or authority",
    "by: the day it is taken as done", "from_years: the age from which its price holds",
    "supposed: that price is another's");

static ANSWER_KEYS(
    LAPSE_KEYS, "a lapse", "tag", "task", "winter: before the season in which it does");

static ANSWER_KEYS(
    AGE_KEYS, "a price by age", "plan", "station", "kind", "task", "from_years", "minor");

static ANSWER_KEYS(UNKNOWN_KEYS, "a price not known", "plan", "station", "kind", "task",
    "counted: in its place");

static ANSWER_KEYS(
    TIP_KEYS, "a tip", "tag", "bought_new_with: so many winters", "not_with");

ANSWER_KEYS(CLASH_KEYS, "what the shore list has otherwise", "tag",
    "this_winter: service or renew, in the shore list", "over_the_years");

static ANSWER_KEYS(
    COMPARED_KEYS, "a comparison", "as_is: an answer", "changed: another", "difference");

const struct answer_keys *const KEYS_OF_YEARS[] = {&OUTLOOK_KEYS, &PLAN_KEYS,
    &WINTER_KEYS, &TRIP_KEYS, &DONE_KEYS, &LAPSE_KEYS, &AGE_KEYS, &UNKNOWN_KEYS,
    &TIP_KEYS, &CLASH_KEYS, &COMPARED_KEYS, NULL};

/* The name of a station; null for none. */
static struct json
station_name(const struct outlook_view *view, size_t station)
{
	return json_words(station == NO_STATION ? "" : view->stations[station].name);
}

static struct json
line_object(const struct outlook_view *view, const struct outlook_line *line)
{
	const struct item *item = &view->inventory->items[line->item];
	return JSON_OF(&DONE_KEYS, json_text(item->tag), json_text(task_word(line->task)),
	    json_number(line->minor, -1), json_whole(line->carriage_minor),
	    json_text(item->kind), station_name(view, line->station),
	    json_text(doer_word(line->doer)), json_day(line->by),
	    json_number(line->from_years, 0), json_flag(line->supposed));
}

/* The winter of a year: what all plans do in it. */
static struct json
winter_object(const struct outlook_view *view, const struct named_outlook *plans,
    size_t count, int year)
{
	struct json trips = json_list();
	struct json items = json_list();
	int64_t minor = 0;
	for (size_t i = 0; i < count; i++) {
		const struct outlook *plan = &plans[i].plan;
		size_t winter = (size_t)(year - plan->first_year);
		for (size_t j = 0; j < plan->trip_count; j++) {
			const struct outlook_trip *trip = &plan->trips[j];
			if (trip->winter == winter) {
				json_push(trips,
				    JSON_OF(&TRIP_KEYS,
					json_text(view->stations[trip->station].name),
					json_whole(trip->minor)));
				minor += trip->minor;
			}
		}
		for (size_t j = 0; j < plan->line_count; j++) {
			const struct outlook_line *line = &plan->lines[j];
			if (line->winter == winter) {
				json_push(items, line_object(view, line));
				minor += line->minor > 0 ? line->minor : 0;
				minor += line->carriage_minor;
			}
		}
	}
	return JSON_OF(&WINTER_KEYS, json_whole(year), trips, items, json_whole(minor));
}

static struct json
lapses_array(
    const struct outlook_view *view, const struct named_outlook *plans, size_t count)
{
	struct json array = json_list();
	for (size_t i = 0; i < count; i++) {
		const struct outlook *plan = &plans[i].plan;
		for (size_t j = 0; j < plan->gap_count; j++) {
			const struct outlook_gap *gap = &plan->gaps[j];
			json_push(
			    array, JSON_OF(&LAPSE_KEYS,
				       json_text(view->inventory->items[gap->item].tag),
				       json_text(task_word(gap->task)),
				       json_whole(plan->first_year + (int)gap->winter)));
		}
	}
	return array;
}

/* The prices that change with age, each plan's own. */
static struct json
ages_array(
    const struct outlook_view *view, const struct named_outlook *plans, size_t count)
{
	struct json array = json_list();
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < plans[i].plan.step_count; j++) {
			const struct outlook_step *step = &plans[i].plan.steps[j];
			json_push(array,
			    JSON_OF(&AGE_KEYS, json_text(plans[i].name),
				station_name(view, step->station), json_text(step->kind),
				json_text(task_word(step->task)),
				json_whole(step->from_years),
				json_number(step->minor, -1)));
		}
	}
	return array;
}

/* The tags of what has no known age where that decides a price. */
static struct json
ageless_array(
    const struct outlook_view *view, const struct named_outlook *plans, size_t count)
{
	struct json array = json_list();
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < plans[i].plan.ageless_count; j++) {
			size_t item = plans[i].plan.ageless[j];
			json_push(array, json_text(view->inventory->items[item].tag));
		}
	}
	return array;
}

/* The prices that are not known, each plan's own. */
static struct json
unknowns_array(
    const struct outlook_view *view, const struct named_outlook *plans, size_t count)
{
	struct json array = json_list();
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < plans[i].plan.unknown_count; j++) {
			const struct outlook_unknown *unknown =
			    &plans[i].plan.unknowns[j];
			json_push(array, JSON_OF(&UNKNOWN_KEYS, json_text(plans[i].name),
					     station_name(view, unknown->station),
					     json_text(unknown->kind),
					     json_text(task_word(unknown->task)),
					     json_number(unknown->minor, -1)));
		}
	}
	return array;
}

struct json
clashes_array(const struct inventory *inventory, const struct winter_clashes *clashes)
{
	struct json array = json_list();
	for (size_t i = 0; i < clashes->count; i++) {
		const struct winter_clash *clash = &clashes->items[i];
		bool renewed = clash->renewed;
		json_push(array,
		    JSON_OF(&CLASH_KEYS, json_text(inventory->items[clash->item].tag),
			json_text(renewed ? "service" : "renew"),
			json_text(renewed ? "renew" : "service")));
	}
	return array;
}

static struct json
numbers_array(unsigned set)
{
	struct json numbers = json_list();
	for (int n = 1; n <= OUTLOOK_WINTERS_MOST; n++) {
		if ((set & WINTERS_BIT(n)) != 0) {
			json_push(numbers, json_whole(n));
		}
	}
	return numbers;
}

/* What of the first winter hangs on how many winters are looked at. */
static struct json
tips_array(const struct outlook_view *view, const struct outlook_tips *tips)
{
	struct json array = json_list();
	for (size_t i = 0; i < tips->count; i++) {
		const struct outlook_tip *tip = &tips->items[i];
		json_push(array,
		    JSON_OF(&TIP_KEYS, json_text(view->inventory->items[tip->item].tag),
			numbers_array(tip->renewed), numbers_array(tip->kept)));
	}
	return array;
}

/* Some plans of the view as one object, begun with what is told of each. */
static struct json
begun_plans(const struct answer_keys *keys, const struct outlook_view *view,
    const struct named_outlook *plans, size_t count)
{
	struct outlook_total totals = outlook_total_of(plans, count);
	struct json winters = json_list();
	for (int year = totals.first_year; year <= totals.last_year; year++) {
		json_push(winters, winter_object(view, plans, count, year));
	}
	return JSON_PUT(json_begun(), keys, JSON_NEXT, winters, json_whole(totals.minor),
	    json_flag(totals.proven), json_whole(totals.bound),
	    json_whole(totals.when_due_minor), json_count(totals.unpriced),
	    json_count(totals.supposed), unknowns_array(view, plans, count),
	    json_count(totals.assumed), lapses_array(view, plans, count),
	    ages_array(view, plans, count), ageless_array(view, plans, count),
	    json_words(view->currency));
}

static struct json
view_object(const struct outlook_view *view)
{
	const struct named_outlook none = {0};
	const struct named_outlook *only = view->count == 1 ? &view->plans[0] : &none;
	struct json plans = json_list();
	for (size_t i = 0; i < view->count && view->count > 1; i++) {
		const struct named_outlook *plan = &view->plans[i];
		json_push(plans, JSON_PUT(begun_plans(&PLAN_KEYS, view, plan, 1),
				     &PLAN_KEYS, JSON_LAST, json_text(plan->name),
				     clashes_array(view->inventory, &plan->clashes)));
	}
	struct json object = begun_plans(&OUTLOOK_KEYS, view, view->plans, view->count);
	return JSON_PUT(object, &OUTLOOK_KEYS, JSON_LAST, plans,
	    tips_array(view, &only->tips),
	    clashes_array(view->inventory, &only->clashes));
}

void
answer_years(const struct outlook_view *view, struct text *out)
{
	answer_value(out, view_object(view));
}

void
answer_years_compared(const struct outlook_view *as_is,
    const struct outlook_view *changed, struct text *out)
{
	int64_t difference = outlook_total_of(changed->plans, changed->count).minor -
			     outlook_total_of(as_is->plans, as_is->count).minor;
	answer_value(out, JSON_OF(&COMPARED_KEYS, view_object(as_is),
			      view_object(changed), json_whole(difference)));
}
