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
put_shared(json_t *object, const struct inventory *inventory, size_t item)
{
	size_t other = serial_shared_with(inventory, item);
	json_put_words(object, "serial_shared_with",
	    other == ITEM_NO_PARENT ? NULL : inventory->items[other].tag);
}

static json_t *
where_object(const struct lookout *lookout, const struct whereabouts *where)
{
	const struct inventory *inventory = lookout->inventory;
	const struct item *item = &inventory->items[where->item];
	bool with = where->whole != where->item;
	json_t *object = json_object();
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "kind", item->kind);
	json_put_string(object, "vessel", vessel_of(inventory, item));
	json_put_string(object, "state", place_word(where->state));
	json_put_words(object, "with", with ? inventory->items[where->whole].tag : NULL);
	json_put_words(object, "station", where->station);
	json_put_day(object, "since", where->since);
	json_put_day(object, "collect", where->collect);
	json_put_bool(object, "assumed", where->assumed);
	json_put_string(object, "place", item->place);
	json_put_words(object, "because", because_word(item->because));
	json_put_words(object, "stands_for", item->stands_for);
	json_put_day(object, "hired_until", item->hired_until);
	put_shared(object, inventory, where->item);
	return object;
}

void
answer_where(
    const struct lookout *lookout, const struct whereabouts_list *list, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < list->count; i++) {
		json_t *object = where_object(lookout, &list->items[i]);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

static json_t *
coming_array(const struct inventory *inventory, const struct coming *coming, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		json_t *object = json_object();
		json_t *names = json_array();
		json_put_day(object, "day", coming[i].day);
		json_put_string(object, "summary", coming[i].summary);
		json_put_words(object, "station", coming[i].station);
		for (size_t v = 0; v < coming[i].vessel_count; v++) {
			json_push(names,
			    json_string(inventory->vessels[coming[i].vessels[v]].name));
		}
		json_put(object, "vessels", names);
		json_push(array, object);
	}
	return array;
}

static json_t *
not_in_date_array(const struct inventory *inventory, const struct first_word *word)
{
	json_t *array = json_array();
	for (size_t i = 0; i < word->row_count; i++) {
		const struct agenda_row *row = &word->rows[i];
		const struct item *item = &inventory->items[row->item];
		json_t *object = json_object();
		json_put_string(object, "vessel", vessel_of(inventory, item));
		json_put_string(object, "tag", item->tag);
		json_put_string(object, "kind", item->kind);
		json_put_string(object, "task", task_word(row->task));
		json_put_day(object, "due", row->due);
		json_put_string(object, "state", state_word(row->state));
		json_put_string(object, "grade", grade_word(row->grade));
		json_push(array, object);
	}
	return array;
}

void
answer_first_word(const struct lookout *lookout, const struct first_word *word,
    const struct whereabouts_list *ashore, struct text *out)
{
	const struct inventory *inventory = lookout->inventory;
	json_t *object = json_object();
	json_t *away = json_array();
	json_put_day(object, "on", word->today);
	json_put_words(object, "vessel", word->vessel);
	json_put(object, "not_in_date", not_in_date_array(inventory, word));
	json_put(object, "week", coming_array(inventory, word->week, word->week_count));
	json_put(object, "next", coming_array(inventory, word->next, word->next_count));
	for (size_t i = 0; i < ashore->count; i++) {
		json_push(away, where_object(lookout, &ashore->items[i]));
	}
	json_put(object, "ashore", away);
	answer_value(out, object);
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
back_object(const struct inventory *inventory, const struct came_back *back)
{
	const struct item *item = &inventory->items[back->item];
	day_t next =
	    back->record == NULL ? DAY_NONE : stamp_good_through(back->record->next);
	json_t *object = json_object();
	json_t *renewed = json_array();
	for (size_t i = 0; i < back->renewed_count; i++) {
		json_push(renewed, json_string(inventory->items[back->renewed[i]].tag));
	}
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "kind", item->kind);
	json_put_string(object, "vessel", vessel_of(inventory, item));
	json_put_day(object, "on", back->movement->on);
	json_put_words(object, "station", back->movement->station);
	json_put_string(object, "result", result_word(back->movement->result));
	json_put_day(object, "next", next);
	json_put_words(object, "certificate", certificate_of(back));
	json_put_number(object, "price", price_of(back), -1);
	json_put(object, "renewed", renewed);
	json_put_words(object, "note", back->movement->note);
	json_put_bool(object, "different", back->different);
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
		json_t *object = back_object(lookout->inventory, back);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

static void
put_sums(json_t *object, const struct spent *spent)
{
	json_put(object, "work", json_integer(spent->work_minor));
	json_put(object, "bought", json_integer(spent->bought_minor));
	json_put(object, "minor", json_integer(spent->work_minor + spent->bought_minor));
}

static json_t *
sums_array(const struct spent_list *list, const char *key)
{
	json_t *array = json_array();
	for (size_t i = 0; i < list->count; i++) {
		const struct spent *spent = &list->items[i];
		json_t *object = json_object();
		if (spent->year != 0) {
			json_put(object, key, json_integer(spent->year));
		} else {
			json_put_words(object, key, spent->name);
		}
		put_sums(object, spent);
		json_push(array, object);
	}
	return array;
}

void
answer_spent(const struct spending *spending, const char *currency, struct text *out)
{
	json_t *object = json_object();
	json_put_number(object, "year", spending->year, 0);
	json_put_string(object, "currency", currency);
	json_put(object, "kinds", sums_array(&spending->kinds, "kind"));
	json_put(object, "stations", sums_array(&spending->stations, "station"));
	json_put(object, "years", sums_array(&spending->years, "year"));
	put_sums(object, &spending->total);
	json_put(object, "unpriced", json_integer((json_int_t)spending->unpriced));
	answer_value(out, object);
}

static json_t *
bearers_array(const struct inventory *inventory, const struct history *history)
{
	json_t *array = json_array();
	for (size_t i = 0; i < history->bearer_count; i++) {
		const struct item *item = &inventory->items[history->bearers[i]];
		json_t *object = json_object();
		json_put_string(object, "tag", item->tag);
		json_put_string(object, "kind", item->kind);
		json_put_string(object, "vessel", vessel_of(inventory, item));
		json_put_words(object, "serial", item->serial);
		json_put_string(object, "state", place_word(item->state));
		json_put_words(object, "because", because_word(item->because));
		put_shared(object, inventory, history->bearers[i]);
		json_push(array, object);
	}
	return array;
}

static json_t *
happened_array(const struct inventory *inventory, const struct history *history)
{
	json_t *array = json_array();
	for (size_t i = 0; i < history->count; i++) {
		const struct happening *happening = &history->items[i];
		json_t *object = json_object();
		json_put_day(object, "on", happening->on);
		json_put_string(object, "tag", inventory->items[happening->item].tag);
		if (happening->record != NULL) {
			json_put(object, "record", record_object(happening->record));
		} else if (happening->event != NULL) {
			json_put(object, "event", event_object(happening->event));
		} else {
			json_put(
			    object, "movement", movement_object(happening->movement));
		}
		json_push(array, object);
	}
	return array;
}

void
answer_history(const struct inventory *inventory, const struct history *history,
    const struct journal *journal, struct text *out)
{
	json_t *object = json_object();
	json_t *entries = json_array();
	for (size_t i = 0; i < journal->count; i++) {
		json_push(entries, entry_object(&journal->entries[i]));
	}
	json_put(object, "items", bearers_array(inventory, history));
	json_put(object, "happened", happened_array(inventory, history));
	json_put(object, "journal", entries);
	answer_value(out, object);
}
