#include "base/memory.h"
#include "report/money.h"
#include "report/report.h"
#include "report/shore_parts.h"
#include "report/words.h"

#include <string.h>

/* "Winter 2026: laid up 1 Nov 2026 to 31 Mar 2027" under the vessel's name. */
static void
write_head(const struct shore_page *page)
{
	const struct shore_list *list = page->list;
	SCOPED_TEXT words = {0};
	text_add_format(
	    &words, "%s: shore list", page->inventory->vessels[list->vessel].name);
	paragraph(text_string(&words), 0, 2, page->out);
	text_reset(&words);
	if (list->has_winter) {
		text_add_format(&words, "Winter %d: laid up ", list->winter.year);
		add_day(list->winter.lay_up, "", &words);
		text_add(&words, " to ");
		add_day(list->winter.fitting_out, "", &words);
	} else {
		text_add(&words, "In use all year: no winter to wait for");
	}
	text_add(&words, "; seen on ");
	add_day(page->style->today, "", &words);
	text_add_byte(&words, '.');
	paragraph(text_string(&words), 0, 2, page->out);
	page->out->failed = page->out->failed || words.failed;
}

static bool
nothing_to_do(const struct shore_list *list)
{
	return list->hand_in.count == 0 && list->ashore.count == 0 &&
	       list->self.count == 0 && list->buy.count == 0 &&
	       list->paperwork.count == 0 && list->dispose.count == 0 &&
	       list->cannot.count == 0 && list->now.count == 0;
}

/* What he does himself and the paperwork, under one heading: both are his. */
static bool
write_own_work(const struct shore_page *page, struct fault *fault)
{
	static const struct part_shape WORK = {.task = true, .due = true, .window = true};
	const struct shore_lines *self = &page->list->self;
	const struct shore_lines *paperwork = &page->list->paperwork;
	if (self->count == 0 || paperwork->count == 0) {
		return write_part(page, "Do it yourself", self, &WORK, fault) &&
		       write_part(page, "Paperwork", paperwork, &WORK, fault);
	}
	SCOPED_ARENA arena = {0};
	struct shore_lines both = {.count = self->count + paperwork->count};
	both.items = arena_alloc(&arena, both.count * sizeof *both.items);
	if (both.items == NULL) {
		return fault_memory(fault);
	}
	memcpy(both.items, self->items, self->count * sizeof *both.items);
	memcpy(both.items + self->count, paperwork->items,
	    paperwork->count * sizeof *both.items);
	return write_part(page, "Do it yourself, and the paperwork", &both, &WORK, fault);
}

static bool
write_parts(const struct shore_page *page, struct fault *fault)
{
	static const struct part_shape NOW = {.task = true, .due = true};
	static const struct part_shape BUY = {.due = true, .window = true, .price = true};
	const struct shore_list *list = page->list;
	return write_part(page, "Do now", &list->now, &NOW, fault) &&
	       write_cannot(page, fault) && write_ashore(page, fault) &&
	       write_hand_in(page, fault) && write_own_work(page, fault) &&
	       write_part(page, "Buy and renew", &list->buy, &BUY, fault) &&
	       write_dispose(page, fault) && write_waits(page, fault) &&
	       write_habits(page, fault);
}

/* What is known of the cost, and how much is not; then the caution under every report. */
static void
write_foot(const struct shore_page *page)
{
	const struct shore_list *list = page->list;
	char money[MONEY_WORDS_SIZE];
	if (list->hand_in.count == 0 && list->ashore.count == 0 && list->buy.count == 0) {
		add_caution(page->out);
		return;
	}
	money_words(list->cost_minor, page->style->currency, money);
	text_add_format(page->out, "\nCost known: %s", money);
	if (list->unpriced > 0) {
		text_add_format(page->out, "; %zu %s without a price", list->unpriced,
		    list->unpriced == 1 ? "line" : "lines");
	}
	text_add(page->out, ".\n");
	paragraph(REPORT_CAUTION, 0, 0, page->out);
}

bool
report_winter(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct shore_list *list, struct text *out,
    struct fault *fault)
{
	struct shore_page page = {style, kinds, inventory, list, out};
	write_head(&page);
	if (nothing_to_do(list)) {
		text_add(out, list->has_winter ? "\nNothing is to be done this winter.\n"
					       : "\nNothing is to be done now.\n");
	}
	if (!write_parts(&page, fault)) {
		return false;
	}
	write_foot(&page);
	return text_check(out, fault);
}
