#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

#define EVERY_PLAN                                                                       \
	{"winters", NULL}, {"minor", NULL}, {"proven", "no plan costs less"},            \
	    {"bound", "none costs less than this"},                                      \
	    {"when_due", "what doing each thing only when it is due would cost"},        \
	    {"unpriced", "lines no price is known for, counted as nothing"},             \
	    {"supposed", "lines counted at the highest price known for the same work"},  \
	    {"not_known", "prices that could change the plan"},                          \
	    {"assumed", "pieces whose successor's printed date is"},                     \
	    {"lapses", "what can't be helped"},                                          \
	    {"by_age", "prices that change with it"}, {"age_not_known", "tags"},         \
	{                                                                                \
		"currency", NULL                                                         \
	}

static const struct answer_key ANSWER_KEYS[] = {EVERY_PLAN,
    {"plans", "each by itself, where there are several"},
    {"tips", "what hangs on how many winters are looked at"},
    {"shore_list", "what that has otherwise"}};

static const struct answer_key PLAN_KEYS[] = {
    EVERY_PLAN, {"name", "whose it is"}, {"shore_list", "what that has otherwise"}};

static const struct answer_key WINTER_KEYS[] = {{"winter", "the year it begins in"},
    {"trips", NULL}, {"items", "what is done"}, {"minor", NULL}};

static const struct answer_key TRIP_KEYS[] = {{"station", NULL}, {"minor", NULL}};

static const struct answer_key DONE_KEYS[] = {{"tag", NULL}, {"task", NULL},
    {"minor", NULL}, {"carriage", NULL}, {"kind", NULL}, {"station", "null for own work"},
    {"doer", "owner, station or authority"}, {"by", "the day it is taken as done"},
    {"from_years", "the age from which its price holds"},
    {"supposed", "that price is another's"}};

static const struct answer_key LAPSE_KEYS[] = {
    {"tag", NULL}, {"task", NULL}, {"winter", "before the season in which it does"}};

static const struct answer_key AGE_KEYS[] = {{"plan", NULL}, {"station", NULL},
    {"kind", NULL}, {"task", NULL}, {"from_years", NULL}, {"minor", NULL}};

static const struct answer_key UNKNOWN_KEYS[] = {{"plan", NULL}, {"station", NULL},
    {"kind", NULL}, {"task", NULL}, {"counted", "in its place"}};

static const struct answer_key TIP_KEYS[] = {
    {"tag", NULL}, {"bought_new_with", "so many winters"}, {"not_with", NULL}};

static const struct answer_key CLASH_KEYS[] = {{"tag", NULL},
    {"this_winter", "service or renew, in the shore list"}, {"over_the_years", NULL}};

static const struct answer_key COMPARED_KEYS[] = {
    {"as_is", "an answer"}, {"changed", "another"}, {"difference", NULL}};

enum { ANSWER, PLAN, WINTER, TRIP, DONE, LAPSE, AGE, UNKNOWN, TIP, CLASH, COMPARED };

const struct answer_keys KEYS_OF_YEARS[] = {[ANSWER] = KEYS("the answer", ANSWER_KEYS),
    [PLAN] = KEYS("a plan", PLAN_KEYS),
    [WINTER] = KEYS("a winter", WINTER_KEYS),
    [TRIP] = KEYS("a trip", TRIP_KEYS),
    [DONE] = KEYS("what is done", DONE_KEYS),
    [LAPSE] = KEYS("a lapse", LAPSE_KEYS),
    [AGE] = KEYS("a price by age", AGE_KEYS),
    [UNKNOWN] = KEYS("a price not known", UNKNOWN_KEYS),
    [TIP] = KEYS("a tip", TIP_KEYS),
    [CLASH] = KEYS("what the shore list has otherwise", CLASH_KEYS),
    [COMPARED] = KEYS("a comparison", COMPARED_KEYS),
    {0}};

