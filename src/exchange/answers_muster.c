#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

static const struct answer_key WHOLE_KEYS[] = {{"on", "the first day asked about"},
    {"to", "the last"}, {"season", "each vessel over her season"}, {"vessels", NULL}};

static const struct answer_key VESSEL_KEYS[] = {{"vessel", NULL},
    {"ok", "short of nothing on any of the days"},
    {"good_through", "the last day before she is short"},
    {"first_short", "the first day on which she is"},
    {"seen_on", "the day her lines are of"}, {"lines", NULL},
    {"from", "the first day asked about"}, {"to", "the last"},
    {"shortages", "over all the days"}, {"next_lapses", NULL},
    {"spares", "of her base's stores; null where she is short of nothing"},
    {"not_stated", "what her sheets have no figure for"},
    {"not_counted", "what no line of hers is of"}};

static const struct answer_key LINE_KEYS[] = {{"line", "its id"}, {"title", NULL},
    {"need", "null where it can't be told, as short"}, {"have", NULL}, {"short", NULL},
    {"counted", "tags, as the next four"}, {"lapsed", NULL},
    {"unknown", "of no known date"}, {"remarks", "counted though past common practice"},
    {"lapsed_parts", "counted though a part has lapsed"},
    {"untold", "what would count if it were told of it"},
    {"any_of", "what other lines meet, too"},
    {"asks", "what must be known of her to tell it"}, {"source", NULL},
    {"standing", "how the source was seen"}};

static const struct answer_key SHORTAGE_KEYS[] = {{"line", "its id"}, {"title", NULL},
    {"from", "its first day"}, {"short", "on the worst of them"}};

static const struct answer_key LAPSE_KEYS[] = {{"tag", NULL}, {"kind", NULL},
    {"last_day", "on which it counts"}, {"counted", "by a line that holds"},
    {"makes_short", NULL}};

static const struct answer_key SPARES_KEYS[] = {{"cures", "she is whole with them"},
    {"fewest", "fewer would not do"}, {"tags", NULL}, {"moves", NULL}};

static const struct answer_key MOVE_KEYS[] = {{"tag", NULL},
    {"quantity", "pieces that move"}, {"of", "pieces of the lot"},
    {"command", "the words that move it"}};

enum { WHOLE, VESSEL, LINE, SHORTAGE, LAPSE, SPARES, MOVE };

const struct answer_keys KEYS_OF_MUSTER[] = {[WHOLE] = KEYS("the answer", WHOLE_KEYS),
    [VESSEL] = KEYS("a vessel", VESSEL_KEYS),
    [LINE] = KEYS("a line", LINE_KEYS),
    [SHORTAGE] = KEYS("a shortage", SHORTAGE_KEYS),
    [LAPSE] = KEYS("a lapse", LAPSE_KEYS),
    [SPARES] = KEYS("a cure", SPARES_KEYS),
    [MOVE] = KEYS("a move", MOVE_KEYS),
    {0}};

static void
put_tags(json_t *object, const char *key, const struct inventory *inventory,
    const struct muster_items *items)
{
	json_t *array = json_array();
	for (size_t i = 0; i < items->count; i++) {
		const char *tag = inventory->items[items->items[i]].tag;
		json_push(array, json_string(tag));
	}
	json_put(object, key, array);
}

/* [{"tag","asks","counted"}]: what would count, or count for more, if its rating, capacity or
 * place were known. */
static void
put_untold(
    json_t *object, const struct inventory *inventory, const struct muster_line *line)
{
	json_t *array = json_array();
	for (size_t i = 0; i < line->untold_count; i++) {
		json_t *entry = json_object();
		json_put_string(entry, "tag", inventory->items[line->untold[i].item].tag);
		json_put_string(entry, "asks", line->untold[i].asks);
		json_push(array, entry);
	}
	json_put(object, "untold", array);
}

static json_t *
line_object(const struct inventory *inventory, const struct muster_line *line)
{
	/* What is not told is no number. */
	int64_t none = line->asks[0] == '\0' ? -1 : 0;
	json_t *object = json_object();
	json_put_string(object, "line", line->line->id);
	json_put_string(object, "title", line->line->title);
	json_put_number(object, "need", line->need, none);
	json_put(object, "have", json_integer(line->have));
	json_put_number(object, "short", line->missing, none);
	put_tags(object, "counted", inventory, &line->counted);
	put_tags(object, "lapsed", inventory, &line->lapsed);
	put_tags(object, "unknown", inventory, &line->unknown);
	put_tags(object, "remarks", inventory, &line->remarks);
	put_tags(object, "lapsed_parts", inventory, &line->parts);
	put_untold(object, inventory, line);
	json_put_words(object, "any_of", line->line->any_of);
	json_put_words(object, "asks", line->asks);
	json_put_string(object, "source", line->line->source);
	json_put_string(object, "standing", standing_word(line->line->standing));
	return json_keyed(object, &KEYS_OF_MUSTER[LINE]);
}

/* [{"subject","ask","sheet"}]: what her sheets have no figure for. */
static void
put_subjects(json_t *object, const struct muster *muster)
{
	json_t *array = json_array();
	for (size_t i = 0; i < muster->subject_count; i++) {
		json_t *entry = json_object();
		json_put_string(entry, "subject", muster->subjects[i]->subject);
		json_put_string(entry, "ask", muster->subjects[i]->ask);
		json_put_string(entry, "sheet", muster->subjects[i]->sheet);
		json_push(array, entry);
	}
	json_put(object, "not_stated", array);
}

