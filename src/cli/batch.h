/* Items entered by one command: one, or several that differ in tag and serial number. */
#ifndef BECKET_CLI_BATCH_H
#define BECKET_CLI_BATCH_H

#include "cli/context.h"
#include "desk/acts.h"
#include "desk/ranges.h"

/* What the options say; NULL or 0 for nothing. */
struct batch_said {
	const char *tag;
	int count;
	const char *serials;
};

/* As entries of an option table that has --serial, into the member `said` of a struct. */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define BATCH_OPTIONS(structure, said)                                                   \
	{.name = "tag",                                                                  \
	    .argument = "TAG",                                                           \
	    .help = "its short mark, or LJ-1..LJ-10; fresh ones when not told",          \
	    .type = OPTION_WORDS,                                                        \
	    .at = offsetof(structure, said.tag)},                                        \
	    {.name = "count",                                                            \
		.argument = "N",                                                         \
		.help = "so many, a tag each; --quantity is many under one tag",         \
		.type = OPTION_COUNT,                                                    \
		.at = offsetof(structure, said.count),                                   \
		.least = 1,                                                              \
		.most = RANGE_MOST},                                                     \
	{                                                                                \
		.name = "serials", .argument = "LIST",                                   \
		.help = "one each: A,B,C or C-101..C-110, or @FILE with one a line",     \
		.not_with = "serial", .type = OPTION_WORDS,                              \
		.at = offsetof(structure, said.serials)                                  \
	}
/* NOLINTEND(bugprone-macro-parentheses) */

/* Makes lists of what is said and of the request's whole, which may be several tags: they say how
 * many things there are to be. */
MUST_CHECK bool batch_read(struct context *context, const struct batch_said *said,
    struct enter_request *request, struct fault *fault);

#endif