static json_t *
line_object(const struct outlook_view *view, const struct outlook_line *line)
{
	const struct item *item = &view->inventory->items[line->item];
	json_t *object = json_object();
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "task", task_word(line->task));
	json_put_number(object, "minor", line->minor, -1);
	json_put(object, "carriage", json_integer(line->carriage_minor));
	json_put_string(object, "kind", item->kind);
	json_put_words(object, "station",
	    line->station == NO_STATION ? "" : view->stations[line->station].name);
	json_put_string(object, "doer", doer_word(line->doer));
	json_put_day(object, "by", line->by);
	json_put_number(object, "from_years", line->from_years, 0);
	json_put_bool(object, "supposed", line->supposed);
	return json_keyed(object, &KEYS_OF_YEARS[DONE]);
}

/* The winter of a year: what all plans do in it. */
static json_t *
winter_object(const struct outlook_view *view, const struct named_outlook *plans,
    size_t count, int year)
{
	json_t *object = json_object();
	json_t *trips = json_array();
	json_t *items = json_array();
	int64_t minor = 0;
	for (size_t i = 0; i < count; i++) {
		const struct outlook *plan = &plans[i].plan;
		size_t winter = (size_t)(year - plan->first_year);
		for (size_t j = 0; j < plan->trip_count; j++) {
			const struct outlook_trip *trip = &plan->trips[j];
			if (trip->winter != winter) {
				continue;
			}
			json_t *made = json_object();
			json_put_string(
			    made, "station", view->stations[trip->station].name);
			json_put(made, "minor", json_integer(trip->minor));
			json_push(trips, json_keyed(made, &KEYS_OF_YEARS[TRIP]));
			minor += trip->minor;
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
	json_put(object, "winter", json_integer(year));
	json_put(object, "trips", trips);
	json_put(object, "items", items);
	json_put(object, "minor", json_integer(minor));
	return json_keyed(object, &KEYS_OF_YEARS[WINTER]);
}

static json_t *
lapses_array(
    const struct outlook_view *view, const struct named_outlook *plans, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		const struct outlook *plan = &plans[i].plan;
		for (size_t j = 0; j < plan->gap_count; j++) {
			const struct outlook_gap *gap = &plan->gaps[j];
			json_t *object = json_object();
			json_put_string(
			    object, "tag", view->inventory->items[gap->item].tag);
			json_put_string(object, "task", task_word(gap->task));
			json_put(object, "winter",
			    json_integer(plan->first_year + (int)gap->winter));
			json_push(array, json_keyed(object, &KEYS_OF_YEARS[LAPSE]));
		}
	}
	return array;
}

/* The prices that change with age, each plan's own. */
static json_t *
ages_array(
    const struct outlook_view *view, const struct named_outlook *plans, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < plans[i].plan.step_count; j++) {
			const struct outlook_step *step = &plans[i].plan.steps[j];
			json_t *object = json_object();
			json_put_string(object, "plan", plans[i].name);
			json_put_words(object, "station",
			    step->station == NO_STATION
				? ""
				: view->stations[step->station].name);
			json_put_string(object, "kind", step->kind);
			json_put_string(object, "task", task_word(step->task));
			json_put(object, "from_years", json_integer(step->from_years));
			json_put_number(object, "minor", step->minor, -1);
			json_push(array, json_keyed(object, &KEYS_OF_YEARS[AGE]));
		}
	}
	return array;
}

/* The tags of what has no known age where that decides a price. */
static json_t *
ageless_array(
    const struct outlook_view *view, const struct named_outlook *plans, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < plans[i].plan.ageless_count; j++) {
			size_t item = plans[i].plan.ageless[j];
			json_push(array, json_string(view->inventory->items[item].tag));
		}
	}
	return array;
}

/* The prices that are not known, each plan's own. */
static json_t *
unknowns_array(
    const struct outlook_view *view, const struct named_outlook *plans, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < plans[i].plan.unknown_count; j++) {
			const struct outlook_unknown *unknown =
			    &plans[i].plan.unknowns[j];
			json_t *object = json_object();
			json_put_string(object, "plan", plans[i].name);
			json_put_words(object, "station",
			    unknown->station == NO_STATION
				? ""
				: view->stations[unknown->station].name);
			json_put_string(object, "kind", unknown->kind);
			json_put_string(object, "task", task_word(unknown->task));
			json_put_number(object, "counted", unknown->minor, -1);
			json_push(array, json_keyed(object, &KEYS_OF_YEARS[UNKNOWN]));
		}
	}
	return array;
}

