/* This winter: the rows outside the bags. */
#include "page/draw.h"
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"

#include <string.h>

const struct item *
line_item(const struct winter_page *page, const struct shore_line *line)
{
	return &page->visit->desk.contents.inventory.items[line->item];
}

void
write_what(const struct winter_page *page, size_t index)
{
	const struct desk *desk = &page->visit->desk;
	text_what(page->visit->markup, desk->engine.kinds,
	    &desk->contents.inventory.items[index]);
}

static const enum state_mark MARKS[] = {
    [STATE_OVERDUE] = MARK_OVERDUE,
    [STATE_EXPIRED] = MARK_EXPIRED,
    [STATE_LIFE_EXPIRED] = MARK_LIFE_EXPIRED,
    [STATE_DATE_UNKNOWN] = MARK_DATE_UNKNOWN,
};

void
write_line_state(const struct winter_page *page, const struct shore_line *line)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	if (line->state == STATE_IN_DATE) {
		if (line->due != DAY_NONE) {
			shell_day(visit, line->due);
		}
		return;
	}
	markup_begin_class(markup, "span", "state");
	draw_mark(markup, line->gone ? MARK_SHORT : MARKS[line->state]);
	markup_text(markup, line->gone ? "gone"
			    : line->state == STATE_DATE_UNKNOWN
				? "date unknown"
				: state_word(line->state));
	markup_end(markup);
	if (line->due != DAY_NONE) {
		markup_text(markup, " ");
		markup_begin_class(markup, "span", "small");
		shell_day(visit, line->due);
		markup_end(markup);
	}
}

void
winter_tick(const struct winter_page *page, const struct shore_line *line,
    const char *name, const char *value, const char *word)
{
	struct markup *markup = page->visit->markup;
	const struct item *item = line_item(page, line);
	markup_begin_class(markup, "label", "tick");
	MARKUP_BEGIN(markup, "input", NULL, "type", "checkbox");
	markup_attribute_format(markup, "name", "%s.%s", name, item->tag);
	markup_attribute(markup, "value", value);
	markup_end(markup);
	markup_element(markup, "span", "tag", item->tag);
	markup_element_format(markup, "span", "vh", " %s: %s", word,
	    kind_name(page->visit->desk.engine.kinds, item->kind));
	markup_end(markup);
}

void
winter_key(const struct winter_page *page, const struct shore_line *line)
{
	struct markup *markup = page->visit->markup;
	markup_begin_class(markup, "div", "k");
	markup_element(markup, "span", "tag", line_item(page, line)->tag);
	markup_end(markup);
}

void
write_task_name(const struct winter_page *page, const struct shore_line *line)
{
	markup_text_format(page->visit->markup,
	    "%s: ", line->give_back ? "give back" : task_word(line->task));
	write_what(page, line->item);
}

/* What to do, and what it is, with the rule's words below. */
static void
write_task(const struct winter_page *page, const struct shore_line *line)
{
	struct markup *markup = page->visit->markup;
	markup_begin(markup, "span");
	write_task_name(page, line);
	if (line->what[0] != '\0') {
		markup_begin(markup, "br");
		markup_end(markup);
		markup_element(markup, "span", "soft", line->what);
	}
	markup_end(markup);
}

void
winter_state(const struct winter_page *page, const struct shore_line *line)
{
	markup_begin(page->visit->markup, "span");
	write_line_state(page, line);
	markup_end(page->visit->markup);
}

/* Rows of tasks without tick boxes. */
static void
write_task_rows(const struct winter_page *page, const struct shore_lines *lines)
{
	struct markup *markup = page->visit->markup;
	markup_begin_class(markup, "ul", "rows");
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		markup_begin_class(markup, "li", "row");
		winter_key(page, line);
		markup_begin_class(markup, "div", "w two");
		write_task(page, line);
		winter_state(page, line);
		markup_ends(markup, 2);
	}
	markup_end(markup);
}

void
winter_now(struct winter_page *page)
{
	struct visit *visit = page->visit;
	if (page->list->now.count == 0) {
		return;
	}
	shell_section(visit, NULL, NULL, "Do now");
	markup_end(visit->markup);
	write_task_rows(page, &page->list->now);
	markup_end(visit->markup);
}

/* Writes words without capital and full stop as a sentence. */
static void
write_sentence(struct markup *markup, const char *words)
{
	SCOPED_TEXT sentence = {0};
	text_add_capital(&sentence, words);
	markup_text_format(markup, "%s. ", text_string(&sentence));
}

/* One line of what can't be done, with its reason unless one reason is given for all. */
static void
write_cannot_line(
    const struct winter_page *page, const struct shore_line *line, bool reason)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "li", "row");
	winter_key(page, line);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	write_task_name(page, line);
	markup_begin(markup, "br");
	markup_end(markup);
	if (reason) {
		write_sentence(markup, line->why);
	}
	if (line->first_possible != DAY_NONE) {
		markup_text(markup, "The first day it could be back: ");
		shell_day(visit, line->first_possible);
		markup_text(markup, ". ");
	}
	if (line->cure != NULL && line->cure[0] != '\0') {
		markup_text(markup, "What would help: ");
		markup_text_format(markup, "%s.", line->cure);
	}
	markup_end(markup);
	winter_state(page, line);
	markup_ends(markup, 2);
}

