#include "exchange/answers.h"
#include "exchange/json_object.h"

static ANSWER_KEYS(DOCKET_KEYS, "a docket", "station", "hand_in", "collect",
    "assumed: its turn-round is", "landed: it is there already", "pieces",
    "count: how many these are", "inside: how many parts go along in them");

static ANSWER_KEYS(PIECE_KEYS, "a piece", "vessel", "tag", "kind", "serial",
    "made: as written", "last_service", "tasks");

static ANSWER_KEYS(
    TASK_KEYS, "a task", "tag", "task", "due", "due_again: when done then");

const struct answer_keys *const KEYS_OF_DOCKETS[] = {
    &DOCKET_KEYS, &PIECE_KEYS, &TASK_KEYS, NULL};

/* The first day of its last service; DAY_NONE when none is on record. */
static day_t
last_service(const struct item *item)
{
	day_t last = DAY_NONE;
	for (size_t i = 0; i < item->record_count; i++) {
		if (item->records[i].task == TASK_SERVICE) {
			last = stamp_first(item->records[i].on);
		}
	}
	return last;
}

static struct json
piece_object(const struct inventory *inventory, const struct docket_piece *piece)
{
	const struct item *item = &inventory->items[piece->item];
	struct json tasks = json_list();
	for (size_t i = 0; i < piece->line_count; i++) {
		const struct shore_line *line = piece->lines[i];
		json_push(tasks,
		    JSON_OF(&TASK_KEYS, json_text(inventory->items[line->item].tag),
			json_text(task_word(line->task)), json_day(line->due),
			json_day(line->due_again)));
	}
	return JSON_OF(&PIECE_KEYS, json_text(inventory->vessels[item->vessel].name),
	    json_text(item->tag), json_text(item->kind), json_text(item->serial),
	    json_stamp(item->made), json_day(last_service(item)), tasks);
}

void
answer_dockets(
    const struct inventory *inventory, const struct dockets *dockets, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < dockets->count; i++) {
		const struct docket *docket = &dockets->items[i];
		struct json pieces = json_list();
		for (size_t j = 0; j < docket->piece_count; j++) {
			json_push(pieces, piece_object(inventory, &docket->pieces[j]));
		}
		answer_element(&answer,
		    JSON_OF(&DOCKET_KEYS, json_words(docket->station),
			json_day(docket->hand_in), json_day(docket->collect),
			json_flag(docket->assumed), json_flag(docket->landed), pieces,
			json_count(docket->count), json_count(docket->inside)));
	}
	answer_end(&answer);
}

static ANSWER_KEYS(REMINDER_KEYS, "a reminder",
    "uid: its identity, of which eight signs name it", "day: null of what was given up",
    "summary", "description", "station: where to; null when nowhere",
    "planned: on the day you chose for it",
    "given_up: why a hand-in was; null where it was not",
    "given_up_day: the day that it had");

const struct answer_keys *const KEYS_OF_REMIND[] = {&REMINDER_KEYS, NULL};

void
answer_remind_keep(const struct reminder_row *rows, size_t count, struct runs *kept)
{
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < count; i++) {
		const struct reminder_row *row = &rows[i];
		text_reset(&words);
		json_write(
		    JSON_OF(&REMINDER_KEYS, json_text(row->uid), json_day(row->day),
			json_text(row->summary), json_text(row->description),
			json_words(row->station), json_flag(row->planned),
			json_words(row->given_up), json_day(row->given_up_day)),
		    &words);
		int64_t day = row->given_up == NULL ? row->day : INT64_MAX;
		runs_add(kept, &(struct run_piece){
				   day, text_string(&words), words.length, row->key});
	}
	runs_end(kept);
}
