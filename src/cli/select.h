/* Which items a listing is about: the options --vessel, --base and --kind that reading
 * commands share. */
#ifndef BECKET_CLI_SELECT_H
#define BECKET_CLI_SELECT_H

#include "cli/context.h"

struct selection {
	const char *vessel; /* NULL for any; for desk_load */
	const char *base;   /* NULL for any */
	const char *words;  /* for the kind; NULL for any */
	const struct kind *kind;
};

/* The shared options, as entries of an option table, into the selection that is the member
 * `selection` of a struct. */
#define SELECT_OPTIONS(structure)                                                        \
	{.name = "vessel",                                                               \
	    .argument = "NAME",                                                          \
	    .help = "this vessel only",                                                  \
	    .type = OPTION_WORDS,                                                        \
	    .at = offsetof(structure, selection.vessel)},                                \
	    {.name = "base",                                                             \
		.argument = "PLACE",                                                     \
		.help = "vessels of this base only",                                     \
		.type = OPTION_WORDS,                                                    \
		.at = offsetof(structure, selection.base)},                              \
	{                                                                                \
		.name = "kind", .argument = "KIND", .help = "this kind only",            \
		.type = OPTION_WORDS, .at = offsetof(structure, selection.words)         \
	}

/* Finds the kind that the words of a selection mean. */
MUST_CHECK bool selection_settle(
    struct context *context, struct selection *selection, struct fault *fault);

bool selection_has(const struct selection *selection, const struct inventory *inventory,
    const struct item *item);

#endif
