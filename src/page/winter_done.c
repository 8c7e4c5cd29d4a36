/* This winter: the owner's own work that was done, what need not be bought any more, and
 * how a form of the page ends. */
#include "desk/acts.h"
#include "page/planning.h"
#include "page/shell.h"

#include <stdio.h>
#include <string.h>

bool
winter_is_told(struct winter_page *page, struct fault *fault)
{
	SCOPED_TEXT words = {0};
	if (fault->kind != FAULT_INPUT && fault->kind != FAULT_USAGE) {
		return false;
	}
	page_words(fault->text, &words);
	page->wrong = arena_string(&page->visit->arena, text_string(&words));
	*fault = (struct fault){0};
	winter_write(page);
	return true;
}

bool
winter_go_back(const struct winter_page *page)
{
	SCOPED_TEXT path = {0};
	const char *bag = page_value(page->visit, "bag");
	text_add(&path, "/winter");
	add_whose(page, &path);
	page_go(
	    page->visit, "%s%s%s", text_string(&path), bag[0] == '\0' ? "" : "#", bag);
	return true;
}

/* Records the tasks that are ticked, "did.TASK.TAG", on this desk. */
static bool
record_ticked(
    struct visit *visit, struct desk *desk, size_t *count_out, struct fault *fault)
{
	*count_out = 0;
	for (int task = 0; task < TASK_COUNT; task++) {
		char prefix[40];
		struct gear_outcome out = {0};
		struct record_request request = {
		    .record = {.station = "", .certificate = "", .price_minor = -1}};
		request.record.task = (enum task)task;
		request.record.on = stamp_of_day(visit->desk.today);
		(void)snprintf(
		    prefix, sizeof prefix, "did.%s.", task_word((enum task)task));
		for (size_t i = 0; i < visit->sent.count; i++) {
			const char *tag = form_rest(&visit->sent.items[i], prefix);
			if (tag != NULL) {
				ARENA_ADD(&visit->arena, &request.tags, tag);
			}
		}
		if (request.tags.count > 0 && !desk_record(desk, &request, &out, fault)) {
			return false;
		}
		*count_out += request.tags.count;
	}
	return *count_out > 0 ||
	       fault_set(fault, FAULT_INPUT, "No line is ticked: tick what was done.");
}

/* Records all that is ticked, or nothing: each task is a separate act, so all are tried
 * first. */
bool
winter_record_done(struct winter_page *page, struct fault *fault)
{
	struct visit *visit = page->visit;
	struct desk trial = {0};
	struct desk desk = {0};
	size_t count = 0;
	SCOPED_TEXT words = {0};
	page_try(visit, &trial);
	bool can = record_ticked(visit, &trial, &count, fault);
	desk_clear(&trial);
	if (!can) {
		return winter_is_told(page, fault);
	}
	page_write(visit, &desk, "done oneself");
	if (!record_ticked(visit, &desk, &count, fault)) {
		desk_clear(&desk);
		return winter_is_told(page, fault);
	}
	add_count(count, "thing is", "things are", &words);
	page_say(visit, "%s written down as done today.", text_string(&words));
	page_done(visit, &desk);
	return winter_go_back(page);
}

/* Reads what is ticked as bought, by tag. False when one is no longer on the list, or is
 * there with other words than those ticked. */
static bool
read_bought(struct winter_page *page, struct word_list *tags, struct fault *fault)
{
	struct visit *visit = page->visit;
	const struct shore_lines *wanted = &page->list->wanted;
	for (size_t i = 0; i < visit->sent.count; i++) {
		const char *tag = form_rest(&visit->sent.items[i], "bought.");
		const char *now = "nothing";
		for (size_t j = 0; j < wanted->count && tag != NULL; j++) {
			const struct shore_line *line = &wanted->items[j];
			now = strcmp(line_item(page, line)->tag, tag) == 0 ? line->what
									   : now;
		}
		if (tag != NULL && strcmp(now, visit->sent.items[i].value) != 0) {
			return fault_set(fault, FAULT_INPUT,
			    "%s: you ticked \"%.80s\"; on the list now: %.80s. Nothing is "
			    "taken off: look, and tick again",
			    tag, visit->sent.items[i].value, now);
		}
		if (tag != NULL) {
			ARENA_ADD(&visit->arena, tags, tag);
		}
	}
	return tags->count > 0 ||
	       fault_set(fault, FAULT_INPUT, "No line is ticked: tick what was bought.");
}

/* Takes what was bought off the list to buy. New gear aboard is entered in the locker. */
bool
winter_take_off_list(struct winter_page *page, struct fault *fault)
{
	struct visit *visit = page->visit;
	struct desk desk = {0};
	struct gear_outcome done = {0};
	struct amend_request request = {.change = blank_change()};
	SCOPED_TEXT words = {0};
	request.change.set = 1U << FIELD_TO_BUY;
	if (!read_bought(page, &request.tags, fault)) {
		return winter_is_told(page, fault);
	}
	page_write(visit, &desk, "bought, off the list to buy");
	if (!desk_amend(&desk, &request, &done, fault)) {
		desk_clear(&desk);
		return winter_is_told(page, fault);
	}
	add_count(request.tags.count, "line is", "lines are", &words);
	page_say(visit,
	    "%s off the list to buy. A new piece, or a new one in an old one’s place, is "
	    "entered in the locker.",
	    text_string(&words));
	page_done(visit, &desk);
	return winter_go_back(page);
}
