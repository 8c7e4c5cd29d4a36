#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

static void
put_tags(struct answer *answer, json_t *object, const char *key,
    const struct inventory *inventory, const struct muster_items *items)
{
	json_t *array = json_array();
	for (size_t i = 0; i < items->count; i++) {
		const char *tag = inventory->items[items->items[i]].tag;
		json_push(answer, array, json_string(tag));
	}
	json_put(answer, object, key, array);
}

/* [{"tag","asks","counted"}]: what would count, or count for more, if its rating, capacity or
 * place were known. */
static void
put_untold(struct answer *answer, json_t *object, const struct inventory *inventory,
    const struct muster_line *line)
{
	json_t *array = json_array();
	for (size_t i = 0; i < line->untold_count; i++) {
		json_t *entry = json_object();
		json_put_string(
		    answer, entry, "tag", inventory->items[line->untold[i].item].tag);
		json_put_string(answer, entry, "asks", line->untold[i].asks);
		json_push(answer, array, entry);
	}
	json_put(answer, object, "untold", array);
}

static json_t *
line_object(struct answer *answer, const struct inventory *inventory,
    const struct muster_line *line)
{
	/* What is not told is no number. */
	int64_t none = line->asks[0] == '\0' ? -1 : 0;
	json_t *object = json_object();
	json_put_string(answer, object, "line", line->line->id);
	json_put_string(answer, object, "title", line->line->title);
	json_put_number(answer, object, "need", line->need, none);
	json_put(answer, object, "have", json_integer(line->have));
	json_put_number(answer, object, "short", line->missing, none);
	put_tags(answer, object, "counted", inventory, &line->counted);
	put_tags(answer, object, "lapsed", inventory, &line->lapsed);
	put_tags(answer, object, "unknown", inventory, &line->unknown);
	put_tags(answer, object, "remarks", inventory, &line->remarks);
	put_tags(answer, object, "lapsed_parts", inventory, &line->parts);
	put_untold(answer, object, inventory, line);
	json_put_words(answer, object, "any_of", line->line->any_of);
	json_put_words(answer, object, "asks", line->asks);
	json_put_string(answer, object, "source", line->line->source);
	json_put_string(answer, object, "standing", standing_word(line->line->standing));
	return object;
}

/* [{"subject","ask","sheet"}]: what her sheets have no figure for. */
static void
put_subjects(struct answer *answer, json_t *object, const struct muster *muster)
{
	json_t *array = json_array();
	for (size_t i = 0; i < muster->subject_count; i++) {
		json_t *entry = json_object();
		json_put_string(answer, entry, "subject", muster->subjects[i]->subject);
		json_put_string(answer, entry, "ask", muster->subjects[i]->ask);
		json_put_string(answer, entry, "sheet", muster->subjects[i]->sheet);
		json_push(answer, array, entry);
	}
	json_put(answer, object, "not_stated", array);
}

/* [{"subject","ask":[...]}]: what no line of hers is of, so that it is not counted. */
static void
put_silences(struct answer *answer, json_t *object, const struct muster *muster)
{
	json_t *array = json_array();
	for (size_t i = 0; i < muster->silence_count; i++) {
		const struct muster_silence *silence = &muster->silences[i];
		json_t *entry = json_object();
		json_t *asks = json_array();
		for (size_t j = 0; j < silence->ask_count; j++) {
			json_push(answer, asks, json_string(silence->ask[j]));
		}
		json_put_string(
		    answer, entry, "subject", GEAR_SUBJECT_WORDS[silence->subject]);
		json_put(answer, entry, "ask", asks);
		json_push(answer, array, entry);
	}
	json_put(answer, object, "not_counted", array);
}

static json_t *
shortages_array(struct answer *answer, const struct muster *muster)
{
	json_t *array = json_array();
	for (size_t i = 0; i < muster->shortage_count; i++) {
		const struct muster_shortage *shortage = &muster->shortages[i];
		json_t *object = json_object();
		json_put_string(answer, object, "line", shortage->line->id);
		json_put_string(answer, object, "title", shortage->line->title);
		json_put_day(answer, object, "from", shortage->from);
		json_put(answer, object, "short", json_integer(shortage->most));
		json_push(answer, array, object);
	}
	return array;
}

static json_t *
lapses_array(
    struct answer *answer, const struct inventory *inventory, const struct muster *muster)
{
	json_t *array = json_array();
	for (size_t i = 0; i < muster->lapse_count; i++) {
		const struct muster_lapse *lapse = &muster->lapses[i];
		const struct item *item = &inventory->items[lapse->item];
		json_t *object = json_object();
		json_put_string(answer, object, "tag", item->tag);
		json_put_string(answer, object, "kind", item->kind);
		json_put_day(answer, object, "last_day", lapse->last);
		json_put_bool(answer, object, "makes_short", lapse->makes_short);
		json_push(answer, array, object);
	}
	return array;
}

/* "tags", and "moves": [{"tag","quantity","of","command"}], "of" being the pieces of the lot. */
static void
put_moves(struct answer *answer, json_t *object, const struct inventory *inventory,
    const struct muster *muster)
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
		json_push(answer, tags, json_string(item->tag));
		json_put_string(answer, entry, "tag", item->tag);
		json_put(answer, entry, "quantity", json_integer(move->quantity));
		json_put(answer, entry, "of", json_integer(item->quantity));
		json_put_string(answer, entry, "command", text_string(&words));
		json_push(answer, moves, entry);
	}
	json_put(answer, object, "tags", tags);
	json_put(answer, object, "moves", moves);
}

/* Null where nothing is short: there was nothing to look for. */
static json_t *
spares_value(
    struct answer *answer, const struct inventory *inventory, const struct muster *muster)
{
	const struct muster_cure *cure = &muster->cure;
	if (muster->shortage_count == 0) {
		return json_null();
	}
	json_t *object = json_object();
	json_put_bool(answer, object, "cures", cure->cures);
	json_put_bool(answer, object, "fewest", cure->fewest);
	put_moves(answer, object, inventory, muster);
	return object;
}

json_t *
answer_muster_object(
    struct answer *answer, const struct inventory *inventory, const struct muster *muster)
{
	json_t *object = json_object();
	json_t *lines = json_array();
	for (size_t i = 0; i < muster->line_count; i++) {
		json_push(
		    answer, lines, line_object(answer, inventory, &muster->lines[i]));
	}
	json_put_string(
	    answer, object, "vessel", inventory->vessels[muster->vessel].name);
	json_put_bool(answer, object, "ok", muster->ok);
	json_put_day(answer, object, "good_through", muster->good_through);
	json_put_day(answer, object, "first_short", muster->first_short);
	json_put_day(answer, object, "seen_on", muster->on);
	json_put(answer, object, "lines", lines);
	json_put_day(answer, object, "from", muster->days.first);
	json_put_day(answer, object, "to", muster->days.last);
	json_put(answer, object, "shortages", shortages_array(answer, muster));
	json_put(answer, object, "next_lapses", lapses_array(answer, inventory, muster));
	json_put(answer, object, "spares", spares_value(answer, inventory, muster));
	put_subjects(answer, object, muster);
	put_silences(answer, object, muster);
	return object;
}

void
answer_muster(const struct inventory *inventory, const struct muster_question *question,
    const struct muster *musters, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *vessels = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(&answer, vessels,
		    answer_muster_object(&answer, inventory, &musters[i]));
	}
	json_put_day(&answer, object, "on", question->days.first);
	json_put_day(&answer, object, "to", question->days.last);
	json_put_bool(&answer, object, "season", question->season);
	json_put(&answer, object, "vessels", vessels);
	answer_value(&answer, object);
}
