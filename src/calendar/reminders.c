#include "calendar/reminders.h"

#include "calendar/choices.h"
#include "calendar/making.h"

#include <stdlib.h>
#include <string.h>

/* Days of notice before the first line's last day, where a person chose none. */
enum { NOTICE_DAYS = 28 };

/* The day for the reminder of some lines, as reminders.h has it. */
static day_t
day_for_lines(const struct making *making, const struct shore_lines *lines)
{
	const struct shore_list *list = making->list;
	day_t fitting_out = list->has_winter ? list->winter.fitting_out : DAY_NEVER;
	day_t last = day_min(fitting_out, making_last_day(lines));
	day_t earliest = list->has_winter ? list->winter.lay_up : making->today;
	day_t ripe = DAY_NONE;
	day_t told = DAY_NEVER;
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		day_t own = line->not_after != DAY_NONE ? line->not_after : fitting_out;
		if (own != DAY_NEVER) {
			told =
			    day_min(told, own - making_notice(making, line, NOTICE_DAYS));
		}
		if (line->not_before != DAY_NEVER) {
			ripe = day_max(ripe, line->not_before);
		}
	}
	if (told == DAY_NEVER) {
		return making->today;
	}
	day_t day = day_max(told, earliest);
	return ripe != DAY_NONE && ripe <= last ? day_max(day, ripe) : day;
}

/* The chosen day of the week on or after a day, where that is not too late. */
static day_t
day_for_oneself(const struct making *making, day_t day, day_t last)
{
	day_t weekend =
	    choices_weekday_from(making->source->choices, day_max(day, making->today));
	return weekend <= last ? weekend : day;
}

static bool
add_self(struct making *making, struct fault *fault)
{
	const struct shore_lines *lines = &making->list->self;
	if (lines->count == 0) {
		return true;
	}
	making_start(making);
	making_key_start(making, "self");
	text_add(&making->summary, "Check ");
	wording_items(wording_count(&making->wording, lines), &making->summary);
	text_add_format(&making->summary, " yourself (%s)", making_vessel(making));
	wording_list(&making->wording, lines, &making->description);
	day_t last = making_last_day(lines);
	day_t ready = making->list->has_winter ? making->list->winter.fitting_out : last;
	day_t day = day_for_lines(making, lines);
	return making_finish_on(making,
		   day_for_oneself(making, day, day_min(last, ready)), last, fault) &&
	       todos_add(making, lines, making_last_key(making), DAY_NONE, fault);
}

/* What is bought takes the place of what is got rid of, so both are one reminder. */
static bool
add_buy(struct making *making, struct fault *fault)
{
	const struct shore_lines *buy = &making->list->buy;
	const struct shore_lines *dispose = &making->list->dispose;
	struct text *description = &making->description;
	if (buy->count == 0 && dispose->count == 0) {
		return true;
	}
	making_start(making);
	making_key_start(making, "buy");
	text_add(&making->summary, buy->count > 0 ? "Buy or renew " : "Dispose of ");
	wording_items(wording_count(&making->wording, buy->count > 0 ? buy : dispose),
	    &making->summary);
	text_add_format(&making->summary, " (%s)", making_vessel(making));
	wording_list(&making->wording, buy, description);
	wording_carry(&making->wording, buy, description);
	if (dispose->count > 0) {
		text_add(description, "To be disposed of:\n");
		wording_list(&making->wording, dispose, description);
		wording_dispose(&making->wording, dispose, description);
	}
	const struct shore_lines *lines = buy->count > 0 ? buy : dispose;
	return making_finish_on(
		   making, day_for_lines(making, lines), making_last_day(lines), fault) &&
	       todos_add(making, buy, making_last_key(making), DAY_NONE, fault);
}

