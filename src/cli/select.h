/* Which items a listing is about: the options --vessel, --base and --kind that reading
 * commands share. */
#ifndef BECKET_CLI_SELECT_H
#define BECKET_CLI_SELECT_H

#include "cli/context.h"

/* The shared options, as entries of an option table. --vessel is for context_load. */
#define SELECT_OPTIONS                                                                   \
	{.name = "vessel", .argument = "NAME", .help = "this vessel only"},              \
	    {.name = "base", .argument = "PLACE", .help = "vessels of this base only"},  \
	{                                                                                \
		.name = "kind", .argument = "KIND", .help = "this kind only"             \
	}

struct selection {
	const char *base;        /* NULL for any */
	const struct kind *kind; /* NULL for any */
};

/* Reads --base and --kind. */
MUST_CHECK bool selection_read(
    struct context *context, struct selection *out, struct fault *fault);

bool selection_has(const struct selection *selection, const struct inventory *inventory,
    const struct item *item);

#endif
