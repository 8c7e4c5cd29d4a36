#include "exchange/answers_life.h"

#include "exchange/answer_parts.h"
#include "exchange/json_object.h"
#include "life/serials.h"

static const char *
vessel_of(const struct inventory *inventory, const struct item *item)
{
	return inventory->vessels[item->vessel].name;
}

/* The other piece of its lot with the same number, which then tells neither; null for none. */
static void
put_shared(
    struct answer *answer, json_t *object, const struct inventory *inventory, size_t item)
{
	size_t other = serial_shared_with(inventory, item);
	json_put_words(answer, object, "serial_shared_with",
	    other == ITEM_NO_PARENT ? NULL : inventory->items[other].tag);
}

static json_t *
where_object(
    struct answer *answer, const struct lookout *lookout, const struct whereabouts *where)
{
	const struct inventory *inventory = lookout->inventory;
	const struct item *item = &inventory->items[where->item];
	bool with = where->whole != where->item;
	json_t *object = json_object();
	json_put_string(answer, object, "tag", item->tag);
	json_put_string(answer, object, "kind", item->kind);
	json_put_string(answer, object, "vessel", vessel_of(inventory, item));
	json_put_string(answer, object, "state", place_word(where->state));
	json_put_words(
	    answer, object, "with", with ? inventory->items[where->whole].tag : NULL);
	json_put_words(answer, object, "station", where->station);
	json_put_day(answer, object, "since", where->since);
	json_put_day(answer, object, "collect", where->collect);
	json_put_bool(answer, object, "assumed", where->assumed);
	json_put_string(answer, object, "place", item->place);
	json_put_words(answer, object, "because", because_word(item->because));
	json_put_words(answer, object, "stands_for", item->stands_for);
	json_put_day(answer, object, "hired_until", item->hired_until);
	put_shared(answer, object, inventory, where->item);
	return object;
}

void
answer_where(
    const struct lookout *lookout, const struct whereabouts_list *list, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < list->count; i++) {
		json_t *object = where_object(&answer, lookout, &list->items[i]);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

static json_t *
coming_array(struct answer *answer, const struct inventory *inventory,
    const struct coming *coming, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		json_t *object = json_object();
		json_t *names = json_array();
		json_put_day(answer, object, "day", coming[i].day);
		json_put_string(answer, object, "summary", coming[i].summary);
		json_put_words(answer, object, "station", coming[i].station);
		for (size_t v = 0; v < coming[i].vessel_count; v++) {
			json_push(answer, names,
			    json_string(inventory->vessels[coming[i].vessels[v]].name));
		}
		json_put(answer, object, "vessels", names);
		json_push(answer, array, object);
	}
	return array;
}

static json_t *
not_in_date_array(struct answer *answer, const struct inventory *inventory,
    const struct first_word *word)
{
	json_t *array = json_array();
	for (size_t i = 0; i < word->row_count; i++) {
		const struct agenda_row *row = &word->rows[i];
		const struct item *item = &inventory->items[row->item];
		json_t *object = json_object();
		json_put_string(answer, object, "vessel", vessel_of(inventory, item));
		json_put_string(answer, object, "tag", item->tag);
		json_put_string(answer, object, "kind", item->kind);
		json_put_string(answer, object, "task", task_word(row->task));
		json_put_day(answer, object, "due", row->due);
		json_put_string(answer, object, "state", state_word(row->state));
		json_put_string(answer, object, "grade", grade_word(row->grade));
		json_push(answer, array, object);
	}
	return array;
}

void
answer_first_word(const struct lookout *lookout, const struct first_word *word,
    const struct whereabouts_list *ashore, struct text *out)
{
	const struct inventory *inventory = lookout->inventory;
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *away = json_array();
	json_put_day(&answer, object, "on", word->today);
	json_put_words(&answer, object, "vessel", word->vessel);
	json_put(
	    &answer, object, "not_in_date", not_in_date_array(&answer, inventory, word));
	json_put(&answer, object, "week",
	    coming_array(&answer, inventory, word->week, word->week_count));
	json_put(&answer, object, "next",
	    coming_array(&answer, inventory, word->next, word->next_count));
	for (size_t i = 0; i < ashore->count; i++) {
		json_push(
		    &answer, away, where_object(&answer, lookout, &ashore->items[i]));
	}
	json_put(&answer, object, "ashore", away);
	answer_value(&answer, object);
}

/* The paper's number, where the record has it, else the movement. */
static const char *
certificate_of(const struct came_back *back)
{
	bool recorded = back->record != NULL && back->record->certificate[0] != '\0';
	return recorded ? back->record->certificate : back->movement->certificate;
}

static int64_t
price_of(const struct came_back *back)
{
	bool recorded = back->record != NULL && back->record->price_minor >= 0;
	return recorded ? back->record->price_minor : back->movement->price_minor;
}

