/* The survey file's tables of gear and of rules. */
#include "report/survey_parts.h"
#include "report/words.h"

#include <string.h>

void
survey_cell(struct survey_page *page, const char *class_name, const char *text)
{
	markup_element(page->markup, "td", class_name, text);
}

static void
add_date(struct text *words, const char *name, struct stamp stamp)
{
	char buffer[STAMP_TEXT_SIZE];
	if (stamp.precision != STAMP_NONE) {
		text_add_format(words, "%s%s%s", words->length == 0 ? "" : ", ", name,
		    stamp_words(stamp, buffer));
	}
}

static void
add_words(struct text *words, const char *name, const char *value)
{
	if (value[0] != '\0') {
		text_add_format(
		    words, "%s%s%s", words->length == 0 ? "" : ", ", name, value);
	}
}

/* What it is, its make and serial, and where it is kept. */
static void
describe(struct survey_page *page, size_t index)
{
	const struct item *item = &page->inventory->items[index];
	struct text *words = page->words;
	text_reset(words);
	add_item_words(page->kinds, page->inventory, index, words);
	add_words(words, "make ", item->make);
	add_words(words, "serial ", item->serial);
	add_words(words, "in: ", item->place);
	if (item->state != PLACE_ABOARD) {
		add_words(words, "", place_word(item->state));
	}
	if (item->state == PLACE_LANDED) {
		add_words(words, "at ", item->landed_to);
	}
	if (item->hired_until != DAY_NONE) {
		text_add(words, ", hired until ");
		add_day(item->hired_until, "", words);
	}
}

static void
date(struct survey_page *page, const struct item *item)
{
	struct text *words = page->words;
	text_reset(words);
	add_date(words, "made ", item->made);
	add_date(words, "packed ", item->packed);
	add_date(words, "bought ", item->bought);
	add_date(words, "fitted ", item->fitted);
	add_date(words, "marked ", item->expires);
	if (words->length == 0) {
		text_add(words, "no date");
	}
}

/* The last record of a task by the day of the survey; NULL when there is none. */
static const struct record *
last_record(const struct item *item, enum task task, day_t day)
{
	const struct record *last = NULL;
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		if (record->task == task && stamp_first(record->on) <= day) {
			last = record;
		}
	}
	return last;
}

static void
add_record(struct survey_page *page, const struct item *item, enum task task)
{
	const struct record *record =
	    last_record(item, task, page->survey->muster->days.first);
	struct text *words = page->words;
	text_reset(words);
	if (record != NULL) {
		add_date(words, "", record->on);
		add_words(words, "", record->station);
		add_words(words, "certificate ", record->certificate);
		add_date(words, "its paper says next ", record->next);
	}
	survey_cell(page, NULL, text_string(words));
}

static const char *
missing_of(const struct obligation *task)
{
	for (size_t i = 0; i < task->reading_count; i++) {
		if (task->readings[i].asks[0] != '\0') {
			return task->readings[i].asks;
		}
	}
	return "";
}

static void
add_task(struct survey_page *page, const struct item *item, const struct obligation *task)
{
	struct text *words = page->words;
	bool unknown = task->state == STATE_DATE_UNKNOWN;
	survey_cell(page, "word", task_noun(task->task));
	add_record(page, item, task->task);
	text_reset(words);
	add_day(task->due, unknown ? "not known" : "none", words);
	survey_cell(page, "date", text_string(words));
	text_reset(words);
	/* The day is in the column before. */
	bool good = task->state == STATE_IN_DATE;
	struct standing_now standing = {task->state, good ? task->due : DAY_NONE,
	    good ? task->good_through : DAY_NONE, unknown ? missing_of(task) : ""};
	add_state_words(&standing, page->survey->muster->days.first, words);
	/* One word is kept whole; more of them go on below. */
	survey_cell(page,
	    good      ? NULL
	    : unknown ? "care"
		      : "care word",
	    text_string(words));
}

/* True for a task that is shown: no routine, and not settled for good. */
static bool
is_shown(const struct obligation *task)
{
	return !task->routine && !obligation_never_falls_due(task);
}

static size_t
shown_tasks(const struct survey_gear *gear)
{
	size_t count = 0;
	for (size_t i = 0; i < gear->task_count; i++) {
		count += is_shown(&gear->tasks[i]) ? 1 : 0;
	}
	return count;
}

