#include "gear/money.h"
#include "report/parts_inside.h"
#include "report/tags.h"
#include "report/words.h"

#include <string.h>

static const struct reply_column PART_COLUMNS[] = {
    {.heading = "Tag", .type = CELL_TAG, .most = 20},
    {.heading = "What", .flexible = true},
    {.heading = "Task", .most = 8},
    {.heading = "Due", .type = CELL_STATE}, /* and the state where it has passed */
    {.heading = "When", .most = 25},
    {.heading = "Price", .type = CELL_PRICE, .most = 16},
};

void
shore_words(const struct shore_page *page, const struct text *words)
{
	reply_words(page->reply, VOICE_PLAIN, false, 2, text_string(words));
}

bool
page_in_winter(const struct shore_page *page, struct span window)
{
	const struct winter *winter = &page->list->winter;
	struct span span = {winter->lay_up, winter->fitting_out};
	return page->list->has_winter && span.last - span.first < 365 &&
	       (window.first == DAY_NONE || span_has(span, window.first)) &&
	       (window.last == DAY_NONE || span_has(span, window.last));
}

struct span
page_window(const struct shore_page *page, const struct shore_line *line)
{
	struct span window = {line->not_before, line->not_after};
	if (window.first <= page->style->today) {
		window.first = DAY_NONE;
	}
	return window;
}

/* The part of the window that all lines share; an end that they do not share is DAY_NONE.
 * A part that goes with its parent has the parent's window. */
static struct span
shared_window(const struct shore_page *page, const struct shore_lines *lines)
{
	struct span shared = {DAY_NONE, DAY_NONE};
	bool found = false;
	for (size_t i = 0; i < lines->count; i++) {
		if (lines->items[i].with_parent) {
			continue;
		}
		struct span window = page_window(page, &lines->items[i]);
		if (!found) {
			shared = window;
		}
		if (window.first != shared.first) {
			shared.first = DAY_NONE;
		}
		if (window.last != shared.last) {
			shared.last = DAY_NONE;
		}
		found = true;
	}
	return shared;
}

/* The ends of a line's window that are not shared by all. */
static struct span
own_window(
    const struct shore_page *page, const struct shore_line *line, struct span shared)
{
	struct span window = page_window(page, line);
	if (shared.first != DAY_NONE) {
		window.first = DAY_NONE;
	}
	if (shared.last != DAY_NONE) {
		window.last = DAY_NONE;
	}
	return window;
}

/* Adds "[ ] LR-1", which is never broken over two lines. */
static void
add_tick(const struct shore_page *page, size_t item, struct text *words)
{
	text_add_format(words, "[%c]%c%s", GLUE, GLUE, page->inventory->items[item].tag);
}

void
shore_tick(const struct shore_page *page, size_t item, struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	add_tick(page, item, &words);
	reply_cell(table, HUE_STRONG, text_string(&words));
}

/* Adds what is different about this line. */
static void
add_line_note(const struct shore_line *line, struct text *words)
{
	if (!line->carries && line->due_again != DAY_NONE) {
		text_add(words, "; lapses in the season, due again ");
		add_day(line->due_again, "", words);
	}
}

/* Adds "20 May 2027", "30 Jun 2026, expired", "date unknown" or "gone". */
static void
add_line_due(const struct shore_line *line, struct text *words)
{
	struct standing_now plain = {line->state, DAY_NONE, DAY_NONE, ""};
	bool dated = line->due != DAY_NONE && line->due != DAY_NEVER;
	if (line->gone) {
		text_add(words, "gone");
		return;
	}
	add_day(line->due, "", words);
	if (line->state != STATE_IN_DATE) {
		text_add(words, dated ? ", " : "");
		add_state_words(&plain, 0, words);
	}
}

static void
add_line(const struct shore_page *page, const struct shore_line *line,
    const struct part_shape *shape, struct span shared, struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	char money[MONEY_WORDS_SIZE];
	shore_tick(page, line->item, table);
	add_line_note(line, &words);
	reply_item(table, page->kinds, page->inventory, line->item, text_string(&words));
	reply_cell(table, HUE_NONE, shape->task ? shore_line_word(line) : "");
	text_reset(&words);
	if (shape->due) {
		add_line_due(line, &words);
	}
	enum hue hue = line->state == STATE_IN_DATE ? HUE_NONE : state_hue(line->state);
	reply_cell(table, hue, text_string(&words));
	text_reset(&words);
	if (shape->window && !line->with_parent) {
		struct span window = own_window(page, line, shared);
		add_window_words(window, !page_in_winter(page, window), &words);
	}
	reply_cell(table, HUE_NONE, text_string(&words));
	money_words(line->price_minor, page->style->currency, money);
	const char *price = money[0] == '\0' ? "no price" : money;
	reply_cell(table, HUE_NONE, shape->price ? price : "");
}

