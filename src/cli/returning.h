/* Gear that comes back: the plan of what is written, from what its papers say. */
#ifndef BECKET_CLI_RETURNING_H
#define BECKET_CLI_RETURNING_H

#include "cli/life_plan.h"
#include "life/homecoming.h"

/* Plans the return of one item with those of its parts that are ashore with it: the
 * movements, the records of its work and of its renewed parts, or its withdrawal. Checks it
 * first, as homecoming_check does. */
MUST_CHECK bool come_back(struct context *context, const struct homecoming *home,
    struct life_plan *plan, struct fault *fault);

/* Asks at the terminal, or of standard input, what came back of the items (indices in the
 * loaded contents): result, next date, certificate, price, renewed parts; then whether to
 * write it. Items without an answer stay ashore. The end of the input before the last answer
 * is FAULT_INPUT, a no is an empty list. */
MUST_CHECK bool ask_homecomings(struct context *context, const struct homecoming *common,
    const size_t *items, size_t count, struct homecoming **out, size_t *count_out,
    struct fault *fault);

/* A bag of homecomings. */
struct bag {
	struct homecoming *items; /* in the context's arena, as their strings */
	size_t count;
};

/* One for each tag or range of tags on the command line, all as `common` says, each with those
 * of the renewed and kept parts that are inside it. A part inside none is FAULT_INPUT. The
 * contents are loaded. */
MUST_CHECK bool bag_of_tags(struct context *context, const struct homecoming *common,
    struct bag *bag, struct fault *fault);

/* One for each row of the file that --from-csv names. The contents are loaded. */
MUST_CHECK bool bag_of_file(struct context *context, const struct homecoming *common,
    struct bag *bag, struct fault *fault);

/* What a person answers of the items on the command line, or of all that is ashore in its own
 * right; it may be empty. Loads the contents but writes nothing and begins nothing, lest nobody
 * else can write while a person looks for a certificate. */
MUST_CHECK bool bag_of_answers(struct context *context, const struct homecoming *common,
    struct bag *bag, struct fault *fault);

#endif
