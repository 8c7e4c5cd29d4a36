/* The winters of vessels that share trips. */
#include "gear/going.h"
#include "winter/settled.h"
#include "winter/shore.h"

#include <stdlib.h>
#include <string.h>

/* A vessel with its place in the caller's list. */
struct fleet_member {
	const struct vessel *vessel;
	size_t position;
};

/* What is being planned. */
struct fleet {
	const struct winter_request *request;
	struct fleet_member *members; /* those of one base stand together */
	struct planning *plannings;
	struct sorting *sortings; /* in the order of the members, so, too */
	unsigned char *marks;
	struct station_loads loads;
	struct arena *arena;
	struct arena passing; /* for those who share trips */
	struct arena scratch;
};

static void
fleet_clear(struct fleet *fleet)
{
	free(fleet->loads.items);
	arena_clear(&fleet->passing);
	arena_clear(&fleet->scratch);
}

static int
compare_members(const void *left, const void *right)
{
	const struct fleet_member *a = left;
	const struct fleet_member *b = right;
	return ORDER_THEN(
	    strcmp(a->vessel->base, b->vessel->base), a->position, b->position);
}

/* Prepares the planning of one vessel. */
static void
start(struct fleet *fleet, size_t at, size_t index, struct shore_list *list)
{
	const struct winter_request *request = fleet->request;
	const struct vessel *vessel = fleet->members[at].vessel;
	*list = (struct shore_list){.vessel = index};
	list->has_winter = request->year == 0
			       ? winter_at(vessel, request->today, &list->winter)
			       : winter_of_year(vessel, request->year, &list->winter);
	fleet->plannings[at] = (struct planning){
	    .engine = request->engine,
	    .vessel = vessel,
	    .stations = request->stations,
	    .station_count = request->station_count,
	    .assumed = &ASSUMED_STATION,
	    .today = request->today,
	    .lead_days = request->lead_days,
	    .settled = request->settled,
	    .settled_count = request->settled_count,
	    .most_trips = ERRANDS_ANY,
	    .arena = fleet->arena,
	    .passing = &fleet->passing,
	    .scratch = &fleet->scratch,
	    .list = list,
	};
	fleet->sortings[at] = (struct sorting){
	    .planning = &fleet->plannings[at],
	    .marks = fleet->marks,
	};
}

struct their_days
their_days_of(const struct vessel *const *vessels, size_t count, struct arena *arena)
{
	struct shared_days shared = SHARED_DAYS_NONE;
	struct their_days days = {0};
	size_t room = 0;
	for (size_t i = 0; i < count; i++) {
		shared_days_add(&shared, vessels[i]->goes);
		room += vessels[i]->away_count;
	}
	days.goes = shared_days_of(shared);
	days.away = ARENA_MANY(arena, struct span, room);
	for (size_t i = 0; i < count; i++) {
		for (size_t k = 0; k < vessels[i]->away_count; k++) {
			days.away[days.away_count++] = vessels[i]->away[k];
		}
	}
	return days;
}

/* Counts the hand-ins to come of those who share trips that their stations confirmed. */
static size_t
find_confirmed(const struct fleet *fleet, size_t first, size_t end,
    const struct settled_hand_in **found)
{
	const struct winter_request *request = fleet->request;
	size_t count = 0;
	for (size_t i = 0; i < request->settled_count; i++) {
		const struct settled_hand_in *of = &request->settled[i];
		bool ours = false;
		for (size_t k = first; k < end; k++) {
			ours = ours || settled_is_of(of, fleet->members[k].vessel);
		}
		if (ours && of->confirmed &&
		    settled_is_ahead(&fleet->plannings[first], of)) {
			found[count++] = of;
		}
	}
	return count;
}

/* Gives the stations the days on which those who share trips go: the weekdays that all
 * of them share, or where there are none, those that any of them has; no day on which
 * one of them does not go; and the days that stations confirmed. */
