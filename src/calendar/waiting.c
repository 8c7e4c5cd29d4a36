/* Reminders of a boat in use all year, which has no winter for which anything could wait: what
 * lapses, gathered by day, and by station where one has to do it. */
#include "base/numbers.h"
#include "calendar/reminders_inside.h"
#include "life/homecoming.h"

#include <string.h>

/* What the station that has an item was asked to do with it, as a set of tasks. */
static unsigned
asked_of_station_now(const struct making *making, size_t index)
{
	const struct item *item = &making->wording.inventory->items[index];
	return item->state == PLACE_LANDED ? homecoming_asked(item) : 0;
}

static bool
counts(const struct shore_line *of, enum task task)
{
	return (of->counts & 1U << task) != 0;
}

/* The lines of one item that wait, all of one array. */
struct item_waits {
	const struct shore_line *const *items;
	size_t count;
};

/* True when what another line of the item asks for, no later, counts as the work of one;
 * of two that count as each other the first is done. */
static bool
is_counted_by(const struct shore_line *of, const struct shore_line *other)
{
	bool each_other = counts(other, of->task);
	return other != of && other->due <= of->due && counts(of, other->task) &&
	       (!each_other || other < of);
}

/* True when a line that waits does, and does not wait for a third itself. */
static bool
is_counted_waiting(struct item_waits waiting, const struct shore_line *of)
{
	bool is_counted = false;
	for (size_t i = 0; i < waiting.count && !is_counted; i++) {
		is_counted = is_counted_by(of, waiting.items[i]);
		for (size_t k = 0; k < waiting.count && is_counted; k++) {
			is_counted = !is_counted_by(waiting.items[i], waiting.items[k]);
		}
	}
	return is_counted;
}

/* True when a hand-in by the line's due day is for work that counts as its own. */
static bool
is_counted_handed_in(const struct trips *trips, const struct shore_line *of)
{
	bool is_counted = false;
	for (size_t i = 0; i < trips->count; i++) {
		const struct trip *trip = &trips->items[i];
		for (size_t k = 0; k < trip->lines.count && trip->hand_in <= of->due;
		     k++) {
			const struct shore_line *other = &trip->lines.items[k];
			is_counted =
			    is_counted || (other->item == of->item && !other->counted &&
					      counts(of, other->task));
		}
	}
	return is_counted;
}

/* True when a line that waits is to be told of: a station does not have it in hand, and no other
 * work that is told counts as its own. */
static bool
is_told(struct making *making, struct item_waits waiting, const struct shore_line *line)
{
	unsigned asked = asked_of_station_now(making, line->item);
	bool in_hand = (asked & 1U << line->task) != 0 && !line->give_back;
	bool is_counted = (line->counts & asked) != 0 ||
			  is_counted_waiting(waiting, line) ||
			  is_counted_handed_in(&making->list->hand_in, line);
	return !in_hand && (!is_counted || single_is_planned(making, line));
}

static int
compare_items(const void *left, const void *right)
{
	const struct shore_line *const *a = left;
	const struct shore_line *const *b = right;
	return ORDER((*a)->item, (*b)->item);
}

/* A line that is told of, and the day for it. */
struct lapsing {
	struct shore_line
	    line; /* not_after its last hand-in, where it goes to a station */
	day_t day;
	bool
	    past; /* that day is: one for all such, but for those that were given out before */
};

struct lapsing_list {
	struct lapsing *items;
	size_t count;
	size_t capacity;
};

/* By day and station, then as the boat has them. */
static int
compare_lapsing(const void *left, const void *right)
{
	const struct lapsing *a = left;
	const struct lapsing *b = right;
	const struct station *of_a = a->line.station;
	const struct station *of_b = b->line.station;
	int order = ORDER(b->past, a->past);
	order = a->past ? order : ORDER_THEN(order, a->day, b->day);
	order = ORDER_THEN(order, of_a != NULL, of_b != NULL);
	if (order == 0 && of_a != NULL) {
		order = strcmp(of_a->name, of_b->name);
	}
	order = ORDER_THEN(order, a->line.item, b->line.item);
	return ORDER_THEN(order, a->line.task, b->line.task);
}

