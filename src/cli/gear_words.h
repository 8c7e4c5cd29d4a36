/* Gear that an act was about, in words. */
#ifndef BECKET_CLI_GEAR_WORDS_H
#define BECKET_CLI_GEAR_WORDS_H

#include "desk/acts.h"

/* Adds "LJ-1 to LJ-3 and 4 parts": the items in the order named, then how many of the steps
 * written are about others. */
void add_gear(struct text *out, const struct gear_outcome *done);

/* Adds the items alone. */
void add_tags(struct text *out, const struct gear_outcome *done);

#endif
