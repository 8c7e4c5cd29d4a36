#include "exchange/answers.h"

#include "exchange/answer_parts.h"
#include "exchange/csv_columns.h"
#include "exchange/json_object.h"
#include "rules/meets.h"

#include <stdio.h>

static const char *
vessel_of(const struct inventory *inventory, const struct item *item)
{
	return inventory->vessels[item->vessel].name;
}

static const struct answer_key TASK_KEYS[] = {{"vessel", NULL}, {"tag", NULL},
    {"kind", NULL}, {"task", NULL},
    {"due", "its last good day; null where that is not known or nothing lapses"},
    {"state", "in-date, overdue, expired, life-expired or date-unknown"},
    {"grade", "how binding: law, maker or practice"},
    {"doer", "owner, station or authority"}, {"rule", "the one that binds"},
    {"clock", "what that counts from"},
    {"winter", "in which to do it; null for now, or where she has none"},
    {"good_through", "the last day it counts as in date"},
    {"sheet", "where the rule stands; null for papers of its own"},
    {"routine", "comes round within the year"}, {"missing", "what is not known"},
    {"not_working", "the tag of the part for want of which it does not work"}};

const struct answer_keys KEYS_OF_DUE[] = {KEYS("a task", TASK_KEYS), {0}};

static json_t *
due_row(const struct inventory *inventory, const struct agenda_row *row)
{
	const struct item *item = &inventory->items[row->item];
	bool bound = row->rule != NULL && *row->rule != '\0';
	json_t *object = json_object();
	json_put_string(object, "vessel", vessel_of(inventory, item));
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "kind", item->kind);
	json_put_string(object, "task", task_word(row->task));
	json_put_day(object, "due", row->due);
	json_put_string(object, "state", state_word(row->state));
	json_put_string(object, "grade", grade_word(row->grade));
	json_put_string(object, "doer", doer_word(row->doer));
	json_put_words(object, "rule", row->rule);
	json_put_words(object, "clock", bound ? anchor_word(row->clock) : NULL);
	json_put_number(object, "winter", row->winter, 0);
	json_put_day(object, "good_through", row->good_through);
	json_put_words(object, "sheet", row->sheet);
	json_put_bool(object, "routine", row->routine);
	json_put_words(object, "missing", row->missing);
	json_put_words(object, "not_working", row->not_working);
	return json_keyed(object, KEYS_OF_DUE);
}

void
answer_due(const struct inventory *inventory, const struct agenda_row *rows, size_t count,
    struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		json_t *row = due_row(inventory, &rows[i]);
		answer_element(&answer, row);
	}
	answer_end(&answer);
}

static const char *
reading_word(enum reading_state state)
{
	switch (state) {
	case READING_RUNS:
		return "runs";
	case READING_NOT_KNOWN:
		return "not-known";
	case READING_ASKS:
		return "asks";
	case READING_NOT_IN_FORCE:
		return "not-in-force";
	case READING_DONE:
		return "done";
	case READING_REPLACED:
		return "replaced";
	}
	return "";
}

enum { INTERVAL_SIZE = 32 };

/* "24 months", "7 days"; "" for marks and papers. */
static const char *
interval_words(const struct reading *reading, char buffer[INTERVAL_SIZE])
{
	bool in_days = reading->days != 0;
	int number = in_days ? reading->days : reading->months;
	const char *unit = in_days ? "day" : "month";
	buffer[0] = '\0';
	if (number != 0) {
		(void)snprintf(buffer, INTERVAL_SIZE, "%d %s%s", number, unit,
		    number == 1 ? "" : "s");
	}
	return buffer;
}

static json_t *
extension_object(const struct extension *extension)
{
	json_t *object = json_object();
	json_put_string(object, "task", task_word(extension->task));
	json_put_day(object, "until", extension->until);
	json_put_words(object, "paper", extension->paper);
	json_put_day(object, "given", extension->given);
	return object;
}

static json_t *
interval_object(const struct interval *interval)
{
	json_t *object = json_object();
	json_put_string(object, "task", task_word(interval->task));
	json_put(object, "months", json_integer(interval->months));
	json_put_number(object, "first_months", interval->first_months, 0);
	json_put_words(
	    object, "from", interval->from_said ? anchor_word(interval->from) : NULL);
	json_put_words(object, "paper", interval->paper);
	json_put_day(object, "on", interval->on);
	return object;
}

static json_t *
why_clock(const struct reading *reading)
{
	char interval[INTERVAL_SIZE];
	json_t *object = json_object();
	json_put_words(object, "rule", reading->rule_id);
	json_put_string(object, "anchor", anchor_word(reading->anchor));
	json_put_day(object, "from", reading->from);
	json_put_words(object, "interval", interval_words(reading, interval));
	json_put_day(object, "due", reading->due);
	json_put_bool(object, "binds", reading->binds);
	json_put_string(object, "grade", grade_word(reading->grade));
	json_put_words(object, "source", reading->source);
	json_put_bool(object, "keeps_anniversary", reading->kept);
	json_put_bool(object, "began_lapse", reading->began);
	json_put_words(object, "part", reading->part);
	json_put_string(object, "state", reading_word(reading->state));
	json_put_stamp(object, "stamp", reading->stamp);
	json_put_day(object, "good_through", reading->good_through);
	json_put_words(object, "missing", reading->asks);
	json_put_words(
	    object, "sheet", reading->rule == NULL ? NULL : reading->rule->sheet);
	json_put_bool(object, "paper_allows_longer", reading->paper_allows_longer);
	json_put(object, "makers_interval",
	    reading->interval == NULL ? json_null() : interval_object(reading->interval));
	json_put(object, "extension",
	    reading->extension == NULL ? json_null()
				       : extension_object(reading->extension));
	return object;
}

