#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

static ANSWER_KEYS(WHOLE_KEYS, "the answer", "on: the first day asked about",
    "to: the last", "season: each vessel over her season", "vessels");

ANSWER_KEYS(MUSTER_KEYS, "a vessel", "vessel", "ok: short of nothing on any of the days",
    "good_through: the last day before she is short",
    "first_short: the first day on which she is", "seen_on: the day her lines are of",
    "lines", "from: the first day asked about", "to: the last",
    "shortages: over all the days", "next_lapses",
    "spares: of her base's stores; null where she is short of nothing",
    "not_stated: what her sheets have no figure for",
    "not_counted: what no line of hers is of");

static ANSWER_KEYS(LINE_KEYS, "a line", "line: its id", "title",
    "need: null where it can't be told, as short", "have", "short",
    "counted: tags, as the next four", "lapsed", "unknown: of no known date",
    "remarks: counted though past common practice",
    "lapsed_parts: counted though a part has lapsed",
    "untold: what would count if it were told of it",
    "any_of: what other lines meet, too", "asks: what must be known of her to tell it",
    "source", "standing: how the source was seen");

static ANSWER_KEYS(SHORTAGE_KEYS, "a shortage", "line: its id", "title",
    "from: its first day", "short: on the worst of them");

static ANSWER_KEYS(LAPSE_KEYS, "a lapse", "tag", "kind", "last_day: on which it counts",
    "counted: by a line that holds", "makes_short");

static ANSWER_KEYS(SPARES_KEYS, "a cure", "cures: she is whole with them",
    "fewest: fewer would not do", "tags", "moves");

static ANSWER_KEYS(MOVE_KEYS, "a move", "tag", "quantity: pieces that move",
    "of: pieces of the lot", "command: the words that move it");

static ANSWER_KEYS(
    UNTOLD_KEYS, "what would count", "tag", "asks: what must be known of it");

ANSWER_KEYS(NOT_STATED_KEYS, "what is not stated", "subject", "ask: whom to", "sheet");

static ANSWER_KEYS(SILENCE_KEYS, "what is not counted", "subject", "ask: whom to");

const struct answer_keys *const KEYS_OF_MUSTER[] = {&WHOLE_KEYS, &MUSTER_KEYS, &LINE_KEYS,
    &UNTOLD_KEYS, &SHORTAGE_KEYS, &LAPSE_KEYS, &SPARES_KEYS, &MOVE_KEYS, &NOT_STATED_KEYS,
    &SILENCE_KEYS, NULL};

static struct json
tags_array(const struct inventory *inventory, const struct muster_items *items)
{
	struct json array = json_list();
	for (size_t i = 0; i < items->count; i++) {
		const char *tag = inventory->items[items->items[i]].tag;
		json_push(array, json_text(tag));
	}
	return array;
}

/* What would count, or count for more, if its rating, capacity or place were known. */
static struct json
untold_array(const struct inventory *inventory, const struct muster_line *line)
{
	struct json array = json_list();
	for (size_t i = 0; i < line->untold_count; i++) {
		json_push(
		    array, JSON_OF(&UNTOLD_KEYS,
			       json_text(inventory->items[line->untold[i].item].tag),
			       json_text(line->untold[i].asks)));
	}
	return array;
}

static struct json
line_object(const struct inventory *inventory, const struct muster_line *line)
{
	/* What is not told is no number. */
	int64_t none = line->asks[0] == '\0' ? -1 : 0;
	return JSON_OF(&LINE_KEYS, json_text(line->line->id),
	    json_text(line->line->title), json_number(line->need, none),
	    json_whole(line->have), json_number(line->missing, none),
	    tags_array(inventory, &line->counted), tags_array(inventory, &line->lapsed),
	    tags_array(inventory, &line->unknown), tags_array(inventory, &line->remarks),
	    tags_array(inventory, &line->parts), untold_array(inventory, line),
	    json_words(line->line->any_of), json_words(line->asks),
	    json_text(line->line->source),
	    json_text(standing_word(line->line->standing)));
}

struct json
not_stated_object(const struct not_stated *subject)
{
	return JSON_OF(&NOT_STATED_KEYS, json_text(subject->subject),
	    json_text(subject->ask), json_text(subject->sheet));
}

static struct json
subjects_array(const struct muster *muster)
{
	struct json array = json_list();
	for (size_t i = 0; i < muster->subject_count; i++) {
		json_push(array, not_stated_object(muster->subjects[i]));
	}
	return array;
}

