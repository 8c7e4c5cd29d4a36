/* One reminder of all that is not in date aboard a vessel, and the day she falls short. */
#include "calendar/reminders_inside.h"

/* True when she is laid up on a day: her winter's list carries what is not in date then. */
static bool
is_laid_up(const struct vessel *vessel, day_t day)
{
	return day_in_season(vessel, day) != day;
}

/* A line for what is not in date on a day. */
static struct shore_line
line_of(const struct obligation *obligation)
{
	struct shore_line line = shore_line_plain(obligation->item, obligation->task);
	line.state = obligation->state;
	line.due = obligation->due;
	line.grade = obligation->grade;
	return line;
}

/* Adds what is not in date on a day of one item. */
static void
add_item(struct making *making, size_t index, day_t day, struct arena *scratch,
    struct shore_lines *out)
{
	const struct item *item = &making->wording.inventory->items[index];
	struct obligation *obligations = NULL;
	size_t count = 0;
	if (item->state == PLACE_RESERVE || item->state == PLACE_LANDED) {
		return;
	}
	due_of_item(making->source->engine, index, day, scratch, &obligations, &count);
	for (size_t i = 0; i < count; i++) {
		if (obligations[i].routine || obligations[i].state == STATE_IN_DATE ||
		    obligations[i].good_through == DAY_NEVER) {
			continue;
		}
		ARENA_ADD(making->arena, out, line_of(&obligations[i]));
	}
}

/* All that is not in date aboard the vessel at hand on a day. */
static void
lines_on(struct making *making, day_t day, struct shore_lines *out)
{
	SCOPED_ARENA scratch = {0};
	size_t count = 0;
	size_t first =
	    inventory_aboard(making->wording.inventory, making->list->vessel, &count);
	*out = (struct shore_lines){0};
	for (size_t i = first; i < first + count; i++) {
		add_item(making, i, day, &scratch, out);
		arena_reset(&scratch);
	}
}

void
not_in_date_add(struct making *making)
{
	const struct vessel *vessel =
	    &making->wording.inventory->vessels[making->list->vessel];
	struct shore_lines lines = {0};
	if (making->source->engine == NULL) {
		return;
	}
	lines_on(making, making->today, &lines);
	if (lines.count == 0) {
		return;
	}
	making_start(making);
	text_add(&making->key, "not-in-date");
	making_key_name(making, making_vessel(making));
	making_aim(making, DAY_NONE, DAY_NEVER);
	if (is_laid_up(vessel, making->day)) {
		return;
	}
	lines_on(making, making->day, &lines);
	text_add(&making->summary, "Not in date: ");
	wording_things(&making->wording, &lines, &making->summary);
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	wording_list(&making->wording, &lines, &making->description);
	if (lines.count != 0) {
		making_finish_here(making);
	}
}

/* ---- short ---- */

/* The day for a vessel that falls short: when she is laid up then, the day she must be ready. */
static day_t
day_of_shortfall(const struct making *making, const struct shortfall *shortfall)
{
	const struct vessel *vessel =
	    &making->wording.inventory->vessels[shortfall->vessel];
	day_t day = shortfall->day == DAY_NONE ? making->today : shortfall->day;
	day_t told = day_in_season(vessel, day);
	return told == day ? shortfall->day : told - 1;
}

static void
muster_on(const struct making *making, const struct vessel *vessel, size_t index,
    day_t day, struct muster *out)
{
	day_t told = day_in_season(vessel, day);
	muster_vessel(
	    making->source->engine, index, (struct span){told, told}, making->arena, out);
}

/* Keeps the day it was given out for while she is short on that, and no earlier day is known. */
static void
find_day(struct making *making, const struct shortfall *shortfall, struct muster *out)
{
	const struct vessel *vessel =
	    &making->wording.inventory->vessels[shortfall->vessel];
	const struct book_reminder *stored = making_stored(making);
	day_t aim = day_of_shortfall(making, shortfall);
	if (making->source->engine == NULL) {
		out->ok = true;
		making_aim(making, aim, DAY_NEVER);
		return;
	}
	/* Short already: what was given out for a later day comes too late. */
	bool late = stored != NULL && aim == DAY_NONE && stored->aim > making->today;
	if (stored != NULL && stored->day >= making->today && !late &&
	    (aim == DAY_NONE || aim >= stored->day)) {
		muster_on(making, vessel, shortfall->vessel, stored->day, out);
		aim = shortfall_is_told(out) ? stored->aim : aim;
	}
	making_aim(making, aim, DAY_NEVER);
	muster_on(making, vessel, shortfall->vessel, making->day, out);
}

void
shortfall_add(struct making *making, const struct shortfall *shortfall)
{
	const struct shore_list list = {.vessel = shortfall->vessel};
	struct muster muster = {0};
	making->list = &list;
	making_start(making);
	text_add(&making->key, "short");
	making_key_name(making, making_vessel(making));
	find_day(making, shortfall, &muster);
	bool own = shortfall_is_told(&muster);
	text_add(&making->summary, "Short of ");
	wording_short(own ? muster.lines : shortfall->lines,
	    own ? muster.line_count : shortfall->line_count, &making->summary,
	    &making->description);
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	making_finish_here(making);
}
