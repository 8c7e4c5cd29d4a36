/* The compact parts of a shore list, where many things are written in one line. */
#include "report/parts_inside.h"
#include "report/tags.h"
#include "report/words.h"

#include <limits.h>
#include <string.h>

/* Which lines are wanted. */
struct pick {
	int first_winter;
	int last_winter;
	day_t due_after; /* only what is due later; DAY_NONE for all */
};

static bool
picked(const struct pick *pick, const struct shore_line *line)
{
	return line->winter >= pick->first_winter && line->winter <= pick->last_winter &&
	       (pick->due_after == DAY_NONE || line->due > pick->due_after);
}

static const char *
tag_of(const struct shore_page *page, const struct shore_line *line)
{
	return page->inventory->items[line->item].tag;
}

/* Adds "inspect FE-1 to FE-4; test EB-1, PL-1": the lines wanted, task by task. */
static void
add_tasks(const struct shore_page *page, const struct shore_lines *lines,
    const struct pick *pick, struct text *words)
{
	bool any = false;
	/* what is to be given back comes last, treated as one more task */
	for (int task = 0; task <= TASK_COUNT; task++) {
		struct tag_list tags = {.out = words};
		for (size_t i = 0; i < lines->count; i++) {
			const struct shore_line *line = &lines->items[i];
			int own = line->give_back ? TASK_COUNT : (int)line->task;
			if (own != task || !picked(pick, line)) {
				continue;
			}
			if (tags.last == NULL) {
				text_add_format(words, "%s%s ", any ? "; " : "",
				    shore_line_word(line));
				any = true;
			}
			tag_list_add(&tags, tag_of(page, line));
		}
		tag_list_end(&tags);
	}
}

/* ---- can wait ---- */

/* The next winter after `after` that something waits for; false when there is none. */
static bool
next_winter(const struct shore_lines *lines, int after, int *out)
{
	bool found = false;
	for (size_t i = 0; i < lines->count; i++) {
		int winter = lines->items[i].winter;
		if (winter > after && (!found || winter < *out)) {
			*out = winter;
			found = true;
		}
	}
	return found;
}

/* Writes "winter 2027 (31 Oct 2027): service LJ-2; renew PL-1", or nothing when there is
 * nothing to say. The day is the earliest. */
static void
write_waiting(const struct shore_page *page, const char *lead, const struct pick *pick)
{
	const struct shore_lines *lines = &page->list->waits;
	day_t earliest = DAY_NEVER;
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		if (picked(pick, line) && line->due != DAY_NONE) {
			earliest = day_min(earliest, line->due);
		}
	}
	SCOPED_TEXT tasks = {0};
	SCOPED_TEXT words = {0};
	add_tasks(page, lines, pick, &tasks);
	if (tasks.length > 0) {
		text_add_format(&words, "%s (", lead);
		add_day(earliest, "day not known", &words);
		text_add_format(&words, "): %s", text_string(&tasks));
		reply_words(page->reply, VOICE_PLAIN, false, 4, text_string(&words));
	}
}

/* The next two winters one by one, what is later in one list. */
static void
write_waits_by_winter(const struct shore_page *page)
{
	enum { APART = 2 };

	const struct shore_lines *lines = &page->list->waits;
	int after = 0;
	int winter = 0;
	for (int i = 0; i < APART && next_winter(lines, after, &winter); i++) {
		SCOPED_TEXT lead = {0};
		text_add_format(&lead, "winter %d", winter);
		struct pick pick = {winter, winter, DAY_NONE};
		write_waiting(page, text_string(&lead), &pick);
		after = winter;
	}
	struct pick later = {after + 1, INT_MAX, DAY_NONE};
	write_waiting(page, "later", &later);
	struct pick none = {0, 0, DAY_NONE};
	write_waiting(page, "in use all year then", &none);
}

/* True when a line can share a row with the line before it. */
static bool
same_row(
    const struct shore_page *page, const struct shore_line *a, const struct shore_line *b)
{
	const struct item *items = page->inventory->items;
	return a->due == b->due && a->task == b->task &&
	       strcmp(items[a->item].kind, items[b->item].kind) == 0;
}

static const struct reply_column DAY_COLUMNS[] = {
    {.heading = "Due", .type = CELL_DAY},
    {.heading = "Task"},
    {.heading = "Gear", .type = CELL_TAG, .most = 30},
    {.heading = "What", .flexible = true},
};

/* Adds the row that starts at line `at`; returns the line after its last. */
static size_t
add_day_row(const struct shore_page *page, size_t at, struct reply_table *table)
{
	const struct shore_lines *lines = &page->list->waits;
	const struct shore_line *first = &lines->items[at];
	SCOPED_TEXT words = {0};
	reply_day(table, HUE_STRONG, first->due, "not known");
	reply_cell(table, HUE_NONE, shore_line_word(first));
	struct tag_list tags = {.out = &words};
	while (at < lines->count && same_row(page, first, &lines->items[at])) {
		tag_list_add(&tags, tag_of(page, &lines->items[at++]));
	}
	tag_list_end(&tags);
	reply_cell(table, HUE_NONE, text_string(&words));
	reply_cell(table, HUE_NONE,
	    kind_name(page->kinds, page->inventory->items[first->item].kind));
	return at;
}

/* For a vessel without a winter: twelve months day by day, and what is later in one
 * list. */
static void
write_waits_by_day(const struct shore_page *page)
{
	const struct shore_lines *lines = &page->list->waits;
	day_t last = day_add_months(page->style->today, 12);
	struct reply_table *table = REPLY_TABLE(page->reply, DAY_COLUMNS, SHORE_LOOK);
	for (size_t i = 0; i < lines->count && lines->items[i].due <= last;) {
		i = add_day_row(page, i, table);
	}
	struct pick later = {INT_MIN, INT_MAX, last};
	write_waiting(page, "later", &later);
}

void
write_waits(const struct shore_page *page)
{
	if (page->list->waits.count == 0) {
		return;
	}
	if (!page->list->has_winter) {
		reply_heading(page->reply, 3, "Can wait, day by day for twelve months");
		write_waits_by_day(page);
		return;
	}
	reply_heading(page->reply, 3, "Can wait (with the first day something is due)");
	write_waits_by_winter(page);
}

/* ---- habits ---- */

void
write_habits(const struct shore_page *page)
{
	static const struct pick ALL = {INT_MIN, INT_MAX, DAY_NONE};
	const struct shore_lines *lines = &page->list->routines;
	SCOPED_TEXT words = {0};
	if (lines->count > 0) {
		text_add(&words, "Habits, all the year: ");
		add_tasks(page, lines, &ALL, &words);
		text_add_byte(&words, '.');
		reply_words(page->reply, VOICE_PLAIN, page->list->waits.count == 0, 4,
		    text_string(&words));
	}
}
