#include "exchange/answers.h"
#include "exchange/json_object.h"

/* The first day of its last service; null when none is on record. */
static void
put_last_service(json_t *object, const struct item *item)
{
	day_t last = DAY_NONE;
	for (size_t i = 0; i < item->record_count; i++) {
		if (item->records[i].task == TASK_SERVICE) {
			last = stamp_first(item->records[i].on);
		}
	}
	json_put_day(object, "last_service", last);
}

static json_t *
piece_object(const struct inventory *inventory, const struct docket_piece *piece)
{
	const struct item *item = &inventory->items[piece->item];
	json_t *object = json_object();
	json_put_string(object, "vessel", inventory->vessels[item->vessel].name);
	json_put_string(object, "tag", item->tag);
	json_put_string(object, "kind", item->kind);
	json_put_string(object, "serial", item->serial);
	json_put_stamp(object, "made", item->made);
	put_last_service(object, item);
	json_t *tasks = json_array();
	for (size_t i = 0; i < piece->line_count; i++) {
		const struct shore_line *line = piece->lines[i];
		json_t *task = json_object();
		json_put_string(task, "tag", inventory->items[line->item].tag);
		json_put_string(task, "task", task_word(line->task));
		json_put_day(task, "due", line->due);
		json_put_day(task, "due_again", line->due_again);
		json_push(tasks, task);
	}
	json_put(object, "tasks", tasks);
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
		json_put_words(object, "station", docket->station);
		json_put_day(object, "hand_in", docket->hand_in);
		json_put_day(object, "collect", docket->collect);
		json_put_bool(object, "assumed", docket->assumed);
		json_put_bool(object, "landed", docket->landed);
		json_t *pieces = json_array();
		for (size_t j = 0; j < docket->piece_count; j++) {
			json_push(pieces, piece_object(inventory, &docket->pieces[j]));
		}
		json_put(object, "pieces", pieces);
		json_put_number(object, "count", (int64_t)docket->count, -1);
		json_put_number(object, "inside", (int64_t)docket->inside, -1);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}