static bool
go_together(const struct lapsing *a, const struct lapsing *b)
{
	return ((a->past && b->past) || a->day == b->day) &&
	       (a->line.station != NULL) == (b->line.station != NULL) &&
	       (a->line.station == NULL ||
		   strcmp(a->line.station->name, b->line.station->name) == 0);
}

static const struct vessel *
vessel_of(const struct making *making)
{
	return &making->wording.inventory->vessels[making->list->vessel];
}

/* Days for which a station may be closed on end, and is still asked before. */
enum { LONGEST_CLOSED = 400 };

/* The day on which a line is to be told of: for a station's work the notice, 28 days where none
 * was chosen, before the last hand-in that is back in time, or the last hand-in day before that;
 * else the due day less the notice. */
static day_t
told_day(const struct making *making, const struct shore_line *line)
{
	if (line->due == DAY_NONE || line->due == DAY_NEVER) {
		return DAY_NONE;
	}
	if (line->station == NULL) {
		return line->due - making_notice(making, line, 0);
	}
	day_t latest = line->hand_in_by - making_notice(making, line, NOTICE_DAYS);
	day_t day = latest;
	while (!station_open(line->station, day) && day > latest - LONGEST_CLOSED) {
		day--;
	}
	return station_open(line->station, day) ? day : latest;
}

/* Where the day for it is past: a week ahead or more, on a day that serves, or the last of them;
 * where that is past, before it lapses. */
static day_t
day_if_missed(const struct making *making, const struct shore_line *line)
{
	day_t ahead = making->today + LEAD_DAYS;
	day_t day = waits_hand_in_from(vessel_of(making), line, ahead);
	if (day != DAY_NONE) {
		return day;
	}
	day_t last = line->hand_in_by >= making->today ? line->hand_in_by : line->due;
	return last >= making->today ? day_min(ahead, last) : ahead;
}

/* The first to be handed in of some lines, of those that are not too late where there are any: the
 * last chance of these must not go by for the others. */
static const struct shore_line *
first_to_go(const struct shore_lines *lines, day_t today)
{
	const struct shore_line *first = &lines->items[0];
	for (size_t i = 1; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		bool late = line->hand_in_by < today;
		bool first_late = first->hand_in_by < today;
		bool sooner = late != first_late ? first_late
						 : line->hand_in_by < first->hand_in_by;
		first = sooner ? line : first;
	}
	return first;
}

static void
add_hand_in(struct making *making, const struct shore_lines *lines, day_t day)
{
	const struct shore_line *first = first_to_go(lines, making->today);
	const struct station *station = first->station;
	struct text *description = &making->description;
	char collect[DAY_WORDS_SIZE];
	bool planned = single_is_planned(making, &lines->items[0]); /* and its key */
	making_aim_else(making, day, day_if_missed(making, first));
	if (!planned && making->day > first->hand_in_by &&
	    first->hand_in_by >= making->today) {
		/* what joined it since it was given out is to go before that day */
		making_on(making, day_if_missed(making, first));
		making->aim = day;
	}
	text_add(&making->summary, "Hand in ");
	wording_things(&making->wording, lines, &making->summary);
	text_add_format(&making->summary, ", %s",
	    station->name[0] != '\0' ? station->name : "an approved station");
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	if (station_open(station, making->day)) {
		text_add_format(description, "To be collected on %s.\n",
		    day_words(station_collect(station, making->day), collect));
	}
	if (station->name[0] == '\0') {
		wording_assumed(description);
	}
	if (making->day > first->hand_in_by) {
		text_add_format(description,
		    "Too late to be back in date: the last hand-in for that was on %s.\n",
		    day_words(first->hand_in_by, collect));
	}
	wording_list(&making->wording, lines, description);
	wording_carry(&making->wording, lines, description);
	making_finish(making, &(struct made_as){.station = station->name, .about = ""});
}

/* One reminder for those that go together, under the first of them. */
static void
add_together(struct making *making, const struct lapsing *all, size_t count)
{
	struct shore_lines lines = {0};
	for (size_t i = 0; i < count; i++) {
		ARENA_ADD(making->arena, &lines, all[i].line);
	}
	if (all[0].line.station != NULL) {
		add_hand_in(making, &lines, all[0].day);
	} else {
		due_add(making, &lines, "now", all[0].day);
	}
	todos_add(making, &lines, making_last_key(making), DAY_NONE);
}

