#include "desk/inside.h"
#include "years/tips.h"

/* Of more boats the plans of their years are not made beside their lists: each takes some
 * milliseconds. */
enum { BESIDE_YEARS_MOST = 50 };

/* Fills what the cheapest plan of the coming winters has otherwise than a shore list. */
static bool
beside_years(struct desk *desk, struct shore_list *list, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct outlook plan = {0};
	const struct outlook_ask ask =
	    ask_outlook(desk, items_copy(desk), &list->vessel, 1);
	if (!outlook_make(&ask, &desk->arena, &plan, fault)) {
		return false;
	}
	outlook_clashes_find(inventory, &plan, list, &desk->arena, &list->years);
	return true;
}

/* Loads what a list hangs on: the vessels of her bases, which share trips, and all of them where
 * a station takes only so much a week. */
static bool
load_planned(struct desk *desk, const struct plans_wish *asked, struct fault *fault)
{
	return ask_planned(desk,
	    boats_part(desk, asked->vessel, asked->base, asked->boats, REACH_BASES),
	    LEFT_NONE, fault);
}

bool
desk_hand_ins(struct desk *desk, const struct plans_wish *asked,
    struct winter_answer *out, struct fault *fault)
{
	*out = (struct winter_answer){0};
	if (!load_planned(desk, asked, fault) ||
	    !plans_make(desk, asked, &out->lists, &out->count, fault)) {
		return false;
	}
	desk_dockets(desk, out);
	return true;
}

void
desk_dockets(struct desk *desk, struct winter_answer *answer)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct arena *arena = &desk->arena;
	dockets_make(inventory, answer->lists, answer->count, arena, &answer->going);
	dockets_landed(inventory, answer->lists, answer->count, arena, &answer->landed);
}

bool
desk_winter(struct desk *desk, const struct plans_wish *asked, struct winter_answer *out,
    struct fault *fault)
{
	bool as_is = asked->without_station == NULL && asked->only_station == NULL &&
		     asked->most_trips == 0 && asked->year == 0;
	if (!desk_hand_ins(desk, asked, out, fault)) {
		return false;
	}
	as_is = as_is && out->count <= BESIDE_YEARS_MOST;
	for (size_t i = 0; i < out->count && as_is; i++) {
		if (out->lists[i].has_winter &&
		    !beside_years(desk, &out->lists[i], fault)) {
			return false;
		}
	}
	return true;
}