static void
set_days_they_go(struct fleet *fleet, size_t first, size_t end)
{
	const struct winter_request *request = fleet->request;
	size_t station_count = request->station_count;
	const struct vessel **vessels =
	    ARENA_MANY(fleet->arena, const struct vessel *, end - first);
	const struct settled_hand_in **settled = ARENA_MANY(
	    fleet->arena, const struct settled_hand_in *, request->settled_count);
	for (size_t i = first; i < end; i++) {
		vessels[i - first] = fleet->members[i].vessel;
	}
	struct their_days days = their_days_of(vessels, end - first, fleet->arena);
	size_t settled_count = find_confirmed(fleet, first, end, settled);
	if (days.goes == 0 && days.away_count == 0 && settled_count == 0) {
		return;
	}
	struct station *stations =
	    ARENA_MANY(fleet->arena, struct station, station_count);
	for (size_t i = 0; i <= station_count; i++) {
		bool assumed = i == station_count;
		struct span *confirmed =
		    ARENA_MANY(fleet->arena, struct span, settled_count);
		stations[i] = assumed ? ASSUMED_STATION : request->stations[i];
		stations[i].goes = days.goes;
		stations[i].away = days.away;
		stations[i].away_count = days.away_count;
		stations[i].confirmed = confirmed;
		for (size_t k = 0; k < settled_count; k++) {
			if (strcmp(settled[k]->station, stations[i].name) == 0) {
				confirmed[stations[i].confirmed_count++] = (struct span){
				    settled[k]->planned, settled[k]->planned};
			}
		}
	}
	for (size_t i = first; i < end; i++) {
		fleet->plannings[i].stations = stations;
		fleet->plannings[i].assumed = &stations[station_count];
	}
}

/* Sets how many trips those who share them will make at most. */
static void
set_most_trips(struct fleet *fleet, size_t first, size_t end)
{
	int most = fleet->request->most_trips;
	for (size_t i = first; i < end && fleet->request->most_trips == 0; i++) {
		int own = fleet->members[i].vessel->most_trips;
		most = most == 0 || (own != 0 && own < most) ? own : most;
	}
	for (size_t i = first; i < end; i++) {
		fleet->plannings[i].most_trips = most == 0 ? ERRANDS_ANY : (size_t)most;
		fleet->plannings[i].list->most_trips = most;
	}
}

/* Plans the vessels from `first` up to `end`, which share trips. */
static void
plan_together(struct fleet *fleet, size_t first, size_t end)
{
	set_days_they_go(fleet, first, end);
	set_most_trips(fleet, first, end);
	for (size_t i = first; i < end; i++) {
		shore_sort(&fleet->sortings[i]);
	}
	gather_trips(&fleet->sortings[first], end - first, &fleet->loads);
	for (size_t i = first; i < end; i++) {
		shore_finish(&fleet->sortings[i]);
	}
	arena_reset(&fleet->passing);
}

static void
plan(struct fleet *fleet, const size_t *vessels, size_t count, struct shore_list *lists)
{
	const struct inventory *inventory = fleet->request->engine->inventory;
	fleet->members = ARENA_MANY(fleet->arena, struct fleet_member, count);
	fleet->plannings = ARENA_MANY(fleet->arena, struct planning, count);
	fleet->sortings = ARENA_MANY(fleet->arena, struct sorting, count);
	/* Marks are looked up by index in the inventory; in a careless book a parent
	 * may belong to another vessel, so there is a mark for every item. */
	fleet->marks = arena_alloc(fleet->arena, inventory->item_count + 1);
	for (size_t i = 0; i < count; i++) {
		fleet->members[i] =
		    (struct fleet_member){&inventory->vessels[vessels[i]], i};
	}
	qsort(fleet->members, count, sizeof *fleet->members, compare_members);
	for (size_t i = 0; i < count; i++) {
		size_t position = fleet->members[i].position;
		start(fleet, i, vessels[position], &lists[position]);
	}
	for (size_t first = 0; first < count;) {
		size_t end = first + 1;
		const char *base = fleet->members[first].vessel->base;
		while (end < count && base[0] != '\0' &&
		       strcmp(base, fleet->members[end].vessel->base) == 0) {
			end++;
		}
		plan_together(fleet, first, end);
		first = end;
	}
}

void
winter_plan_fleet(const struct winter_request *request, const size_t *vessels,
    size_t count, struct arena *arena, struct shore_list *out)
{
	__attribute__((cleanup(fleet_clear))) struct fleet fleet = {
	    .request = request, .arena = arena};
	struct shore_list *lists = ARENA_MANY(arena, struct shore_list, count);
	plan(&fleet, vessels, count, lists);
	memcpy(out, lists, count * sizeof *lists);
}
