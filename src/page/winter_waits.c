/* This winter: what waits for another year, and what the winter costs. */
#include "gear/money.h"
#include "page/planning.h"
#include "page/shell.h"

/* Adds a tag to those of its task; the first one follows the task's word. */
static void
write_tag_of_task(const struct winter_page *page, const struct shore_line *line,
    size_t before, size_t *told)
{
	struct markup *markup = page->visit->markup;
	if (before > 0) {
		markup_text(markup, ", ");
	} else {
		markup_text_format(
		    markup, "%s%s ", (*told)++ > 0 ? "; " : "", task_word(line->task));
	}
	markup_element(markup, "span", "nb", line_item(page, line)->tag);
}

/* The tags of one task in what waits for one winter, or with `later` for all winters
 * after it. */
static void
write_waiting_task(
    const struct winter_page *page, enum task task, int winter, bool later, size_t *told)
{
	const struct shore_lines *lines = &page->list->waits;
	size_t count = 0;
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		bool here = later ? line->winter > winter : line->winter == winter;
		if (line->task != task || !here) {
			continue;
		}
		write_tag_of_task(page, line, count++, told);
	}
}

/* The first due day of what waits for a winter; DAY_NONE when nothing does. */
static day_t
first_waiting(const struct shore_lines *lines, int winter, bool later)
{
	day_t first = DAY_NONE;
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		bool here = later ? line->winter > winter : line->winter == winter;
		if (here && line->due != DAY_NONE &&
		    (first == DAY_NONE || line->due < first)) {
			first = line->due;
		}
	}
	return first;
}

static void
write_waiting(const struct winter_page *page, int winter, bool later)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	day_t first = first_waiting(&page->list->waits, winter, later);
	size_t told = 0;
	if (first == DAY_NONE) {
		return;
	}
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_begin(markup, "b");
	if (later || winter == 0) {
		markup_text(markup, later ? "later" : "in use all year then");
	} else {
		markup_text_format(markup, "winter %d", winter);
	}
	markup_ends(markup, 2);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	for (int task = 0; task < TASK_COUNT; task++) {
		write_waiting_task(page, (enum task)task, winter, later, &told);
	}
	markup_end(markup);
	markup_begin(markup, "span");
	markup_text(markup, "first due ");
	shell_day(visit, first);
	markup_ends(markup, 3);
}

/* What waits, for a boat in use all year: twelve months day by day. */
static void
write_year(const struct winter_page *page)
{
	struct markup *markup = page->visit->markup;
	const struct shore_lines *lines = &page->list->waits;
	day_t end = day_add_months(page->visit->desk.today, 12);
	for (day_t day = page->visit->desk.today; day <= end; day++) {
		for (size_t i = 0; i < lines->count; i++) {
			const struct shore_line *line = &lines->items[i];
			if (line->due != day) {
				continue;
			}
			markup_begin_class(markup, "li", "row");
			winter_key(page, line);
			markup_begin_class(markup, "div", "w two");
			markup_begin(markup, "span");
			write_task_name(page, line);
			markup_end(markup);
			winter_state(page, line);
			markup_ends(markup, 2);
		}
	}
}

/* What is due after those twelve months, all together. */
static void
write_after_year(const struct winter_page *page)
{
	struct markup *markup = page->visit->markup;
	const struct shore_lines *lines = &page->list->waits;
	day_t end = day_add_months(page->visit->desk.today, 12);
	size_t told = 0;
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_element(markup, "b", NULL, "later");
	markup_end(markup);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	for (int task = 0; task < TASK_COUNT; task++) {
		size_t count = 0;
		for (size_t i = 0; i < lines->count; i++) {
			const struct shore_line *line = &lines->items[i];
			if (line->task == (enum task)task && line->due > end) {
				write_tag_of_task(page, line, count++, &told);
			}
		}
	}
	markup_ends(markup, 3);
}

void
winter_waits(struct winter_page *page)
{
	struct visit *visit = page->visit;
	if (page->list->waits.count == 0) {
		return;
	}
	shell_rows(visit, NULL, "Can wait");
	if (page->list->has_winter) {
		int year = page->list->winter.year;
		write_waiting(page, year + 1, false);
		write_waiting(page, year + 2, false);
		write_waiting(page, year + 2, true);
		write_waiting(page, 0, false);
	} else {
		write_year(page);
		write_after_year(page);
	}
	markup_ends(visit->markup, 2);
}

void
winter_cost(struct winter_page *page)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const struct shore_list *list = page->list;
	char money[MONEY_WORDS_SIZE];
	if (list->hand_in.count + list->ashore.count + list->buy.count == 0) {
		return;
	}
	markup_begin_class(markup, "div", "entry");
	markup_begin_class(markup, "div", "m");
	markup_element(markup, "b", NULL,
	    money_words(
		list->cost_minor, visit->desk.contents.inventory.currency, money));
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	markup_begin(markup, "p");
	markup_text(markup, "What this winter costs, as far as it is known.");
	if (list->unpriced > 0) {
		SCOPED_TEXT words = {0};
		text_add_byte(&words, ' ');
		add_count(list->unpriced, "line has", "lines have", &words);
		text_add(
		    &words, " no price yet: a price on what comes back fills it in.");
		markup_text(markup, text_string(&words));
	}
	markup_ends(markup, 3);
}
