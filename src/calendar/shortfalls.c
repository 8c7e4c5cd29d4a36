/* When vessels fall short of what they must carry. */
#include "calendar/reminders.h"
#include "winter/winter.h"

day_t
day_in_season(const struct vessel *vessel, day_t day)
{
	struct winter winter;
	bool laid_up = winter_before(vessel, day, &winter) && day <= winter.fitting_out;
	return laid_up ? winter.fitting_out + 1 : day;
}

static void
muster_day(const struct due_engine *engine, size_t vessel, day_t day, struct arena *arena,
    struct muster *out)
{
	muster_vessel(engine, vessel, (struct span){day, day}, arena, out);
}

bool
shortfall_is_told(const struct muster *muster)
{
	return !muster->ok && muster->line_count > 0;
}

/* The next day on which her muster may be another; DAY_NEVER when there is none. Which lines
 * hold goes by what holds of her, from a day on. */
static day_t
next_look(const struct vessel *vessel, const struct muster *muster, day_t day)
{
	if (muster->ok) {
		return muster->good_through == DAY_NEVER ? DAY_NEVER
							 : muster->good_through + 1;
	}
	day_t next = DAY_NEVER;
	for (size_t i = 0; i < vessel->period_count; i++) {
		day_t from = vessel->periods[i].from;
		next = from > day ? day_min(next, from) : next;
	}
	return next == DAY_NEVER ? DAY_NEVER : day_in_season(vessel, next);
}

/* Finds her next shortfall; `*found_out` is false when there is none. While no line holds there is
 * nothing to be short of, and the days go on. */
static void
find_shortfall(const struct due_engine *engine, size_t index, day_t today,
    struct arena *arena, struct shortfall *out, bool *found_out)
{
	const struct vessel *vessel = &engine->inventory->vessels[index];
	day_t day = day_in_season(vessel, today);
	struct muster muster;
	*found_out = false;
	muster_day(engine, index, day, arena, &muster);
	if (!muster.has_lines) {
		return;
	}
	while (!shortfall_is_told(&muster)) {
		day = next_look(vessel, &muster, day);
		if (day == DAY_NEVER) {
			return;
		}
		muster_day(engine, index, day, arena, &muster);
	}
	*out = (struct shortfall){.vessel = index,
	    .day = day == today ? DAY_NONE : day,
	    .lines = muster.lines,
	    .line_count = muster.line_count};
	*found_out = true;
}

void
shortfalls_find(const struct due_engine *engine, day_t today, struct arena *arena,
    const struct shortfall **shortfalls_out, size_t *count_out)
{
	const struct inventory *inventory = engine->inventory;
	struct shortfall *shortfalls =
	    arena_alloc(arena, (inventory->vessel_count + 1) * sizeof *shortfalls);
	size_t count = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		bool found = false;
		const struct vessel *vessel = &inventory->vessels[i];
		if (vessel->store || !vessel_is_here(vessel, today)) {
			continue;
		}
		find_shortfall(engine, i, today, arena, &shortfalls[count], &found);
		count += found ? 1 : 0;
	}
	*shortfalls_out = shortfalls;
	*count_out = count;
}
