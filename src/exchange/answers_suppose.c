#include "exchange/answers.h"
#include "exchange/json_object.h"

#include <string.h>

static json_t *
side_value(struct answer *answer, const struct change_side *side)
{
	if (!side->there) {
		return json_null();
	}
	json_t *object = json_object();
	json_put_day(answer, object, "due", side->due);
	json_put_string(answer, object, "state", state_word(side->state));
	json_put_day(answer, object, "good_through", side->good_through);
	json_put_string(answer, object, "grade", grade_word(side->grade));
	json_put_words(answer, object, "rule", side->rule);
	json_put_words(answer, object, "missing", side->missing);
	return object;
}

static json_t *
change_object(
    struct answer *answer, const struct inventory *inventory, const struct change *change)
{
	const struct item *item = &inventory->items[change->item];
	json_t *object = json_object();
	json_put_string(answer, object, "vessel", inventory->vessels[item->vessel].name);
	json_put_string(answer, object, "tag", item->tag);
	json_put_string(answer, object, "kind", item->kind);
	json_put_string(answer, object, "task", task_word(change->task));
	json_put_bool(answer, object, "routine", change->routine);
	json_put_bool(answer, object, "reserve", item->state == PLACE_RESERVE);
	json_put(answer, object, "now", side_value(answer, &change->now));
	json_put(answer, object, "then", side_value(answer, &change->then));
	json_put_bool(answer, object, "changes", change_matters(change));
	json_put_string(answer, object, "on_the_day", state_word(change->on_the_day));
	json_put_bool(answer, object, "must", change->must);
	json_put_bool(answer, object, "cannot", change->cannot);
	json_put_bool(answer, object, "printed", change->printed);
	json_put_day(answer, object, "not_before", change->not_before);
	json_put_day(answer, object, "by", change->by);
	return object;
}

static json_t *
supposed_object(struct answer *answer, const struct supposed *supposed)
{
	const struct supposition *words = &supposed->supposition;
	json_t *object = json_object();
	json_put_words(answer, object, "use",
	    (words->says & SAYS_USE) != 0 ? use_word(words->use) : NULL);
	json_put_words(
	    answer, object, "area", (words->says & SAYS_AREA) != 0 ? words->area : NULL);
	json_put_number(answer, object, "persons",
	    (words->says & SAYS_PERSONS) != 0 ? words->persons : -1, -1);
	json_t *sheets = json_array();
	for (size_t i = 0; i < supposed->supposition.sheet_count; i++) {
		json_push(answer, sheets, json_string(supposed->supposition.sheets[i]));
	}
	json_put(answer, object, "sheets", sheets);
	return object;
}

void
answer_suppose(const struct inventory *inventory, day_t today,
    const struct supposed *supposed, const struct change_rows *rows, struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *tasks = json_array();
	for (size_t i = 0; i < rows->count; i++) {
		json_push(
		    &answer, tasks, change_object(&answer, inventory, &rows->items[i]));
	}
	json_put_day(&answer, object, "today", today);
	json_put_day(&answer, object, "from", supposed->supposition.from);
	json_put(&answer, object, "supposed", supposed_object(&answer, supposed));
	json_put(&answer, object, "tasks", tasks);
	answer_value(&answer, object);
}

void
answer_compare_gear(const struct inventory *inventory, const char *const names[2],
    const struct change_rows *rows, struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *tasks = json_array();
	for (size_t i = 0; i < rows->count; i++) {
		const struct change *row = &rows->items[i];
		const struct item *item = &inventory->items[row->item];
		json_t *entry = json_object();
		bool same =
		    !change_matters(row) && strcmp(row->now.rule, row->then.rule) == 0;
		json_put_string(
		    &answer, entry, "vessel", inventory->vessels[item->vessel].name);
		json_put_string(&answer, entry, "tag", item->tag);
		json_put_string(&answer, entry, "kind", item->kind);
		json_put_string(&answer, entry, "task", task_word(row->task));
		json_put_bool(&answer, entry, "routine", row->routine);
		json_put_bool(&answer, entry, "same", same);
		json_put(&answer, entry, "a", side_value(&answer, &row->now));
		json_put(&answer, entry, "b", side_value(&answer, &row->then));
		json_push(&answer, tasks, entry);
	}
	json_put_string(&answer, object, "a", names[0]);
	json_put_string(&answer, object, "b", names[1]);
	json_put(&answer, object, "tasks", tasks);
	answer_value(&answer, object);
}
