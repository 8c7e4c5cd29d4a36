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

/* Finds her next shortfall; `*found_out` is false when there is none. */
static void
find_shortfall(const struct due_engine *engine, size_t index, day_t today,
    struct arena *arena, struct shortfall *out, bool *found_out)
{
	const struct vessel *vessel = &engine->inventory->vessels[index];
	day_t day = day_in_season(vessel, today);
	struct muster muster;
	*found_out = false;
	muster_day(engine, index, day, arena, &muster);
	if (!muster.has_lines || (muster.ok && muster.good_through == DAY_NEVER)) {
		return;
	}
	if (muster.ok) {
		day = muster.good_through + 1;
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
