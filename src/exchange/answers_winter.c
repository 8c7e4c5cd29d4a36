#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

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
	return object;
}

static json_t *
waiting_line(const struct inventory *inventory, const struct shore_line *line)
{
	json_t *object = line_object(inventory, line);
	json_put_number(object, "winter", line->winter, 0);
	return object;
}

static json_t *
cannot_line(const struct inventory *inventory, const struct shore_line *line)
{
	json_t *object = line_object(inventory, line);
	json_put_string(object, "why", line->why);
	json_put_day(object, "first_possible", line->first_possible);
	json_put_words(object, "cure", line->cure);
	json_put_words(object, "given_up", line->given_up);
	return object;
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
		json_push(array, object);
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
		json_push(array, object);
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
	return object;
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
	return object;
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
	return object;
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
