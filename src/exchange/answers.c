#include "exchange/answers.h"

#include "exchange/answer_parts.h"
#include "exchange/csv_read.h"
#include "exchange/json_object.h"
#include "rules/meets.h"

#include <stdio.h>

struct json
json_vessel(const struct inventory *inventory, const struct item *item)
{
	return json_text(inventory->vessels[item->vessel].name);
}

struct json
json_station(const struct station *stations, size_t station)
{
	return json_words(station == NO_STATION ? "" : stations[station].name);
}

static ANSWER_KEYS(DUE_KEYS, "a task", "vessel", "tag", "kind",
    "task: null where it does not work and no rule gives it a day; so grade and doer",
    "due: its last good day; null where that is not known or nothing lapses",
    "state: in-date, overdue, expired, life-expired or date-unknown",
    "grade: how binding: law, maker or practice", "doer: owner, station or authority",
    "rule: the one that binds", "clock: what that counts from",
    "winter: in which to do it; null for now, or where she has none",
    "good_through: the last day it counts as in date",
    "sheet: where the rule stands; null for papers of its own",
    "routine: comes round within the year", "missing: what is not known",
    "not_working: the tag of the part for want of which it does not work");

const struct answer_keys *const KEYS_OF_DUE[] = {&DUE_KEYS, NULL};

static void
write_due_row(const struct json_keys *keys, const struct inventory *inventory,
    const struct agenda_row *row, struct text *out)
{
	const struct item *item = &inventory->items[row->item];
	bool bound = row->rule != NULL && *row->rule != '\0';
	JSON_WRITE(out, keys, json_vessel(inventory, item), json_text(item->tag),
	    json_text(item->kind), json_words(agenda_task_word(row)), json_day(row->due),
	    json_text(state_word(row->state)),
	    json_words(row->no_task ? NULL : grade_word(row->grade)),
	    json_words(row->no_task ? NULL : doer_word(row->doer)), json_words(row->rule),
	    json_words(bound ? anchor_word(row->clock) : NULL),
	    json_number(row->winter, 0), json_day(row->good_through),
	    json_words(row->sheet), json_flag(row->routine), json_words(row->missing),
	    json_words(row->not_working));
}

void
answer_due_keep(const struct inventory *inventory, const struct agenda_row *rows,
    size_t count, struct runs *kept)
{
	SCOPED_JSON_KEYS keys = {0};
	SCOPED_TEXT words = {0};
	json_keys_make(&DUE_KEYS, &keys);
	for (size_t i = 0; i < count; i++) {
		text_reset(&words);
		write_due_row(&keys, inventory, &rows[i], &words);
		runs_add(kept, &(struct run_piece){agenda_key(&rows[i]),
				   text_string(&words), words.length, NULL});
	}
	runs_end(kept);
}

static void
add_kept(const struct run_piece *piece, void *answer)
{
	answer_written(answer, piece->bytes, piece->length);
}

