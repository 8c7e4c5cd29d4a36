/* `becket due --if`: what would change if something else held of a vessel. */
#ifndef BECKET_CLI_SUPPOSE_H
#define BECKET_CLI_SUPPOSE_H

#include "cli/context.h"

/* What the options say. */
struct suppose_said {
	struct word_list what; /* none: nothing is supposed */
	day_t from;            /* DAY_NONE when not told */
};

/* The options, as entries of an option table, into the member `said` of a struct. */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define SUPPOSE_OPTIONS(structure, said)                                                 \
	{.name = "if",                                                                   \
	    .argument = "WHAT=WORD",                                                     \
	    .help = "what would change if use, area, persons or sheet were this",        \
	    .repeatable = true,                                                          \
	    .not_with = "within state strict",                                           \
	    .type = OPTION_WORDS,                                                        \
	    .at = offsetof(structure, said.what)},                                       \
	{                                                                                \
		.name = "if-from", .argument = "DATE",                                   \
		.help = "with --if: from this day on; today if left out", .needs = "if", \
		.type = OPTION_DAY, .at = offsetof(structure, said.from)                 \
	}
/* NOLINTEND(bugprone-macro-parentheses) */

/* Answers for that gear, with its routines too where `routine` says so; writes nothing anywhere. */
MUST_CHECK bool suppose_run(struct context *context, const struct suppose_said *said,
    const struct gear_wish *gear, bool routine, struct fault *fault);

#endif