/* Notes a line where the day for it is within twelve months. */
static void
note(struct making *making, const struct shore_line *line, struct lapsing_list *out)
{
	struct shore_line copy = *line;
	if (making->wording.inventory->items[line->item].state == PLACE_LANDED) {
		copy.station = NULL; /* it is ashore, and can't be handed in */
	}
	struct lapsing lapsing = {copy, told_day(making, &copy), false};
	if (copy.station != NULL) {
		lapsing.line.not_after = copy.hand_in_by;
	}
	lapsing.past = lapsing.day < making->today;
	if (lapsing.day <= day_add_months(making->today, 12)) {
		ARENA_ADD(making->arena, out, lapsing);
	}
}

/* A part that lapses after its whole is due for a station's service is renewed at that one. */
static void
send_parts_along(const struct making *making, struct lapsing_list *list)
{
	const struct item *items = making->wording.inventory->items;
	for (size_t i = 0; i < list->count; i++) {
		struct lapsing *part = &list->items[i];
		size_t whole = items[part->line.item].parent;
		bool may = whole != ITEM_NO_PARENT && part->line.task == TASK_RENEW &&
			   items[part->line.item].state != PLACE_LANDED;
		for (size_t k = 0; k < list->count && may; k++) {
			const struct lapsing *of = &list->items[k];
			if (of->line.item == whole && of->line.task == TASK_SERVICE &&
			    of->line.station != NULL && of->line.due <= part->line.due) {
				part->line.station = of->line.station;
				part->line.hand_in_by = of->line.hand_in_by;
				part->line.not_after = of->line.not_after;
				part->line.with_parent = true;
				part->day = of->day;
				part->past = of->past;
			}
		}
	}
}

/* Gathers what is to be told of within twelve months: the day for it, not the day it lapses, so
 * that what goes together is told of from the same day on. */
static void
gather(struct making *making, struct lapsing_list *out)
{
	const struct shore_lines *waits = &making->list->waits;
	const struct shore_line **lines =
	    ARENA_MANY(making->arena, const struct shore_line *, waits->count);
	for (size_t i = 0; i < waits->count; i++) {
		lines[i] = &waits->items[i];
	}
	array_sort(lines, waits->count, sizeof(struct shore_line *), compare_items);
	struct item_waits of = {.items = lines};
	for (; of.items < lines + waits->count; of.items += of.count) {
		of.count = 1;
		while (of.items + of.count < lines + waits->count &&
		       of.items[of.count]->item == of.items[0]->item) {
			of.count++;
		}
		for (size_t i = 0; i < of.count; i++) {
			if (is_told(making, of, of.items[i])) {
				note(making, of.items[i], out);
			}
		}
	}
	send_parts_along(making, out);
	ARRAY_SORT(out->items, out->count, compare_lapsing);
}

/* True when a line has a reminder of its own, beside others that it would go with. */
static bool
stands_alone(struct making *making, const struct lapsing *lapsing)
{
	bool planned = single_is_planned(making, &lapsing->line);
	return planned || making->source->choices->singles ||
	       (lapsing->past && making_stored(making) != NULL);
}

/* One for the first of those that go together, with all that have none of their own. */
static void
add_run(struct making *making, const struct lapsing *all, size_t count)
{
	struct lapsing *with = ARENA_MANY(making->arena, struct lapsing, count);
	size_t with_count = 0;
	for (size_t i = 0; i < count; i++) {
		if (i > 0 && stands_alone(making, &all[i])) {
			add_together(making, &all[i], 1);
		} else {
			with[with_count++] = all[i];
		}
	}
	add_together(making, with, with_count);
}

void
waiting_add(struct making *making)
{
	struct lapsing_list list = {0};
	gather(making, &list);
	for (size_t i = 0; i < list.count;) {
		size_t end = i + 1;
		while (
		    end < list.count && go_together(&list.items[i], &list.items[end])) {
			end++;
		}
		add_run(making, &list.items[i], end - i);
		i = end;
	}
}