json_t *
clashes_array(const struct inventory *inventory, const struct winter_clashes *clashes)
{
	json_t *array = json_array();
	for (size_t i = 0; i < clashes->count; i++) {
		const struct winter_clash *clash = &clashes->items[i];
		json_t *object = json_object();
		json_put_string(object, "tag", inventory->items[clash->item].tag);
		json_put_string(
		    object, "this_winter", clash->renewed ? "service" : "renew");
		json_put_string(
		    object, "over_the_years", clash->renewed ? "renew" : "service");
		json_push(array, json_keyed(object, &KEYS_OF_YEARS[CLASH]));
	}
	return array;
}

static json_t *
numbers_array(unsigned set)
{
	json_t *numbers = json_array();
	for (int n = 1; n <= OUTLOOK_WINTERS_MOST; n++) {
		if ((set & WINTERS_BIT(n)) != 0) {
			json_push(numbers, json_integer(n));
		}
	}
	return numbers;
}

/* What of the first winter hangs on how many winters are looked at. */
static json_t *
tips_array(const struct outlook_view *view, const struct outlook_tips *tips)
{
	json_t *array = json_array();
	for (size_t i = 0; i < tips->count; i++) {
		json_t *object = json_object();
		const struct outlook_tip *tip = &tips->items[i];
		json_put_string(object, "tag", view->inventory->items[tip->item].tag);
		json_put(object, "bought_new_with", numbers_array(tip->renewed));
		json_put(object, "not_with", numbers_array(tip->kept));
		json_push(array, json_keyed(object, &KEYS_OF_YEARS[TIP]));
	}
	return array;
}

/* Some plans of the view as one object. */
static json_t *
plans_object(
    const struct outlook_view *view, const struct named_outlook *plans, size_t count)
{
	struct outlook_total totals = outlook_total_of(plans, count);
	json_t *object = json_object();
	json_t *winters = json_array();
	for (int year = totals.first_year; year <= totals.last_year; year++) {
		json_push(winters, winter_object(view, plans, count, year));
	}
	json_put(object, "winters", winters);
	json_put(object, "minor", json_integer(totals.minor));
	json_put_bool(object, "proven", totals.proven);
	json_put(object, "bound", json_integer(totals.bound));
	json_put(object, "when_due", json_integer(totals.when_due_minor));
	json_put(object, "unpriced", json_integer((json_int_t)totals.unpriced));
	json_put(object, "supposed", json_integer((json_int_t)totals.supposed));
	json_put(object, "not_known", unknowns_array(view, plans, count));
	json_put(object, "assumed", json_integer((json_int_t)totals.assumed));
	json_put(object, "lapses", lapses_array(view, plans, count));
	json_put(object, "by_age", ages_array(view, plans, count));
	json_put(object, "age_not_known", ageless_array(view, plans, count));
	json_put_words(object, "currency", view->currency);
	return object;
}

static json_t *
view_object(const struct outlook_view *view)
{
	json_t *object = plans_object(view, view->plans, view->count);
	json_t *plans = json_array();
	for (size_t i = 0; i < view->count && view->count > 1; i++) {
		json_t *plan = plans_object(view, &view->plans[i], 1);
		json_put_string(plan, "name", view->plans[i].name);
		json_put(plan, "shore_list",
		    clashes_array(view->inventory, &view->plans[i].clashes));
		json_push(plans, json_keyed(plan, &KEYS_OF_YEARS[PLAN]));
	}
	json_put(object, "plans", plans);
	const struct named_outlook none = {0};
	const struct named_outlook *only = view->count == 1 ? &view->plans[0] : &none;
	json_put(object, "tips", tips_array(view, &only->tips));
	json_put(object, "shore_list", clashes_array(view->inventory, &only->clashes));
	return json_keyed(object, &KEYS_OF_YEARS[ANSWER]);
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
	json_t *object = json_object();
	int64_t difference = outlook_total_of(changed->plans, changed->count).minor -
			     outlook_total_of(as_is->plans, as_is->count).minor;
	json_put(object, "as_is", view_object(as_is));
	json_put(object, "changed", view_object(changed));
	json_put(object, "difference", json_integer(difference));
	answer_value(out, json_keyed(object, &KEYS_OF_YEARS[COMPARED]));
}
