#include "exchange/answers.h"
#include "exchange/json_object.h"

/* The first day of its last service; null when none is on record. */
static void
put_last_service(struct answer *answer, json_t *object, const struct item *item)
{
	day_t last = DAY_NONE;
	for (size_t i = 0; i < item->record_count; i++) {
		if (item->records[i].task == TASK_SERVICE) {
			last = stamp_first(item->records[i].on);
		}
	}
	json_put_day(answer, object, "last_service", last);
}

static json_t *
piece_object(struct answer *answer, const struct inventory *inventory,
    const struct docket_piece *piece)
{
	const struct item *item = &inventory->items[piece->item];
	json_t *object = json_object();
	json_put_string(answer, object, "vessel", inventory->vessels[item->vessel].name);
	json_put_string(answer, object, "tag", item->tag);
	json_put_string(answer, object, "kind", item->kind);
	json_put_string(answer, object, "serial", item->serial);
	json_put_stamp(answer, object, "made", item->made);
	put_last_service(answer, object, item);
	json_t *tasks = json_array();
	for (size_t i = 0; i < piece->line_count; i++) {
		const struct shore_line *line = piece->lines[i];
		json_t *task = json_object();
		json_put_string(answer, task, "tag", inventory->items[line->item].tag);
		json_put_string(answer, task, "task", task_word(line->task));
		json_put_day(answer, task, "due", line->due);
		json_put_day(answer, task, "due_again", line->due_again);
		json_push(answer, tasks, task);
	}
	json_put(answer, object, "tasks", tasks);
	return object;
}

void
answer_dockets(
    const struct inventory *inventory, const struct dockets *dockets, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < dockets->count; i++) {
		const struct docket *docket = &dockets->items[i];
		json_t *object = json_object();
		json_put_words(&answer, object, "station", docket->station);
		json_put_day(&answer, object, "hand_in", docket->hand_in);
		json_put_day(&answer, object, "collect", docket->collect);
		json_put_bool(&answer, object, "assumed", docket->assumed);
		json_put_bool(&answer, object, "landed", docket->landed);
		json_t *pieces = json_array();
		for (size_t j = 0; j < docket->piece_count; j++) {
			json_push(&answer, pieces,
			    piece_object(&answer, inventory, &docket->pieces[j]));
		}
		json_put(&answer, object, "pieces", pieces);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}