/* [{"subject","ask":[...]}]: what no line of hers is of, so that it is not counted. */
static void
put_silences(json_t *object, const struct muster *muster)
{
	json_t *array = json_array();
	for (size_t i = 0; i < muster->silence_count; i++) {
		const struct muster_silence *silence = &muster->silences[i];
		json_t *entry = json_object();
		json_t *asks = json_array();
		for (size_t j = 0; j < silence->ask_count; j++) {
			json_push(asks, json_string(silence->ask[j]));
		}
		json_put_string(entry, "subject", GEAR_SUBJECT_WORDS[silence->subject]);
		json_put(entry, "ask", asks);
		json_push(array, entry);
	}
	json_put(object, "not_counted", array);
}

static json_t *
shortages_array(const struct muster *muster)
{
	json_t *array = json_array();
	for (size_t i = 0; i < muster->shortage_count; i++) {
		const struct muster_shortage *shortage = &muster->shortages[i];
		json_t *object = json_object();
		json_put_string(object, "line", shortage->line->id);
		json_put_string(object, "title", shortage->line->title);
		json_put_day(object, "from", shortage->from);
		json_put(object, "short", json_integer(shortage->most));
		json_push(array, json_keyed(object, &KEYS_OF_MUSTER[SHORTAGE]));
	}
	return array;
}

static json_t *
lapses_array(const struct inventory *inventory, const struct muster *muster)
{
	json_t *array = json_array();
	for (size_t i = 0; i < muster->lapse_count; i++) {
		const struct muster_lapse *lapse = &muster->lapses[i];
		const struct item *item = &inventory->items[lapse->item];
		json_t *object = json_object();
		json_put_string(object, "tag", item->tag);
		json_put_string(object, "kind", item->kind);
		json_put_day(object, "last_day", lapse->last);
		json_put_bool(object, "counted", lapse->counted);
		json_put_bool(object, "makes_short", lapse->makes_short);
		json_push(array, json_keyed(object, &KEYS_OF_MUSTER[LAPSE]));
	}
	return array;
}

/* "tags", and "moves": [{"tag","quantity","of","command"}], "of" being the pieces of the lot. */
static void
put_moves(json_t *object, const struct inventory *inventory, const struct muster *muster)
{
	json_t *tags = json_array();
	json_t *moves = json_array();
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < muster->cure.count; i++) {
		const struct muster_move *move = &muster->cure.moves[i];
		const struct item *item = &inventory->items[move->item];
		json_t *entry = json_object();
		text_reset(&words);
		muster_move_words(inventory, move, muster->vessel, &words);
		json_push(tags, json_string(item->tag));
		json_put_string(entry, "tag", item->tag);
		json_put(entry, "quantity", json_integer(move->quantity));
		json_put(entry, "of", json_integer(item->quantity));
		json_put_string(entry, "command", text_string(&words));
		json_push(moves, json_keyed(entry, &KEYS_OF_MUSTER[MOVE]));
	}
	json_put(object, "tags", tags);
	json_put(object, "moves", moves);
}

/* Null where nothing is short: there was nothing to look for. */
static json_t *
spares_value(const struct inventory *inventory, const struct muster *muster)
{
	const struct muster_cure *cure = &muster->cure;
	if (muster->shortage_count == 0) {
		return json_null();
	}
	json_t *object = json_object();
	json_put_bool(object, "cures", cure->cures);
	json_put_bool(object, "fewest", cure->fewest);
	put_moves(object, inventory, muster);
	return json_keyed(object, &KEYS_OF_MUSTER[SPARES]);
}

json_t *
answer_muster_object(const struct inventory *inventory, const struct muster *muster)
{
	json_t *object = json_object();
	json_t *lines = json_array();
	for (size_t i = 0; i < muster->line_count; i++) {
		json_push(lines, line_object(inventory, &muster->lines[i]));
	}
	json_put_string(object, "vessel", inventory->vessels[muster->vessel].name);
	json_put_bool(object, "ok", muster->ok);
	json_put_day(object, "good_through", muster->good_through);
	json_put_day(object, "first_short", muster->first_short);
	json_put_day(object, "seen_on", muster->on);
	json_put(object, "lines", lines);
	json_put_day(object, "from", muster->days.first);
	json_put_day(object, "to", muster->days.last);
	json_put(object, "shortages", shortages_array(muster));
	json_put(object, "next_lapses", lapses_array(inventory, muster));
	json_put(object, "spares", spares_value(inventory, muster));
	put_subjects(object, muster);
	put_silences(object, muster);
	return json_keyed(object, &KEYS_OF_MUSTER[VESSEL]);
}

void
answer_muster(const struct inventory *inventory, const struct muster_question *question,
    const struct muster *musters, size_t count, struct text *out)
{
	json_t *object = json_object();
	json_t *vessels = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(vessels, answer_muster_object(inventory, &musters[i]));
	}
	json_put_day(object, "on", question->days.first);
	json_put_day(object, "to", question->days.last);
	json_put_bool(object, "season", question->season);
	json_put(object, "vessels", vessels);
	answer_value(out, json_keyed(object, &KEYS_OF_MUSTER[WHOLE]));
}
