#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

static const struct answer_key LIST_KEYS[] = {{"vessel", NULL},
    {"winter", "the year it begins in; null for one in use all year, as the next two"},
    {"lay_up", NULL}, {"fitting_out", NULL}, {"hand_in", "trips"},
    {"ashore", "what is there already"}, {"self", "lines, as all that follow"},
    {"buy", NULL}, {"wanted", "put on the list to buy by a person"}, {"paperwork", NULL},
    {"dispose", NULL}, {"waits", NULL}, {"cannot", "what can't be done in time"},
    {"now", NULL}, {"routines", "what comes round within the year"},
    {"cost", "what is known of it"},
    {"years", "what the plan of the coming winters has otherwise"},
    {"most_trips", "that she may make; null for any number"},
    {"plan", "how good the choice of trips is, hers or her base's"}};

#define EVERY_LINE                                                                       \
	{"tag", NULL}, {"task", NULL}, {"due", NULL}, {"kind", NULL}, {"state", NULL},   \
	    {"grade", "how binding: law, maker or practice"},                            \
	    {"what", "the rule's words"}, {"give_back", "it is hired"},                  \
	{                                                                                \
		"gone", "withdrawn, with none in its place"                              \
	}

static const struct answer_key WORK_KEYS[] = {EVERY_LINE,
    {"not_before", "so that it carries her through the season"}, {"not_after", NULL},
    {"price", NULL}, {"price_from_years", "that price holds from this age on"},
    {"price_age_not_known", "the dearest is taken"},
    {"counted_by", "the task done with it that counts as this one"},
    {"later_from", "from when it costs more, for its age"}, {"later_price", NULL},
    {"with_parent", "renewed since what it is part of is opened"}, {"due_again", NULL},
    {"carries", "it does not lapse in the season"}, {"note", NULL}};

static const struct answer_key WAITING_KEYS[] = {EVERY_LINE, {"winter", NULL}};

static const struct answer_key WANTED_KEYS[] = {
    {"tag", NULL}, {"kind", NULL}, {"to_buy", "what of it, in their words"}};

static const struct answer_key CANNOT_KEYS[] = {EVERY_LINE, {"why", NULL},
    {"first_possible", "the first day it could be back"}, {"cure", "what would help"},
    {"given_up", "why a person gave its hand-in up"}};

static const struct answer_key TRIP_KEYS[] = {{"station", NULL}, {"hand_in", NULL},
    {"collect", NULL}, {"items", "lines"}, {"assumed", "its turn-round is"},
    {"ready", "the first day it can be fetched"}, {"vessels", "whose gear goes on it"},
    {"share", "hers of its price"}, {"chosen", "why there, where there was a choice"},
    {"settled", "it keeps its day"}, {"given_on", "since when"}, {"given_by", "by what"},
    {"elsewhere_not_found", "what it would cost elsewhere now"}, {"by_person", NULL},
    {"confirmed", "by the station"}, {"misfit", "what is wrong with its day"},
    {"missed", "an earlier day of it has passed"},
    {"ask_day", "whether gear is taken in on it"},
    {"days_not_shared", "it is one of the station's own"},
    {"earliest", "the first other day that serves all of it"},
    {"moved_from", "the day that serves no more"}, {"moved_why", NULL},
    {"given_from", "in calendar and papers from then on"}};

static const struct answer_key CHOICE_KEYS[] = {{"no_room", "elsewhere, for all of it"},
    {"saves_minor", "against the best plan that goes elsewhere"}, {"saves_trips", NULL},
    {"cheaper_elsewhere_minor", "now, for a settled one"}};

static const struct answer_key ASHORE_KEYS[] = {{"tag", NULL}, {"kind", NULL},
    {"station", NULL}, {"since", NULL}, {"collect", NULL},
    {"assumed", "its turn-round is"}, {"tasks", "what it is there for"},
    {"due", "the earliest of these"}};

static const struct answer_key COST_KEYS[] = {
    {"currency", NULL}, {"minor", NULL}, {"unpriced", "lines without a price"}};

static const struct answer_key PROOF_KEYS[] = {{"proven", "no choice costs less"},
    {"minor", NULL}, {"bound", "none costs less than this"}, {"trips", NULL},
    {"bound_trips", "none at that cost has fewer"}};

enum { LIST, TRIP, CHOICE, WORK, WAITING, WANTED, CANNOT, ASHORE, COST, PROOF };

const struct answer_keys KEYS_OF_WINTER[] = {[LIST] = KEYS("a vessel", LIST_KEYS),
    [TRIP] = KEYS("a trip", TRIP_KEYS),
    [CHOICE] = KEYS("what it was chosen for", CHOICE_KEYS),
    [WORK] = KEYS("a line", WORK_KEYS),
    [WAITING] = KEYS("a line that waits", WAITING_KEYS),
    [WANTED] = KEYS("a line that is wanted", WANTED_KEYS),
    [CANNOT] = KEYS("a line that can't be done", CANNOT_KEYS),
    [ASHORE] = KEYS("what is ashore", ASHORE_KEYS),
    [COST] = KEYS("the cost", COST_KEYS),
    [PROOF] = KEYS("the plan", PROOF_KEYS),
    {0}};