static json_t *
why_task(const struct obligation *obligation)
{
	const struct reading *binding = obligation->binding;
	json_t *object = json_object();
	json_put_string(object, "task", task_word(obligation->task));
	json_put_day(object, "due", obligation->due);
	json_put_string(object, "state", state_word(obligation->state));
	json_put_words(object, "binds", binding == NULL ? NULL : binding->rule_id);
	json_t *clocks = json_array();
	for (size_t i = 0; i < obligation->reading_count; i++) {
		json_push(clocks, why_clock(&obligation->readings[i]));
	}
	json_put(object, "clocks", clocks);
	json_put_day(object, "good_through", obligation->good_through);
	json_put_string(object, "grade", grade_word(obligation->grade));
	json_put_string(object, "doer", doer_word(obligation->doer));
	json_put_bool(object, "routine", obligation->routine);
	json_put_bool(object, "asks", obligation->asks);
	return object;
}

/* What her sheets carry no figure for, and whom to ask. */
static json_t *
not_stated(const struct due_engine *engine, const struct item *item, day_t today)
{
	const struct vessel *vessel = &engine->inventory->vessels[item->vessel];
	json_t *array = json_array();
	size_t count = 0;
	const struct not_stated *const *subjects =
	    rulebook_not_stated(engine->rulebooks[item->vessel], &count);
	for (size_t i = 0; i < count; i++) {
		if (subject_concerns(subjects[i], item->kind, vessel, today)) {
			json_t *object = json_object();
			json_put_string(object, "subject", subjects[i]->subject);
			json_put_string(object, "ask", subjects[i]->ask);
			json_put_string(object, "sheet", subjects[i]->sheet);
			json_push(array, object);
		}
	}
	return array;
}

/* {"part","because"}: the working part for want of which it does not work; null when it does. */
static bool
put_not_working(json_t *object, const struct due_engine *engine, size_t index,
    day_t today, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct working working = {0};
	const struct item *items = engine->inventory->items;
	json_t *told = NULL;
	if (!due_working(
		engine, index, items[index].vessel, today, &arena, &working, fault)) {
		return false;
	}
	if (working.trouble != PART_FINE) {
		told = json_object();
		json_put_string(told, "part", items[working.part].tag);
		json_put_string(told, "because", part_trouble_word(working.trouble));
	}
	json_put(object, "not_working", told == NULL ? json_null() : told);
	return true;
}

bool
answer_why(const struct due_engine *engine, day_t today, size_t index,
    const struct obligation *obligations, size_t count, struct text *out,
    struct fault *fault)
{
	const struct inventory *inventory = engine->inventory;
	const struct item *item = &inventory->items[index];
	json_t *object = json_object();
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "kind", item->kind);
	json_put_string(object, "vessel", vessel_of(inventory, item));
	json_t *tasks = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(tasks, why_task(&obligations[i]));
	}
	json_put(object, "tasks", tasks);
	json_put(object, "not_stated", not_stated(engine, item, today));
	if (!put_not_working(object, engine, index, today, fault)) {
		json_decref(object);
		return false;
	}
	answer_value(out, object);
	return true;
}

/* A date of an item: the day, and under `written_key` the label's own precision. */
static void
put_date(json_t *object, const char *key, const char *written_key, struct stamp stamp,
    day_t day)
{
	json_put_day(object, key, day);
	json_put_stamp(object, written_key, stamp);
}

void
answer_put_field(json_t *object, const struct field *field, const void *of)
{
	const void *at = field_of(field, of);
	const char *key = field->key == NULL ? field->name : field->key;
	char written[64];
	SCOPED_TEXT words = {0};
	switch (field->type) {
	case VALUE_STAMP: {
		struct stamp stamp = *(const struct stamp *)at;
		(void)snprintf(written, sizeof written, "%s_as_written", key);
		put_date(object, key, written, stamp,
		    field->mark ? stamp_good_through(stamp) : stamp_first(stamp));
		return;
	}
	case VALUE_DAY:
		json_put_day(object, key, *(const day_t *)at);
		return;
	case VALUE_COUNT:
	case VALUE_LENGTH:
		json_put_number(
		    object, key, *(const int *)at, field->null ? 0 : INT64_MIN);
		return;
	case VALUE_FLAG:
		json_put_bool(object, key, *(const bool *)at);
		return;
	case VALUE_EITHER: {
		int known = *(const int *)at;
		json_put(object, key, known == 0 ? json_null() : json_boolean(known > 0));
		return;
	}
	case VALUE_PRICE:
		json_put_number(object, key, *(const int64_t *)at, field->blank);
		return;
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
	case VALUE_STATE:
	case VALUE_BECAUSE:
	case VALUE_TASK:
	case VALUE_USE:
		break;
	}
	field_add(field, of, "", &words);
	(field->null ? json_put_words : json_put_string)(
	    object, key, text_string(&words));
}

