#include "exchange/answers.h"
#include "exchange/json_object.h"

static const char *
reason_word(enum piece_reason reason)
{
	switch (reason) {
	case PIECE_COUNTS:
		return "counts";
	case PIECE_REMARKED:
		return "remarked";
	case PIECE_LAPSED:
		return "lapsed";
	case PIECE_NOT_KNOWN:
		return "not-known";
	case PIECE_UNTOLD:
		return "untold";
	case PIECE_UNFIT:
		return "unfit";
	case PIECE_RESERVE:
		return "reserve";
	case PIECE_LANDED:
		return "landed";
	case PIECE_WITHDRAWN:
		return "withdrawn";
	}
	return "";
}

static ANSWER_KEYS(LINE_KEYS, "the answer", "vessel", "on", "line: its id", "title",
    "sheet", "holds: it does of her", "asks: what must be known of her to tell it",
    "need: null where it does not hold or is not told, as the next two", "have", "short",
    "any_of: what other lines meet, too", "sum: how the need comes about", "source",
    "standing: how the source was seen", "pieces");

static ANSWER_KEYS(
    SUM_KEYS, "the sum", "points", "per_person", "persons", "percent", "plus");

static ANSWER_KEYS(PIECE_KEYS, "a piece", "tag", "kind", "quantity",
    "worth: points of one in date", "counts",
    ("reason: counts, remarked, lapsed, not-known, untold, unfit, reserve, landed or "
     "withdrawn"),
    "task: that decides it, as the next two", "rule", "due", "missing: what is not known",
    "last_day: on which it counts");

const struct answer_keys *const KEYS_OF_LINE[] = {
    &LINE_KEYS, &SUM_KEYS, &PIECE_KEYS, NULL};

static struct json
piece_object(const struct inventory *inventory, const struct piece_why *piece)
{
	const struct item *item = &inventory->items[piece->item];
	const struct reading *reading = piece->reading;
	bool counts = piece->reason == PIECE_COUNTS || piece->reason == PIECE_REMARKED;
	bool tasked = reading != NULL || piece->missing[0] != '\0';
	return JSON_OF(&PIECE_KEYS, json_text(item->tag), json_text(item->kind),
	    json_whole(item->quantity), json_whole(piece->worth), json_flag(counts),
	    json_text(reason_word(piece->reason)),
	    json_words(tasked ? task_word(piece->task) : NULL),
	    json_words(reading == NULL ? NULL : reading->rule_id),
	    json_day(reading == NULL ? DAY_NONE : reading->due),
	    json_words(piece->missing), json_day(piece->last));
}

static struct json
sum_object(const struct line_why *why)
{
	const struct carriage *line = why->line;
	return JSON_OF(&SUM_KEYS, json_whole(line->points), json_whole(line->per_person),
	    json_number(why->persons, 0), json_whole(line->percent),
	    json_whole(line->plus));
}

void
answer_line(
    const struct inventory *inventory, const struct line_why *why, struct text *out)
{
	const struct carriage *line = why->line;
	bool told = why->holds && why->told.asks[0] == '\0';
	struct json pieces = json_list();
	for (size_t i = 0; i < why->count; i++) {
		json_push(pieces, piece_object(inventory, &why->pieces[i]));
	}
	answer_value(
	    out, JSON_OF(&LINE_KEYS, json_text(inventory->vessels[why->vessel].name),
		     json_day(why->on), json_text(line->id), json_text(line->title),
		     json_text(line->sheet), json_flag(why->holds),
		     json_words(why->holds ? why->told.asks : NULL),
		     json_number(told ? why->told.need : -1, -1),
		     json_number(told ? why->told.have : -1, -1),
		     json_number(told ? why->told.missing : -1, -1),
		     json_words(line->any_of), sum_object(why), json_text(line->source),
		     json_text(standing_word(line->standing)), pieces));
}
