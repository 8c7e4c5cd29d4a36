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

static json_t *
piece_object(const struct inventory *inventory, const struct piece_why *piece)
{
	const struct item *item = &inventory->items[piece->item];
	const struct reading *reading = piece->reading;
	bool counts = piece->reason == PIECE_COUNTS || piece->reason == PIECE_REMARKED;
	bool tasked = reading != NULL || piece->missing[0] != '\0';
	json_t *object = json_object();
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "kind", item->kind);
	json_put(object, "quantity", json_integer(item->quantity));
	json_put(object, "worth", json_integer(piece->worth));
	json_put_bool(object, "counts", counts);
	json_put_string(object, "reason", reason_word(piece->reason));
	json_put_words(object, "task", tasked ? task_word(piece->task) : NULL);
	json_put_words(object, "rule", reading == NULL ? NULL : reading->rule_id);
	json_put_day(object, "due", reading == NULL ? DAY_NONE : reading->due);
	json_put_words(object, "missing", piece->missing);
	json_put_day(object, "last_day", piece->last);
	return object;
}

static json_t *
sum_object(const struct line_why *why)
{
	const struct carriage *line = why->line;
	json_t *object = json_object();
	json_put(object, "points", json_integer(line->points));
	json_put(object, "per_person", json_integer(line->per_person));
	json_put_number(object, "persons", why->persons, 0);
	json_put(object, "percent", json_integer(line->percent));
	json_put(object, "plus", json_integer(line->plus));
	return object;
}

void
answer_line(
    const struct inventory *inventory, const struct line_why *why, struct text *out)
{
	const struct carriage *line = why->line;
	bool told = why->holds && why->told.asks[0] == '\0';
	json_t *object = json_object();
	json_t *pieces = json_array();
	for (size_t i = 0; i < why->count; i++) {
		json_push(pieces, piece_object(inventory, &why->pieces[i]));
	}
	json_put_string(object, "vessel", inventory->vessels[why->vessel].name);
	json_put_day(object, "on", why->on);
	json_put_string(object, "line", line->id);
	json_put_string(object, "title", line->title);
	json_put_string(object, "sheet", line->sheet);
	json_put_bool(object, "holds", why->holds);
	json_put_words(object, "asks", why->holds ? why->told.asks : NULL);
	json_put_number(object, "need", told ? why->told.need : -1, -1);
	json_put_number(object, "have", told ? why->told.have : -1, -1);
	json_put_number(object, "short", told ? why->told.missing : -1, -1);
	json_put_words(object, "any_of", line->any_of);
	json_put(object, "sum", sum_object(why));
	json_put_string(object, "source", line->source);
	json_put_string(object, "standing", standing_word(line->standing));
	json_put(object, "pieces", pieces);
	answer_value(out, object);
}
