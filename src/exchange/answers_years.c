#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

#include <stdlib.h>

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

/* The lists that every plan has beside its winters, in their order. */
enum price_list { LIST_UNKNOWNS, LIST_LAPSES, LIST_AGES, LIST_AGELESS };

enum { PRICE_LISTS = LIST_AGELESS + 1 };

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

static struct json
trips_array(const struct outlook_view *view, const struct outlook *plan, size_t winter)
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

static struct json
lines_array(const struct outlook_view *view, const struct outlook *plan, size_t winter)
{
	struct json array = json_list();
	for (size_t i = 0; i < plan->line_count; i++) {
		if (plan->lines[i].winter == winter) {
			json_push(array, line_object(view, &plan->lines[i]));
		}
	}
	return array;
}

static int64_t
winter_minor(const struct outlook *plan, size_t winter)
{
	struct outlook_sum sum = outlook_sum_of(plan, winter);
	return sum.trips + sum.work + sum.new_gear;
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
			station_name(view, step->station), json_text(step->kind),
			json_text(task_word(step->task)), json_whole(step->from_years),
			json_number(step->minor, -1)));
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
			station_name(view, unknown->station), json_text(unknown->kind),
			json_text(task_word(unknown->task)),
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

/* What is told of each plan, and of all together. */
static struct json
begun_plans(const struct answer_keys *keys, const struct outlook_total *total,
    const char *currency, struct json winters, const struct json lists[PRICE_LISTS])
{
	return JSON_PUT(json_begun(), keys, JSON_NEXT, winters, json_whole(total->minor),
	    json_flag(total->proven), json_whole(total->bound),
	    json_whole(total->when_due_minor), json_count(total->unpriced),
	    json_count(total->supposed), lists[LIST_UNKNOWNS], json_count(total->assumed),
	    lists[LIST_LAPSES], lists[LIST_AGES], lists[LIST_AGELESS],
	    json_words(currency));
}

static struct json
price_list(
    const struct outlook_view *view, const struct named_outlook *named, size_t which)
{
	switch ((enum price_list)which) {
	case LIST_UNKNOWNS:
		return unknowns_array(view, named);
	case LIST_LAPSES:
		return lapses_array(view, &named->plan);
	case LIST_AGES:
		return ages_array(view, named);
	case LIST_AGELESS:
		return ageless_array(view, &named->plan);
	}
	return json_list();
}

static struct json
plan_object(const struct outlook_view *view, const struct named_outlook *named)
{
	const struct outlook *plan = &named->plan;
	struct outlook_total total = outlook_total_of(named, 1);
	struct json lists[PRICE_LISTS];
	struct json winters = json_list();
	for (size_t i = 0; i < plan->winters; i++) {
		json_push(
		    winters, JSON_OF(&WINTER_KEYS, json_whole(plan->first_year + (int)i),
				 trips_array(view, plan, i), lines_array(view, plan, i),
				 json_whole(winter_minor(plan, i))));
	}
	for (size_t i = 0; i < PRICE_LISTS; i++) {
		lists[i] = price_list(view, named, i);
	}
	return JSON_PUT(begun_plans(&PLAN_KEYS, &total, view->currency, winters, lists),
	    &PLAN_KEYS, JSON_LAST, json_text(named->name),
	    clashes_array(view->inventory, &named->clashes));
}

/* ---- many plans, which come some at a time ---- */

/* The lists of an answer, each kept under its number. They are in their order: two a year, its
 * trips and what is done in it, then the others. */
enum years_list {
	LIST_OF_PRICES = 1 << 15, /* and PRICE_LISTS - 1 more */
	LIST_OF_PLANS = LIST_OF_PRICES + PRICE_LISTS,
	LIST_OF_TIPS,
	LIST_OF_CLASHES,
};

/* So many bits of a key, below those of the list, are the place of a plan among all. */
enum { PLACE_BITS = 32 };

/* What stands between elements. */
#define BETWEEN ", "

/* Keeps the elements of a list, with BETWEEN before the first. */
static void
keep_list(struct years_kept *kept, int list, size_t place, struct json array)
{
	SCOPED_TEXT words = {0};
	text_add_byte(&words, BETWEEN[0]);
	json_write(array, &words);
	words.bytes[1] = BETWEEN[1];
	text_cut(&words, words.length - 1);
	if (words.length > sizeof BETWEEN - 1) {
		runs_add_long(&kept->runs,
		    &(struct run_piece){((int64_t)list << PLACE_BITS) + (int64_t)place,
			text_string(&words), words.length, NULL});
	}
}

/* What is kept of a year; NULL for nothing yet. */
static struct year_kept *
year_of(const struct years_kept *kept, int year)
{
	for (size_t i = 0; i < kept->count; i++) {
		if (kept->items[i].year == year) {
			return &kept->items[i];
		}
	}
	return NULL;
}

/* Keeps what all plans do in a year, and the money of it. */
static void
keep_year(const struct outlook_view *view, const size_t *places, int year,
    struct years_kept *kept)
{
	struct year_kept sum = {.year = year};
	for (int list = 0; list < 2; list++) {
		for (size_t i = 0; i < view->count; i++) {
			const struct outlook *plan = &view->plans[i].plan;
			size_t winter = (size_t)(year - plan->first_year);
			bool there = year >= plan->first_year && winter < plan->winters;
			if (there) {
				keep_list(kept, 2 * year + list,
				    places == NULL ? i : places[i],
				    list == 0 ? trips_array(view, plan, winter)
					      : lines_array(view, plan, winter));
			}
			sum.minor += there && list == 0 ? winter_minor(plan, winter) : 0;
		}
	}
	struct year_kept *known = year_of(kept, year);
	if (known == NULL) {
		ARRAY_ADD(kept, sum);
	} else {
		known->minor += sum.minor;
	}
}

