#include "exchange/answers.h"
#include "exchange/json_object.h"

#include <string.h>

static ANSWER_KEYS(SIDE_KEYS, "one of the two", "due: its last good day",
    "state: in-date, overdue, expired, life-expired or date-unknown", "good_through",
    "grade: how binding: law, maker or practice", "rule", "missing: what is not known");

static ANSWER_KEYS(
    SUPPOSE_KEYS, "the answer", "today", "from: when it holds", "supposed", "tasks");

static ANSWER_KEYS(SUPPOSED_KEYS, "what is supposed", "use", "area", "persons", "sheets");

static ANSWER_KEYS(CHANGE_KEYS, "a task", "vessel", "tag", "kind", "task",
    "routine: comes round within the year", "reserve: it is never counted",
    "now: null where it is not asked for, as the next", "then", "changes",
    "on_the_day: its state on that", "must: be done, so as to be in date then",
    "cannot: be done for that day", "printed: a date on it decides",
    "not_before: to serve then", "by");

const struct answer_keys *const KEYS_OF_SUPPOSE[] = {
    &SUPPOSE_KEYS, &SUPPOSED_KEYS, &CHANGE_KEYS, &SIDE_KEYS, NULL};

static struct json
side_value(const struct change_side *side)
{
	return !side->there
		   ? json_none()
		   : JSON_OF(&SIDE_KEYS, json_day(side->due),
			 json_text(state_word(side->state)), json_day(side->good_through),
			 json_text(grade_word(side->grade)), json_words(side->rule),
			 json_words(side->missing));
}

static struct json
change_object(const struct inventory *inventory, const struct change *change)
{
	const struct item *item = &inventory->items[change->item];
	return JSON_OF(&CHANGE_KEYS, json_text(inventory->vessels[item->vessel].name),
	    json_text(item->tag), json_text(item->kind),
	    json_text(task_word(change->task)), json_flag(change->routine),
	    json_flag(item->state == PLACE_RESERVE), side_value(&change->now),
	    side_value(&change->then), json_flag(change_matters(change)),
	    json_text(state_word(change->on_the_day)), json_flag(change->must),
	    json_flag(change->cannot), json_flag(change->printed),
	    json_day(change->not_before), json_day(change->by));
}

static struct json
supposed_object(const struct supposition *words)
{
	bool used = (words->says & SAYS_USE) != 0;
	bool sailing = (words->says & SAYS_AREA) != 0;
	bool carrying = (words->says & SAYS_PERSONS) != 0;
	return JSON_OF(&SUPPOSED_KEYS, json_words(used ? use_word(words->use) : NULL),
	    json_words(sailing ? words->area : NULL),
	    json_number(carrying ? words->persons : -1, -1),
	    json_strings(words->sheets, words->sheet_count));
}

void
answer_suppose(const struct inventory *inventory, day_t today,
    const struct supposed *supposed, const struct change_rows *rows, struct text *out)
{
	struct json tasks = json_list();
	for (size_t i = 0; i < rows->count; i++) {
		json_push(tasks, change_object(inventory, &rows->items[i]));
	}
	answer_value(out,
	    JSON_OF(&SUPPOSE_KEYS, json_day(today), json_day(supposed->supposition.from),
		supposed_object(&supposed->supposition), tasks));
}

static ANSWER_KEYS(COMPARE_KEYS, "the answer", "a: the one", "b: the other", "tasks");

static ANSWER_KEYS(COMPARED_KEYS, "a task", "vessel", "tag", "kind", "task",
    "routine: comes round within the year", "same",
    "a: null where it is not asked for, as the next", "b");

const struct answer_keys *const KEYS_OF_COMPARED_GEAR[] = {
    &COMPARE_KEYS, &COMPARED_KEYS, &SIDE_KEYS, NULL};

void
answer_compare_gear(const struct inventory *inventory, const char *const names[2],
    const struct change_rows *rows, struct text *out)
{
	struct json tasks = json_list();
	for (size_t i = 0; i < rows->count; i++) {
		const struct change *row = &rows->items[i];
		const struct item *item = &inventory->items[row->item];
		bool same =
		    !change_matters(row) && strcmp(row->now.rule, row->then.rule) == 0;
		json_push(tasks,
		    JSON_OF(&COMPARED_KEYS,
			json_text(inventory->vessels[item->vessel].name),
			json_text(item->tag), json_text(item->kind),
			json_text(task_word(row->task)), json_flag(row->routine),
			json_flag(same), side_value(&row->now), side_value(&row->then)));
	}
	answer_value(
	    out, JSON_OF(&COMPARE_KEYS, json_text(names[0]), json_text(names[1]), tasks));
}
