#include "exchange/answer_push.h"

#include "exchange/json_object.h"

static void
put_count(struct answer *answer, json_t *object, const char *key, size_t count)
{
	json_put_number(answer, object, key, (int64_t)count, -1);
}

static json_t *
row_object(struct answer *answer, const struct pushed_row *row)
{
	json_t *object = json_object();
	json_put_string(answer, object, "uid", row->uid);
	json_put_string(answer, object, "summary", row->summary);
	json_put_string(answer, object, "act", row->act);
	json_put_words(answer, object, "found", row->found);
	json_put_bool(answer, object, "outdated", row->outdated);
	json_put_day(answer, object, "day", row->day);
	json_put_day(answer, object, "their_day", row->their_day);
	json_put_day(answer, object, "done_on", row->done_on);
	json_put_words(answer, object, "their_summary", row->their_summary);
	json_put_words(answer, object, "their_status", row->their_status);
	json_put_words(answer, object, "why", row->why);
	json_put_bool(answer, object, "both", row->both);
	return object;
}

void
answer_push(const struct pushed_answer *push, struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *rows = json_array();
	json_put_string(&answer, object, "calendar", push->calendar);
	json_put_string(&answer, object, "url", push->url);
	json_put_string(&answer, object, "mode", push->mode);
	json_put_bool(&answer, object, "dry_run", push->trying);
	put_count(&answer, object, "created", push->counts.created);
	put_count(&answer, object, "changed", push->counts.changed);
	put_count(&answer, object, "removed", push->counts.removed);
	put_count(&answer, object, "planned", push->counts.planned);
	put_count(&answer, object, "accepted", push->counts.accepted);
	put_count(&answer, object, "left", push->counts.left);
	put_count(&answer, object, "unchanged", push->counts.unchanged);
	for (size_t i = 0; i < push->count; i++) {
		json_push(&answer, rows, row_object(&answer, &push->rows[i]));
	}
	json_put(&answer, object, "reminders", rows);
	answer_value(&answer, object);
}
