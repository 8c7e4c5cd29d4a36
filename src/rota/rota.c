#include "rota/rota.h"

#include "rota/inside.h"

#include <string.h>

const char *
rota_cover_word(enum rota_cover cover)
{
	static const char *const WORDS[] = {
	    [ROTA_BARE] = "none needed",
	    [ROTA_SPARE] = "spare",
	    [ROTA_HIRED] = "hired",
	    [ROTA_NOT] = "none",
	};
	return WORDS[cover];
}

const char *
rota_fix_word(enum rota_fix_kind fix)
{
	static const char *const WORDS[] = {
	    [FIX_SPARES] = "spares",
	    [FIX_STATION] = "station",
	    [FIX_TURN_ROUND] = "turn-round",
	    [FIX_EARLIER] = "earlier",
	    [FIX_AWAY] = "away",
	    [FIX_WEEKLY] = "weekly",
	    [FIX_START] = "start",
	};
	return WORDS[fix];
}

day_t
rota_fails_on(const struct rota *rota, const struct rota_line *line)
{
	bool in_date = line->state == STATE_IN_DATE;
	day_t last = line->good_through < DAY_NEVER ? line->good_through : line->due;
	if (line->planned && line->cover == ROTA_NOT) {
		return line->hand_in;
	}
	return in_date ? day_max(last + 1, rota->days.first) : rota->days.first;
}

/* Gives all stations the days on which the boats go. */
static void
set_days_they_go(struct rota_making *making)
{
	const struct rota_ask *ask = making->ask;
	const struct vessel **vessels =
	    ARENA_MANY(making->scratch, const struct vessel *, ask->vessel_count);
	for (size_t i = 0; i < ask->vessel_count; i++) {
		vessels[i] = &ask->engine->inventory->vessels[ask->vessels[i]];
	}
	struct their_days days = their_days_of(vessels, ask->vessel_count, making->arena);
	for (size_t i = 0; i < making->station_count; i++) {
		making->stations[i].goes = days.goes;
		making->stations[i].away = days.away;
		making->stations[i].away_count = days.away_count;
	}
}

/* Copies the stations, with the assumed one after them, and the gear, which is to be
 * serviced. */
static void
begin(struct rota_making *making)
{
	const struct rota_ask *ask = making->ask;
	const struct inventory *inventory = ask->engine->inventory;
	making->station_count = ask->station_count + 1;
	making->stations =
	    ARENA_MANY(making->arena, struct station, making->station_count);
	making->items = arena_alloc(
	    making->arena, (inventory->item_count + 1) * sizeof *making->items);
	for (size_t i = 0; i < ask->station_count; i++) {
		making->stations[i] = ask->stations[i];
	}
	making->stations[ask->station_count] = ASSUMED_STATION;
	set_days_they_go(making);
	if (inventory->item_count > 0) {
		memcpy(making->items, inventory->items,
		    inventory->item_count * sizeof *making->items);
	}
	making->apart = *ask->engine;
	making->apart.first_part = NULL;
	making->apart.next_part = NULL;
	making->serviced = *inventory;
	making->serviced.items = making->items;
	making->apart.inventory = &making->serviced;
	making->done = *ask->engine;
	making->done.inventory = &making->serviced;
}

static void
plan_groups(struct rota_making *making, struct rota *rota)
{
	rota->groups = ARENA_MANY(making->arena, struct rota_group, making->pieces.count);
	for (size_t at = 0; at < making->pieces.count;) {
		struct rota_slice slice = rota_slice_at(making, at);
		struct rota_group *group = &rota->groups[rota->group_count++];
		rota_find_needed(making, slice);
		rota_plan_group(making, slice, group);
		rota->holds = rota->holds && group->possible;
		at += slice.count;
	}
}

/* How many more spares would be enough for a group; -1 where no number is. */
static int
spares_that_do(const struct rota_group *group)
{
	for (size_t i = 0; i < group->fix_count; i++) {
		if (group->fixes[i].kind == FIX_SPARES) {
			return group->fixes[i].number;
		}
	}
	return group->possible ? 0 : -1;
}

static int
stand_ins_that_do(const struct rota *rota, int asked)
{
	int most = 0;
	for (size_t i = 0; i < rota->group_count; i++) {
		int more = spares_that_do(&rota->groups[i]);
		if (more < 0) {
			return -1;
		}
		most = GREATER(more, most);
	}
	return most == 0 ? 0 : asked + most;
}

static void
find_holds_through(const struct rota_making *making, struct rota *rota)
{
	rota->holds_through = rota->days.last;
	for (size_t i = 0; i < making->pieces.count; i++) {
		const struct rota_line *line = &making->pieces.items[i].line;
		if (line->planned && line->again != DAY_NONE) {
			rota->holds_through = day_min(rota->holds_through, line->again);
		}
	}
}

void
rota_make(const struct rota_ask *ask, struct arena *arena, struct rota *out)
{
	SCOPED_ARENA scratch = {0};
	struct rota_making making = {.ask = ask, .arena = arena, .scratch = &scratch};
	struct rota rota = {.days = ask->days, .holds = true};
	begin(&making);
	rota_gather(&making);
	plan_groups(&making, &rota);
	rota_muster(&making, &rota);
	rota.stand_ins_that_do = stand_ins_that_do(&rota, ask->stand_ins);
	find_holds_through(&making, &rota);
	*out = rota;
}
