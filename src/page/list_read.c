/* Bring a list: what was answered, and the list read with it. */
#include "page/taking_in.h"

#include <stdlib.h>
#include <string.h>

static void
add_answer(struct list_page *page, bool of_words, const char *theirs, const char *ours)
{
	struct import_answers *answers = &page->answers;
	ARENA_ADD(
	    &page->visit->arena, answers, (struct import_answer){of_words, theirs, ours});
}

/* The fields with a prefix and an answer, as mappings: "map.Where" is "place". */
static void
read_mappings(struct list_page *page, const char *prefix, bool of_words,
    const struct csv_mapping **out, size_t *count_out)
{
	const struct form *sent = &page->visit->sent;
	struct csv_mapping *items =
	    arena_alloc(&page->visit->arena, (sent->count + 1) * sizeof *items);
	size_t count = 0;
	for (size_t i = 0; i < sent->count; i++) {
		const char *theirs = form_rest(&sent->items[i], prefix);
		const char *ours = sent->items[i].value;
		if (theirs != NULL && ours[0] != '\0' && ours[0] != ' ') {
			items[count++] = (struct csv_mapping){theirs, ours, false};
			add_answer(page, of_words, theirs, ours);
		}
	}
	*out = items;
	*count_out = count;
}

/* The lines that are passed over: "leave.12", and those that were typed: "4, 12". */
static void
read_left_out(struct list_page *page, struct csv_options *options)
{
	const struct form *sent = &page->visit->sent;
	const char *typed = page_value(page->visit, "lines");
	struct csv_lines *lines = arena_alloc(
	    &page->visit->arena, (sent->count + strlen(typed) + 1) * sizeof *lines);
	for (const char *at = typed + strcspn(typed, "123456789"); *at != '\0';) {
		char *end = NULL;
		size_t number = strtoul(at, &end, 10);
		lines[options->left_out_count++] = (struct csv_lines){number, number};
		at = end + strcspn(end, "123456789");
	}
	for (size_t i = 0; i < sent->count; i++) {
		const char *line = form_rest(&sent->items[i], "leave.");
		size_t number = line == NULL ? 0 : strtoul(line, NULL, 10);
		if (number > 0) {
			lines[options->left_out_count++] =
			    (struct csv_lines){number, number};
		}
	}
	options->left_out = lines;
}

/* The cells that were mended: "fix.12.3" is the fourth cell of the row that starts in line 12. */
static void
read_mended(struct list_page *page, struct csv_options *options)
{
	const struct form *sent = &page->visit->sent;
	struct csv_mended *cells =
	    arena_alloc(&page->visit->arena, (sent->count + 1) * sizeof *cells);
	for (size_t i = 0; i < sent->count; i++) {
		const char *place = form_rest(&sent->items[i], "fix.");
		char *end = NULL;
		size_t line = place == NULL ? 0 : strtoul(place, &end, 10);
		if (line > 0 && *end == '.') {
			cells[options->mended_count++] = (struct csv_mended){
			    line, strtoul(end + 1, NULL, 10), sent->items[i].value};
		}
	}
	options->mended = cells;
}

const char *
list_vessel(const struct list_page *page)
{
	const struct inventory *inventory = &page->visit->desk.contents.inventory;
	bool sent = form_value(&page->visit->sent, "vessel") != NULL;
	return sent || inventory->vessel_count != 1 ? page_value(page->visit, "vessel")
						    : inventory->vessels[0].name;
}

bool
list_options(struct list_page *page, struct fault *fault)
{
	struct visit *visit = page->visit;
	struct csv_options *options = &page->request.options;
	const char *order = page_value(visit, "order");
	const char *decimals = page_value(visit, "decimals");
	const char *next = page_value(visit, "next");
	const char *quantities = page_value(visit, "quantities");
	const char *vessel = list_vessel(page);
	options->order = strcmp(order, "day") == 0     ? ORDER_DAY_FIRST
			 : strcmp(order, "month") == 0 ? ORDER_MONTH_FIRST
						       : ORDER_ISO;
	options->next_alone =
	    strcmp(next, "notes") == 0 ? NEXT_ALONE_NOTES : NEXT_ALONE_ASKED;
	options->decimals = strcmp(decimals, "comma") == 0   ? DECIMALS_COMMA
			    : strcmp(decimals, "point") == 0 ? DECIMALS_POINT
							     : DECIMALS_ASKED;
	options->quantities = strcmp(quantities, "one") == 0     ? QUANTITIES_ONE
			      : strcmp(quantities, "words") == 0 ? QUANTITIES_FROM_WORDS
								 : QUANTITIES_ASKED;
	options->two_digit_years = strcmp(page_value(visit, "years"), "yes") == 0;
	options->vessel = vessel[0] == '\0' ? NULL : vessel;
	read_mappings(page, "map.", false, &options->mappings, &options->mapping_count);
	read_mappings(page, "means.", true, &options->meanings, &options->meaning_count);
	read_left_out(page, options);
	read_mended(page, options);
	page->request.name = visit->session->list_name;
	page->request.bytes = &visit->session->list;
	page->request.answers = &page->answers;
	return desk_currency(&visit->desk, &options->currency, fault);
}

void
list_answered(const struct list_page *page, struct desk *desk)
{
	const struct form *sent = &page->visit->sent;
	for (size_t i = 0; i < sent->count; i++) {
		if (strcmp(sent->items[i].name, "said") == 0) {
			ARENA_ADD(&desk->arena, &desk->answered, sent->items[i].value);
		}
	}
}

bool
list_try(struct list_page *page, struct fault *fault)
{
	struct visit *visit = page->visit;
	SCOPED_TEXT words = {0};
	page->doubts = (struct csv_doubts){.arena = &visit->arena};
	page->request.options.doubts = &page->doubts;
	page_try(visit, &page->trial);
	list_answered(page, &page->trial);
	page->read = desk_import(&page->trial, &page->request, &page->out, fault);
	page->request.options.doubts = NULL;
	if (!page->read && (fault->kind == FAULT_BOOK || fault->kind == FAULT_FILE)) {
		return false;
	}
	if (!page->read) {
		page_words(fault->text, &words);
		page->wrong = arena_string(&visit->arena, text_string(&words));
		*fault = (struct fault){0};
		return true;
	}
	text_reset(&page->words);
	if (!spool_read_all(&page->out.words, &page->words, fault)) {
		return false;
	}
	desk_forget(&page->trial);
	return desk_engine(&page->trial, NULL, fault);
}

void
list_clear(struct list_page *page)
{
	desk_clear(&page->trial);
	spool_clear(&page->out.words);
	text_clear(&page->words);
}
