/* Reminders of one line alone, and of the routine looks. */
#include "calendar/choices.h"
#include "calendar/making.h"

/* What follows the tag and the task in a summary. */
static const char *
words_for_state(enum state state)
{
	switch (state) {
	case STATE_IN_DATE:
		return "due";
	case STATE_OVERDUE:
		return "overdue";
	case STATE_EXPIRED:
		return "now, expired";
	case STATE_LIFE_EXPIRED:
		return "now, past its maximum age";
	case STATE_DATE_UNKNOWN:
		return "date unknown";
	}
	return "";
}

/* A reminder for one line: the first word of its key, what its summary says of the task. */
static bool
add_single(struct making *making, const struct shore_line *line, const char *word,
    const char *words, day_t day, struct fault *fault)
{
	const struct item *item = &making->wording.inventory->items[line->item];
	struct shore_line copy = *line;
	const struct shore_lines alone = {.items = &copy, .count = 1, .capacity = 1};
	making_start(making);
	text_add(&making->key, word);
	making_key_name(making, item->tag);
	text_add_format(&making->key, "|%s", task_word(line->task));
	text_add_format(&making->summary, "%s: %s %s (%s)", item->tag, wording_task(line),
	    words, making_vessel(making));
	wording_list(&making->wording, &alone, &making->description);
	wording_carry(&making->wording, &alone, &making->description);
	return making_finish_on(making, day, making_last_day(&alone), fault);
}

/* The due day less the notice; a day long past where it is overdue or not known. */
static day_t
told_day(const struct making *making, const struct shore_line *line)
{
	bool has_day = line->due != DAY_NEVER && line->due != DAY_NONE;
	return has_day ? line->due - making_notice(making, line, 0) : DAY_NONE;
}

bool
now_add(struct making *making, struct fault *fault)
{
	const struct shore_lines *lines = &making->list->now;
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		const struct shore_lines alone = {&lines->items[i], 1, 1};
		if (!add_single(making, line, "now", words_for_state(line->state),
			told_day(making, line), fault) ||
		    !todos_add(
			making, &alone, making_last_key(making), DAY_NONE, fault)) {
			return false;
		}
	}
	return true;
}

bool
cannot_add(struct making *making, struct fault *fault)
{
	const struct shore_list *list = making->list;
	day_t day = list->has_winter ? list->winter.lay_up : making->today;
	for (size_t i = 0; i < list->cannot.count; i++) {
		if (!add_single(making, &list->cannot.items[i], "cannot",
			"can't be done in time", day, fault)) {
			return false;
		}
	}
	return true;
}

/* One for each line of the parts that are otherwise gathered. */
static bool
add_items(struct making *making, const struct shore_lines *lines, struct fault *fault)
{
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		if (!add_single(making, line, "item", words_for_state(line->state),
			told_day(making, line), fault)) {
			return false;
		}
	}
	return true;
}

bool
singles_add(struct making *making, struct fault *fault)
{
	const struct shore_list *list = making->list;
	if (!making->source->choices->singles) {
		return true;
	}
	for (size_t i = 0; i < list->hand_in.count; i++) {
		if (!add_items(making, &list->hand_in.items[i].lines, fault)) {
			return false;
		}
	}
	return add_items(making, &list->self, fault) &&
	       add_items(making, &list->buy, fault) &&
	       add_items(making, &list->paperwork, fault);
}

bool
routines_add(struct making *making, struct fault *fault)
{
	const struct shore_lines *lines = &making->list->routines;
	if (lines->count == 0 || !making->source->choices->routines) {
		return true;
	}
	day_t day = DAY_NEVER;
	for (size_t i = 0; i < lines->count; i++) {
		day = day_min(day, told_day(making, &lines->items[i]));
	}
	making_start(making);
	text_add(&making->key, "routine");
	making_key_name(making, making_vessel(making));
	text_add(&making->summary, "Routine look at ");
	wording_items(wording_count(&making->wording, lines), &making->summary);
	text_add_format(&making->summary, " (%s)", making_vessel(making));
	wording_list(&making->wording, lines, &making->description);
	return making_finish_on(making, day, DAY_NEVER, fault);
}