static json_t *
item_object(const struct inventory *inventory, size_t item)
{
	json_t *object = json_object();
	struct item_change values = item_as_change(inventory, item);
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		enum csv_column column = (enum csv_column)i;
		if (csv_column_field(column) != NO_FIELD) {
			answer_put_field(object, csv_column_row(column), &values);
		}
	}
	return object;
}

void
answer_list(const struct inventory *inventory, const size_t *items, size_t count,
    struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		json_t *object = item_object(inventory, items[i]);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

json_t *
record_object(const struct record *record)
{
	json_t *object = json_object();
	json_put_string(object, "task", task_word(record->task));
	put_date(object, "on", "on_as_written", record->on, stamp_first(record->on));
	put_date(object, "next", "next_as_written", record->next,
	    stamp_good_through(record->next));
	json_put_words(object, "station", record->station);
	json_put_words(object, "certificate", record->certificate);
	json_put_number(object, "price", record->price_minor, -1);
	return object;
}

json_t *
event_object(const struct event *event)
{
	json_t *object = json_object();
	json_put_string(object, "event", event_word(event->kind));
	json_put_day(object, "on", event->on);
	return object;
}

json_t *
movement_object(const struct movement *movement)
{
	json_t *object = json_object();
	json_put_string(object, "move", move_word(movement->move));
	json_put_day(object, "on", movement->on);
	json_put_string(object, "was", place_word(movement->was));
	json_put_string(object, "vessel", movement->vessel);
	json_put_string(object, "was_vessel", movement->was_vessel);
	json_put_words(object, "station", movement->station);
	json_put_words(object, "stands_for", movement->stands_for);
	json_put_words(object, "certificate", movement->certificate);
	json_put_words(object, "serial", movement->serial);
	json_put_words(object, "because", because_word(movement->because));
	json_put_words(object, "result", result_word(movement->result));
	json_put_number(object, "price", movement->price_minor, -1);
	json_put_words(object, "note", movement->note);
	json_t *asked = json_array();
	for (int task = 0; task < TASK_COUNT; task++) {
		if ((movement->asked & 1U << task) != 0) {
			json_push(asked, json_string(task_word((enum task)task)));
		}
	}
	json_put(object, "asked", asked);
	return object;
}

static json_t *
paper_object(const struct paper *paper)
{
	json_t *object = json_object();
	json_put(object, "number", json_integer(paper->number));
	json_put_string(object, "tag", paper->tag);
	json_put_string(object, "name", paper->name);
	json_put_string(object, "type", paper->media_type);
	json_put(object, "size", json_integer(paper->size));
	json_put_day(object, "added", paper->added);
	json_put_string(object, "sha256", paper->sha256);
	json_put_words(object, "note", paper->note);
	json_t *record = paper->of_record ? json_object() : json_null();
	if (paper->of_record) {
		json_put_string(record, "task", task_word(paper->task));
		put_date(
		    record, "on", "on_as_written", paper->on, stamp_first(paper->on));
		json_put_words(record, "certificate", paper->certificate);
	}
	json_put(object, "record", record);
	return object;
}

void
answer_papers(const struct paper *papers, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		answer_element(&answer, paper_object(&papers[i]));
	}
	answer_end(&answer);
}

void
answer_show(const struct inventory *inventory, size_t index, const struct paper *papers,
    size_t paper_count, struct text *out)
{
	const struct item *item = &inventory->items[index];
	json_t *object = item_object(inventory, index);
	json_t *records = json_array();
	for (size_t i = 0; i < item->record_count; i++) {
		json_t *record = record_object(&item->records[i]);
		json_put(record, "number", json_integer((json_int_t)i + 1));
		json_push(records, record);
	}
	json_put(object, "records", records);
	json_t *movements = json_array();
	for (size_t i = 0; i < item->movement_count; i++) {
		json_push(movements, movement_object(&item->movements[i]));
	}
	json_put(object, "movements", movements);
	json_t *events = json_array();
	for (size_t i = 0; i < item->event_count; i++) {
		json_push(events, event_object(&item->events[i]));
	}
	json_put(object, "events", events);
	json_t *extensions = json_array();
	for (size_t i = 0; i < item->extension_count; i++) {
		json_push(extensions, extension_object(&item->extensions[i]));
	}
	json_put(object, "extensions", extensions);
	json_t *intervals = json_array();
	for (size_t i = 0; i < item->interval_count; i++) {
		json_push(intervals, interval_object(&item->intervals[i]));
	}
	json_put(object, "makers_intervals", intervals);
	json_t *kept = json_array();
	for (size_t i = 0; i < paper_count; i++) {
		json_push(kept, paper_object(&papers[i]));
	}
	json_put(object, "papers", kept);
	answer_value(out, object);
}
