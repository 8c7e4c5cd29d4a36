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

/* Sets the plans of the coming years beside the lists, where no more boats are asked about
 * and nothing is supposed. */
static bool
set_beside_years(struct desk *desk, const struct plans_wish *asked,
    struct winter_answer *out, struct fault *fault)
{
	bool as_is = asked->without_station == NULL && asked->only_station == NULL &&
		     asked->most_trips == 0 && asked->year == 0 &&
		     out->count <= BESIDE_YEARS_MOST;
	for (size_t i = 0; i < out->count && as_is; i++) {
		if (out->lists[i].has_winter &&
		    !beside_years(desk, &out->lists[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_winter(struct desk *desk, const struct plans_wish *asked, struct winter_answer *out,
    struct fault *fault)
{
	return desk_hand_ins(desk, asked, out, fault) &&
	       set_beside_years(desk, asked, out, fault);
}

/* A question about all boats that is answered some of them at a time. */
struct winter_by_bases {
	const struct plans_wish *asked;
	winter_taker *take;
	void *context;
	size_t count; /* of lists */
};

static bool
winter_of_bases(
    struct desk *desk, const size_t *places, void *question, struct fault *fault)
{
	struct winter_by_bases *by = question;
	struct winter_answer some = {0};
	if (!plans_make(desk, by->asked, &some.lists, &some.count, fault)) {
		return false;
	}
	by->take(&some, places, by->context);
	by->count += some.count;
	return true;
}

bool
desk_winter_by_bases(struct desk *desk, const struct plans_wish *asked,
    winter_taker *take, void *context, struct fault *fault)
{
	struct winter_by_bases by = {asked, take, context, 0};
	struct winter_answer whole;
	struct word_list boats = {0};
	bool all = asked->vessel == NULL && asked->base == NULL && asked->boats == NULL;
	if (all && (!desk_book(desk, fault) || !book_names(desk->book, BOOK_BOATS,
						   &desk->arena, &boats, fault))) {
		return false;
	}
	if (boats.count > BESIDE_YEARS_MOST) {
		if (!ask_together(desk, LEFT_NONE,
			&(struct together_asked){
			    .answer = winter_of_bases, .question = &by, .plans = true},
			fault)) {
			return false;
		}
		if (by.count > BESIDE_YEARS_MOST) {
			return true;
		}
		take(NULL, NULL, context);
	}
	if (!desk_winter(desk, asked, &whole, fault)) {
		return false;
	}
	take(&whole, NULL, context);
	return true;
}
