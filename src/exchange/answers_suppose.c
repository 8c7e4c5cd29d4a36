#include "exchange/answers.h"
#include "exchange/json_object.h"

#include <string.h>

static json_t *
side_value(const struct change_side *side)
{
	if (!side->there) {
		return json_null();
	}
	json_t *object = json_object();
	json_put_day(object, "due", side->due);
	json_put_string(object, "state", state_word(side->state));
	json_put_day(object, "good_through", side->good_through);
	json_put_string(object, "grade", grade_word(side->grade));
	json_put_words(object, "rule", side->rule);
	json_put_words(object, "missing", side->missing);
	return object;
}

static json_t *
change_object(const struct inventory *inventory, const struct change *change)
{
	const struct item *item = &inventory->items[change->item];
	json_t *object = json_object();
	json_put_string(object, "vessel", inventory->vessels[item->vessel].name);
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "kind", item->kind);
	json_put_string(object, "task", task_word(change->task));
	json_put_bool(object, "routine", change->routine);
	json_put_bool(object, "reserve", item->state == PLACE_RESERVE);
	json_put(object, "now", side_value(&change->now));
	json_put(object, "then", side_value(&change->then));
	json_put_bool(object, "changes", change_matters(change));
	json_put_string(object, "on_the_day", state_word(change->on_the_day));
	json_put_bool(object, "must", change->must);
	json_put_bool(object, "cannot", change->cannot);
	json_put_bool(object, "printed", change->printed);
	json_put_day(object, "not_before", change->not_before);
	json_put_day(object, "by", change->by);
	return object;
}

static json_t *
supposed_object(const struct supposed *supposed)
{
	const struct supposition *words = &supposed->supposition;
	json_t *object = json_object();
	json_put_words(
	    object, "use", (words->says & SAYS_USE) != 0 ? use_word(words->use) : NULL);
	json_put_words(
	    object, "area", (words->says & SAYS_AREA) != 0 ? words->area : NULL);
	json_put_number(object, "persons",
	    (words->says & SAYS_PERSONS) != 0 ? words->persons : -1, -1);
	json_t *sheets = json_array();
	for (size_t i = 0; i < supposed->supposition.sheet_count; i++) {
		json_push(sheets, json_string(supposed->supposition.sheets[i]));
	}
	json_put(object, "sheets", sheets);
	return object;
}

void
answer_suppose(const struct inventory *inventory, day_t today,
    const struct supposed *supposed, const struct change_rows *rows, struct text *out)
{
	json_t *object = json_object();
	json_t *tasks = json_array();
	for (size_t i = 0; i < rows->count; i++) {
		json_push(tasks, change_object(inventory, &rows->items[i]));
	}
	json_put_day(object, "today", today);
	json_put_day(object, "from", supposed->supposition.from);
	json_put(object, "supposed", supposed_object(supposed));
	json_put(object, "tasks", tasks);
	answer_value(out, object);
}

void
answer_compare_gear(const struct inventory *inventory, const char *const names[2],
    const struct change_rows *rows, struct text *out)
{
	json_t *object = json_object();
	json_t *tasks = json_array();
	for (size_t i = 0; i < rows->count; i++) {
		const struct change *row = &rows->items[i];
		const struct item *item = &inventory->items[row->item];
		json_t *entry = json_object();
		bool same =
		    !change_matters(row) && strcmp(row->now.rule, row->then.rule) == 0;
		json_put_string(entry, "vessel", inventory->vessels[item->vessel].name);
		json_put_string(entry, "tag", item->tag);
		json_put_string(entry, "kind", item->kind);
		json_put_string(entry, "task", task_word(row->task));
		json_put_bool(entry, "routine", row->routine);
		json_put_bool(entry, "same", same);
		json_put(entry, "a", side_value(&row->now));
		json_put(entry, "b", side_value(&row->then));
		json_push(tasks, entry);
	}
	json_put_string(object, "a", names[0]);
	json_put_string(object, "b", names[1]);
	json_put(object, "tasks", tasks);
	answer_value(out, object);
}
