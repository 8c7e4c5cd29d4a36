/* Whose reminders are wanted, as options that `calendar`, `remind` and `serve` share. */
#ifndef BECKET_CLI_SCOPE_OPTION_H
#define BECKET_CLI_SCOPE_OPTION_H

#include "cli/context.h"

/* What they say: one of them, or none. */
struct scope_said {
	const char *vessel;
	const char *base;
	const char *station;
};

/* The options, as entries of an option table, into the member `said` of a struct; `acts_` as an
 * option has them, and `whose` leads their help ("new: "). */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define SCOPE_OPTIONS(structure, said, acts_, whose)                                     \
	{.name = "vessel",                                                               \
	    .argument = "NAME",                                                          \
	    .help = whose "this vessel's reminders only",                                \
	    .acts = (acts_),                                                             \
	    .not_with = "base station",                                                  \
	    .type = OPTION_VESSEL,                                                       \
	    .at = offsetof(structure, said.vessel)},                                     \
	    {.name = "base",                                                             \
		.argument = "PLACE",                                                     \
		.help = whose "those of the vessels of this base",                       \
		.acts = (acts_),                                                         \
		.not_with = "vessel station",                                            \
		.type = OPTION_WORDS,                                                    \
		.at = offsetof(structure, said.base)},                                   \
	{                                                                                \
		.name = "station", .argument = "STATION",                                \
		.help = whose "the hand-ins and collects of this station",               \
		.acts = (acts_), .not_with = "vessel base", .type = OPTION_STATION,      \
		.at = offsetof(structure, said.station)                                  \
	}
/* NOLINTEND(bugprone-macro-parentheses) */

/* The scope that is said, the fleet where nothing is. FAULT_INPUT for a name that is not in the
 * book, which is loaded for it. */
MUST_CHECK bool scope_of(struct context *context, const struct scope_said *said,
    struct scope *out, struct fault *fault);

#endif