static struct json
list_of(const struct outlook_view *view, const struct named_outlook *named,
    enum years_list list)
{
	struct json plans = json_list();
	switch (list) {
	case LIST_OF_PLANS:
		json_push(plans, plan_object(view, named));
		return plans;
	case LIST_OF_TIPS:
		return tips_array(view, &named->tips);
	case LIST_OF_CLASHES:
		return clashes_array(view->inventory, &named->clashes);
	case LIST_OF_PRICES:
		break;
	}
	return price_list(view, named, (size_t)list - LIST_OF_PRICES);
}

void
answer_years_keep(
    const struct outlook_view *view, const size_t *places, struct years_kept *kept)
{
	struct outlook_total total = outlook_total_of(view->plans, view->count);
	for (int year = total.first_year; year <= total.last_year; year++) {
		keep_year(view, places, year, kept);
	}
	for (int list = LIST_OF_PRICES; list <= LIST_OF_CLASHES; list++) {
		for (size_t i = 0; i < view->count; i++) {
			keep_list(kept, list, places == NULL ? i : places[i],
			    list_of(view, &view->plans[i], list));
		}
	}
	runs_end(&kept->runs);
	outlook_total_add(&kept->total, view->plans, view->count);
	text_reset(&kept->currency);
	text_add(&kept->currency, view->currency);
}

void
years_kept_clear(struct years_kept *kept)
{
	runs_clear(&kept->runs);
	text_clear(&kept->currency);
	free(kept->items);
	*kept = (struct years_kept){0};
}

/* The answer with its lists empty. */
static struct json
frame_object(const struct years_kept *kept)
{
	const struct outlook_total *total = &kept->total;
	struct json lists[PRICE_LISTS];
	struct json winters = json_list();
	for (int year = total->first_year; year <= total->last_year; year++) {
		const struct year_kept *known = year_of(kept, year);
		json_push(winters,
		    JSON_OF(&WINTER_KEYS, json_whole(year), json_list(), json_list(),
			json_whole(known == NULL ? 0 : known->minor)));
	}
	for (size_t i = 0; i < PRICE_LISTS; i++) {
		lists[i] = json_list();
	}
	return JSON_PUT(begun_plans(&OUTLOOK_KEYS, total, text_string(&kept->currency),
			    winters, lists),
	    &OUTLOOK_KEYS, JSON_LAST, json_list(), json_list(), json_list());
}

/* The next empty list of an answer, which there is; not one that stands in words. */
static const char *
next_list(const char *at)
{
	bool words = false;
	for (; words || at[0] != '[' || at[1] != ']'; at++) {
		words = *at == '"' ? !words : words;
		at += words && *at == '\\' ? 1 : 0;
	}
	return at;
}

/* The answer being written: its frame as far as the list that is being filled. */
struct frame_filling {
	const struct years_kept *kept;
	const char *frame; /* what comes after it */
	struct text *out;
	int list; /* its number; 0 for none yet */
	bool any; /* it has elements */
};

/* Begins the next list. */
static void
begin_list(struct frame_filling *filling)
{
	const struct outlook_total *total = &filling->kept->total;
	const char *list = next_list(filling->frame);
	int last = 2 * total->last_year + 1;
	text_add_bytes(filling->out, filling->frame, (size_t)(list + 1 - filling->frame));
	filling->frame = list + 1;
	filling->any = false;
	filling->list = filling->list == 0 && total->plans > 0 ? 2 * total->first_year
			: filling->list == last                ? LIST_OF_PRICES
							       : filling->list + 1;
}

static void
fill(const struct run_piece *piece, void *of)
{
	struct frame_filling *filling = of;
	int list = (int)(piece->key >> PLACE_BITS);
	bool one = filling->kept->total.plans == 1;
	if (one ? list == LIST_OF_PLANS : list > LIST_OF_PLANS) {
		return;
	}
	while (filling->list < list) {
		begin_list(filling);
	}
	size_t between = filling->any ? 0 : sizeof BETWEEN - 1;
	text_add_bytes(filling->out, piece->bytes + between, piece->length - between);
	text_hand_on(filling->out);
	filling->any = true;
}

/* Adds the object of what was kept. */
static bool
write_kept(const struct years_kept *kept, struct text *out, struct fault *fault)
{
	SCOPED_TEXT frame = {0};
	json_write(frame_object(kept), &frame);
	struct frame_filling filling = {
	    .kept = kept, .frame = text_string(&frame), .out = out};
	if (!runs_merge(&kept->runs, fill, &filling, fault)) {
		return false;
	}
	text_add(out, filling.frame);
	return true;
}

bool
answer_years_kept(const struct years_kept *kept, struct text *out, struct fault *fault)
{
	if (!write_kept(kept, out, fault)) {
		return false;
	}
	text_add_byte(out, '\n');
	return true;
}

bool
answer_years_compared(const struct years_kept *as_is, const struct years_kept *changed,
    struct text *out, struct fault *fault)
{
	SCOPED_TEXT frame = {0};
	json_write(JSON_OF(&COMPARED_KEYS, json_list(), json_list(),
		       json_whole(changed->total.minor - as_is->total.minor)),
	    &frame);
	const char *first = next_list(text_string(&frame));
	const char *second = next_list(first + 1);
	text_add_bytes(out, text_string(&frame), (size_t)(first - text_string(&frame)));
	if (!write_kept(as_is, out, fault)) {
		return false;
	}
	text_add_bytes(out, first + 2, (size_t)(second - first) - 2);
	if (!write_kept(changed, out, fault)) {
		return false;
	}
	text_add_format(out, "%s\n", second + 2);
	return true;
}
