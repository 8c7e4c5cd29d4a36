#include "exchange/answers_life.h"

#include "exchange/answer_parts.h"
#include "exchange/json_object.h"
#include "life/serials.h"

/* The other piece of its lot with the same number, which then tells neither; null for none. */
static struct json
shared_with(const struct inventory *inventory, size_t item)
{
	size_t other = serial_shared_with(inventory, item);
	return json_words(other == ITEM_NO_PARENT ? NULL : inventory->items[other].tag);
}

#define SERIAL_SHARED_KEY                                                                \
	"serial_shared_with: the tag of what has the same, which then tells neither"

ANSWER_KEYS(WHERE_KEYS, "a piece", "tag", "kind", "vessel",
    "state: aboard, reserve, landed, stand-in or withdrawn",
    "with: the tag of what it went along in", "station", "since", "collect",
    "assumed: its turn-round is", "place", "because: why it is withdrawn",
    "stands_for: the tag in whose place", "hired_until", SERIAL_SHARED_KEY);

const struct answer_keys *const KEYS_OF_WHERE[] = {&WHERE_KEYS, NULL};

struct json
where_object(const struct known_gear *known, const struct whereabouts *where)
{
	const struct inventory *inventory = known->inventory;
	const struct item *item = &inventory->items[where->item];
	bool with = where->whole != where->item;
	return JSON_OF(&WHERE_KEYS, json_text(item->tag), json_text(item->kind),
	    json_vessel(inventory, item), json_text(place_word(where->state)),
	    json_words(with ? inventory->items[where->whole].tag : NULL),
	    json_words(where->station), json_day(where->since), json_day(where->collect),
	    json_flag(where->assumed), json_text(item->place),
	    json_words(because_word(item->because)), json_words(item->stands_for),
	    json_day(item->hired_until), shared_with(inventory, where->item));
}

void
answer_where_some(struct answer *answer, const struct known_gear *known,
    const struct whereabouts_list *list)
{
	for (size_t i = 0; i < list->count; i++) {
		answer_element(answer, where_object(known, &list->items[i]));
	}
}

void
answer_where(
    const struct known_gear *known, const struct whereabouts_list *list, struct text *out)
{
	struct answer answer = {.out = out};
	answer_where_some(&answer, known, list);
	answer_end(&answer);
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

static ANSWER_KEYS(BACK_KEYS, "a piece", "tag", "kind", "vessel", "on", "station",
    "result: passed, passed-shorter, condemned or not-done",
    "next: the date its certificate states", "certificate", "price",
    "renewed: the tags of parts that were", "note",
    "different: not just passed: another result, a new part or a note");

const struct answer_keys *const KEYS_OF_CAME_BACK[] = {&BACK_KEYS, NULL};

static struct json
back_object(const struct inventory *inventory, const struct came_back *back)
{
	const struct item *item = &inventory->items[back->item];
	day_t next =
	    back->record == NULL ? DAY_NONE : stamp_good_through(back->record->next);
	struct json renewed = json_list();
	for (size_t i = 0; i < back->renewed_count; i++) {
		json_push(renewed, json_text(inventory->items[back->renewed[i]].tag));
	}
	return JSON_OF(&BACK_KEYS, json_text(item->tag), json_text(item->kind),
	    json_vessel(inventory, item), json_day(back->movement->on),
	    json_words(back->movement->station),
	    json_text(result_word(back->movement->result)), json_day(next),
	    json_words(certificate_of(back)), json_number(price_of(back), -1), renewed,
	    json_words(back->movement->note), json_flag(back->different));
}

void
answer_came_back(const struct known_gear *known, const struct came_back_list *list,
    bool all, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < list->count; i++) {
		const struct came_back *back = &list->items[i];
		if (all || back->different) {
			answer_element(&answer, back_object(known->inventory, back));
		}
	}
	answer_end(&answer);
}

#define EVERY_SUM "work: what was paid for it", "bought", "minor: both"

static ANSWER_KEYS(SPENT_KEYS, "the answer", "year: null for all", "currency", "kinds",
    "stations", "years", EVERY_SUM,
    "unpriced: what was done or bought at no known price");

