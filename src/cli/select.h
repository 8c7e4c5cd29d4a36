/* Which gear a listing is about: the options --vessel, --base and --kind that reading commands
 * share. */
#ifndef BECKET_CLI_SELECT_H
#define BECKET_CLI_SELECT_H

#include "desk/questions.h"

/* The shared options, as entries of an option table, into the struct gear_wish that is the member
 * `wish` of a struct. */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define SELECT_OPTIONS(structure, wish)                                                  \
	{.name = "vessel",                                                               \
	    .argument = "NAME",                                                          \
	    .help = "this vessel only",                                                  \
	    .type = OPTION_WORDS,                                                        \
	    .at = offsetof(structure, wish.vessel)},                                     \
	    {.name = "base",                                                             \
		.argument = "PLACE",                                                     \
		.help = "vessels of this base only",                                     \
		.type = OPTION_WORDS,                                                    \
		.at = offsetof(structure, wish.base)},                                   \
	{                                                                                \
		.name = "kind", .argument = "KIND",                                      \
		.help = "this kind only, or a group such as flares",                     \
		.type = OPTION_WORDS, .at = offsetof(structure, wish.kind)               \
	}
/* NOLINTEND(bugprone-macro-parentheses) */

#endif
