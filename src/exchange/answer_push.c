#include "exchange/answer_push.h"

#include "exchange/json_object.h"

static ANSWER_KEYS(PUSH_KEYS, "the answer", "calendar: its name", "url",
    "mode: push or pull", "dry_run: nothing was done",
    "created: how many, as the next six", "changed", "removed", "planned", "accepted",
    "left", "unchanged", "reminders");

static ANSWER_KEYS(PUSHED_KEYS, "a reminder", "uid", "summary",
    "act: nothing, note, create, change, remove, forget, plan, accept or leave",
    "found: moved, edited, removed, strange or twice", "outdated: it no longer applies",
    "day", "their_day: in the calendar, as the next three", "done_on", "their_summary",
    "their_status", "why: the server refused",
    "both: its day was changed there and here");

const struct answer_keys *const KEYS_OF_PUSH[] = {&PUSH_KEYS, &PUSHED_KEYS, NULL};

static struct json
row_object(const struct pushed_row *row)
{
	return JSON_OF(&PUSHED_KEYS, json_text(row->uid), json_text(row->summary),
	    json_text(row->act), json_words(row->found), json_flag(row->outdated),
	    json_day(row->day), json_day(row->their_day), json_day(row->done_on),
	    json_words(row->their_summary), json_words(row->their_status),
	    json_words(row->why), json_flag(row->both));
}

void
answer_push(const struct pushed_answer *push, struct text *out)
{
	const struct pushed_counts *counts = &push->counts;
	struct json rows = json_list();
	for (size_t i = 0; i < push->count; i++) {
		json_push(rows, row_object(&push->rows[i]));
	}
	answer_value(
	    out, JSON_OF(&PUSH_KEYS, json_text(push->calendar), json_text(push->url),
		     json_text(push->mode), json_flag(push->trying),
		     json_count(counts->created), json_count(counts->changed),
		     json_count(counts->removed), json_count(counts->planned),
		     json_count(counts->accepted), json_count(counts->left),
		     json_count(counts->unchanged), rows));
}
