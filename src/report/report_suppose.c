#include "report/parts_inside.h"
#include "report/words.h"

static const struct reply_column COLUMNS[] = {
    {.heading = "Tag", .type = CELL_TAG, .most = 12},
    {.heading = "What", .flexible = true}, {.heading = "Task"},
    {.heading = "Due now", .type = CELL_STATE, .most = 12},
    {.heading = "Due then", .type = CELL_STATE, .most = 12},
    {.heading = "Do it", .type = CELL_STATE, .most = 14}};

/* What is supposed, in words: "commercial use, 8 persons, from 1 Jun 2027". */
static void
add_supposed(const struct supposed *supposed, struct text *out)
{
	const struct supposition *words = &supposed->supposition;
	const char *comma = "";
	if ((words->says & SAYS_USE) != 0) {
		text_add_format(out, "%s use", use_word(words->use));
		comma = ", ";
	}
	if ((words->says & SAYS_AREA) != 0) {
		text_add_format(out, "%sarea %s", comma, words->area);
		comma = ", ";
	}
	if ((words->says & SAYS_PERSONS) != 0) {
		text_add_format(out, "%s%d persons", comma, words->persons);
		comma = ", ";
	}
	for (size_t i = 0; i < words->sheet_count; i++) {
		text_add_format(
		    out, "%s%s%s", comma, i == 0 ? "rules of " : "", words->sheets[i]);
		comma = ", ";
	}
	text_add(out, ", from ");
	add_day(words->from, "", out);
}

static void
add_side(const struct change_side *side, struct reply_table *table, struct text *words)
{
	bool asks = side->due == DAY_NONE && side->missing[0] != '\0';
	bool unknown = side->state == STATE_DATE_UNKNOWN || asks;
	add_day(side->due, !side->there ? "-" : unknown ? "not known" : "none", words);
	if (side->state != STATE_IN_DATE && !unknown) {
		struct standing_now plain = {side->state, DAY_NONE, DAY_NONE, ""};
		text_add(words, ", ");
		add_state_words(&plain, 0, words);
	}
	reply_take(table, state_hue(side->state), words);
}

/* When it is to be done so that it is in date on the day of the switch. */
static void
add_days(const struct report_style *style, const struct change *change, bool reserve,
    struct reply_table *table, struct text *words)
{
	if (reserve) {
		text_add(words, "in reserve");
	} else if (change->cannot) {
		text_add(words, "can't, see below");
	} else if (change->must) {
		day_t first =
		    change->not_before > style->today ? change->not_before : DAY_NONE;
		if (first != DAY_NONE) {
			add_day(first, "", words);
		}
		text_add(words, first == DAY_NONE ? "by " : " to ");
		add_day(change->by, "", words);
	}
	bool bad = change->must && !reserve;
	reply_take(table, bad ? HUE_BAD : HUE_NONE, words);
}

static void
add_change(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct change *change,
    struct reply_table *table, struct text *words)
{
	const struct item *item = &inventory->items[change->item];
	reply_cell(table, HUE_STRONG, item->tag);
	reply_item(table, kinds, inventory, change->item, "");
	reply_cell(table, HUE_NONE, task_word(change->task));
	add_side(&change->now, table, words);
	add_side(&change->then, table, words);
	add_days(style, change, item->state == PLACE_RESERVE, table, words);
}

/* A task that the switch does not change is not shown, though it may lapse before it. */
static bool
is_shown(const struct change *change)
{
	return change->cannot || change_matters(change);
}

/* Why a task can't be made good before the switch. */
static void
add_cannot(const struct inventory *inventory, const struct supposed *supposed,
    const struct change *change, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words,
	    "%s, %s: even done on the last day before it, it would not be "
	    "in date on ",
	    inventory->items[change->item].tag, task_noun(change->task));
	add_day(supposed->supposition.from, "", &words);
	if (change->then.missing[0] != '\0') {
		text_add(&words, "; ");
		add_missing_words(change->then.missing, &words);
	}
	text_add_byte(&words, '.');
	reply_say(reply, false, &words);
}

/* How many of one vessel's tasks are of each sort. */
struct suppose_sums {
	size_t shown;
	size_t anyway; /* not in date on the day of the switch, with it or without */
	size_t same;
};

static void
add_sums(const struct suppose_sums *sums, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	if (sums->shown == 0) {
		text_add(&words, "Nothing changes. ");
	}
	if (sums->anyway > 0) {
		text_add_format(&words,
		    "%zu more %s out of date by then in any case (becket due). ",
		    sums->anyway, sums->anyway == 1 ? "is" : "are");
	}
	if (sums->same > 0) {
		text_add_format(&words, "%zu %s.", sums->same,
		    sums->same == 1 ? "task stays as it is" : "tasks stay as they are");
	}
	reply_words(reply, VOICE_PLAIN, sums->shown > 0, 0, text_string(&words));
}

/* Fills the table with one vessel's rows from `*next` on. */
static void
add_rows(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct change_rows *rows, size_t *next,
    struct reply_table *table, struct suppose_sums *sums)
{
	SCOPED_TEXT words = {0};
	size_t vessel = inventory->items[rows->items[*next].item].vessel;
	for (; *next < rows->count; (*next)++) {
		const struct change *change = &rows->items[*next];
		const struct item *item = &inventory->items[change->item];
		if (item->vessel != vessel) {
			return;
		}
		if (is_shown(change)) {
			add_change(style, kinds, inventory, change, table, &words);
			sums->shown++;
		} else if (change->must && item->state != PLACE_RESERVE) {
			sums->anyway++;
		} else {
			sums->same++;
		}
	}
}

static void
add_vessel(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct supposed *supposed,
    const struct change_rows *rows, size_t *next, struct reply *reply)
{
	struct suppose_sums sums = {0};
	size_t first = *next;
	const struct item *item = &inventory->items[rows->items[first].item];
	reply_words(reply, VOICE_PLAIN, true, 0, inventory->vessels[item->vessel].name);
	add_rows(style, kinds, inventory, rows, next,
	    REPLY_TABLE(reply, COLUMNS, LOOK_FLUSH), &sums);
	for (size_t i = first; i < *next; i++) {
		if (rows->items[i].cannot) {
			add_cannot(inventory, supposed, &rows->items[i], reply);
		}
	}
	add_sums(&sums, reply);
}

void
report_suppose(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct supposed *supposed,
    const struct change_rows *rows, struct text *out)
{
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	text_add(&words, "What would change, as seen on ");
	add_day(style->today, "", &words);
	text_add(&words, ", supposing ");
	add_supposed(supposed, &words);
	text_add(&words, ". Nothing is changed in the book.");
	reply_say(&reply, false, &words);
	size_t next = 0;
	while (next < rows->count) {
		add_vessel(style, kinds, inventory, supposed, rows, &next, &reply);
	}
	reply_words(
	    &reply, VOICE_PLAIN, false, 0, rows->count == 0 ? "No gear to look at." : "");
	reply_caution(&reply);
	reply_write(&reply, style, out);
}