bool
answer_kept(const struct runs *kept, struct text *out, struct fault *fault)
{
	struct answer answer = {.out = out};
	if (!runs_merge(kept, add_kept, &answer, fault)) {
		return false;
	}
	answer_end(&answer);
	return true;
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

static ANSWER_KEYS(EXTENSION_KEYS, "an authority's extension", "task",
    "until: its last day", "paper: that it stands in", "given: the day it was");

static struct json
extension_object(const struct extension *extension)
{
	return JSON_OF(&EXTENSION_KEYS, json_text(task_word(extension->task)),
	    json_day(extension->until), json_words(extension->paper),
	    json_day(extension->given));
}

static ANSWER_KEYS(INTERVAL_KEYS, "a maker's interval", "task", "months",
    "first_months: until it was first done", "from: what it counts from until then",
    "paper: that it stands in", "on: the day it was known");

static struct json
interval_object(const struct interval *interval)
{
	return JSON_OF(&INTERVAL_KEYS, json_text(task_word(interval->task)),
	    json_whole(interval->months), json_number(interval->first_months, 0),
	    json_words(interval->from_said ? anchor_word(interval->from) : NULL),
	    json_words(interval->paper), json_day(interval->on));
}

static ANSWER_KEYS(WHY_KEYS, "an item", "tag", "kind", "vessel", "tasks",
    "not_stated: what her sheets have no figure for",
    "not_working: the part for want of which it does not work; null where it does");

static ANSWER_KEYS(WHY_TASK_KEYS, "a task", "task", "due: its last good day",
    "state: in-date, overdue, expired, life-expired or date-unknown",
    "binds: the rule that does", "clocks: each that was looked at", "good_through",
    "grade: how binding: law, maker or practice", "doer: owner, station or authority",
    "routine: comes round within the year", "asks: a date is wanted");

static ANSWER_KEYS(CLOCK_KEYS, "a clock", "rule", "anchor: what it counts from",
    "from: the day of that", "interval: in words", "due",
    "binds: this clock decides the day", "grade", "source", "keeps_anniversary",
    "began_lapse: the present lapse began by it", "part: it is the clock of",
    "state: runs, not-known, asks, not-in-force, done or replaced",
    "stamp: the date as written", "good_through", "missing: what is not known", "sheet",
    "paper_allows_longer: than the rule", "makers_interval: that it is",
    "extension: that moves it");

static ANSWER_KEYS(
    NOT_WORKING_KEYS, "a part for want of which it does not work", "part", "because");

const struct answer_keys *const KEYS_OF_WHY[] = {&WHY_KEYS, &WHY_TASK_KEYS, &CLOCK_KEYS,
    &INTERVAL_KEYS, &EXTENSION_KEYS, &NOT_STATED_KEYS, &NOT_WORKING_KEYS, NULL};

static struct json
why_clock(const struct reading *reading)
{
	char interval[INTERVAL_SIZE];
	return JSON_OF(&CLOCK_KEYS, json_words(reading->rule_id),
	    json_text(anchor_word(reading->anchor)), json_day(reading->from),
	    json_words(interval_words(reading, interval)), json_day(reading->due),
	    json_flag(reading->binds), json_text(grade_word(reading->grade)),
	    json_words(reading->source), json_flag(reading->kept),
	    json_flag(reading->began), json_words(reading->part),
	    json_text(reading_word(reading->state)), json_stamp(reading->stamp),
	    json_day(reading->good_through), json_words(reading->asks),
	    json_words(reading->rule == NULL ? NULL : reading->rule->sheet),
	    json_flag(reading->paper_allows_longer),
	    reading->interval == NULL ? json_none() : interval_object(reading->interval),
	    reading->extension == NULL ? json_none()
				       : extension_object(reading->extension));
}

static struct json
why_task(const struct obligation *obligation)
{
	const struct reading *binding = obligation->binding;
	struct json clocks = json_list();
	for (size_t i = 0; i < obligation->reading_count; i++) {
		json_push(clocks, why_clock(&obligation->readings[i]));
	}
	return JSON_OF(&WHY_TASK_KEYS, json_text(task_word(obligation->task)),
	    json_day(obligation->due), json_text(state_word(obligation->state)),
	    json_words(binding == NULL ? NULL : binding->rule_id), clocks,
	    json_day(obligation->good_through), json_text(grade_word(obligation->grade)),
	    json_text(doer_word(obligation->doer)), json_flag(obligation->routine),
	    json_flag(obligation->asks));
}

/* What her sheets carry no figure for, and whom to ask. */
static struct json
not_stated_array(const struct due_engine *engine, const struct item *item, day_t today)
{
	const struct vessel *vessel = &engine->inventory->vessels[item->vessel];
	struct json array = json_list();
	size_t count = 0;
	const struct not_stated *const *subjects =
	    rulebook_not_stated(engine->rulebooks[item->vessel], &count);
	for (size_t i = 0; i < count; i++) {
		if (subject_concerns(subjects[i], item->kind, vessel, today)) {
			json_push(array, not_stated_object(subjects[i]));
		}
	}
	return array;
}

void
answer_why(const struct due_engine *engine, day_t today, size_t index,
    const struct obligation *obligations, size_t count, struct text *out)
{
	SCOPED_ARENA arena = {0};
	struct working working = {0};
	const struct item *items = engine->inventory->items;
	const struct item *item = &items[index];
	due_working(engine, index, item->vessel, today, &arena, &working);
	struct json tasks = json_list();
	for (size_t i = 0; i < count; i++) {
		json_push(tasks, why_task(&obligations[i]));
	}
	bool works = working.trouble == PART_FINE;
	answer_value(out,
	    JSON_OF(&WHY_KEYS, json_text(item->tag), json_text(item->kind),
		json_vessel(engine->inventory, item), tasks,
		not_stated_array(engine, item, today),
		works ? json_none()
		      : JSON_OF(&NOT_WORKING_KEYS, json_text(items[working.part].tag),
			    json_text(part_trouble_word(working.trouble)))));
}

/* The nth of an item's own columns. */
static const struct field *
item_field(size_t nth)
{
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		if (csv_column_field((enum csv_column)i) != NO_FIELD && nth-- == 0) {
			return csv_column_row((enum csv_column)i);
		}
	}
	return NULL;
}

static ANSWER_FIELDS(LIST_KEYS, "an item", item_field, KEYS_OF_FIELDS);

const struct answer_keys *const KEYS_OF_LIST[] = {&LIST_KEYS, NULL};

static ANSWER_FIELDS(SHOW_KEYS, "an item", item_field, KEYS_OF_FIELDS, "records",
    "movements", "events", "extensions", "makers_intervals", "papers");

void
answer_list_some(struct answer *answer, const struct inventory *inventory,
    const size_t *items, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		struct item_change values = item_as_change(inventory, items[i]);
		answer_element(
		    answer, json_put_fields(json_begun(), &LIST_KEYS, &values));
	}
}

#define EVERY_RECORD                                                                     \
	"task", "on: the first day that may mean", "on_as_written",                      \
	    "next: the last day of the date its certificate states", "next_as_written",  \
	    "station", "certificate", "price",                                           \
	    "refit: a renewal of what is in it alone; the thing is the same"