static json_t *
back_object(struct answer *answer, const struct inventory *inventory,
    const struct came_back *back)
{
	const struct item *item = &inventory->items[back->item];
	day_t next =
	    back->record == NULL ? DAY_NONE : stamp_good_through(back->record->next);
	json_t *object = json_object();
	json_t *renewed = json_array();
	for (size_t i = 0; i < back->renewed_count; i++) {
		json_push(
		    answer, renewed, json_string(inventory->items[back->renewed[i]].tag));
	}
	json_put_string(answer, object, "tag", item->tag);
	json_put_string(answer, object, "kind", item->kind);
	json_put_string(answer, object, "vessel", vessel_of(inventory, item));
	json_put_day(answer, object, "on", back->movement->on);
	json_put_words(answer, object, "station", back->movement->station);
	json_put_string(answer, object, "result", result_word(back->movement->result));
	json_put_day(answer, object, "next", next);
	json_put_words(answer, object, "certificate", certificate_of(back));
	json_put_number(answer, object, "price", price_of(back), -1);
	json_put(answer, object, "renewed", renewed);
	json_put_words(answer, object, "note", back->movement->note);
	json_put_bool(answer, object, "different", back->different);
	return object;
}

void
answer_came_back(const struct lookout *lookout, const struct came_back_list *list,
    bool all, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < list->count; i++) {
		const struct came_back *back = &list->items[i];
		if (!all && !back->different) {
			continue;
		}
		json_t *object = back_object(&answer, lookout->inventory, back);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

static void
put_sums(struct answer *answer, json_t *object, const struct spent *spent)
{
	json_put(answer, object, "work", json_integer(spent->work_minor));
	json_put(answer, object, "bought", json_integer(spent->bought_minor));
	json_put(answer, object, "minor",
	    json_integer(spent->work_minor + spent->bought_minor));
}

static json_t *
sums_array(struct answer *answer, const struct spent_list *list, const char *key)
{
	json_t *array = json_array();
	for (size_t i = 0; i < list->count; i++) {
		const struct spent *spent = &list->items[i];
		json_t *object = json_object();
		if (spent->year != 0) {
			json_put(answer, object, key, json_integer(spent->year));
		} else {
			json_put_words(answer, object, key, spent->name);
		}
		put_sums(answer, object, spent);
		json_push(answer, array, object);
	}
	return array;
}

void
answer_spent(const struct spending *spending, const char *currency, struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_put_number(&answer, object, "year", spending->year, 0);
	json_put_string(&answer, object, "currency", currency);
	json_put(&answer, object, "kinds", sums_array(&answer, &spending->kinds, "kind"));
	json_put(&answer, object, "stations",
	    sums_array(&answer, &spending->stations, "station"));
	json_put(&answer, object, "years", sums_array(&answer, &spending->years, "year"));
	put_sums(&answer, object, &spending->total);
	json_put(
	    &answer, object, "unpriced", json_integer((json_int_t)spending->unpriced));
	answer_value(&answer, object);
}

static json_t *
bearers_array(struct answer *answer, const struct inventory *inventory,
    const struct history *history)
{
	json_t *array = json_array();
	for (size_t i = 0; i < history->bearer_count; i++) {
		const struct item *item = &inventory->items[history->bearers[i]];
		json_t *object = json_object();
		json_put_string(answer, object, "tag", item->tag);
		json_put_string(answer, object, "kind", item->kind);
		json_put_string(answer, object, "vessel", vessel_of(inventory, item));
		json_put_words(answer, object, "serial", item->serial);
		json_put_string(answer, object, "state", place_word(item->state));
		json_put_words(answer, object, "because", because_word(item->because));
		put_shared(answer, object, inventory, history->bearers[i]);
		json_push(answer, array, object);
	}
	return array;
}

static json_t *
happened_array(struct answer *answer, const struct inventory *inventory,
    const struct history *history)
{
	json_t *array = json_array();
	for (size_t i = 0; i < history->count; i++) {
		const struct happening *happening = &history->items[i];
		json_t *object = json_object();
		json_put_day(answer, object, "on", happening->on);
		json_put_string(
		    answer, object, "tag", inventory->items[happening->item].tag);
		if (happening->record != NULL) {
			json_put(answer, object, "record",
			    record_object(answer, happening->record));
		} else if (happening->event != NULL) {
			json_put(answer, object, "event",
			    event_object(answer, happening->event));
		} else {
			json_put(answer, object, "movement",
			    movement_object(answer, happening->movement));
		}
		json_push(answer, array, object);
	}
	return array;
}

void
answer_history(const struct inventory *inventory, const struct history *history,
    const struct journal *journal, struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *entries = json_array();
	for (size_t i = 0; i < journal->count; i++) {
		json_push(&answer, entries, entry_object(&answer, &journal->entries[i]));
	}
	json_put(&answer, object, "items", bearers_array(&answer, inventory, history));
	json_put(
	    &answer, object, "happened", happened_array(&answer, inventory, history));
	json_put(&answer, object, "journal", entries);
	answer_value(&answer, object);
}
