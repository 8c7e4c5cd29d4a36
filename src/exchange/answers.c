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

static json_t *
due_row(struct answer *answer, const struct inventory *inventory,
    const struct agenda_row *row)
{
	const struct item *item = &inventory->items[row->item];
	bool bound = row->rule != NULL && *row->rule != '\0';
	json_t *object = json_object();
	json_put_string(answer, object, "vessel", vessel_of(inventory, item));
	json_put_string(answer, object, "tag", item->tag);
	json_put_string(answer, object, "kind", item->kind);
	json_put_string(answer, object, "task", task_word(row->task));
	json_put_day(answer, object, "due", row->due);
	json_put_string(answer, object, "state", state_word(row->state));
	json_put_string(answer, object, "grade", grade_word(row->grade));
	json_put_string(answer, object, "doer", doer_word(row->doer));
	json_put_words(answer, object, "rule", row->rule);
	json_put_words(answer, object, "clock", bound ? anchor_word(row->clock) : NULL);
	json_put_number(answer, object, "winter", row->winter, 0);
	json_put_day(answer, object, "good_through", row->good_through);
	json_put_words(answer, object, "sheet", row->sheet);
	json_put_bool(answer, object, "routine", row->routine);
	json_put_words(answer, object, "missing", row->missing);
	json_put_words(answer, object, "not_working", row->not_working);
	return object;
}

void
answer_due(const struct inventory *inventory, const struct agenda_row *rows, size_t count,
    struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		json_t *row = due_row(&answer, inventory, &rows[i]);
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
extension_object(struct answer *answer, const struct extension *extension)
{
	json_t *object = json_object();
	json_put_string(answer, object, "task", task_word(extension->task));
	json_put_day(answer, object, "until", extension->until);
	json_put_words(answer, object, "paper", extension->paper);
	json_put_day(answer, object, "given", extension->given);
	return object;
}

static json_t *
interval_object(struct answer *answer, const struct interval *interval)
{
	json_t *object = json_object();
	json_put_string(answer, object, "task", task_word(interval->task));
	json_put(answer, object, "months", json_integer(interval->months));
	json_put_number(answer, object, "first_months", interval->first_months, 0);
	json_put_words(answer, object, "from",
	    interval->from_said ? anchor_word(interval->from) : NULL);
	json_put_words(answer, object, "paper", interval->paper);
	json_put_day(answer, object, "on", interval->on);
	return object;
}

static json_t *
why_clock(struct answer *answer, const struct reading *reading)
{
	char interval[INTERVAL_SIZE];
	json_t *object = json_object();
	json_put_words(answer, object, "rule", reading->rule_id);
	json_put_string(answer, object, "anchor", anchor_word(reading->anchor));
	json_put_day(answer, object, "from", reading->from);
	json_put_words(answer, object, "interval", interval_words(reading, interval));
	json_put_day(answer, object, "due", reading->due);
	json_put_bool(answer, object, "binds", reading->binds);
	json_put_string(answer, object, "grade", grade_word(reading->grade));
	json_put_words(answer, object, "source", reading->source);
	json_put_bool(answer, object, "keeps_anniversary", reading->kept);
	json_put_bool(answer, object, "began_lapse", reading->began);
	json_put_words(answer, object, "part", reading->part);
	json_put_string(answer, object, "state", reading_word(reading->state));
	json_put_stamp(answer, object, "stamp", reading->stamp);
	json_put_day(answer, object, "good_through", reading->good_through);
	json_put_words(answer, object, "missing", reading->asks);
	json_put_words(
	    answer, object, "sheet", reading->rule == NULL ? NULL : reading->rule->sheet);
	json_put_bool(
	    answer, object, "paper_allows_longer", reading->paper_allows_longer);
	json_put(answer, object, "makers_interval",
	    reading->interval == NULL ? json_null()
				      : interval_object(answer, reading->interval));
	json_put(answer, object, "extension",
	    reading->extension == NULL ? json_null()
				       : extension_object(answer, reading->extension));
	return object;
}

static json_t *
why_task(struct answer *answer, const struct obligation *obligation)
{
	const struct reading *binding = obligation->binding;
	json_t *object = json_object();
	json_put_string(answer, object, "task", task_word(obligation->task));
	json_put_day(answer, object, "due", obligation->due);
	json_put_string(answer, object, "state", state_word(obligation->state));
	json_put_words(
	    answer, object, "binds", binding == NULL ? NULL : binding->rule_id);
	json_t *clocks = json_array();
	for (size_t i = 0; i < obligation->reading_count; i++) {
		json_push(answer, clocks, why_clock(answer, &obligation->readings[i]));
	}
	json_put(answer, object, "clocks", clocks);
	json_put_day(answer, object, "good_through", obligation->good_through);
	json_put_string(answer, object, "grade", grade_word(obligation->grade));
	json_put_string(answer, object, "doer", doer_word(obligation->doer));
	json_put_bool(answer, object, "routine", obligation->routine);
	json_put_bool(answer, object, "asks", obligation->asks);
	return object;
}

/* What her sheets carry no figure for, and whom to ask. */
static json_t *
not_stated(struct answer *answer, const struct due_engine *engine,
    const struct item *item, day_t today)
{
	const struct vessel *vessel = &engine->inventory->vessels[item->vessel];
	json_t *array = json_array();
	size_t count = 0;
	const struct not_stated *const *subjects =
	    rulebook_not_stated(engine->rulebooks[item->vessel], &count);
	for (size_t i = 0; i < count; i++) {
		if (subject_concerns(subjects[i], item->kind, vessel, today)) {
			json_t *object = json_object();
			json_put_string(answer, object, "subject", subjects[i]->subject);
			json_put_string(answer, object, "ask", subjects[i]->ask);
			json_put_string(answer, object, "sheet", subjects[i]->sheet);
			json_push(answer, array, object);
		}
	}
	return array;
}

/* {"part","because"}: the working part for want of which it does not work; null when it does. */
static bool
put_not_working(struct answer *answer, json_t *object, const struct due_engine *engine,
    size_t index, day_t today, struct fault *fault)
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
		json_put_string(answer, told, "part", items[working.part].tag);
		json_put_string(
		    answer, told, "because", part_trouble_word(working.trouble));
	}
	json_put(answer, object, "not_working", told == NULL ? json_null() : told);
	return true;
}

