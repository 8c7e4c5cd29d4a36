#include "calendar/reminders.h"

#include "base/numbers.h"
#include "calendar/reminders_inside.h"

#include <stdlib.h>
#include <string.h>

static int
compare_keys(const void *left, const void *right)
{
	const struct reminder *const *a = left;
	const struct reminder *const *b = right;
	return strcmp((*a)->key, (*b)->key);
}

const struct reminder **
reminders_by_key(const struct reminders *reminders, struct arena *arena)
{
	const struct reminder **sorted =
	    ARENA_MANY(arena, const struct reminder *, reminders->count);
	for (size_t i = 0; i < reminders->count; i++) {
		sorted[i] = &reminders->items[i];
	}
	array_sort(sorted, reminders->count, sizeof(struct reminder *), compare_keys);
	return sorted;
}

/* The day for the reminder of some lines, as reminders.h has it. */
static day_t
day_for_lines(const struct making *making, const struct shore_lines *lines)
{
	const struct shore_list *list = making->list;
	day_t fitting_out = list->has_winter ? list->winter.fitting_out : DAY_NEVER;
	day_t last = day_min(fitting_out, making_last_day(lines));
	day_t earliest = list->has_winter ? list->winter.lay_up : DAY_NONE;
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
		return DAY_NONE;
	}
	day_t day = day_max(told, earliest);
	return ripe != DAY_NONE && ripe <= last ? day_max(day, ripe) : day;
}

/* The last day on which it is of use to be told of some lines of this winter. */
static day_t
last_of(const struct making *making, const struct shore_lines *lines)
{
	const struct shore_list *list = making->list;
	return day_min(making_last_day(lines),
	    list->has_winter ? list->winter.fitting_out : DAY_NEVER);
}

/* The chosen day of the week on or after a day, where that is not too late. */
static day_t
day_for_oneself(const struct making *making, day_t day, day_t last)
{
	day_t weekend = day == DAY_NONE
			    ? DAY_NONE
			    : choices_weekday_from(making->source->choices, day);
	return weekend <= last ? weekend : day;
}

static void
add_self(struct making *making, const struct share *share)
{
	const struct shore_lines *lines = &share->lines;
	if (lines->count == 0) {
		return;
	}
	day_t last = making_last_day(lines);
	day_t ready = making->list->has_winter ? making->list->winter.fitting_out : last;
	making_start(making);
	making_key_share(making, "self", share);
	making_aim(making,
	    day_for_oneself(making, day_for_lines(making, lines), day_min(last, ready)),
	    day_min(last, ready));
	text_add(&making->summary, "Check ");
	wording_things(&making->wording, lines, &making->summary);
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	wording_list(&making->wording, lines, &making->description);
	making_note_share(making, share, last);
	making_finish_here(making);
	todos_add(making, lines, making_last_key(making), DAY_NONE);
}

/* What is bought takes the place of what is got rid of, so both are one reminder. */
static void
add_buy(struct making *making, const struct share *share, const struct share *dispose_of)
{
	const struct shore_lines *buy = &share->lines;
	const struct shore_lines *dispose = &dispose_of->lines;
	struct text *description = &making->description;
	if (buy->count == 0 && dispose->count == 0) {
		return;
	}
	const struct shore_lines *lines = buy->count > 0 ? buy : dispose;
	making_start(making);
	making_key_share(making, "buy", buy->count > 0 ? share : dispose_of);
	making_aim(making, day_for_lines(making, lines), last_of(making, lines));
	text_add(&making->summary, buy->count > 0 ? "Buy or renew " : "Dispose of ");
	wording_things(&making->wording, lines, &making->summary);
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	wording_list(&making->wording, buy, description);
	wording_carry(&making->wording, buy, description);
	if (dispose->count > 0) {
		text_add(description, "To be disposed of:\n");
		wording_pieces(&making->wording, dispose, description);
		wording_dispose(&making->wording, dispose, description);
	}
	making_note_share(making, share, making_last_day(lines));
	making_finish_here(making);
	todos_add(making, buy, making_last_key(making), DAY_NONE);
}

static void
add_paperwork(struct making *making, const struct share *share)
{
	const struct shore_lines *lines = &share->lines;
	if (lines->count == 0) {
		return;
	}
	making_start(making);
	making_key_share(making, "paperwork", share);
	making_aim(making, day_for_lines(making, lines), last_of(making, lines));
	text_add(&making->summary, "Papers for ");
	wording_things(&making->wording, lines, &making->summary);
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	wording_list(&making->wording, lines, &making->description);
	making_note_share(making, share, making_last_day(lines));
	making_finish_here(making);
	todos_add(making, lines, making_last_key(making), DAY_NONE);
}

/* What a person does, buys and writes, each one reminder a winter. */
static void
add_own_work(struct making *making)
{
	const struct shore_list *list = making->list;
	struct share self[SHARES];
	struct share buy[SHARES];
	struct share dispose[SHARES];
	struct share paperwork[SHARES];
	making_shares(making, "self", PART_SELF, &list->self, self);
	making_shares(making, "buy", PART_BUY, &list->buy, buy);
	making_shares(making, "buy", PART_NONE, &list->dispose, dispose);
	making_shares(making, "paperwork", PART_PAPERWORK, &list->paperwork, paperwork);
	for (size_t i = 0; i < SHARES; i++) {
		add_self(making, &self[i]);
		add_buy(making, &buy[i], &dispose[i]);
		add_paperwork(making, &paperwork[i]);
	}
}

static void
add_list(struct making *making, const struct shore_list *list)
{
	making->list = list;
	trips_add(making);
	collects_add(making);
	add_own_work(making);
	cannot_add(making);
	not_in_date_add(making);
	now_add(making);
	if (!list->has_winter) {
		waiting_add(making);
	}
	singles_add(making);
	routines_add(making);
}

static int
compare_by_key(const void *a, const void *b)
{
	const struct reminder *left = a;
	const struct reminder *right = b;
	int order = strcmp(left->key, right->key);
	return ORDER_THEN(order, left->day, right->day);
}

static int
compare_by_day(const void *a, const void *b)
{
	const struct reminder *left = a;
	const struct reminder *right = b;
	int order = ORDER(left->day, right->day);
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

void
reminders_make(const struct reminder_source *source, const struct shore_list *lists,
    size_t count, struct arena *arena, struct reminders *out)
{
	__attribute__((cleanup(making_clear))) struct making making = {.source = source,
	    .wording = {source->kinds, source->inventory, source->currency, DAY_NONE,
		source->of_several},
	    .lists = lists,
	    .list_count = count,
	    .today = source->today,
	    .arena = arena};
	making_sort_lists(&making);
	for (size_t i = 0; i < count; i++) {
		add_list(&making, &lists[i]);
	}
	for (size_t i = 0; i < source->shortfall_count; i++) {
		shortfall_add(&making, &source->shortfalls[i]);
	}
	sort_and_drop_repeats(&making.made);
	*out = making.made;
}
