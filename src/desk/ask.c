#include "desk/ask.h"

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
	if (wish->kind == NULL) {
		return true;
	}
	if (!desk_kinds(desk, &out->kinds, fault)) {
		return false;
	}
	out->group = kinds_find(out->kinds, wish->kind) == NULL
			 ? kinds_group(out->kinds, wish->kind)
			 : NULL;
	return out->group != NULL || desk_kind(desk, wish->kind, &out->kind, fault) ||
	       fault_prefix(fault, FIELD "kind");
}

static bool
is_of_group(const struct gear_sieve *sieve, const struct item *item)
{
	const struct kind *kind =
	    sieve->group == NULL ? NULL : kinds_find(sieve->kinds, item->kind);
	return sieve->group == NULL ||
	       (kind != NULL && strcmp(kind->group, sieve->group) == 0);
}

bool
gear_passes(const struct gear_sieve *sieve, const struct inventory *inventory,
    const struct item *item)
{
	const struct vessel *vessel = &inventory->vessels[item->vessel];
	return (sieve->base == NULL || strcmp(vessel->base, sieve->base) == 0) &&
	       (sieve->kind == NULL || strcmp(item->kind, sieve->kind->id) == 0) &&
	       is_of_group(sieve, item);
}
