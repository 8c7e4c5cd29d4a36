/* The first word, on one screen. */
#include "report/parts_inside.h"
#include "report/report_life.h"
#include "report/tags.h"
#include "report/words.h"

#include <stdlib.h>

/* A screen, and the most rows tried in a part. */
enum { SCREEN_LINES = 24, ROWS_TRIED = 6, TAGS_SHOWN = 4 };

/* What is being composed, and how many rows a part may have. */
struct screen {
	const struct known_gear *known;
	const struct first_word *word;
	const struct whereabouts_list *ashore;
	size_t most;
	struct reply *reply;
};

static struct reply_table *
begin(const struct screen *screen)
{
	static const struct reply_column COLUMNS[] = {{.heading = "", .most = 26},
	    {.heading = "", .flexible = true}, {.heading = "", .most = 18},
	    {.heading = "", .most = 30}};
	return REPLY_TABLE(screen->reply, COLUMNS, LOOK_BARE);
}

/* Fills what is left of a row. */
static void
add_cells(
    struct reply_table *table, const char *first, const char *second, const char *third)
{
	reply_cell(table, HUE_STRONG, first);
	reply_cell(table, HUE_NONE, second);
	reply_cell(table, HUE_NONE, third);
	reply_row_end(table);
}

/* A part's head, and the table below it. */
static struct reply_table *
add_head(const struct screen *screen, const char *head, size_t count)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s%s", head, count == 0 ? ": nothing." : ":");
	reply_say(screen->reply, false, &words);
	return begin(screen);
}

static void
add_more(const struct screen *screen, size_t count, const char *where)
{
	SCOPED_TEXT words = {0};
	if (count > screen->most) {
		text_add_format(&words, "and %zu more: %s", count - screen->most, where);
	}
	reply_block(screen->reply, 2, text_string(&words));
}

/* True for the first row of its item in its state. */
static bool
is_first_row(const struct first_word *word, size_t row)
{
	for (size_t i = 0; i < row; i++) {
		if (word->rows[i].item == word->rows[row].item &&
		    word->rows[i].state == word->rows[row].state) {
			return false;
		}
	}
	return true;
}

/* "service, renew": the tasks of that item in that state. */
static void
add_tasks(const struct first_word *word, size_t row, struct text *words)
{
	for (size_t i = row; i < word->row_count; i++) {
		if (word->rows[i].item == word->rows[row].item &&
		    word->rows[i].state == word->rows[row].state) {
			text_add_format(words, "%s%s", i == row ? "" : ", ",
			    task_word(word->rows[i].task));
		}
	}
}

static void
add_item_row(const struct screen *screen, size_t at, struct reply_table *table)
{
	const struct agenda_row *row = &screen->word->rows[at];
	const struct inventory *inventory = screen->known->inventory;
	const struct item *item = &inventory->items[row->item];
	struct standing_now standing = {row->state, row->due, row->good_through, ""};
	SCOPED_TEXT words = {0};
	reply_cell(table, HUE_STRONG, item->tag);
	reply_item(table, screen->known->kinds, inventory, row->item, "");
	add_tasks(screen->word, at, &words);
	reply_take(table, HUE_NONE, &words);
	text_add(&words, item->state == PLACE_LANDED ? "ashore; " : "");
	add_state_words(&standing, screen->word->today, &words);
	reply_take(table, state_hue(row->state), &words);
}

static void
add_items(const struct screen *screen, struct reply_table *table)
{
	size_t count = 0;
	for (size_t i = 0; i < screen->word->row_count; i++) {
		if (!is_first_row(screen->word, i)) {
			continue;
		}
		if (count++ < screen->most) {
			add_item_row(screen, i, table);
		}
	}
	add_more(screen, count, "becket due");
}

/* What of one boat is not in date. */
struct boat {
	size_t vessel;
	size_t binding; /* tasks of a grade above common practice, or of unknown date */
	size_t tasks;
};

static bool
row_binds(const struct agenda_row *row)
{
	return row->state == STATE_DATE_UNKNOWN || row->grade != GRADE_PRACTICE;
}

/* The worst first; of equals, as the book has them. */
static int
compare_boats(const void *left, const void *right)
{
	const struct boat *a = left;
	const struct boat *b = right;
	if (a->binding != b->binding) {
		return a->binding > b->binding ? -1 : 1;
	}
	if (a->tasks != b->tasks) {
		return a->tasks > b->tasks ? -1 : 1;
	}
	return a->vessel < b->vessel ? -1 : a->vessel > b->vessel;
}

/* Counts by boat, the worst first; gives how many boats have something. */
static size_t
sort_boats(const struct screen *screen, struct boat *boats)
{
	const struct inventory *inventory = screen->known->inventory;
	for (size_t v = 0; v < inventory->vessel_count; v++) {
		boats[v].vessel = v;
	}
	for (size_t i = 0; i < screen->word->row_count; i++) {
		const struct agenda_row *row = &screen->word->rows[i];
		struct boat *boat = &boats[inventory->items[row->item].vessel];
		boat->tasks++;
		boat->binding += row_binds(row) ? 1 : 0;
	}
	qsort(boats, inventory->vessel_count, sizeof *boats, compare_boats);
	size_t count = 0;
	while (count < inventory->vessel_count && boats[count].tasks > 0) {
		count++;
	}
	return count;
}

