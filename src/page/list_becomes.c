/* A list that is brought: what it would become, and what writing it changes. */
#include "exchange/inventory_csv.h"
#include "page/draw.h"
#include "page/shell.h"
#include "page/taking_in.h"
#include "report/words.h"

#include <stdlib.h>

enum { ROWS_MOST = 200 };

static const enum state_mark MARKS[] = {
    [STATE_OVERDUE] = MARK_OVERDUE,
    [STATE_EXPIRED] = MARK_EXPIRED,
    [STATE_LIFE_EXPIRED] = MARK_LIFE_EXPIRED,
    [STATE_DATE_UNKNOWN] = MARK_DATE_UNKNOWN,
};

/* What an item would first be due for, with its state. */
static void
write_first_due(struct list_page *page, size_t item)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	struct obligation *tasks = NULL;
	const struct obligation *first = NULL;
	size_t count = 0;
	due_of_item(&page->trial.engine, item, page->trial.today, &page->trial.arena,
	    &tasks, &count);
	for (size_t i = 0; i < count; i++) {
		const struct obligation *task = &tasks[i];
		bool worse = first == NULL || (first->state == STATE_IN_DATE &&
						  task->state != STATE_IN_DATE);
		bool sooner = first != NULL && first->state == task->state &&
			      task->due != DAY_NONE &&
			      (first->due == DAY_NONE || task->due < first->due);
		first = !task->routine && (worse || sooner) ? task : first;
	}
	if (first == NULL) {
		markup_text(markup, "nothing is asked of it");
		return;
	}
	if (first->state != STATE_IN_DATE) {
		markup_begin_class(markup, "span", "state");
		draw_mark(markup, MARKS[first->state]);
		markup_text(markup, first->state == STATE_DATE_UNKNOWN
					? "date unknown"
					: state_word(first->state));
		markup_end(markup);
		markup_text(markup, " ");
	}
	markup_text_format(markup, "%s ", task_noun(first->task));
	if (first->due != DAY_NONE) {
		shell_day(visit, first->due);
	}
}

/* The pieces that the list adds, by their place in the book as it would be: `*count_out`
 * of them, in the trial's arena. */
static const size_t *
find_new(struct list_page *page, size_t *count_out)
{
	const struct inventory *before = &page->visit->desk.contents.inventory;
	const struct inventory *after = &page->trial.contents.inventory;
	struct arena *arena = &page->trial.arena;
	const char **tags =
	    arena_alloc(arena, (before->item_count + 1) * sizeof(const char *));
	size_t *found = arena_alloc(arena, (after->item_count + 1) * sizeof *found);
	for (size_t i = 0; i < before->item_count; i++) {
		tags[i] = before->items[i].tag;
	}
	qsort(tags, before->item_count, sizeof(const char *), text_order);
	*count_out = 0;
	for (size_t i = 0; i < after->item_count; i++) {
		if (bsearch(&after->items[i].tag, tags, before->item_count,
			sizeof(const char *), text_order) == NULL) {
			found[(*count_out)++] = i;
		}
	}
	return found;
}

static void
write_date(struct list_page *page, size_t at)
{
	struct markup *markup = page->visit->markup;
	const struct item *item = &page->trial.contents.inventory.items[at];
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_element(markup, "span", "tag", item->tag);
	markup_end(markup);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	text_what(markup, page->trial.engine.kinds, item);
	markup_end(markup);
	markup_begin(markup, "span");
	write_first_due(page, at);
	markup_ends(markup, 3);
}

void
list_write_dates(struct list_page *page)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	size_t count = 0;
	const size_t *fresh = find_new(page, &count);
	const struct list_part part = list_part_of(page, "dates", ROWS_MOST, count);
	shell_section(visit, NULL, NULL, "What they would become");
	MARKUP_BEGIN(markup, "a", "go", "href", "#writing");
	markup_text(markup, "Past them, to what writing changes");
	markup_end(markup);
	list_write_part(page, &part, "pieces");
	markup_end(markup);
	markup_begin_class(markup, "ul", "rows");
	for (size_t i = part.from; i < part.to; i++) {
		write_date(page, fresh[i]);
	}
	markup_ends(markup, 2);
}

void
list_write_changes(struct list_page *page)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const struct csv_effect *effect = &page->out.effect;
	char digest[PAGE_DIGEST_SIZE];
	shell_section(visit, "before", "it is written", "What writing changes");
	MARKUP_BEGIN(markup, "div", "change", "id", "writing");
	markup_begin(markup, "p");
	markup_text_format(markup,
	    "%zu to be added, %zu to be changed, %zu as they are; %zu new records.",
	    effect->added, effect->changed, effect->same, effect->records);
	if (effect->emptied > 0) {
		markup_text_format(markup,
		    " %zu of the changes would empty what the book has.",
		    effect->emptied);
	}
	markup_end(markup);
	markup_begin(markup, "details");
	markup_element(markup, "summary", NULL, "Line by line");
	text_lines(markup, text_string(&page->words));
	markup_end(markup);
	shell_hidden(visit, "seen", page_digest(text_string(&page->words), digest));
	SCOPED_TEXT words = {0};
	text_add_format(
	    &words, "Write it: %zu added, %zu changed", effect->added, effect->changed);
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, true, "act", "write", text_string(&words));
	shell_button(visit, false, "act", "away", "Put the list away");
	markup_ends(markup, 4);
}

void
list_write_remarks(struct list_page *page)
{
	SCOPED_TEXT words = {0};
	list_words(text_string(&page->trial.notes), &words);
	if (words.length > 0) {
		shell_section(page->visit, NULL, NULL, "How it was read");
		text_lines(page->visit->markup, text_string(&words));
		markup_ends(page->visit->markup, 2);
	}
}