/* What no line of hers is of, so that it is not counted. */
static struct json
silences_array(const struct muster *muster)
{
	struct json array = json_list();
	for (size_t i = 0; i < muster->silence_count; i++) {
		const struct muster_silence *silence = &muster->silences[i];
		json_push(array, JSON_OF(&SILENCE_KEYS,
				     json_text(GEAR_SUBJECT_WORDS[silence->subject]),
				     json_strings(silence->ask, silence->ask_count)));
	}
	return array;
}

static struct json
shortages_array(const struct muster *muster)
{
	struct json array = json_list();
	for (size_t i = 0; i < muster->shortage_count; i++) {
		const struct muster_shortage *shortage = &muster->shortages[i];
		json_push(
		    array, JSON_OF(&SHORTAGE_KEYS, json_text(shortage->line->id),
			       json_text(shortage->line->title), json_day(shortage->from),
			       json_whole(shortage->most)));
	}
	return array;
}

static struct json
lapses_array(const struct inventory *inventory, const struct muster *muster)
{
	struct json array = json_list();
	for (size_t i = 0; i < muster->lapse_count; i++) {
		const struct muster_lapse *lapse = &muster->lapses[i];
		const struct item *item = &inventory->items[lapse->item];
		json_push(
		    array, JSON_OF(&LAPSE_KEYS, json_text(item->tag),
			       json_text(item->kind), json_day(lapse->last),
			       json_flag(lapse->counted), json_flag(lapse->makes_short)));
	}
	return array;
}

/* Null where nothing is short: there was nothing to look for. */
static struct json
spares_value(const struct inventory *inventory, const struct muster *muster)
{
	const struct muster_cure *cure = &muster->cure;
	if (muster->shortage_count == 0) {
		return json_none();
	}
	struct json tags = json_list();
	struct json moves = json_list();
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < cure->count; i++) {
		const struct muster_move *move = &cure->moves[i];
		const struct item *item = &inventory->items[move->item];
		text_reset(&words);
		muster_move_words(inventory, move, muster->vessel, &words);
		json_push(tags, json_text(item->tag));
		json_push(moves,
		    JSON_OF(&MOVE_KEYS, json_text(item->tag), json_whole(move->quantity),
			json_whole(item->quantity), json_text(text_string(&words))));
	}
	return JSON_OF(
	    &SPARES_KEYS, json_flag(cure->cures), json_flag(cure->fewest), tags, moves);
}

struct json
muster_object(const struct inventory *inventory, const struct muster *muster)
{
	struct json lines = json_list();
	for (size_t i = 0; i < muster->line_count; i++) {
		json_push(lines, line_object(inventory, &muster->lines[i]));
	}
	return JSON_OF(&MUSTER_KEYS, json_text(inventory->vessels[muster->vessel].name),
	    json_flag(muster->ok), json_day(muster->good_through),
	    json_day(muster->first_short), json_day(muster->on), lines,
	    json_day(muster->days.first), json_day(muster->days.last),
	    shortages_array(muster), lapses_array(inventory, muster),
	    spares_value(inventory, muster), subjects_array(muster),
	    silences_array(muster));
}

void
answer_muster_keep(const struct inventory *inventory, const size_t *places,
    const struct muster *musters, size_t count, struct runs *kept)
{
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < count; i++) {
		size_t vessel = musters[i].vessel;
		int64_t place = (int64_t)(places == NULL ? vessel : places[vessel]);
		text_reset(&words);
		json_write(muster_object(inventory, &musters[i]), &words);
		runs_add(kept,
		    &(struct run_piece){place, text_string(&words), words.length, NULL});
	}
	runs_end(kept);
}

/* An array inside an object, being written. */
struct musters_written {
	struct text *out;
	bool any;
};

static void
add_kept(const struct run_piece *piece, void *of)
{
	struct musters_written *written = of;
	text_add(written->out, written->any ? ", " : "");
	text_add_bytes(written->out, piece->bytes, piece->length);
	text_hand_on(written->out);
	written->any = true;
}

bool
answer_muster_kept(const struct muster_question *question, const struct runs *kept,
    struct text *out, struct fault *fault)
{
	static const char END[] = "]}";

	SCOPED_TEXT begun = {0};
	json_write(
	    JSON_OF(&WHOLE_KEYS, json_day(question->days.first),
		json_day(question->days.last), json_flag(question->season), json_list()),
	    &begun);
	text_add_bytes(out, text_string(&begun), begun.length - (sizeof END - 1));
	if (!runs_merge(kept, add_kept, &(struct musters_written){out, false}, fault)) {
		return false;
	}
	text_add_format(out, "%s\n", END);
	return true;
}
