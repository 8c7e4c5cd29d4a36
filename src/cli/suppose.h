/* `becket due --if`: what would change if something else held of a vessel. */
#ifndef BECKET_CLI_SUPPOSE_H
#define BECKET_CLI_SUPPOSE_H

#include "cli/context.h"

/* The options, as entries of an option table that has SELECT_OPTIONS too, and --routine. */
#define SUPPOSE_OPTIONS                                                                  \
	{.name = "if",                                                                   \
	    .argument = "WHAT=WORD",                                                     \
	    .help = "what would change if use, area, persons or sheet were this",        \
	    .repeatable = true,                                                          \
	    .not_with = "within state strict"},                                          \
	{                                                                                \
		.name = "if-from", .argument = "DATE",                                   \
		.help = "with --if: from this day on; today if left out", .needs = "if"  \
	}

/* Reads the options and answers; writes nothing anywhere. */
MUST_CHECK bool suppose_run(struct context *context, struct fault *fault);

#endif