static bool
add_paperwork(struct making *making, struct fault *fault)
{
	const struct shore_lines *lines = &making->list->paperwork;
	if (lines->count == 0) {
		return true;
	}
	making_start(making);
	making_key_start(making, "paperwork");
	text_add(&making->summary, "Registration and papers for ");
	wording_items(wording_count(&making->wording, lines), &making->summary);
	text_add_format(&making->summary, " (%s)", making_vessel(making));
	wording_list(&making->wording, lines, &making->description);
	return making_finish_on(
		   making, day_for_lines(making, lines), making_last_day(lines), fault) &&
	       todos_add(making, lines, making_last_key(making), DAY_NONE, fault);
}

static bool
add_list(struct making *making, const struct shore_list *list, struct fault *fault)
{
	making->list = list;
	if (trips_add(making, fault) && fetches_add(making, fault) &&
	    add_self(making, fault) && add_buy(making, fault) &&
	    add_paperwork(making, fault) && cannot_add(making, fault) &&
	    now_add(making, fault) && singles_add(making, fault) &&
	    routines_add(making, fault)) {
		return true;
	}
	return fault_prefix(
	    fault, "making the reminders of %.200s", making_vessel(making));
}

/* The day for a vessel that falls short: when she is laid up then, the day she must be ready. */
static day_t
day_of_fall(const struct making *making, const struct fall *fall)
{
	const struct vessel *vessel = &making->wording.inventory->vessels[fall->vessel];
	struct winter winter;
	day_t day = fall->day == DAY_NONE ? making->today : fall->day;
	if (winter_before(vessel, day, &winter) && day <= winter.fitting_out) {
		return winter.fitting_out;
	}
	return fall->day;
}

static bool
add_fall(struct making *making, const struct fall *fall, struct fault *fault)
{
	const struct shore_list list = {.vessel = fall->vessel};
	char day[DAY_WORDS_SIZE];
	making->list = &list;
	making_start(making);
	text_add(&making->key, "short");
	making_key_name(making, making_vessel(making));
	text_add_format(&making->summary, "%s %s%s: ", making_vessel(making),
	    fall->day == DAY_NONE ? "is short today" : "falls short on ",
	    day_words(fall->day, day));
	wording_short(
	    fall->lines, fall->line_count, &making->summary, &making->description);
	return making_finish_on(making, day_of_fall(making, fall), DAY_NEVER, fault);
}

static int
compare_by_key(const void *a, const void *b)
{
	const struct reminder *left = a;
	const struct reminder *right = b;
	int order = strcmp(left->key, right->key);
	return order != 0 ? order : (left->day > right->day) - (left->day < right->day);
}

static int
compare_by_day(const void *a, const void *b)
{
	const struct reminder *left = a;
	const struct reminder *right = b;
	int order = (left->day > right->day) - (left->day < right->day);
	return order != 0 ? order : strcmp(left->key, right->key);
}

/* Keeps the earliest of each key: what can't wait is in every winter's list. */
static void
sort_and_drop_repeats(struct reminders *made)
{
	if (made->count == 0) {
		return;
	}
	qsort(made->items, made->count, sizeof *made->items, compare_by_key);
	size_t kept = 1;
	for (size_t i = 1; i < made->count; i++) {
		if (strcmp(made->items[i].key, made->items[kept - 1].key) != 0) {
			made->items[kept++] = made->items[i];
		}
	}
	made->count = kept;
	qsort(made->items, made->count, sizeof *made->items, compare_by_day);
}

bool
reminders_make(const struct reminder_source *source, const struct shore_list *lists,
    size_t count, struct arena *arena, struct reminders *out, struct fault *fault)
{
	__attribute__((cleanup(making_clear))) struct making making = {.source = source,
	    .wording = {source->kinds, source->inventory, source->currency},
	    .lists = lists,
	    .list_count = count,
	    .today = source->today,
	    .arena = arena};
	for (size_t i = 0; i < count; i++) {
		if (!add_list(&making, &lists[i], fault)) {
			return false;
		}
	}
	for (size_t i = 0; i < source->fall_count; i++) {
		if (!add_fall(&making, &source->falls[i], fault)) {
			return false;
		}
	}
	sort_and_drop_repeats(&making.made);
	*out = making.made;
	return true;
}
