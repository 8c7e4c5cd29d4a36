/* What commands ask a person about gear and lists. */
#ifndef BECKET_CLI_ASKING_H
#define BECKET_CLI_ASKING_H

#include "cli/command.h"
#include "desk/acts.h"
#include "desk/import_answers.h"
#include "exchange/inventory_csv.h"

/* Asks at the terminal, or of standard input, what came back of the items the request
 * names, or of all that is ashore in its own right (at a terminal from which station,
 * where it is at several): result, next date, certificate, price, renewed parts; then
 * whether to write it. The request gets a bag of the answers: items without one stay
 * ashore. No change of the book is begun meanwhile, so that others can still write while
 * a person looks for a certificate. The end of the input before the last answer is
 * FAULT_INPUT, a no is an empty bag. */
MUST_CHECK bool ask_homecomings(
    struct context *context, struct return_request *request, struct fault *fault);

/* Asks at the terminal from which station gear came back, of those at which these items
 * are ashore; asks again until it is one of them, found as names are. "" for all of them,
 * and where they are at one. */
MUST_CHECK bool ask_station(struct context *context, const size_t *items, size_t count,
    const char **station_out, struct fault *fault);

/* ---- Questions about what is not clear in a list, one a doubt, at a terminal ---- */

/* Starts as `{ .context = ..., .options = ... }`. */
struct asked_doubts {
	struct context *context;
	struct csv_options
	    *options; /* the answers go into them; arrays in the desk's arena */
	struct import_answers answers; /* those worth keeping: headers and words */
	struct csv_doubts before;      /* what was asked */
};

/* Asks about one, until the answer is one of those there are. FAULT_INPUT for "stop" and
 * the end of the input. */
MUST_CHECK bool doubt_ask(
    struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault);

/* True when one of these was asked about before: its answer did not help, so that asking
 * again would have no end. */
bool doubts_came_back(const struct asked_doubts *asked, const struct csv_doubts *doubts);

/* ---- The walk through what is not clear in a list, at a terminal ---- */

/* Reads the list as a dry run, asks about each thing in it that is not clear, once for
 * the whole list, and reads it again, until all is clear; then shows what each row comes
 * to, its dates with it, and asks whether to write that. What the answers come to is in
 * the request's options, and those about headers and words are kept with the book: also
 * when the list has other faults, where that is wanted, so that mending the list does not
 * mean answering again.
 *
 * FAULT_INPUT for a no, for "stop" and the end of the input, and for what no answer
 * cures; nothing is written then, except for answers that are to be kept. Not to be
 * called without a terminal. */
MUST_CHECK bool import_walk(
    struct context *context, struct import_request *request, struct fault *fault);

#endif
