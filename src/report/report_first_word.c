/* The first word, on one screen. */
#include "base/numbers.h"
#include "report/parts_inside.h"
#include "report/report_life.h"
#include "report/words.h"

enum { SCREEN_LINES = 24 };

/* What is being composed, and how many rows a part may have. */
struct screen {
	const struct first_word_report *report;
	const struct first_word *word;
	size_t most;
	struct reply *reply;
};

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
	return reply_table(
	    screen->reply, FIRST_WORD_COLUMNS, FIRST_WORD_CELLS, LOOK_BARE);
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

static void
add_items(const struct screen *screen, struct reply_table *table)
{
	const struct reply_table *kept = screen->report->table;
	size_t cells = kept == NULL
			   ? 0
			   : LESSER(kept->cell_count, screen->most * kept->column_count);
	for (size_t i = 0; i < cells; i++) {
		const struct reply_cell *cell = reply_cell_at(kept, i);
		reply_extra(table, cell->hue, cell->words, cell->extra);
	}
	add_more(screen, screen->report->item_count, "becket due");
}

static void
add_boats(const struct screen *screen, struct reply_table *table)
{
	const struct first_word_report *report = screen->report;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < report->boat_count && i < screen->most; i++) {
		const struct boat_row *boat = &report->boats[i];
		text_reset(&words);
		text_add_format(&words, "%zu %s: %s", boat->tasks,
		    boat->tasks == 1 ? "task" : "tasks", boat->tags);
		add_cells(table, boat->name, text_string(&words), "");
	}
	add_more(screen, report->boat_count, "becket due");
}

static void
add_not_in_date(const struct screen *screen)
{
	struct reply_table *table =
	    add_head(screen, "Not in date", screen->report->tasks);
	if (screen->word->vessel != NULL) {
		add_items(screen, table);
	} else {
		add_boats(screen, table);
	}
}

static void
add_week(const struct screen *screen)
{
	const struct first_word_report *report = screen->report;
	SCOPED_TEXT day = {0};
	struct reply_table *table =
	    add_head(screen, "To do this week", report->week_count);
	for (size_t i = 0; i < report->week_count && i < screen->most; i++) {
		text_reset(&day);
		add_day(report->week[i].day, "", &day);
		add_cells(table, text_string(&day), report->week[i].summary, "");
	}
	add_more(screen, report->week_count, "becket remind");
}

/* A row a day: the first thing on it, and how many more. */
static void
add_next(const struct screen *screen)
{
	const struct coming_days *next = &screen->report->next;
	struct reply_table *table = add_head(screen, "Next", next->count);
	for (size_t i = 0; i < next->count; i++) {
		SCOPED_TEXT day = {0};
		SCOPED_TEXT words = {0};
		text_add(&words, next->items[i].summary);
		if (next->items[i].count > 1) {
			text_add_format(&words, "; and%c%zu%cmore", GLUE,
			    next->items[i].count - 1, GLUE);
		}
		add_day(next->items[i].day, "", &day);
		add_cells(table, text_string(&day), text_string(&words), "");
	}
}

static void
add_collect(
    const struct screen *screen, const struct ashore_row *told, struct text *words)
{
	if (told->collect == DAY_NONE) {
		text_add(words, "collect: day not known, ask");
		return;
	}
	text_add(words, told->assumed                         ? "collect about "
			: told->collect < screen->word->today ? "to be collected since "
							      : "collect from ");
	add_day(told->collect, "", words);
}

static void
add_ashore(const struct screen *screen)
{
	const struct first_word_report *report = screen->report;
	SCOPED_TEXT words = {0};
	struct reply_table *table = add_head(screen, "Ashore", report->ashore_count);
	for (size_t i = 0; i < report->ashore_count && i < screen->most; i++) {
		const struct ashore_row *told = &report->ashore[i];
		text_reset(&words);
		add_collect(screen, told, &words);
		add_cells(table, told->tag,
		    told->station[0] == '\0' ? "at a station that is not told"
					     : told->station,
		    text_string(&words));
	}
	add_more(screen, report->ashore_count, "becket ashore");
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
report_first_word_end(const struct report_style *style,
    const struct first_word_report *report, const struct first_word *word,
    struct text *out)
{
	SCOPED_TEXT whole = {.columns = out->columns};
	size_t most = FIRST_WORD_ROWS;
	do {
		SCOPED_REPLY(reply);
		struct screen screen = {report, word, most, &reply};
		text_reset(&whole);
		compose_screen(&screen);
		reply_write(&reply, style, &whole);
	} while (count_lines(&whole) > SCREEN_LINES && most-- > 1);
	text_add(out, text_string(&whole));
}
