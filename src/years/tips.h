/* Which purchases of a plan's first winter depend on how many winters it looks
 * ahead, and where the shore list of that winter differs from the plan. Pure. */
#ifndef BECKET_YEARS_TIPS_H
#define BECKET_YEARS_TIPS_H

#include "years/outlook.h"

/* Makes a plan for every number of winters from 1 to the most that can be looked
 * ahead, and compares their first winters. Every plan is made anew: some twenty
 * times the work of one. */
MUST_CHECK bool outlook_tips_find(const struct outlook_ask *ask, struct arena *arena,
    struct outlook_tips *out, struct fault *fault);

/* The things that the plan and the shore list treat differently; none where the list
 * is not of the plan's first winter. */
void outlook_clashes_find(const struct inventory *inventory, const struct outlook *plan,
    const struct shore_list *list, struct arena *arena, struct winter_clashes *out);

#endif