/* The note on a line: what its plan says, or what to do when the date of a renewal is not
 * known; "" for none. */
static const char *
note_of(const struct shore_line *line)
{
	bool no_date = line->task == TASK_RENEW && line->state == STATE_DATE_UNKNOWN;
	if (line->note != NULL && line->note[0] != '\0') {
		return line->note;
	}
	return no_date ? line->what : "";
}

/* True when a line before line `at` has the same note. */
static bool
note_came_before(const struct shore_lines *lines, size_t at)
{
	for (size_t i = 0; i < at; i++) {
		if (strcmp(note_of(&lines->items[i]), note_of(&lines->items[at])) == 0) {
			return true;
		}
	}
	return false;
}

/* "* LJ-5, LJ-7: find its date ...": each note once, with every tag it is for. */
static void
write_notes(const struct shore_page *page, const struct shore_lines *lines)
{
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < lines->count; i++) {
		const char *note = note_of(&lines->items[i]);
		if (note[0] == '\0' || note_came_before(lines, i)) {
			continue;
		}
		text_reset(&words);
		text_add(&words, "* ");
		struct tag_list tags = {.out = &words};
		for (size_t j = i; j < lines->count; j++) {
			const struct shore_line *line = &lines->items[j];
			bool again = j > i && line->item == lines->items[j - 1].item;
			if (!again && strcmp(note_of(line), note) == 0) {
				tag_list_add(
				    &tags, page->inventory->items[line->item].tag);
			}
		}
		tag_list_end(&tags);
		text_add_format(&words, ": %s.", note);
		shore_words(page, &words);
	}
}

/* True when the same is said of the prices by age of two lines. */
static bool
same_by_age(const struct shore_line *a, const struct shore_line *b)
{
	return a->task == b->task && a->price_minor == b->price_minor &&
	       a->price_from_years == b->price_from_years &&
	       a->price_age_missed == b->price_age_missed &&
	       a->later_years == b->later_years && a->later_from == b->later_from &&
	       a->later_minor == b->later_minor;
}

/* Adds "LR-1: service EUR 620.00, the price from 10 years old; handed in on or after 1
 * Mar 2027, when 11 years old, EUR 900.00" for line `at` and all like it. */
static void
add_by_age(const struct shore_page *page, const struct shore_lines *lines, size_t at,
    struct text *words)
{
	const struct shore_line *line = &lines->items[at];
	char money[MONEY_WORDS_SIZE];
	struct tag_list tags = {.out = words};
	size_t count = 0;
	for (size_t i = at; i < lines->count; i++) {
		if (same_by_age(&lines->items[i], line)) {
			tag_list_add(
			    &tags, page->inventory->items[lines->items[i].item].tag);
			count++;
		}
	}
	tag_list_end(&tags);
	text_add_format(words, ": %s %s%s", task_word(line->task),
	    money_words(line->price_minor, page->style->currency, money),
	    count > 1 ? " each" : "");
	if (line->price_age_missed) {
		text_add_format(words,
		    ", the dearest price there is for it, since %s age is not known; "
		    "enter when %s made",
		    count > 1 ? "their" : "its", count > 1 ? "they were" : "it was");
	} else if (line->price_from_years > 0) {
		text_add(words, ", the price ");
		add_from_age(line->price_from_years, words);
	}
	if (line->later_years > 0) {
		text_add(words, "; handed in on or after ");
		add_day(line->later_from, "", words);
		text_add_format(words, ", when %d %s old, %s", line->later_years,
		    line->later_years == 1 ? "year" : "years",
		    money_words(line->later_minor, page->style->currency, money));
	}
	text_add_byte(words, '.');
}

/* Writes a line for each price that depends on an age. */
static void
write_by_age(const struct shore_page *page, const struct shore_lines *lines)
{
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		bool said = line->price_from_years == 0 && !line->price_age_missed &&
			    line->later_years == 0;
		for (size_t j = 0; j < i && !said; j++) {
			said = same_by_age(&lines->items[j], line);
		}
		if (said) {
			continue;
		}
		text_reset(&words);
		text_add(&words, "* ");
		add_by_age(page, lines, i, &words);
		shore_words(page, &words);
	}
}

void
write_part(const struct shore_page *page, const char *heading,
    const struct shore_lines *lines, const struct part_shape *shape)
{
	if (lines->count == 0) {
		return;
	}
	SCOPED_TEXT words = {0};
	struct span shared = shared_window(page, lines);
	text_add(&words, heading);
	if (shape->window && (shared.first != DAY_NONE || shared.last != DAY_NONE)) {
		text_add(&words, ", ");
		add_window_words(shared, true, &words);
	}
	reply_heading(page->reply, 3, text_string(&words));
	struct reply_table *table = REPLY_TABLE(page->reply, PART_COLUMNS, SHORE_LOOK);
	for (size_t i = 0; i < lines->count; i++) {
		add_line(page, &lines->items[i], shape, shared, table);
	}
	write_notes(page, lines);
	write_by_age(page, lines);
}

