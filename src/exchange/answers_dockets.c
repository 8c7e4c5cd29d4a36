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
answer_dockets_keep(struct dockets_kept *kept, const struct inventory *inventory,
    const struct dockets *dockets, const size_t *places)
{
	SCOPED_TEXT words = {0};
	SCOPED_TEXT by = {0};
	for (size_t i = 0; i < dockets->count; i++) {
		const struct docket *docket = &dockets->items[i];
		docket_heads_add(&kept->heads, docket);
		for (size_t j = 0; j < docket->piece_count; j++) {
			size_t vessel = inventory->items[docket->pieces[j].item].vessel;
			text_reset(&words);
			text_reset(&by);
			json_write(piece_object(inventory, &docket->pieces[j]), &words);
			docket_word(
			    docket, places == NULL ? vessel : places[vessel], &by);
			runs_add(&kept->pieces,
			    &(struct run_piece){docket_key(docket), text_string(&words),
				words.length, text_string(&by)});
		}
	}
	runs_end(&kept->pieces);
}

/* Dockets being written. */
struct dockets_written {
	struct dockets_kept *kept;
	struct answer answer;
	struct text words; /* owned; of the docket's frame */
	struct frame_filling frame;
	const struct docket *docket; /* NULL before the first */
};

static void
end_docket(struct dockets_written *writing)
{
	if (writing->docket != NULL) {
		text_add(writing->answer.out, writing->frame.left);
	}
}

/* Begins a docket, as far as its first piece. */
static void
begin_docket(struct dockets_written *writing, const struct docket *docket)
{
	struct text *out = writing->answer.out;
	end_docket(writing);
	writing->docket = docket;
	text_reset(&writing->words);
	json_write(JSON_OF(&DOCKET_KEYS, json_words(docket->station),
		       json_day(docket->hand_in), json_day(docket->collect),
		       json_flag(docket->assumed), json_flag(docket->landed), json_list(),
		       json_count(docket->count), json_count(docket->inside)),
	    &writing->words);
	writing->frame =
	    (struct frame_filling){.left = text_string(&writing->words), .out = out};
	answer_written(&writing->answer, "", 0);
	frame_begin_list(&writing->frame);
}

static void
add_piece(const struct run_piece *piece, void *of)
{
	struct dockets_written *writing = of;
	struct text *out = writing->answer.out;
	const struct docket *docket =
	    docket_heads_of(&writing->kept->heads, piece->key, piece->word);
	if (docket != writing->docket) {
		begin_docket(writing, docket);
	}
	text_add(out, writing->frame.any ? ", " : "");
	text_add_bytes(out, piece->bytes, piece->length);
	text_hand_on(out);
	writing->frame.any = true;
}

bool
answer_dockets_kept(struct dockets_kept *kept, struct text *out, struct fault *fault)
{
	struct dockets_written writing = {.kept = kept, .answer.out = out};
	docket_heads_join(&kept->heads);
	bool done = runs_merge(&kept->pieces, add_piece, &writing, fault);
	if (done) {
		end_docket(&writing);
		answer_end(&writing.answer);
	}
	text_clear(&writing.words);
	return done;
}

void
dockets_kept_clear(struct dockets_kept *kept)
{
	docket_heads_clear(&kept->heads);
	runs_clear(&kept->pieces);
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
