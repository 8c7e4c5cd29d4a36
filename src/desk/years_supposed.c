/* What is supposed of the coming years in place of what the book has. */
#include "desk/inside.h"

#include <string.h>

static bool
find_prices(struct planning_years *years, struct fault *fault)
{
	const struct kinds *kinds = years->desk->engine.kinds;
	size_t count = years->asked->price_count;
	years->prices =
	    arena_alloc(&years->desk->arena, (count + 1) * sizeof *years->prices);
	for (size_t i = 0; i < count; i++) {
		const char *words = years->asked->prices[i].kind;
		const struct kind *kind = kinds_find(kinds, words);
		if (kind == NULL) {
			return kinds_tell(kinds, words, fault) != NULL
				   ? fault_set(fault, FAULT_INPUT,
					 FIELD
					 "price: expected a kind's id, found \"%.60s\"",
					 words)
				   : fault_prefix(fault, FIELD "price");
		}
		years->prices[i] = years->asked->prices[i];
		years->prices[i].kind = kind->id;
	}
	return true;
}

static bool
find_shunned(struct planning_years *years, struct fault *fault)
{
	const struct book_contents *contents = &years->desk->contents;
	const struct word_list *names = &years->asked->without_stations;
	years->shunned = arena_alloc(&years->desk->arena, contents->station_count + 1);
	for (size_t i = 0; i < names->count; i++) {
		const struct station *station = station_named(
		    contents->stations, contents->station_count, names->items[i]);
		if (station == NULL) {
			return fault_set(fault, FAULT_INPUT,
			    FIELD
			    "without-station: there is no station \"%.80s\" in the book; "
			    "\"becket station\" shows them all",
			    names->items[i]);
		}
		years->shunned[station - contents->stations] = true;
	}
	return true;
}

static bool
find_renewed(struct planning_years *years, struct fault *fault)
{
	const char *tag = years->asked->renew_now;
	const struct inventory *inventory = &years->desk->contents.inventory;
	years->renew_now = NO_ITEM;
	if (tag == NULL) {
		return true;
	}
	/* it may be another boat's, and is in the book just so */
	if (years->some && inventory_tagged(inventory, tag) == ITEM_NO_PARENT) {
		return true;
	}
	if (!desk_find_tag(years->desk, tag, &years->renew_now, fault)) {
		return fault_prefix(fault, FIELD "renew-now");
	}
	return inventory->items[years->renew_now].state != PLACE_WITHDRAWN ||
	       fault_set(fault, FAULT_INPUT, FIELD "renew-now: %s is withdrawn", tag);
}

/* The engine as the book has it, or with the use that is supposed. */
static void
suppose_use(struct planning_years *years)
{
	struct desk *desk = years->desk;
	const struct inventory *inventory = &desk->contents.inventory;
	years->engine = desk->engine;
	if (years->asked->use == NULL) {
		return;
	}
	struct vessel *vessels =
	    arena_alloc(&desk->arena, (inventory->vessel_count + 1) * sizeof *vessels);
	struct inventory *changed = arena_alloc(&desk->arena, sizeof *changed);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		vessel_suppose(
		    &inventory->vessels[i], years->asked->use, &desk->arena, &vessels[i]);
	}
	*changed = *inventory;
	changed->vessels = vessels;
	years->engine.inventory = changed;
}

bool
years_suppose(struct planning_years *years, struct fault *fault)
{
	suppose_use(years);
	return find_renewed(years, fault) && find_prices(years, fault) &&
	       find_shunned(years, fault);
}
