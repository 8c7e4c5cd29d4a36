/* The first word as JSON, which comes some boats at a time: what its lists have is kept in runs,
 * and put into the object once all is there. */
#include "base/numbers.h"
#include "exchange/answer_parts.h"
#include "exchange/answers_life.h"

#include <stdlib.h>

static ANSWER_KEYS(NOW_KEYS, "the answer", "on", "vessel: null for the fleet",
    "not_in_date: tasks", "week: what comes in the next seven days",
    "next: what comes first after them", "ashore: as where has them");

static ANSWER_KEYS(NOT_IN_DATE_KEYS, "a task", "vessel", "tag", "kind",
    "task: null where it does not work and no rule gives it a day; so the grade",
    "due: its last good day",
    "state: overdue, expired, life-expired or date-unknown; in-date where it does not work",
    "grade: how binding: law, maker or practice",
    "not_working: where it is in date, the part that is gone or ashore; else null");

static ANSWER_KEYS(
    COMING_KEYS, "what comes", "day", "summary", "station: where to", "vessels");

const struct answer_keys *const KEYS_OF_FIRST_WORD[] = {
    &NOW_KEYS, &NOT_IN_DATE_KEYS, &COMING_KEYS, &WHERE_KEYS, NULL};

/* The lists, in their order. */
enum now_list { NOW_NOT_IN_DATE, NOW_WEEK, NOW_NEXT, NOW_ASHORE, NOW_LISTS };

/* A key's bits below those of the list are a day, counted from the first there is. */
enum { DAY_BITS = 32 };

static void
keep(struct now_kept *kept, enum now_list list, day_t day, const char *word,
    struct json object)
{
	SCOPED_TEXT words = {0};
	json_write(object, &words);
	int64_t key = ((int64_t)list << DAY_BITS) + ((int64_t)day - INT32_MIN);
	runs_add(&kept->runs,
	    &(struct run_piece){key, text_string(&words), words.length, word});
}

/* A number as a word by which numbers are sorted. */
static void
add_number(size_t number, struct text *out)
{
	text_add_format(out, "%020zu", number);
}

static void
keep_not_in_date(struct now_kept *kept, const struct inventory *inventory,
    const struct first_word_part *part)
{
	for (size_t i = 0; i < part->row_count; i++) {
		const struct agenda_row *row = &part->rows[i];
		const struct item *item = &inventory->items[row->item];
		SCOPED_TEXT place = {0};
		add_number(part->places[item->vessel], &place);
		keep(kept, NOW_NOT_IN_DATE, row->due, text_string(&place),
		    JSON_OF(&NOT_IN_DATE_KEYS,
			json_text(inventory->vessels[item->vessel].name),
			json_text(item->tag), json_text(item->kind),
			json_words(agenda_task_word(row)), json_day(row->due),
			json_text(state_word(row->state)),
			json_words(row->no_task ? NULL : grade_word(row->grade)),
			row->state == STATE_IN_DATE ? json_words(row->not_working)
						    : json_none()));
	}
	runs_end(&kept->runs);
}

static struct json
coming_object(const struct inventory *inventory, const struct coming *coming)
{
	struct json names = json_list();
	for (size_t v = 0; v < coming->vessel_count; v++) {
		json_push(names, json_text(inventory->vessels[coming->vessels[v]].name));
	}
	return JSON_OF(&COMING_KEYS, json_day(coming->day), json_text(coming->summary),
	    json_words(coming->station), names);
}

static void
keep_coming(struct now_kept *kept, const struct first_word *word,
    const struct inventory *inventory, const struct first_word_part *part)
{
	for (size_t i = 0; i < part->coming_count; i++) {
		const struct coming *coming = &part->coming[i];
		bool week = coming_this_week(word, coming);
		if (week || coming_days_note(&kept->next, coming, &kept->arena)) {
			keep(kept, week ? NOW_WEEK : NOW_NEXT, coming->day, coming->key,
			    coming_object(inventory, coming));
		}
	}
	runs_end(&kept->runs);
}

/* By station, then day, then as the book has them: the key is of the list alone. */
static void
keep_ashore(struct now_kept *kept, const struct known_gear *known,
    const struct first_word_part *part, const struct whereabouts_list *list)
{
	const struct inventory *inventory = known->inventory;
	for (size_t i = 0; i < list->count; i++) {
		const struct whereabouts *where = &list->items[i];
		size_t vessel = inventory->items[where->item].vessel;
		size_t aboard = 0;
		SCOPED_TEXT word = {0};
		text_add(&word, where->station);
		text_add_byte(&word, '\001'); /* before all that a name may have */
		add_number((size_t)((int64_t)where->collect - INT32_MIN), &word);
		add_number(part->places[vessel], &word);
		add_number(
		    where->item - inventory_aboard(inventory, vessel, &aboard), &word);
		keep(kept, NOW_ASHORE, 0, text_string(&word), where_object(known, where));
	}
	runs_end(&kept->runs);
}

void
answer_first_word_keep(struct now_kept *kept, const struct first_word *word,
    const struct known_gear *known, const struct first_word_part *part,
    const struct whereabouts_list *ashore)
{
	keep_not_in_date(kept, known->inventory, part);
	keep_coming(kept, word, known->inventory, part);
	keep_ashore(kept, known, part, ashore);
}

void
now_kept_clear(struct now_kept *kept)
{
	runs_clear(&kept->runs);
	arena_clear(&kept->arena);
	*kept = (struct now_kept){0};
}

/* The answer being written. */
struct now_filling {
	struct frame_filling frame;
	int64_t end; /* the first key that is not told of what comes next */
	int list;    /* how many lists were begun */
};

static void
fill(const struct run_piece *piece, void *of)
{
	struct now_filling *filling = of;
	struct text *out = filling->frame.out;
	int list = (int)(piece->key >> DAY_BITS);
	if (list == NOW_NEXT && piece->key >= filling->end) {
		return;
	}
	for (; filling->list <= list; filling->list++) {
		frame_begin_list(&filling->frame);
	}
	text_add(out, filling->frame.any ? ", " : "");
	text_add_bytes(out, piece->bytes, piece->length);
	text_hand_on(out);
	filling->frame.any = true;
}

bool
answer_first_word_kept(const struct now_kept *kept, const struct first_word *word,
    struct text *out, struct fault *fault)
{
	SCOPED_TEXT frame = {0};
	const struct coming_days *next = &kept->next;
	day_t last = next->count == 0 ? 0 : next->items[next->count - 1].day;
	json_write(JSON_OF(&NOW_KEYS, json_day(word->today), json_words(word->vessel),
		       json_list(), json_list(), json_list(), json_list()),
	    &frame);
	struct now_filling filling = {.frame = {.left = text_string(&frame), .out = out},
	    .end = ((int64_t)NOW_NEXT << DAY_BITS) + (int64_t)last + 1 - INT32_MIN};
	if (!runs_merge(&kept->runs, fill, &filling, fault)) {
		return false;
	}
	text_add_format(out, "%s\n", filling.frame.left);
	return true;
}
