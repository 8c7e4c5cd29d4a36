/* Questions about what is not clear in a list, one a doubt, at a terminal. */
#ifndef BECKET_CLI_DOUBTS_ASKED_H
#define BECKET_CLI_DOUBTS_ASKED_H

#include "cli/context.h"
#include "desk/import_answers.h"
#include "exchange/inventory_csv.h"

/* Starts as `{ .context = ..., .options = ... }`. */
struct asked_doubts {
	struct context *context;
	struct csv_options
	    *options; /* the answers go into them; arrays in the desk's arena */
	struct import_answers answers; /* those worth keeping: headers and words */
	struct csv_doubts before;      /* what was asked */
};

/* Asks about one, until the answer is one of those there are. FAULT_INPUT for "stop" and the end
 * of the input. */
MUST_CHECK bool doubt_ask(
    struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault);

/* True when one of these was asked about before: its answer did not help, so that asking again
 * would have no end. */
bool doubts_came_back(const struct asked_doubts *asked, const struct csv_doubts *doubts);

#endif
