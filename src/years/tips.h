/* What of a plan's first winter hangs on how far it looks, and what the shore list of that winter
 * has otherwise. Pure. */
#ifndef BECKET_YEARS_TIPS_H
#define BECKET_YEARS_TIPS_H

#include "years/outlook.h"

/* Plans as many winters as can be looked at, from 1 on, and sets those plans' first winters side by
 * side. Every plan is made anew: some twenty times the work of one. */
MUST_CHECK bool outlook_tips_find(const struct outlook_ask *ask, struct arena *arena,
    struct outlook_tips *out, struct fault *fault);

/* None where the list is not of the plan's first winter. */
void outlook_clashes_find(const struct inventory *inventory, const struct outlook *plan,
    const struct shore_list *list, struct arena *arena, struct winter_clashes *out);

#endif