/* ---- what can't be done, what goes ---- */

static const struct reply_column CANNOT_COLUMNS[] = {
    {.heading = "Tag", .type = CELL_TAG, .most = 12},
    {.heading = "What", .most = 24},
    {.heading = "Task", .most = 8},
    {.heading = "Why", .flexible = true},
};

void
write_cannot(const struct shore_page *page)
{
	const struct shore_lines *lines = &page->list->cannot;
	if (lines->count == 0) {
		return;
	}
	SCOPED_TEXT words = {0};
	reply_heading(page->reply, 3,
	    page->list->most_trips > 0 ? "Can't be done in time, or in so few trips"
				       : "Can't be done in time");
	struct reply_table *table = REPLY_TABLE(page->reply, CANNOT_COLUMNS, SHORE_LOOK);
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		reply_cell(table, HUE_STRONG, page->inventory->items[line->item].tag);
		text_reset(&words);
		add_item_words(page->kinds, page->inventory, line->item, &words);
		reply_cell(table, HUE_NONE, text_string(&words));
		reply_cell(table, HUE_NONE, shore_line_word(line));
		text_reset(&words);
		text_add(&words, line->why[0] == '\0' ? "no reason known" : line->why);
		text_add(&words, "; first possible ");
		add_day(line->first_possible, "day not known", &words);
		if (line->cure != NULL && line->cure[0] != '\0') {
			text_add_format(&words, ". What would help: %s", line->cure);
		}
		reply_cell(table, HUE_BAD, text_string(&words));
	}
}

void
write_wanted(const struct shore_page *page)
{
	static const struct reply_column WANTED_COLUMNS[] = {
	    {.heading = "Tag", .type = CELL_TAG, .most = 20},
	    {.heading = "What", .flexible = true},
	    {.heading = "To buy", .most = 36},
	};
	const struct shore_lines *lines = &page->list->wanted;
	SCOPED_TEXT words = {0};
	if (lines->count == 0) {
		return;
	}
	reply_heading(page->reply, 3, "On your list to buy");
	struct reply_table *table = REPLY_TABLE(page->reply, WANTED_COLUMNS, SHORE_LOOK);
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		shore_tick(page, line->item, table);
		reply_item(table, page->kinds, page->inventory, line->item, "");
		text_reset(&words);
		text_add_format(&words, "%s%s", line->what,
		    shore_lines_have(&page->list->buy, line->item)
			? "; a new one is above, too"
			: "");
		reply_cell(table, HUE_NONE, text_string(&words));
	}
}

static enum hazard
hazard_of(const struct shore_page *page, const struct shore_line *line)
{
	const struct item *item = &page->inventory->items[line->item];
	const struct kind *kind = kinds_find(page->kinds, item->kind);
	return kind == NULL ? HAZARD_NONE : kind->hazard;
}

/* Writes the things of one hazard, each with a tick box, and how to dispose of them. */
static void
write_dispose_of(const struct shore_page *page, enum hazard hazard)
{
	const struct shore_lines *lines = &page->list->dispose;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		if (hazard_of(page, line) != hazard) {
			continue;
		}
		text_add(&words, words.length == 0 ? "" : "; ");
		add_tick(page, line->item, &words);
		if (!shore_lines_have(&page->list->buy, line->item)) {
			text_add_byte(&words, ' ');
			add_item_name(page->kinds, page->inventory, line->item, &words);
		}
	}
	if (words.length > 0) {
		const char *caution = kinds_disposal_caution(page->kinds, hazard);
		if (caution[0] != '\0') {
			text_add_format(&words, " !%c%s", GLUE, caution);
		}
		reply_words(page->reply, VOICE_PLAIN, false, 4, text_string(&words));
	}
}

void
write_dispose(const struct shore_page *page)
{
	if (page->list->dispose.count == 0) {
		return;
	}
	reply_heading(page->reply, 3, "Dispose of, once out of date or replaced");
	for (int hazard = 0; hazard < HAZARD_COUNT; hazard++) {
		write_dispose_of(page, (enum hazard)hazard);
	}
}

void
reply_item(struct reply_table *table, const struct kinds *kinds,
    const struct inventory *inventory, size_t item, const char *note)
{
	SCOPED_TEXT name = {0};
	SCOPED_TEXT extra = {0};
	add_item_parts(kinds, inventory, item, note, &name, &extra);
	reply_extra(table, HUE_NONE, text_string(&name), text_string(&extra));
}
