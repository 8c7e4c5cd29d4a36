#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

static ANSWER_KEYS(LIST_KEYS, "a vessel", "vessel",
    "winter: the year it begins in; null for one in use all year, as the next two",
    "lay_up", "fitting_out", "hand_in: trips", "ashore: what is there already",
    "self: lines, as all that follow", "buy",
    "wanted: put on the list to buy by a person", "paperwork", "dispose", "waits",
    "cannot: what can't be done in time", "now",
    "routines: what comes round within the year", "cost: what is known of it",
    "years: what the plan of the coming winters has otherwise",
    "most_trips: that she may make; null for any number",
    "plan: how good the choice of trips is, hers or her base's");

#define EVERY_LINE                                                                       \
	"tag", "task", "due", "kind", "state",                                           \
	    "grade: how binding: law, maker or practice", "what: the rule's words",      \
	    "give_back: it is hired", "gone: withdrawn, with none in its place"

static ANSWER_KEYS(WORK_KEYS, "a line", EVERY_LINE,
    "not_before: so that it carries her through the season", "not_after", "price",
    "price_from_years: that price holds from this age on",
    "price_age_not_known: the dearest is taken",
    "counted_by: the task done with it that counts as this one",
    "later_from: from when it costs more, for its age", "later_price",
    "with_parent: renewed since what it is part of is opened", "due_again",
    "carries: it does not lapse in the season", "note");

static ANSWER_KEYS(WAITING_KEYS, "a line that waits", EVERY_LINE, "winter");

static ANSWER_KEYS(WANTED_KEYS, "a line that is wanted", "tag", "kind",
    "to_buy: what of it, in their words");

static ANSWER_KEYS(CANNOT_KEYS, "a line that can't be done", EVERY_LINE, "why",
    "first_possible: the first day it could be back", "cure: what would help",
    "given_up: why a person gave its hand-in up");

static ANSWER_KEYS(TRIP_KEYS, "a trip", "station", "hand_in", "collect", "items: lines",
    "assumed: its turn-round is", "ready: the first day it can be fetched",
    "vessels: whose gear goes on it", "share: hers of its price",
    "chosen: why there, where there was a choice", "settled: it keeps its day",
    "given_on: since when", "given_by: by what",
    "elsewhere_not_found: what it would cost elsewhere now", "by_person",
    "confirmed: by the station", "misfit: what is wrong with its day",
    "missed: an earlier day of it has passed", "ask_day: whether gear is taken in on it",
    "days_not_shared: it is one of the station's own",
    "earliest: the first other day that serves all of it",
    "moved_from: the day that serves no more", "moved_why",
    "given_from: in calendar and papers from then on");

static ANSWER_KEYS(CHOICE_KEYS, "what it was chosen for",
    "no_room: elsewhere, for all of it",
    "saves_minor: against the best plan that goes elsewhere", "saves_trips",
    "cheaper_elsewhere_minor: now, for a settled one");

static ANSWER_KEYS(ASHORE_KEYS, "what is ashore", "tag", "kind", "station", "since",
    "collect", "assumed: its turn-round is", "tasks: what it is there for",
    "due: the earliest of these");

static ANSWER_KEYS(
    COST_KEYS, "the cost", "currency", "minor", "unpriced: lines without a price");

static ANSWER_KEYS(PROOF_KEYS, "the plan", "proven: no choice costs less", "minor",
    "bound: none costs less than this", "trips",
    "bound_trips: none at that cost has fewer");

const struct answer_keys *const KEYS_OF_WINTER[] = {&LIST_KEYS, &TRIP_KEYS, &CHOICE_KEYS,
    &WORK_KEYS, &WAITING_KEYS, &WANTED_KEYS, &CANNOT_KEYS, &ASHORE_KEYS, &COST_KEYS,
    &CLASH_KEYS, &PROOF_KEYS, NULL};

typedef struct json line_fn(
    const struct inventory *inventory, const struct shore_line *line);

/* What every line of a shore list begins with. */
static struct json
begun_line(const struct answer_keys *keys, const struct inventory *inventory,
    const struct shore_line *line)
{
	const struct item *item = &inventory->items[line->item];
	return JSON_PUT(json_begun(), keys, JSON_NEXT, json_text(item->tag),
	    json_text(task_word(line->task)), json_day(line->due), json_text(item->kind),
	    json_text(state_word(line->state)), json_text(grade_word(line->grade)),
	    json_words(line->what), json_flag(line->give_back), json_flag(line->gone));
}

/* A line of what is done this winter. */
static struct json
work_line(const struct inventory *inventory, const struct shore_line *line)
{
	bool later = line->later_years > 0;
	return JSON_PUT(begun_line(&WORK_KEYS, inventory, line), &WORK_KEYS, JSON_LAST,
	    json_day(line->not_before), json_day(line->not_after),
	    json_number(line->price_minor, -1), json_number(line->price_from_years, 0),
	    json_flag(line->price_age_missed),
	    json_words(line->counted ? task_word(line->counted_by) : ""),
	    json_day(later ? line->later_from : DAY_NONE),
	    json_number(later ? line->later_minor : -1, -1), json_flag(line->with_parent),
	    json_day(line->due_again), json_flag(line->carries), json_words(line->note));
}

static struct json
waiting_line(const struct inventory *inventory, const struct shore_line *line)
{
	return JSON_PUT(begun_line(&WAITING_KEYS, inventory, line), &WAITING_KEYS,
	    JSON_LAST, json_number(line->winter, 0));
}

