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
	json_put_words(answer, object, "any_of", line->line->any_of);
	json_put_words(answer, object, "asks", line->asks);
	json_put_string(answer, object, "source", line->line->source);
	json_put_string(answer, object, "standing", standing_word(line->line->standing));
	return object;
}

static json_t *
vessel_object(
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
	return object;
}

bool
answer_muster(const struct inventory *inventory, struct span days,
    const struct muster *musters, size_t count, struct text *out, struct fault *fault)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *vessels = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(
		    &answer, vessels, vessel_object(&answer, inventory, &musters[i]));
	}
	json_put_day(&answer, object, "on", days.first);
	json_put_day(&answer, object, "to", days.last);
	json_put(&answer, object, "vessels", vessels);
	return answer_value(&answer, object, fault);
}
