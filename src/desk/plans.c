#include "desk/plans.h"

#include "desk/inside.h"
#include "desk/stores.h"

#include <string.h>

bool
plans_want(const struct plans_wish *wish, const struct vessel *vessel)
{
	return (wish->vessel == NULL || strcmp(vessel->name, wish->vessel) == 0) &&
	       (wish->boats == NULL ||
		   (vessel->base[0] == '\0' && words_have(wish->boats->items,
						   wish->boats->count, vessel->name))) &&
	       (wish->base == NULL || strcmp(vessel->base, wish->base) == 0);
}

/* True for a vessel that has left, with nothing of hers at a station. */
static bool
is_gone(const struct desk *desk, size_t vessel)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t count = 0;
	(void)inventory_aboard(inventory, vessel, &count);
	return count == 0 && !vessel_is_here(&inventory->vessels[vessel], desk->today);
}

static bool
check_wish(const struct desk *desk, const struct plans_wish *wish, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	bool found = wish->boats != NULL || wish->offered ||
		     (inventory->vessel_count == 0 && wish->vessel == NULL);
	for (size_t i = 0; i < inventory->vessel_count && !found; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		found = plans_want(wish, vessel);
		if (found && wish->vessel != NULL && is_gone(desk, i)) {
			return left_check(desk, vessel, fault);
		}
	}
	if (found) {
		return true;
	}
	if (wish->vessel == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    FIELD
		    "base: found \"%.60s\", expected the base of a vessel in the book",
		    wish->base);
	}
	return fault_set(fault, FAULT_INPUT,
	    "there is no vessel \"%.80s\"%s%.60s in the book", wish->vessel,
	    wish->base == NULL ? "" : " at ", wish->base == NULL ? "" : wish->base);
}

/* Marks the stations that are not to be used. */
static bool
leave_stations_out(struct desk *desk, const struct plans_wish *wish,
    const struct station **out, struct fault *fault)
{
	size_t count = desk->contents.station_count;
	const char *name =
	    wish->without_station != NULL ? wish->without_station : wish->only_station;
	struct station *stations =
	    arena_alloc(&desk->arena, (count + 1) * sizeof *stations);
	bool found = name == NULL;
	for (size_t i = 0; i < count; i++) {
		stations[i] = desk->contents.stations[i];
		bool named = name != NULL && strcmp(stations[i].name, name) == 0;
		stations[i].left_out =
		    name != NULL && named == (wish->without_station != NULL);
		found = found || named;
	}
	*out = stations;
	return found || fault_set(fault, FAULT_INPUT,
			    "there is no station \"%.80s\" in the book", name);
}

bool
plans_are_one(const struct desk *desk)
{
	for (size_t i = 0; i < desk->contents.station_count; i++) {
		if (desk->contents.stations[i].weekly_pieces > 0) {
			return true;
		}
	}
	return false;
}

/* True when the vessel is to be planned with those wished for. */
static bool
goes_along(const struct inventory *inventory, const struct plans_wish *wish,
    const struct vessel *vessel)
{
	if (plans_want(wish, vessel)) {
		return true;
	}
	for (size_t i = 0; i < inventory->vessel_count && vessel->base[0] != '\0'; i++) {
		const struct vessel *other = &inventory->vessels[i];
		if (strcmp(other->base, vessel->base) == 0 && plans_want(wish, other)) {
			return true;
		}
	}
	return false;
}

/* Plans the vessels wished for and those that go along; keeps the lists of the first. */
static bool
plan(struct desk *desk, const struct plans_wish *wish, struct shore_list *lists,
    size_t *count_out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct winter_request request = {
	    .engine = &desk->engine,
	    .station_count = desk->contents.station_count,
	    .year = wish->year,
	    .today = desk->today,
	    .lead_days = LEAD_DAYS,
	    .most_trips = wish->most_trips,
	};
	size_t *vessels =
	    arena_alloc(&desk->arena, (inventory->vessel_count + 1) * sizeof *vessels);
	bool all = plans_are_one(desk);
	size_t count = 0;
	struct settled_hand_in *settled = NULL;
	if (!leave_stations_out(desk, wish, &request.stations, fault) ||
	    !settling_load_theirs(
		desk, wish->choices, &settled, &request.settled_count, fault)) {
		return false;
	}
	request.settled = settled;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (!is_gone(desk, i) &&
		    (all || goes_along(inventory, wish, &inventory->vessels[i]))) {
			vessels[count++] = i;
		}
	}
	winter_plan_fleet(&request, vessels, count, &desk->arena, lists);
	size_t kept = 0;
	for (size_t i = 0; i < count; i++) {
		if (plans_want(wish, &inventory->vessels[vessels[i]])) {
			lists[kept++] = lists[i];
		}
	}
	*count_out = kept;
	return true;
}

bool
plans_make(struct desk *desk, const struct plans_wish *wish,
    struct shore_list **lists_out, size_t *count_out, struct fault *fault)
{
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	desk_see_winter(desk, wish->year);
	if (!check_wish(desk, wish, fault)) {
		return false;
	}
	struct shore_list *lists = arena_alloc(
	    &desk->arena, (desk->contents.inventory.vessel_count + 1) * sizeof *lists);
	size_t count = 0;
	if (!plan(desk, wish, lists, &count, fault)) {
		return false;
	}
	*lists_out = lists;
	*count_out = count;
	return true;
}