/* What every line of a shore list carries. */
static json_t *
line_object(const struct inventory *inventory, const struct shore_line *line)
{
	const struct item *item = &inventory->items[line->item];
	json_t *object = json_object();
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "task", task_word(line->task));
	json_put_day(object, "due", line->due);
	json_put_string(object, "kind", item->kind);
	json_put_string(object, "state", state_word(line->state));
	json_put_string(object, "grade", grade_word(line->grade));
	json_put_words(object, "what", line->what);
	json_put_bool(object, "give_back", line->give_back);
	json_put_bool(object, "gone", line->gone);
	return object;
}

/* A line of what is done this winter. */
static json_t *
work_line(const struct inventory *inventory, const struct shore_line *line)
{
	json_t *object = line_object(inventory, line);
	json_put_day(object, "not_before", line->not_before);
	json_put_day(object, "not_after", line->not_after);
	json_put_number(object, "price", line->price_minor, -1);
	json_put_number(object, "price_from_years", line->price_from_years, 0);
	json_put_bool(object, "price_age_not_known", line->price_age_missed);
	json_put_words(
	    object, "counted_by", line->counted ? task_word(line->counted_by) : "");
	json_put_day(
	    object, "later_from", line->later_years > 0 ? line->later_from : DAY_NONE);
	json_put_number(
	    object, "later_price", line->later_years > 0 ? line->later_minor : -1, -1);
	json_put_bool(object, "with_parent", line->with_parent);
	json_put_day(object, "due_again", line->due_again);
	json_put_bool(object, "carries", line->carries);
	json_put_words(object, "note", line->note);
	return json_keyed(object, &KEYS_OF_WINTER[WORK]);
}

static json_t *
waiting_line(const struct inventory *inventory, const struct shore_line *line)
{
	json_t *object = line_object(inventory, line);
	json_put_number(object, "winter", line->winter, 0);
	return json_keyed(object, &KEYS_OF_WINTER[WAITING]);
}

static json_t *
wanted_line(const struct inventory *inventory, const struct shore_line *line)
{
	const struct item *item = &inventory->items[line->item];
	json_t *object = json_object();
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "kind", item->kind);
	json_put_string(object, "to_buy", line->what);
	return json_keyed(object, &KEYS_OF_WINTER[WANTED]);
}

static json_t *
cannot_line(const struct inventory *inventory, const struct shore_line *line)
{
	json_t *object = line_object(inventory, line);
	json_put_string(object, "why", line->why);
	json_put_day(object, "first_possible", line->first_possible);
	json_put_words(object, "cure", line->cure);
	json_put_words(object, "given_up", line->given_up);
	return json_keyed(object, &KEYS_OF_WINTER[CANNOT]);
}

typedef json_t *line_fn(const struct inventory *inventory, const struct shore_line *line);

static json_t *
lines_array(
    const struct inventory *inventory, const struct shore_lines *lines, line_fn *make)
{
	json_t *array = json_array();
	for (size_t i = 0; i < lines->count; i++) {
		json_push(array, make(inventory, &lines->items[i]));
	}
	return array;
}

/* What a trip shares with others, and why it goes there. */
static void
put_terms(json_t *object, const struct trip *trip)
{
	json_put_day(object, "ready", trip->ready);
	json_put(object, "vessels", json_integer((json_int_t)trip->vessels));
	json_put_number(object, "share", trip->share_minor, 0);
	json_t *choice = json_null();
	if (trip->choice.any) {
		choice = json_object();
		json_put(choice, "no_room", json_boolean(trip->choice.no_room));
		json_put(choice, "saves_minor",
		    json_integer((json_int_t)trip->choice.saves_minor));
		json_put(choice, "saves_trips",
		    json_integer((json_int_t)trip->choice.saves_trips));
		json_put(choice, "cheaper_elsewhere_minor",
		    json_integer((json_int_t)trip->choice.cheaper_minor));
		(void)json_keyed(choice, &KEYS_OF_WINTER[CHOICE]);
	}
	json_put(object, "chosen", choice);
}

/* How its day stands: kept since it was given out, a person's, and what is wrong with that. */
static void
put_standing(json_t *object, const struct trip *trip)
{
	json_put_bool(object, "settled", trip->settled);
	bool given = trip->given_by != GIVEN_BY_UNKNOWN;
	json_put_day(object, "given_on", given ? trip->given_on : DAY_NONE);
	json_put_words(object, "given_by", given_by_word(trip->given_by));
	json_put_bool(object, "elsewhere_not_found", trip->choice.not_weighed);
	json_put_bool(object, "by_person", trip->chosen);
	json_put_bool(object, "confirmed", trip->confirmed);
	json_put_words(object, "misfit", day_misfit_word(trip->misfit));
	json_put_bool(object, "missed", trip->missed);
	json_put_bool(object, "ask_day", trip->days == DAYS_TO_ASK);
	json_put_bool(object, "days_not_shared", trip->days == DAYS_NOT_SHARED);
	json_put_day(object, "earliest", trip->earliest);
	bool moved = trip->moved_why != DAY_SERVES;
	json_put_day(object, "moved_from", moved ? trip->moved_from : DAY_NONE);
	json_put_words(object, "moved_why", day_misfit_word(trip->moved_why));
	json_put_day(object, "given_from", trip->held_back ? trip->given_from : DAY_NONE);
}

