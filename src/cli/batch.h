/* Items entered by one command: one, or several that differ in tag and serial number. */
#ifndef BECKET_CLI_BATCH_H
#define BECKET_CLI_BATCH_H

#include "cli/context.h"
#include "desk/acts.h"

#define BATCH_OPTIONS                                                                    \
	{.name = "tag",                                                                  \
	    .argument = "TAG",                                                           \
	    .help = "its short mark, or LJ-1..LJ-10; fresh ones when not told"},         \
	    {.name = "count",                                                            \
		.argument = "N",                                                         \
		.help = "so many, a tag each; --quantity is many under one tag"},        \
	{                                                                                \
		.name = "serials", .argument = "LIST",                                   \
		.help = "one each: A,B,C or C-101..C-110, or @FILE with one a line"      \
	}

/* Reads --tag, --count, --serials and a --part-of of several tags, which say how many there are to
 * be, into a request. */
MUST_CHECK bool batch_read(
    struct context *context, struct enter_request *request, struct fault *fault);

#endif