void
winter_cannot(struct winter_page *page)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const struct shore_lines *lines = &page->list->cannot;
	bool alike = lines->count > 1;
	if (lines->count == 0) {
		return;
	}
	for (size_t i = 1; i < lines->count; i++) {
		alike = alike && strcmp(lines->items[i].why, lines->items[0].why) == 0;
	}
	shell_section(visit, "not in time", NULL, "Can’t be done before she goes out");
	if (alike) {
		markup_begin(markup, "p");
		write_sentence(markup, lines->items[0].why);
		markup_end(markup);
	}
	markup_end(markup);
	markup_begin_class(markup, "ul", "rows");
	for (size_t i = 0; i < lines->count; i++) {
		write_cannot_line(page, &lines->items[i], !alike);
	}
	markup_ends(markup, 2);
}

void
winter_section_by(const struct winter_page *page, const struct shore_lines *a,
    const struct shore_lines *b, const char *heading)
{
	char words[DAY_WORDS_SIZE];
	SCOPED_TEXT by = {0};
	day_t last = DAY_NONE;
	const struct shore_lines *both[] = {a, b};
	for (size_t k = 0; k < 2; k++) {
		for (size_t i = 0; i < both[k]->count; i++) {
			day_t day = both[k]->items[i].not_after;
			last = day != DAY_NONE && (last == DAY_NONE || day < last) ? day
										   : last;
		}
	}
	if (last != DAY_NONE) {
		text_add_format(&by, "by %s", day_words(last, words));
	}
	shell_section(page->visit, text_string(&by), NULL, heading);
}

static void
write_ticked_tasks(const struct winter_page *page, const struct shore_lines *lines)
{
	struct markup *markup = page->visit->markup;
	SCOPED_TEXT name = {0};
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		markup_begin_class(markup, "li", "row");
		/* a renewal is entered with its new dates, in the locker */
		if (line->task == TASK_RENEW || line->give_back) {
			winter_key(page, line);
		} else {
			text_reset(&name);
			text_add_format(&name, "did.%s", task_word(line->task));
			winter_tick(page, line, text_string(&name), "yes", "done");
		}
		markup_begin_class(markup, "div", "w two");
		write_task(page, line);
		winter_state(page, line);
		markup_ends(markup, 2);
	}
}

void
winter_form(const struct winter_page *page, const char *id)
{
	SCOPED_TEXT path = {0};
	text_add(&path, "/winter");
	add_whose(page, &path);
	shell_form(page->visit, text_string(&path), id);
}

void
winter_foot(const struct winter_page *page, const char *act, const char *words)
{
	struct markup *markup = page->visit->markup;
	markup_begin_class(markup, "div", "entry bagfoot");
	markup_begin_class(markup, "div", "m");
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	markup_begin_class(markup, "div", "acts");
	shell_button(page->visit, true, "act", act, words);
	markup_ends(markup, 3);
}

void
winter_own_work(struct winter_page *page)
{
	struct markup *markup = page->visit->markup;
	const struct shore_lines *self = &page->list->self;
	const struct shore_lines *papers = &page->list->paperwork;
	if (self->count + papers->count == 0) {
		return;
	}
	winter_form(page, "own");
	winter_section_by(page, self, papers, "Do it yourself");
	markup_end(markup);
	markup_begin_class(markup, "ul", "rows");
	write_ticked_tasks(page, self);
	write_ticked_tasks(page, papers);
	markup_ends(markup, 2);
	winter_foot(page, "did", "Done today: what is ticked");
	markup_end(markup);
}

static enum hazard
hazard_of(const struct winter_page *page, const struct shore_line *line)
{
	const struct kind *kind =
	    kinds_find(page->visit->desk.engine.kinds, line_item(page, line)->kind);
	return kind == NULL ? HAZARD_NONE : kind->hazard;
}

static const char *const SORTS[HAZARD_COUNT] = {
    [HAZARD_NONE] = "the rest",
    [HAZARD_PYROTECHNIC] = "flares and smokes",
    [HAZARD_GAS] = "under gas",
    [HAZARD_LITHIUM] = "lithium",
    [HAZARD_MEDICINE] = "medicines",
};

/* One row: the hazard, its caution, the tags. Nothing when there are no tags. */
static void
write_sort(const struct winter_page *page, enum hazard hazard)
{
	struct markup *markup = page->visit->markup;
	const struct shore_lines *lines = &page->list->dispose;
	size_t count = 0;
	for (size_t i = 0; i < lines->count; i++) {
		count += hazard_of(page, &lines->items[i]) == hazard;
	}
	if (count == 0) {
		return;
	}
	markup_begin_class(markup, "li", "row");
	markup_element(markup, "div", "k small", SORTS[hazard]);
	markup_begin_class(markup, "div", "w two");
	markup_element(markup, "span", NULL,
	    kinds_disposal_caution(page->visit->desk.engine.kinds, hazard));
	markup_begin(markup, "b");
	for (size_t i = 0, told = 0; i < lines->count; i++) {
		if (hazard_of(page, &lines->items[i]) == hazard) {
			markup_text(markup, told++ > 0 ? ", " : "");
			markup_element(
			    markup, "span", "nb", line_item(page, &lines->items[i])->tag);
		}
	}
	markup_ends(markup, 3);
}

void
winter_dispose(struct winter_page *page)
{
	struct markup *markup = page->visit->markup;
	if (page->list->dispose.count == 0) {
		return;
	}
	shell_rows(page->visit, "when replaced", "Dispose of");
	for (int hazard = HAZARD_COUNT - 1; hazard >= 0; hazard--) {
		write_sort(page, (enum hazard)hazard);
	}
	markup_ends(markup, 2);
}
