/* When vessels fall short of what they must carry. */
#include "calendar/reminders.h"
#include "winter/winter.h"

/* The first day that counts: today, or the first of the season when she is laid up. */
static day_t
first_day(const struct vessel *vessel, day_t today)
{
	struct winter winter;
	bool laid_up =
	    winter_before(vessel, today, &winter) && today <= winter.fitting_out;
	return laid_up ? winter.fitting_out + 1 : today;
}

static void
muster_day(const struct due_engine *engine, size_t vessel, day_t day, struct arena *arena,
    struct muster *out)
{
	muster_vessel(engine, vessel, (struct span){day, day}, arena, out);
}

/* Finds her next fall; `*found_out` is false when there is none. */
static void
find_fall(const struct due_engine *engine, size_t index, day_t today, struct arena *arena,
    struct fall *out, bool *found_out)
{
	const struct vessel *vessel = &engine->inventory->vessels[index];
	day_t day = first_day(vessel, today);
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
	*out = (struct fall){.vessel = index,
	    .day = day == today ? DAY_NONE : day,
	    .lines = muster.lines,
	    .line_count = muster.line_count};
	*found_out = true;
}

void
falls_find(const struct due_engine *engine, day_t today, struct arena *arena,
    const struct fall **falls_out, size_t *count_out)
{
	const struct inventory *inventory = engine->inventory;
	struct fall *falls =
	    arena_alloc(arena, (inventory->vessel_count + 1) * sizeof *falls);
	size_t count = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		bool found = false;
		const struct vessel *vessel = &inventory->vessels[i];
		if (vessel->store || !vessel_is_here(vessel, today)) {
			continue;
		}
		find_fall(engine, i, today, arena, &falls[count], &found);
		count += found ? 1 : 0;
	}
	*falls_out = falls;
	*count_out = count;
}
