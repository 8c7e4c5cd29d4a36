#include "exchange/answer_push.h"

#include "exchange/json_object.h"

static void
put_count(json_t *object, const char *key, size_t count)
{
	json_put_number(object, key, (int64_t)count, -1);
}

static json_t *
row_object(const struct pushed_row *row)
{
	json_t *object = json_object();
	json_put_string(object, "uid", row->uid);
	json_put_string(object, "summary", row->summary);
	json_put_string(object, "act", row->act);
	json_put_words(object, "found", row->found);
	json_put_bool(object, "outdated", row->outdated);
	json_put_day(object, "day", row->day);
	json_put_day(object, "their_day", row->their_day);
	json_put_day(object, "done_on", row->done_on);
	json_put_words(object, "their_summary", row->their_summary);
	json_put_words(object, "their_status", row->their_status);
	json_put_words(object, "why", row->why);
	json_put_bool(object, "both", row->both);
	return object;
}

void
answer_push(const struct pushed_answer *push, struct text *out)
{
	json_t *object = json_object();
	json_t *rows = json_array();
	json_put_string(object, "calendar", push->calendar);
	json_put_string(object, "url", push->url);
	json_put_string(object, "mode", push->mode);
	json_put_bool(object, "dry_run", push->trying);
	put_count(object, "created", push->counts.created);
	put_count(object, "changed", push->counts.changed);
	put_count(object, "removed", push->counts.removed);
	put_count(object, "planned", push->counts.planned);
	put_count(object, "accepted", push->counts.accepted);
	put_count(object, "left", push->counts.left);
	put_count(object, "unchanged", push->counts.unchanged);
	for (size_t i = 0; i < push->count; i++) {
		json_push(rows, row_object(&push->rows[i]));
	}
	json_put(object, "reminders", rows);
	answer_value(out, object);
}