static json_t *
trips_array(const struct inventory *inventory, const struct trips *trips)
{
	json_t *array = json_array();
	for (size_t i = 0; i < trips->count; i++) {
		const struct trip *trip = &trips->items[i];
		json_t *object = json_object();
		json_put_words(object, "station", trip->name);
		json_put_day(object, "hand_in", trip->hand_in);
		json_put_day(object, "collect", trip->collect);
		json_put(
		    object, "items", lines_array(inventory, &trip->lines, work_line));
		json_put_bool(object, "assumed", trip->assumed);
		put_terms(object, trip);
		put_standing(object, trip);
		json_push(array, json_keyed(object, &KEYS_OF_WINTER[TRIP]));
	}
	return array;
}

static json_t *
ashore_array(const struct inventory *inventory, const struct ashore_lines *lines)
{
	json_t *array = json_array();
	for (size_t i = 0; i < lines->count; i++) {
		const struct ashore_line *line = &lines->items[i];
		const struct item *item = &inventory->items[line->item];
		json_t *object = json_object();
		json_t *tasks = json_array();
		for (int task = 0; task < TASK_COUNT; task++) {
			if ((line->tasks & 1U << task) != 0) {
				json_push(tasks, json_string(task_word((enum task)task)));
			}
		}
		json_put_string(object, "tag", item->tag);
		json_put_string(object, "kind", item->kind);
		json_put_words(object, "station", line->station);
		json_put_day(object, "since", line->since);
		json_put_day(object, "collect", line->collect);
		json_put_bool(object, "assumed", line->assumed);
		json_put(object, "tasks", tasks);
		json_put_day(object, "due", line->due);
		json_push(array, json_keyed(object, &KEYS_OF_WINTER[ASHORE]));
	}
	return array;
}

static json_t *
cost_object(const struct shore_list *list, const char *currency)
{
	json_t *object = json_object();
	json_put_words(object, "currency", currency);
	json_put(object, "minor", json_integer(list->cost_minor));
	json_put(object, "unpriced", json_integer((json_int_t)list->unpriced));
	return json_keyed(object, &KEYS_OF_WINTER[COST]);
}

/* How good the choice of trips is, hers or her base's. */
static json_t *
proof_object(const struct trips_proof *proof)
{
	json_t *object = json_object();
	json_put_bool(object, "proven", proof->proven);
	json_put(object, "minor", json_integer((json_int_t)proof->minor));
	json_put(object, "bound", json_integer((json_int_t)proof->bound_minor));
	json_put(object, "trips", json_integer((json_int_t)proof->trips));
	json_put(object, "bound_trips", json_integer((json_int_t)proof->bound_trips));
	return json_keyed(object, &KEYS_OF_WINTER[PROOF]);
}

static json_t *
list_object(const struct inventory *inventory, const struct shore_list *list,
    const char *currency)
{
	const struct winter *winter = &list->winter;
	bool has = list->has_winter;

	const struct {
		const char *key;
		const struct shore_lines *lines;
		line_fn *make;
	} parts[] = {
	    {"self", &list->self, work_line},
	    {"buy", &list->buy, work_line},
	    {"wanted", &list->wanted, wanted_line},
	    {"paperwork", &list->paperwork, work_line},
	    {"dispose", &list->dispose, work_line},
	    {"waits", &list->waits, waiting_line},
	    {"cannot", &list->cannot, cannot_line},
	    {"now", &list->now, work_line},
	    {"routines", &list->routines, work_line},
	};

	json_t *object = json_object();
	json_put_string(object, "vessel", inventory->vessels[list->vessel].name);
	json_put(object, "winter", has ? json_integer(winter->year) : json_null());
	json_put_day(object, "lay_up", has ? winter->lay_up : DAY_NONE);
	json_put_day(object, "fitting_out", has ? winter->fitting_out : DAY_NONE);
	json_put(object, "hand_in", trips_array(inventory, &list->hand_in));
	json_put(object, "ashore", ashore_array(inventory, &list->ashore));
	for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
		json_put(object, parts[i].key,
		    lines_array(inventory, parts[i].lines, parts[i].make));
	}
	json_put(object, "cost", cost_object(list, currency));
	json_put(object, "years", clashes_array(inventory, &list->years));
	json_put_number(object, "most_trips", list->most_trips, 0);
	json_put(object, "plan", proof_object(&list->proof));
	return json_keyed(object, &KEYS_OF_WINTER[LIST]);
}

void
answer_winter(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, const char *currency, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		json_t *object = list_object(inventory, &lists[i], currency);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}