static ANSWER_KEYS(OF_KIND_KEYS, "the sum of a kind", "kind", EVERY_SUM);
static ANSWER_KEYS(OF_STATION_KEYS, "the sum of a station", "station", EVERY_SUM);
static ANSWER_KEYS(OF_YEAR_KEYS, "the sum of a year", "year", EVERY_SUM);

const struct answer_keys *const KEYS_OF_SPENT[] = {
    &SPENT_KEYS, &OF_KIND_KEYS, &OF_STATION_KEYS, &OF_YEAR_KEYS, NULL};

#define SUMS_OF(spent)                                                                   \
	json_whole((spent)->work_minor), json_whole((spent)->bought_minor),              \
	    json_whole((spent)->work_minor + (spent)->bought_minor)

static struct json
sums_array(const struct spent_list *list, const struct answer_keys *keys)
{
	struct json array = json_list();
	for (size_t i = 0; i < list->count; i++) {
		const struct spent *spent = &list->items[i];
		json_push(array, JSON_OF(keys,
				     spent->year != 0 ? json_whole(spent->year)
						      : json_words(spent->name),
				     SUMS_OF(spent)));
	}
	return array;
}

void
answer_spent(const struct spending *spending, const char *currency, struct text *out)
{
	answer_value(
	    out, JSON_OF(&SPENT_KEYS, json_number(spending->year, 0), json_text(currency),
		     sums_array(&spending->kinds, &OF_KIND_KEYS),
		     sums_array(&spending->stations, &OF_STATION_KEYS),
		     sums_array(&spending->years, &OF_YEAR_KEYS),
		     SUMS_OF(&spending->total), json_count(spending->unpriced)));
}

static ANSWER_KEYS(HISTORY_KEYS, "the answer", "items: which had the number or tag",
    "happened: by day", "journal: entries",
    "damaged: numbers of entries that can't all be read, so that some may be missing");

static ANSWER_KEYS(BEARER_KEYS, "an item", "tag", "kind", "vessel", "serial",
    "state: aboard, reserve, landed, stand-in or withdrawn", "because: why it is that",
    SERIAL_SHARED_KEY);

static ANSWER_KEYS(HAPPENED_KEYS, "what happened", "on", "tag",
    "record: one of these three", "event", "movement");

const struct answer_keys *const KEYS_OF_HISTORY[] = {&HISTORY_KEYS, &BEARER_KEYS,
    &HAPPENED_KEYS, &RECORD_KEYS, &EVENT_KEYS, &MOVEMENT_KEYS, &ENTRY_KEYS,
    &ENTRY_LINE_KEYS, NULL};

static struct json
bearers_array(const struct inventory *inventory, const struct history *history)
{
	struct json array = json_list();
	for (size_t i = 0; i < history->bearer_count; i++) {
		const struct item *item = &inventory->items[history->bearers[i]];
		json_push(array,
		    JSON_OF(&BEARER_KEYS, json_text(item->tag), json_text(item->kind),
			json_vessel(inventory, item), json_words(item->serial),
			json_text(place_word(item->state)),
			json_words(because_word(item->because)),
			shared_with(inventory, history->bearers[i])));
	}
	return array;
}

static struct json
happened_array(const struct inventory *inventory, const struct history *history)
{
	struct json array = json_list();
	for (size_t i = 0; i < history->count; i++) {
		const struct happening *happening = &history->items[i];
		const struct record *record = happening->record;
		const struct event *event = happening->event;
		bool moved = record == NULL && event == NULL;
		json_push(array,
		    JSON_PUT(json_begun(), &HAPPENED_KEYS, JSON_SOME,
			json_day(happening->on),
			json_text(inventory->items[happening->item].tag),
			record != NULL ? record_object(record) : json_none(),
			event != NULL ? event_object(event) : json_none(),
			moved ? movement_object(happening->movement) : json_none()));
	}
	return array;
}

void
answer_history(const struct inventory *inventory, const struct history *history,
    const struct journal *journal, struct text *out)
{
	struct json entries = json_list();
	struct json damaged = json_list();
	for (size_t i = 0; i < journal->count; i++) {
		json_push(entries, entry_object(&journal->entries[i]));
	}
	for (size_t i = 0; i < journal->damaged_count; i++) {
		json_push(damaged, json_whole(journal->damaged[i]));
	}
	answer_value(out, JSON_OF(&HISTORY_KEYS, bearers_array(inventory, history),
			      happened_array(inventory, history), entries, damaged));
}