static struct json
wanted_line(const struct inventory *inventory, const struct shore_line *line)
{
	const struct item *item = &inventory->items[line->item];
	return JSON_OF(&WANTED_KEYS, json_text(item->tag), json_text(item->kind),
	    json_text(line->what));
}

static struct json
cannot_line(const struct inventory *inventory, const struct shore_line *line)
{
	return JSON_PUT(begun_line(&CANNOT_KEYS, inventory, line), &CANNOT_KEYS,
	    JSON_LAST, json_text(line->why), json_day(line->first_possible),
	    json_words(line->cure), json_words(line->given_up));
}

static struct json
lines_array(
    const struct inventory *inventory, const struct shore_lines *lines, line_fn *make)
{
	struct json array = json_list();
	for (size_t i = 0; i < lines->count; i++) {
		json_push(array, make(inventory, &lines->items[i]));
	}
	return array;
}

/* Why a trip goes where it does; null where there was no choice. */
static struct json
choice_value(const struct trip *trip)
{
	return !trip->choice.any ? json_none()
				 : JSON_OF(&CHOICE_KEYS, json_flag(trip->choice.no_room),
				       json_whole(trip->choice.saves_minor),
				       json_whole(trip->choice.saves_trips),
				       json_whole(trip->choice.cheaper_minor));
}

static struct json
trip_object(const struct inventory *inventory, const struct trip *trip)
{
	bool given = trip->given_by != GIVEN_BY_UNKNOWN;
	bool moved = trip->moved_why != DAY_SERVES;
	return JSON_OF(&TRIP_KEYS, json_words(trip->name), json_day(trip->hand_in),
	    json_day(trip->collect), lines_array(inventory, &trip->lines, work_line),
	    json_flag(trip->assumed), json_day(trip->ready), json_count(trip->vessels),
	    json_number(trip->share_minor, 0), choice_value(trip),
	    json_flag(trip->settled), json_day(given ? trip->given_on : DAY_NONE),
	    json_words(given_by_word(trip->given_by)),
	    json_flag(trip->choice.not_weighed), json_flag(trip->chosen),
	    json_flag(trip->confirmed), json_words(day_misfit_word(trip->misfit)),
	    json_flag(trip->missed), json_flag(trip->days == DAYS_TO_ASK),
	    json_flag(trip->days == DAYS_NOT_SHARED), json_day(trip->earliest),
	    json_day(moved ? trip->moved_from : DAY_NONE),
	    json_words(day_misfit_word(trip->moved_why)),
	    json_day(trip->held_back ? trip->given_from : DAY_NONE));
}

static struct json
trips_array(const struct inventory *inventory, const struct trips *trips)
{
	struct json array = json_list();
	for (size_t i = 0; i < trips->count; i++) {
		json_push(array, trip_object(inventory, &trips->items[i]));
	}
	return array;
}

static struct json
ashore_array(const struct inventory *inventory, const struct ashore_lines *lines)
{
	struct json array = json_list();
	for (size_t i = 0; i < lines->count; i++) {
		const struct ashore_line *line = &lines->items[i];
		const struct item *item = &inventory->items[line->item];
		json_push(array,
		    JSON_OF(&ASHORE_KEYS, json_text(item->tag), json_text(item->kind),
			json_words(line->station), json_day(line->since),
			json_day(line->collect), json_flag(line->assumed),
			json_tasks(line->tasks), json_day(line->due)));
	}
	return array;
}

/* How good the choice of trips is, hers or her base's. */
static struct json
proof_object(const struct trips_proof *proof)
{
	return JSON_OF(&PROOF_KEYS, json_flag(proof->proven), json_whole(proof->minor),
	    json_whole(proof->bound_minor), json_count(proof->trips),
	    json_count(proof->bound_trips));
}

static struct json
list_object(const struct inventory *inventory, const struct shore_list *list,
    const char *currency)
{
	const struct winter *winter = &list->winter;
	bool has = list->has_winter;
	return JSON_OF(&LIST_KEYS, json_text(inventory->vessels[list->vessel].name),
	    has ? json_whole(winter->year) : json_none(),
	    json_day(has ? winter->lay_up : DAY_NONE),
	    json_day(has ? winter->fitting_out : DAY_NONE),
	    trips_array(inventory, &list->hand_in),
	    ashore_array(inventory, &list->ashore),
	    lines_array(inventory, &list->self, work_line),
	    lines_array(inventory, &list->buy, work_line),
	    lines_array(inventory, &list->wanted, wanted_line),
	    lines_array(inventory, &list->paperwork, work_line),
	    lines_array(inventory, &list->dispose, work_line),
	    lines_array(inventory, &list->waits, waiting_line),
	    lines_array(inventory, &list->cannot, cannot_line),
	    lines_array(inventory, &list->now, work_line),
	    lines_array(inventory, &list->routines, work_line),
	    JSON_OF(&COST_KEYS, json_words(currency), json_whole(list->cost_minor),
		json_count(list->unpriced)),
	    clashes_array(inventory, &list->years), json_number(list->most_trips, 0),
	    proof_object(&list->proof));
}

void
answer_winter_keep(const struct inventory *inventory, const size_t *places,
    const struct shore_list *lists, size_t count, struct runs *kept)
{
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < count; i++) {
		size_t vessel = lists[i].vessel;
		int64_t place = (int64_t)(places == NULL ? vessel : places[vessel]);
		text_reset(&words);
		json_write(
		    list_object(inventory, &lists[i], inventory->currency), &words);
		runs_add(kept,
		    &(struct run_piece){place, text_string(&words), words.length, NULL});
	}
	runs_end(kept);
}