bool
answer_why(const struct due_engine *engine, day_t today, size_t index,
    const struct obligation *obligations, size_t count, struct text *out,
    struct fault *fault)
{
	struct answer answer = {.out = out};
	const struct inventory *inventory = engine->inventory;
	const struct item *item = &inventory->items[index];
	json_t *object = json_object();
	json_put_string(&answer, object, "tag", item->tag);
	json_put_string(&answer, object, "kind", item->kind);
	json_put_string(&answer, object, "vessel", vessel_of(inventory, item));
	json_t *tasks = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(&answer, tasks, why_task(&answer, &obligations[i]));
	}
	json_put(&answer, object, "tasks", tasks);
	json_put(&answer, object, "not_stated", not_stated(&answer, engine, item, today));
	if (!put_not_working(&answer, object, engine, index, today, fault)) {
		json_decref(object);
		return false;
	}
	answer_value(&answer, object);
	return true;
}

/* A date of an item: the day, and under `written_key` the label's own precision. */
static void
put_date(struct answer *answer, json_t *object, const char *key, const char *written_key,
    struct stamp stamp, day_t day)
{
	json_put_day(answer, object, key, day);
	json_put_stamp(answer, object, written_key, stamp);
}

/* A field under its name, as what it holds is told in JSON. */
static void
put_field(
    struct answer *answer, json_t *object, const struct field *field, const void *of)
{
	const void *at = field_of(field, of);
	char written[64];
	SCOPED_TEXT words = {0};
	switch (field->type) {
	case VALUE_STAMP: {
		struct stamp stamp = *(const struct stamp *)at;
		(void)snprintf(written, sizeof written, "%s_as_written", field->name);
		put_date(answer, object, field->name, written, stamp,
		    field->mark ? stamp_good_through(stamp) : stamp_first(stamp));
		return;
	}
	case VALUE_DAY:
		json_put_day(answer, object, field->name, *(const day_t *)at);
		return;
	case VALUE_COUNT:
	case VALUE_LENGTH:
		json_put_number(answer, object, field->name, *(const int *)at, 0);
		return;
	case VALUE_FLAG:
		json_put_bool(answer, object, field->name, *(const bool *)at);
		return;
	case VALUE_PRICE:
		json_put_number(
		    answer, object, field->name, *(const int64_t *)at, field->blank);
		return;
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
	case VALUE_STATE:
	case VALUE_BECAUSE:
	case VALUE_TASK:
	case VALUE_USE:
	case VALUE_EITHER:
		break;
	}
	field_add(field, of, "", &words);
	(field->null ? json_put_words : json_put_string)(
	    answer, object, field->name, text_string(&words));
}