ANSWER_KEYS(RECORD_KEYS, "a record", EVERY_RECORD);
static ANSWER_KEYS(
    NUMBERED_KEYS, "a record", EVERY_RECORD, "number: among those of its item, from 1");

static struct json
put_record(struct json object, const struct answer_keys *keys, enum json_which which,
    const struct record *record)
{
	return JSON_PUT(object, keys, which, json_text(task_word(record->task)),
	    json_day(stamp_first(record->on)), json_stamp(record->on),
	    json_day(stamp_good_through(record->next)), json_stamp(record->next),
	    json_words(record->station), json_words(record->certificate),
	    json_number(record->price_minor, -1), json_flag(record->refit));
}

struct json
record_object(const struct record *record)
{
	return put_record(json_begun(), &RECORD_KEYS, JSON_LAST, record);
}

ANSWER_KEYS(EVENT_KEYS, "an event", "event: fired, inflated, activated or used", "on");

struct json
event_object(const struct event *event)
{
	return JSON_OF(
	    &EVENT_KEYS, json_text(event_word(event->kind)), json_day(event->on));
}

ANSWER_KEYS(MOVEMENT_KEYS, "a movement", "move: what was done", "on",
    "was: its state before", "vessel", "was_vessel", "station",
    "stands_for: the tag in whose place", "certificate", "serial",
    "because: why it was withdrawn", "result: what the station found", "price", "note",
    "asked: the tasks it was handed in for");

struct json
movement_object(const struct movement *movement)
{
	return JSON_OF(&MOVEMENT_KEYS, json_text(move_word(movement->move)),
	    json_day(movement->on), json_text(place_word(movement->was)),
	    json_text(movement->vessel), json_text(movement->was_vessel),
	    json_words(movement->station), json_words(movement->stands_for),
	    json_words(movement->certificate), json_words(movement->serial),
	    json_words(because_word(movement->because)),
	    json_words(result_word(movement->result)),
	    json_number(movement->price_minor, -1), json_words(movement->note),
	    json_tasks(movement->asked));
}

static ANSWER_KEYS(PAPER_KEYS, "a paper", "number", "tag", "name: of its file",
    "type: its media type", "size: in bytes", "added: the day", "sha256", "note",
    "record: that it belongs to; null for the item itself");

static ANSWER_KEYS(
    PAPER_RECORD_KEYS, "a paper's record", "task", "on", "on_as_written", "certificate");

const struct answer_keys *const KEYS_OF_PAPERS[] = {
    &PAPER_KEYS, &PAPER_RECORD_KEYS, NULL};

const struct answer_keys *const KEYS_OF_SHOW[] = {&SHOW_KEYS, &NUMBERED_KEYS,
    &MOVEMENT_KEYS, &EVENT_KEYS, &EXTENSION_KEYS, &INTERVAL_KEYS, &PAPER_KEYS,
    &PAPER_RECORD_KEYS, NULL};

static struct json
paper_object(const struct paper *paper)
{
	struct json record = json_none();
	if (paper->of_record) {
		record = JSON_OF(&PAPER_RECORD_KEYS, json_text(task_word(paper->task)),
		    json_day(stamp_first(paper->on)), json_stamp(paper->on),
		    json_words(paper->certificate));
	}
	return JSON_OF(&PAPER_KEYS, json_whole(paper->number), json_text(paper->tag),
	    json_text(paper->name), json_text(paper->media_type), json_whole(paper->size),
	    json_day(paper->added), json_text(paper->sha256), json_words(paper->note),
	    record);
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
	struct item_change values = item_as_change(inventory, index);
	struct json records = json_list();
	for (size_t i = 0; i < item->record_count; i++) {
		struct json record = put_record(
		    json_begun(), &NUMBERED_KEYS, JSON_NEXT, &item->records[i]);
		json_push(records,
		    JSON_PUT(record, &NUMBERED_KEYS, JSON_LAST, json_count(i + 1)));
	}
	struct json movements = json_list();
	for (size_t i = 0; i < item->movement_count; i++) {
		json_push(movements, movement_object(&item->movements[i]));
	}
	struct json events = json_list();
	for (size_t i = 0; i < item->event_count; i++) {
		json_push(events, event_object(&item->events[i]));
	}
	struct json extensions = json_list();
	for (size_t i = 0; i < item->extension_count; i++) {
		json_push(extensions, extension_object(&item->extensions[i]));
	}
	struct json intervals = json_list();
	for (size_t i = 0; i < item->interval_count; i++) {
		json_push(intervals, interval_object(&item->intervals[i]));
	}
	struct json kept = json_list();
	for (size_t i = 0; i < paper_count; i++) {
		json_push(kept, paper_object(&papers[i]));
	}
	struct json object = json_put_fields(json_begun(), &SHOW_KEYS, &values);
	answer_value(out, JSON_PUT(object, &SHOW_KEYS, JSON_LAST, records, movements,
			      events, extensions, intervals, kept));
}
