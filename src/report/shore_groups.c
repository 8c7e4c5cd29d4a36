/* The compact parts of a printed shore list, where many things share one line. */
#include "report/shore_parts.h"
#include "report/words.h"

#include <string.h>

static const struct table_column GROUP_COLUMNS[] = {
    {"", 28, ALIGN_LEFT, false},
    {"", 0, ALIGN_LEFT, true},
};

static const char *
kind_of(const struct shore_page *page, const struct shore_line *line)
{
	return page->inventory->items[line->item].kind;
}

static bool
same_group(
    const struct shore_page *page, const struct shore_line *a, const struct shore_line *b)
{
	return a->winter == b->winter && a->task == b->task &&
	       strcmp(kind_of(page, a), kind_of(page, b)) == 0;
}

/* True when a line of the same group came before line `at`. */
static bool
came_before(const struct shore_page *page, const struct shore_lines *lines, size_t at)
{
	for (size_t i = 0; i < at; i++) {
		if (same_group(page, &lines->items[i], &lines->items[at])) {
			return true;
		}
	}
	return false;
}

/* Adds the tags of the group that starts at line `at`: "FL-1, FL-2 and 5 more". */
static void
add_tags(const struct shore_page *page, const struct shore_lines *lines, size_t at,
    struct text *words)
{
	enum { MOST = 4 };

	size_t count = 0;
	for (size_t i = at; i < lines->count; i++) {
		if (!same_group(page, &lines->items[i], &lines->items[at])) {
			continue;
		}
		if (count < MOST) {
			text_add_format(words, "%s%s", count == 0 ? "" : ", ",
			    page->inventory->items[lines->items[i].item].tag);
		}
		count++;
	}
	if (count > MOST) {
		text_add_format(words, " and %zu more", count - MOST);
	}
}

/* The earliest due day of the group that starts at line `at`. */
static day_t
earliest_due(const struct shore_page *page, const struct shore_lines *lines, size_t at)
{
	day_t earliest = DAY_NEVER;
	for (size_t i = at; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		if (line->due != DAY_NONE && same_group(page, line, &lines->items[at])) {
			earliest = day_min(earliest, line->due);
		}
	}
	return earliest;
}

/* ---- can wait ---- */

/* The next winter after `after` that something waits for; 0 when there is none. Things that
 * wait for no winter (she has none) count as waiting for a year below every other. */
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

/* Adds "service canister liferaft LR-1 (20 May 2029)" for each group of one winter. */
static void
add_waiting(const struct shore_page *page, int winter, struct text *words)
{
	const struct shore_lines *lines = &page->list->waits;
	bool any = false;
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		if (line->winter != winter || came_before(page, lines, i)) {
			continue;
		}
		text_add_format(words, "%s%s %s ", any ? "; " : "", task_word(line->task),
		    kind_name(page->kinds, kind_of(page, line)));
		add_tags(page, lines, i, words);
		text_add(words, " (");
		add_day(earliest_due(page, lines, i), "no day", words);
		text_add(words, ")");
		any = true;
	}
}

bool
write_waits(const struct shore_page *page, struct fault *fault)
{
	const struct shore_lines *lines = &page->list->waits;
	if (lines->count == 0) {
		return true;
	}
	SCOPED_TABLE table;
	SCOPED_TEXT words = {0};
	table_init(&table, GROUP_COLUMNS, 2, 0, page->style->colour);
	for (int winter = -1, next = 0; next_winter(lines, winter, &next);
	     winter = next) {
		text_reset(&words);
		if (next == 0) {
			text_add(&words, "later");
		} else {
			text_add_format(&words, "winter %d", next);
		}
		table_add(&table, HUE_STRONG, text_string(&words));
		text_reset(&words);
		add_waiting(page, next, &words);
		table_add(&table, HUE_NONE, text_string(&words));
	}
	text_add(page->out, "\nCan wait (with the first day it is due)\n");
	return text_check(&words, fault) && table_write(&table, page->out, fault);
}

/* ---- habits ---- */

static bool
kind_came_before(
    const struct shore_page *page, const struct shore_lines *lines, size_t at)
{
	for (size_t i = 0; i < at; i++) {
		if (strcmp(kind_of(page, &lines->items[i]),
			kind_of(page, &lines->items[at])) == 0) {
			return true;
		}
	}
	return false;
}

/* Adds every routine task of one kind with the tags it is for; what to do goes to `extra`. */
static void
add_habits(
    const struct shore_page *page, size_t at, struct text *words, struct text *extra)
{
	const struct shore_lines *lines = &page->list->routines;
	bool any = false;
	for (size_t i = at; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		if (strcmp(kind_of(page, line), kind_of(page, &lines->items[at])) != 0 ||
		    came_before(page, lines, i)) {
			continue;
		}
		text_add_format(words, "%s%s ", any ? "; " : "", task_word(line->task));
		add_tags(page, lines, i, words);
		if (line->what[0] != '\0') {
			text_add_format(extra, "; %s", line->what);
		}
		any = true;
	}
}

bool
write_habits(const struct shore_page *page, struct fault *fault)
{
	const struct shore_lines *lines = &page->list->routines;
	if (lines->count == 0) {
		return true;
	}
	SCOPED_TABLE table;
	SCOPED_TEXT words = {0};
	SCOPED_TEXT extra = {0};
	table_init(&table, GROUP_COLUMNS, 2, 0, page->style->colour);
	for (size_t i = 0; i < lines->count; i++) {
		if (kind_came_before(page, lines, i)) {
			continue;
		}
		table_add(&table, HUE_NONE,
		    kind_name(page->kinds, kind_of(page, &lines->items[i])));
		text_reset(&words);
		text_reset(&extra);
		add_habits(page, i, &words, &extra);
		table_add_extra(
		    &table, HUE_NONE, text_string(&words), text_string(&extra));
	}
	text_add(page->out, "\nHabits, all the year\n");
	return text_check(&words, fault) && text_check(&extra, fault) &&
	       table_write(&table, page->out, fault);
}