static json_t *
item_object(struct answer *answer, const struct inventory *inventory, size_t item)
{
	json_t *object = json_object();
	struct item_change values = item_as_change(inventory, item);
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		enum csv_column column = (enum csv_column)i;
		if (csv_column_field(column) != NO_FIELD) {
			put_field(answer, object, csv_column_row(column), &values);
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
		json_t *object = item_object(&answer, inventory, items[i]);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

json_t *
record_object(struct answer *answer, const struct record *record)
{
	json_t *object = json_object();
	json_put_string(answer, object, "task", task_word(record->task));
	put_date(
	    answer, object, "on", "on_as_written", record->on, stamp_first(record->on));
	put_date(answer, object, "next", "next_as_written", record->next,
	    stamp_good_through(record->next));
	json_put_words(answer, object, "station", record->station);
	json_put_words(answer, object, "certificate", record->certificate);
	json_put_number(answer, object, "price", record->price_minor, -1);
	return object;
}

json_t *
event_object(struct answer *answer, const struct event *event)
{
	json_t *object = json_object();
	json_put_string(answer, object, "event", event_word(event->kind));
	json_put_day(answer, object, "on", event->on);
	return object;
}

json_t *
movement_object(struct answer *answer, const struct movement *movement)
{
	json_t *object = json_object();
	json_put_string(answer, object, "move", move_word(movement->move));
	json_put_day(answer, object, "on", movement->on);
	json_put_string(answer, object, "was", place_word(movement->was));
	json_put_string(answer, object, "vessel", movement->vessel);
	json_put_string(answer, object, "was_vessel", movement->was_vessel);
	json_put_words(answer, object, "station", movement->station);
	json_put_words(answer, object, "stands_for", movement->stands_for);
	json_put_words(answer, object, "certificate", movement->certificate);
	json_put_words(answer, object, "serial", movement->serial);
	json_put_words(answer, object, "because", because_word(movement->because));
	json_put_words(answer, object, "result", result_word(movement->result));
	json_put_number(answer, object, "price", movement->price_minor, -1);
	json_put_words(answer, object, "note", movement->note);
	json_t *asked = json_array();
	for (int task = 0; task < TASK_COUNT; task++) {
		if ((movement->asked & 1U << task) != 0) {
			json_push(answer, asked, json_string(task_word((enum task)task)));
		}
	}
	json_put(answer, object, "asked", asked);
	return object;
}

static json_t *
paper_object(struct answer *answer, const struct paper *paper)
{
	json_t *object = json_object();
	json_put(answer, object, "number", json_integer(paper->number));
	json_put_string(answer, object, "tag", paper->tag);
	json_put_string(answer, object, "name", paper->name);
	json_put_string(answer, object, "type", paper->media_type);
	json_put(answer, object, "size", json_integer(paper->size));
	json_put_day(answer, object, "added", paper->added);
	json_put_string(answer, object, "sha256", paper->sha256);
	json_put_words(answer, object, "note", paper->note);
	json_t *record = paper->of_record ? json_object() : json_null();
	if (paper->of_record) {
		json_put_string(answer, record, "task", task_word(paper->task));
		put_date(answer, record, "on", "on_as_written", paper->on,
		    stamp_first(paper->on));
		json_put_words(answer, record, "certificate", paper->certificate);
	}
	json_put(answer, object, "record", record);
	return object;
}

void
answer_papers(const struct paper *papers, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		answer_element(&answer, paper_object(&answer, &papers[i]));
	}
	answer_end(&answer);
}

void
answer_show(const struct inventory *inventory, size_t index, const struct paper *papers,
    size_t paper_count, struct text *out)
{
	struct answer answer = {.out = out};
	const struct item *item = &inventory->items[index];
	json_t *object = item_object(&answer, inventory, index);
	json_t *records = json_array();
	for (size_t i = 0; i < item->record_count; i++) {
		json_t *record = record_object(&answer, &item->records[i]);
		json_put(&answer, record, "number", json_integer((json_int_t)i + 1));
		json_push(&answer, records, record);
	}
	json_put(&answer, object, "records", records);
	json_t *movements = json_array();
	for (size_t i = 0; i < item->movement_count; i++) {
		json_push(
		    &answer, movements, movement_object(&answer, &item->movements[i]));
	}
	json_put(&answer, object, "movements", movements);
	json_t *events = json_array();
	for (size_t i = 0; i < item->event_count; i++) {
		json_push(&answer, events, event_object(&answer, &item->events[i]));
	}
	json_put(&answer, object, "events", events);
	json_t *extensions = json_array();
	for (size_t i = 0; i < item->extension_count; i++) {
		json_push(
		    &answer, extensions, extension_object(&answer, &item->extensions[i]));
	}
	json_put(&answer, object, "extensions", extensions);
	json_t *intervals = json_array();
	for (size_t i = 0; i < item->interval_count; i++) {
		json_push(
		    &answer, intervals, interval_object(&answer, &item->intervals[i]));
	}
	json_put(&answer, object, "makers_intervals", intervals);
	json_t *kept = json_array();
	for (size_t i = 0; i < paper_count; i++) {
		json_push(&answer, kept, paper_object(&answer, &papers[i]));
	}
	json_put(&answer, object, "papers", kept);
	answer_value(&answer, object);
}
