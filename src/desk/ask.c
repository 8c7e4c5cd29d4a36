#include "desk/inside.h"

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
ask_about(struct desk *desk, const struct book_part *about, enum left_gear left,
    struct fault *fault)
{
	desk_forget(desk);
	desk->left_gear = left;
	desk->about = about;
	bool done = desk_load(desk, NULL, true, fault);
	desk->about = NULL; /* what is loaded after this question is all of the book */
	return done;
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
	*out = (struct gear_sieve){.base = wish->base};
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
	return (sieve->base == NULL || strcmp(vessel->base, sieve->base) == 0) &&
	       is_of_kinds(&sieve->kinds, item);
}