/* The cells that go over all rows of an item. */
static void
add_item(struct survey_page *page, const struct survey_gear *gear, size_t rows)
{
	const struct item *item = &page->inventory->items[gear->item];
	const char *const classes[] = {"tag", NULL, NULL};
	for (size_t i = 0; i < sizeof classes / sizeof classes[0]; i++) {
		markup_begin(page->markup, "td");
		markup_attribute(page->markup, "class", classes[i]);
		if (rows > 1) {
			markup_attribute_format(page->markup, "rowspan", "%zu", rows);
		}
		if (i == 1) {
			describe(page, gear->item);
		} else if (i == 2) {
			date(page, item);
		}
		markup_text(page->markup, i == 0 ? item->tag : text_string(page->words));
		markup_end(page->markup);
	}
}

static void
add_gear(struct survey_page *page, const struct survey_gear *gear)
{
	const struct item *item = &page->inventory->items[gear->item];
	size_t rows = shown_tasks(gear);
	bool first = true;
	markup_begin(page->markup, "tbody");
	markup_attribute(page->markup, "class", "whole");
	for (size_t i = 0; i < gear->task_count; i++) {
		if (!is_shown(&gear->tasks[i])) {
			continue;
		}
		markup_begin(page->markup, "tr");
		if (first) {
			add_item(page, gear, rows);
		}
		first = false;
		add_task(page, item, &gear->tasks[i]);
		markup_end(page->markup);
	}
	if (rows == 0) {
		markup_begin(page->markup, "tr");
		add_item(page, gear, 1);
		markup_begin(page->markup, "td");
		markup_attribute(page->markup, "colspan", "4");
		markup_text(page->markup, "no rule asks for anything");
		markup_end(page->markup);
		markup_end(page->markup);
	}
	markup_end(page->markup);
}

void
survey_gear_table(struct survey_page *page)
{
	static const char *const COLUMNS[] = {
	    "Tag", "What", "Dates on it", "Task", "Last done", "Due", "State"};

	struct text *words = page->words;
	text_reset(words);
	text_add(words, "Gear in the book, as on ");
	add_day(page->survey->muster->days.first, "", words);
	markup_element(page->markup, "h2", NULL, text_string(words));
	if (page->survey->gear_count == 0) {
		markup_element(page->markup, "p", NULL, "None.");
		return;
	}
	markup_begin(page->markup, "table");
	markup_table_head(page->markup, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0]);
	for (size_t i = 0; i < page->survey->gear_count; i++) {
		add_gear(page, &page->survey->gear[i]);
	}
	markup_end(page->markup);
}

/* The rule behind the day of a task that is shown; NULL when none is. */
static const struct rule *
rule_of(const struct obligation *task)
{
	return !is_shown(task) || task->binding == NULL ? NULL : task->binding->rule;
}

/* True when a task before this one, in the order of the gear, has the same rule. */
static bool
was_named(const struct survey *survey, size_t gear, size_t at, const struct rule *rule)
{
	for (size_t i = 0; i <= gear; i++) {
		size_t count = i == gear ? at : survey->gear[i].task_count;
		for (size_t j = 0; j < count; j++) {
			if (rule_of(&survey->gear[i].tasks[j]) == rule) {
				return true;
			}
		}
	}
	return false;
}

static void
add_rule(struct survey_page *page, const struct rule *rule)
{
	struct text *words = page->words;
	markup_begin(page->markup, "tr");
	survey_cell(page, NULL, rule->id);
	survey_cell(page, "word", rule->sheet);
	survey_cell(page, "word", grade_word(rule->grade));
	survey_cell(
	    page, NULL, rule->what[0] == '\0' ? task_noun(rule->task) : rule->what);
	text_reset(words);
	add_source(rule->source, rule->standing, words);
	survey_cell(page, NULL, text_string(words));
	markup_end(page->markup);
}

void
survey_rules_table(struct survey_page *page)
{
	static const char *const COLUMNS[] = {"Rule", "Sheet", "Grade", "What", "Source"};

	const struct survey *survey = page->survey;
	markup_element(page->markup, "h2", NULL, "The rules behind these days");
	markup_element(page->markup, "p", "quiet",
	    "Where a label, a certificate or an event decides, that is the source. The word in "
	    "brackets says how far the source itself was seen.");
	markup_begin(page->markup, "table");
	markup_table_head(page->markup, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0]);
	markup_begin(page->markup, "tbody");
	for (size_t i = 0; i < survey->gear_count; i++) {
		for (size_t j = 0; j < survey->gear[i].task_count; j++) {
			const struct rule *rule = rule_of(&survey->gear[i].tasks[j]);
			if (rule != NULL && !was_named(survey, i, j, rule)) {
				add_rule(page, rule);
			}
		}
	}
	markup_end(page->markup);
	markup_end(page->markup);
}
