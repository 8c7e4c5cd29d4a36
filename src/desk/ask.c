#include "desk/inside.h"
#include "desk/plans.h"

#include <string.h>

bool
ask_load(struct desk *desk, const char *vessel, enum left_gear left, bool with_withdrawn,
    struct fault *fault)
{
	desk_forget(desk);
	desk->left_gear = left;
	desk->about = NULL;
	return desk_load(desk, vessel, with_withdrawn, fault);
}

bool
part_load(struct desk *desk, const struct book_part *about, bool with_withdrawn,
    struct fault *fault)
{
	desk->about = about;
	bool loaded = desk_load(desk, NULL, with_withdrawn, fault);
	desk->about = NULL;
	return loaded;
}

bool
ask_part(struct desk *desk, const struct book_part *about, enum left_gear left,
    bool with_withdrawn, struct fault *fault)
{
	desk_forget(desk);
	desk->left_gear = left;
	return part_load(desk, about, with_withdrawn, fault);
}

/* Has all boats answered about, some at a time, in a transaction that is open. */
static bool
boats_in_turn(struct desk *desk, enum left_gear left, bool with_withdrawn,
    const struct word_list *boats, ask_boats *answer, void *question, struct fault *fault)
{
	for (size_t first = 0; first < boats->count; first += BOATS_AT_A_TIME) {
		size_t left_over = boats->count - first;
		const struct word_list some = {.items = boats->items + first,
		    .count = left_over < BOATS_AT_A_TIME ? left_over : BOATS_AT_A_TIME};
		const struct book_part part = {.vessels = some.items,
		    .vessel_count = some.count,
		    .reach = REACH_FAMILIES,
		    .without_stations = true};
		if (!ask_part(desk, &part, left, with_withdrawn, fault) ||
		    !answer(desk, &some, question, fault)) {
			return false;
		}
	}
	return true;
}

bool
ask_by_boats(struct desk *desk, enum left_gear left, bool with_withdrawn,
    ask_boats *answer, void *question, struct fault *fault)
{
	struct word_list boats = {0};
	if (!desk_book(desk, fault) || !book_begin(desk->book, fault)) {
		return false;
	}
	bool done = book_names(desk->book, BOOK_VESSELS, &desk->arena, &boats, fault) &&
		    (boats.count <= BOATS_AT_A_TIME
			    ? ask_load(desk, NULL, left, with_withdrawn, fault) &&
				  answer(desk, NULL, question, fault)
			    : boats_in_turn(desk, left, with_withdrawn, &boats, answer,
				  question, fault));
	book_rollback(desk->book);
	return done;
}

bool
ask_about(struct desk *desk, const struct book_part *about, enum left_gear left,
    struct fault *fault)
{
	return ask_part(desk, about, left, true, fault);
}

bool
ask_gear(struct desk *desk, const struct gear_wish *wish, enum left_gear left,
    bool with_withdrawn, struct fault *fault)
{
	const char *vessel = wish->vessel;
	if (vessel != NULL && !ask_load(desk, vessel, left, with_withdrawn, fault)) {
		return false;
	}
	return (vessel != NULL && !desk->contents.parts_elsewhere) ||
	       ask_part(desk, boats_part(desk, vessel, wish->base, NULL, REACH_FAMILIES),
		   left, with_withdrawn, fault);
}

bool
ask_planned(struct desk *desk, const struct book_part *about, enum left_gear left,
    struct fault *fault)
{
	return ask_about(desk, about, left, fault) &&
	       (about == NULL || !plans_are_one(desk) ||
		   ask_about(desk, NULL, left, fault));
}

bool
ask_engine(
    struct desk *desk, const char *vessel, enum left_gear left, struct fault *fault)
{
	return ask_load(desk, vessel, left, true, fault) &&
	       desk_engine(desk, vessel, fault);
}

bool
ask_in_order(struct span days, struct fault *fault)
{
	return days.first <= days.last || fault_set(fault, FAULT_USAGE,
					      "found a " FIELD "to before its " FIELD
					      "from; expected it on that day or later");
}

bool
gear_sieve(struct desk *desk, const struct gear_wish *wish, struct gear_sieve *out,
    struct fault *fault)
{
	*out = (struct gear_sieve){.vessel = wish->vessel, .base = wish->base};
	return wish->kind == NULL ||
	       desk_kinds_meant(desk, wish->kind, &out->kinds, fault) ||
	       fault_prefix(fault, FIELD "kind");
}

static bool
is_of_kinds(const struct word_list *kinds, const struct item *item)
{
	size_t at = 0;
	while (at < kinds->count && strcmp(kinds->items[at], item->kind) != 0) {
		at++;
	}
	return kinds->count == 0 || at < kinds->count;
}

bool
gear_passes(const struct gear_sieve *sieve, const struct inventory *inventory,
    const struct item *item)
{
	const struct vessel *vessel = &inventory->vessels[item->vessel];
	return (sieve->vessel == NULL || strcmp(vessel->name, sieve->vessel) == 0) &&
	       (sieve->base == NULL || strcmp(vessel->base, sieve->base) == 0) &&
	       is_of_kinds(&sieve->kinds, item);
}
