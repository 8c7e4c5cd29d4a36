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

enum { EVERY_LIST = YEARS_PLANS - YEARS_LISTS };

static struct json
line_object(const struct outlook_view *view, const struct outlook_line *line)
{
	const struct item *item = &view->inventory->items[line->item];
	return JSON_OF(&DONE_KEYS, json_text(item->tag), json_text(task_word(line->task)),
	    json_number(line->minor, -1), json_whole(line->carriage_minor),
	    json_text(item->kind), json_station(view->stations, line->station),
	    json_text(doer_word(line->doer)), json_day(line->by),
	    json_number(line->from_years, 0), json_flag(line->supposed));
}

struct json
years_trips(const struct outlook_view *view, const struct outlook *plan, size_t winter)
{
	struct json array = json_list();
	for (size_t i = 0; i < plan->trip_count; i++) {
		const struct outlook_trip *trip = &plan->trips[i];
		if (trip->winter == winter) {
			json_push(
			    array, JSON_OF(&TRIP_KEYS,
				       json_text(view->stations[trip->station].name),
				       json_whole(trip->minor)));
		}
	}
	return array;
}

struct json
years_done(const struct outlook_view *view, const struct outlook *plan, size_t winter)
{
	struct json array = json_list();
	for (size_t i = 0; i < plan->line_count; i++) {
		if (plan->lines[i].winter == winter) {
			json_push(array, line_object(view, &plan->lines[i]));
		}
	}
	return array;
}

static struct json
lapses_array(const struct outlook_view *view, const struct outlook *plan)
{
	struct json array = json_list();
	for (size_t i = 0; i < plan->gap_count; i++) {
		const struct outlook_gap *gap = &plan->gaps[i];
		json_push(array,
		    JSON_OF(&LAPSE_KEYS, json_text(view->inventory->items[gap->item].tag),
			json_text(task_word(gap->task)),
			json_whole(plan->first_year + (int)gap->winter)));
	}
	return array;
}

/* The prices that change with age. */
static struct json
ages_array(const struct outlook_view *view, const struct named_outlook *named)
{
	struct json array = json_list();
	for (size_t i = 0; i < named->plan.step_count; i++) {
		const struct outlook_step *step = &named->plan.steps[i];
		json_push(array,
		    JSON_OF(&AGE_KEYS, json_text(named->name),
			json_station(view->stations, step->station),
			json_text(step->kind), json_text(task_word(step->task)),
			json_whole(step->from_years), json_number(step->minor, -1)));
	}
	return array;
}

/* The tags of what has no known age where that decides a price. */
static struct json
ageless_array(const struct outlook_view *view, const struct outlook *plan)
{
	struct json array = json_list();
	for (size_t i = 0; i < plan->ageless_count; i++) {
		json_push(array, json_text(view->inventory->items[plan->ageless[i]].tag));
	}
	return array;
}

/* The prices that are not known. */
static struct json
unknowns_array(const struct outlook_view *view, const struct named_outlook *named)
{
	struct json array = json_list();
	for (size_t i = 0; i < named->plan.unknown_count; i++) {
		const struct outlook_unknown *unknown = &named->plan.unknowns[i];
		json_push(array,
		    JSON_OF(&UNKNOWN_KEYS, json_text(named->name),
			json_station(view->stations, unknown->station),
			json_text(unknown->kind), json_text(task_word(unknown->task)),
			json_number(unknown->minor, -1)));
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

/* What is told of each plan, and of all together, with the lists that each has beside its
 * winters. */
static struct json
begun_plans(const struct answer_keys *keys, const struct outlook_total *total,
    const char *currency, struct json winters, const struct json lists[EVERY_LIST])
{
	return JSON_PUT(json_begun(), keys, JSON_NEXT, winters, json_whole(total->minor),
	    json_flag(total->proven), json_whole(total->bound),
	    json_whole(total->when_due_minor), json_count(total->unpriced),
	    json_count(total->supposed), lists[YEARS_UNKNOWNS - YEARS_LISTS],
	    json_count(total->assumed), lists[YEARS_LAPSES - YEARS_LISTS],
	    lists[YEARS_AGES - YEARS_LISTS], lists[YEARS_AGELESS - YEARS_LISTS],
	    json_words(currency));
}

static struct json
plan_object(const struct outlook_view *view, const struct named_outlook *named)
{
	const struct outlook *plan = &named->plan;
	struct outlook_total total = outlook_total_of(named, 1);
	struct json lists[EVERY_LIST];
	struct json winters = json_list();
	for (size_t i = 0; i < plan->winters; i++) {
		json_push(
		    winters, JSON_OF(&WINTER_KEYS, json_whole(plan->first_year + (int)i),
				 years_trips(view, plan, i), years_done(view, plan, i),
				 json_whole(outlook_minor_of(plan, i))));
	}
	for (size_t i = 0; i < EVERY_LIST; i++) {
		lists[i] = years_list(view, named, YEARS_LISTS + (int)i);
	}
	return JSON_PUT(begun_plans(&PLAN_KEYS, &total, view->currency, winters, lists),
	    &PLAN_KEYS, JSON_LAST, json_text(named->name),
	    clashes_array(view->inventory, &named->clashes));
}

static struct json
plan_list(const struct outlook_view *view, const struct named_outlook *named)
{
	struct json plans = json_list();
	json_push(plans, plan_object(view, named));
	return plans;
}

struct json
years_list(const struct outlook_view *view, const struct named_outlook *named, int list)
{
	switch ((enum years_list)list) {
	case YEARS_UNKNOWNS:
		return unknowns_array(view, named);
	case YEARS_LAPSES:
		return lapses_array(view, &named->plan);
	case YEARS_AGES:
		return ages_array(view, named);
	case YEARS_AGELESS:
		return ageless_array(view, &named->plan);
	case YEARS_PLANS:
		return plan_list(view, named);
	case YEARS_TIPS:
		return tips_array(view, &named->tips);
	case YEARS_CLASHES:
		return clashes_array(view->inventory, &named->clashes);
	}
	return json_list();
}

struct year_kept *
years_kept_of(const struct years_kept *kept, int year)
{
	for (size_t i = 0; i < kept->count; i++) {
		if (kept->items[i].year == year) {
			return &kept->items[i];
		}
	}
	return NULL;
}

struct json
years_frame(const struct years_kept *kept)
{
	const struct outlook_total *total = &kept->total;
	struct json lists[EVERY_LIST];
	struct json winters = json_list();
	for (int year = total->first_year; year <= total->last_year; year++) {
		const struct year_kept *known = years_kept_of(kept, year);
		json_push(winters,
		    JSON_OF(&WINTER_KEYS, json_whole(year), json_list(), json_list(),
			json_whole(known == NULL ? 0 : known->minor)));
	}
	for (size_t i = 0; i < EVERY_LIST; i++) {
		lists[i] = json_list();
	}
	return JSON_PUT(begun_plans(&OUTLOOK_KEYS, total, text_string(&kept->currency),
			    winters, lists),
	    &OUTLOOK_KEYS, JSON_LAST, json_list(), json_list(), json_list());
}

struct json
years_compared_frame(int64_t difference)
{
	return JSON_OF(&COMPARED_KEYS, json_list(), json_list(), json_whole(difference));
}
