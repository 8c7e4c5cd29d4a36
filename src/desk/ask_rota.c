#include "desk/inside.h"
#include "desk/plans.h"

#include <string.h>

enum { MONTHS = 12, MOST_YEARS = 10 };

static bool
settle_days(const struct desk *desk, const struct rota_asked *asked, struct span *out,
    struct fault *fault)
{
	struct span days = {asked->from, asked->to};
	if (days.first < desk->today) {
		return fault_set(fault, FAULT_USAGE,
		    "found a " FIELD
		    "from before today; expected a day on which gear can "
		    "still be handed in");
	}
	if (days.last == DAY_NONE) {
		days.last = day_add_months(days.first, MONTHS) - 1;
	}
	*out = days;
	return (days.last >= days.first &&
		   days.last <= day_add_months(days.first, MOST_YEARS * MONTHS)) ||
	       fault_set(fault, FAULT_USAGE,
		   "found a " FIELD "to that is %s; expected a day from " FIELD
		   "from to ten years on",
		   days.last < days.first ? "before " FIELD "from" : "too far off");
}

/* The ids of what is asked for: kinds, and groups of them. */
static bool
find_kinds(struct desk *desk, const struct word_list *words, struct word_list *out,
    struct fault *fault)
{
	for (size_t i = 0; i < words->count; i++) {
		if (!desk_kinds_meant(desk, words->items[i], out, fault)) {
			return fault_prefix(fault, FIELD "kind");
		}
	}
	return true;
}

static bool
is_named(const struct word_list *boats, const char *name)
{
	bool named = boats->count == 0;
	for (size_t i = 0; i < boats->count && !named; i++) {
		named = strcmp(boats->items[i], name) == 0;
	}
	return named;
}

/* A boat named that has a winter, or is none, must not be left out without a word. */
static bool
check_named(struct desk *desk, const struct word_list *boats, struct fault *fault)
{
	for (size_t i = 0; i < boats->count; i++) {
		const char *name = boats->items[i];
		size_t at = 0;
		if (!desk_find_vessel(desk, name, &at, fault)) {
			return false;
		}
		const struct vessel *vessel = &desk->contents.inventory.vessels[at];
		if (vessel->store || vessel->laid_up) {
			return fault_set(fault, FAULT_INPUT,
			    vessel->store
				? FIELD "vessel: \"%.60s\" is a store; a rota is of boats"
				: FIELD "vessel: %.60s is laid up every winter; see "
					"\"becket winter\", or enter " FIELD
					"lay-up none",
			    name);
		}
	}
	return true;
}

static bool
find_vessels(struct desk *desk, const struct rota_asked *asked, struct rota_ask *ask,
    struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t *vessels =
	    arena_alloc(&desk->arena, (inventory->vessel_count + 1) * sizeof *vessels);
	bool found = asked->base == NULL;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		bool here = asked->base == NULL || strcmp(vessel->base, asked->base) == 0;
		found = found || here;
		if (here && !vessel->store && !vessel->laid_up &&
		    vessel_is_here(vessel, ask->days.first) &&
		    is_named(asked->boats, vessel->name)) {
			vessels[ask->vessel_count++] = i;
		}
	}
	ask->vessels = vessels;
	if (!found) {
		return fault_set(fault, FAULT_INPUT,
		    FIELD
		    "base: found \"%.60s\", expected the base of a vessel in the book",
		    asked->base);
	}
	return check_named(desk, asked->boats, fault);
}

/* Loads the boats that are in use all year at some time, and those asked about, with their bases: a
 * boat's spares are in another's name, and what is given out is of all boats that share a hand-in.
 * Where these are most boats, or a station has a weekly limit, that is all of the book. */
static bool
load_unwintered(struct desk *desk, const struct rota_asked *asked, struct fault *fault)
{
	struct word_list names = {0};
	struct word_list boats = {0};
	if (!desk_book(desk, fault) ||
	    !book_names(desk->book, BOOK_UNWINTERED, &desk->arena, &names, fault) ||
	    !book_names(desk->book, BOOK_BOATS, &desk->arena, &boats, fault)) {
		return false;
	}
	bool most = 2 * names.count >= boats.count;
	names.capacity = names.count;
	for (size_t i = 0; i < asked->boats->count; i++) {
		ARENA_ADD(&desk->arena, &names, asked->boats->items[i]);
	}
	/* a rota of no boats is another answer than that of an empty book */
	if (names.count == 0 && boats.count > 0) {
		ARENA_ADD(&desk->arena, &names, boats.items[0]);
	}
	const struct book_part part = {.vessels = names.items,
	    .vessel_count = names.count,
	    .base = asked->base,
	    .reach = REACH_BASES};
	return ask_planned(desk, most ? NULL : &part, LEFT_NONE, fault) &&
	       desk_engine(desk, NULL, fault);
}

bool
desk_rota(struct desk *desk, const struct rota_asked *asked, struct rota_answer *out,
    struct fault *fault)
{
	struct settled_hand_in *settled = NULL;
	struct word_list kinds = {0};
	struct rota_ask *ask = &out->ask;
	*out = (struct rota_answer){.ask = {.engine = &desk->engine,
					.today = desk->today,
					.stand_ins = asked->stand_ins,
					.most_away = asked->most_away,
					.together_days = asked->together_days,
					.most_looks = SLOT_LOOKS}};
	struct shore_list *lists = NULL;
	size_t count = 0;
	if (!settle_days(desk, asked, &ask->days, fault) ||
	    !load_unwintered(desk, asked, fault)) {
		return false;
	}
	/* what was given out stands as the shore lists have it */
	if (!settling_load(desk, &settled, &ask->settled_count, fault) ||
	    (ask->settled_count > 0 &&
		!plans_make(desk, &(struct plans_wish){0}, &lists, &count, fault))) {
		return false;
	}
	settling_as_listed(desk, lists, count, settled, ask->settled_count);
	desk_see_day(desk, ask->days.first);
	if (!find_kinds(desk, &asked->kinds, &kinds, fault) ||
	    !find_vessels(desk, asked, ask, fault)) {
		return false;
	}
	ask->kinds = kinds.items;
	ask->kind_count = kinds.count;
	ask->settled = settled;
	ask->stations = desk->contents.stations;
	ask->station_count = desk->contents.station_count;
	out->view = (struct rota_view){&desk->contents.inventory, desk->contents.stations,
	    desk->engine.kinds, &out->rota};
	rota_make(ask, &desk->arena, &out->rota);
	return true;
}
