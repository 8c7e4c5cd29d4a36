/* Items entered by one command: one, or several that differ in tag and serial number. */
#ifndef BECKET_CLI_BATCH_H
#define BECKET_CLI_BATCH_H

#include "cli/context.h"

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

struct batch {
	struct item_change *items; /* in the context's arena; at least one */
	size_t count;
};

/* Makes the items that --tag, --count, --serials and a --part-of of several tags ask for, all
 * like `change`. How many there are must be the same wherever it is said. A tag that is in
 * the book is FAULT_INPUT. The book is loaded. */
MUST_CHECK bool batch_make(struct context *context, const struct item_change *change,
    struct batch *out, struct fault *fault);

/* Asks about their serial numbers, as serials_check does. */
MUST_CHECK bool batch_check_serials(
    struct context *context, const struct batch *batch, struct fault *fault);

/* Writes all of them, with a record and a movement each unless these are NULL, or none. */
MUST_CHECK bool batch_write(struct context *context, const struct batch *batch,
    const struct record *record, const struct movement *movement, struct fault *fault);

#endif