/* Each tag once; `told` has a place for each item. */
static void
add_boat_tags(const struct screen *screen, size_t vessel, bool *told, struct text *words)
{
	const struct inventory *inventory = screen->known->inventory;
	struct tag_list list = {.out = words};
	size_t shown = 0;
	size_t more = 0;
	for (size_t i = 0; i < screen->word->row_count; i++) {
		size_t item = screen->word->rows[i].item;
		if (inventory->items[item].vessel != vessel || told[item]) {
			continue;
		}
		told[item] = true;
		if (shown++ < TAGS_SHOWN) {
			tag_list_add(&list, inventory->items[item].tag);
		} else {
			more++;
		}
	}
	tag_list_end(&list);
	if (more > 0) {
		text_add_format(words, " and%c%zu%cmore", GLUE, more, GLUE);
	}
}

static void
add_boats(const struct screen *screen, struct reply_table *table)
{
	const struct inventory *inventory = screen->known->inventory;
	struct arena *arena = screen->reply->arena;
	SCOPED_TEXT words = {0};
	struct boat *boats =
	    arena_alloc(arena, (inventory->vessel_count + 1) * sizeof *boats);
	bool *told = arena_alloc(arena, (inventory->item_count + 1) * sizeof *told);
	size_t count = sort_boats(screen, boats);
	for (size_t i = 0; i < count && i < screen->most; i++) {
		text_reset(&words);
		text_add_format(&words, "%zu %s: ", boats[i].tasks,
		    boats[i].tasks == 1 ? "task" : "tasks");
		add_boat_tags(screen, boats[i].vessel, told, &words);
		add_cells(table, inventory->vessels[boats[i].vessel].name,
		    text_string(&words), "");
	}
	add_more(screen, count, "becket due");
}

static void
add_not_in_date(const struct screen *screen)
{
	struct reply_table *table =
	    add_head(screen, "Not in date", screen->word->row_count);
	if (screen->word->vessel != NULL) {
		add_items(screen, table);
	} else {
		add_boats(screen, table);
	}
}

static void
add_week(const struct screen *screen)
{
	const struct first_word *word = screen->word;
	SCOPED_TEXT day = {0};
	struct reply_table *table = add_head(screen, "To do this week", word->week_count);
	for (size_t i = 0; i < word->week_count && i < screen->most; i++) {
		text_reset(&day);
		add_day(word->week[i].day, "", &day);
		add_cells(table, text_string(&day), word->week[i].summary, "");
	}
	add_more(screen, word->week_count, "becket remind");
}

/* A row a day: the first thing on it, and how many more. */
static void
add_next(const struct screen *screen)
{
	const struct first_word *word = screen->word;
	struct reply_table *table = add_head(screen, "Next", word->next_count);
	for (size_t first = 0, end = 0; first < word->next_count; first = end) {
		SCOPED_TEXT day = {0};
		SCOPED_TEXT words = {0};
		for (end = first; end < word->next_count &&
				  word->next[end].day == word->next[first].day;
		     end++) {
		}
		text_add(&words, word->next[first].summary);
		if (end - first > 1) {
			text_add_format(
			    &words, "; and%c%zu%cmore", GLUE, end - first - 1, GLUE);
		}
		add_day(word->next[first].day, "", &day);
		add_cells(table, text_string(&day), text_string(&words), "");
	}
}

static void
add_collect(
    const struct screen *screen, const struct whereabouts *where, struct text *words)
{
	if (where->collect == DAY_NONE) {
		text_add(words, "collect: day not known, ask");
		return;
	}
	text_add(words, where->assumed                         ? "collect about "
			: where->collect < screen->word->today ? "to be collected since "
							       : "collect from ");
	add_day(where->collect, "", words);
}

static void
add_ashore(const struct screen *screen)
{
	const struct inventory *inventory = screen->known->inventory;
	SCOPED_TEXT words = {0};
	struct reply_table *table = add_head(screen, "Ashore", screen->ashore->count);
	for (size_t i = 0; i < screen->ashore->count && i < screen->most; i++) {
		const struct whereabouts *where = &screen->ashore->items[i];
		text_reset(&words);
		add_collect(screen, where, &words);
		add_cells(table, inventory->items[where->item].tag,
		    where->station[0] == '\0' ? "at a station that is not told"
					      : where->station,
		    text_string(&words));
	}
	add_more(screen, screen->ashore->count, "becket ashore");
}

static void
compose_screen(const struct screen *screen)
{
	const struct first_word *word = screen->word;
	SCOPED_TEXT words = {0};
	if (word->vessel != NULL) {
		text_add(&words, word->vessel);
	} else {
		text_add_format(
		    &words, "%zu %s", word->boats, word->boats == 1 ? "boat" : "boats");
	}
	text_add(&words, ", as seen on ");
	add_day(word->today, "", &words);
	text_add(&words, ".");
	reply_say(screen->reply, false, &words);
	add_not_in_date(screen);
	add_week(screen);
	add_next(screen);
	add_ashore(screen);
	reply_caution(screen->reply);
}

static size_t
count_lines(const struct text *text)
{
	size_t lines = 0;
	for (size_t i = 0; i < text->length; i++) {
		lines += text_string(text)[i] == '\n' ? 1 : 0;
	}
	return lines;
}

void
report_first_word(const struct report_style *style, const struct known_gear *known,
    const struct first_word *word, const struct whereabouts_list *ashore,
    struct text *out)
{
	SCOPED_TEXT whole = {.columns = out->columns};
	size_t most = ROWS_TRIED;
	do {
		SCOPED_REPLY(reply);
		struct screen screen = {known, word, ashore, most, &reply};
		text_reset(&whole);
		compose_screen(&screen);
		reply_write(&reply, style, &whole);
	} while (count_lines(&whole) > SCREEN_LINES && most-- > 1);
	text_add(out, text_string(&whole));
}
