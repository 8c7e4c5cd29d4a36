/* Questions about what came back from ashore. */
#ifndef BECKET_CLI_ASKING_H
#define BECKET_CLI_ASKING_H

#include "cli/context.h"
#include "desk/acts.h"

/* Asks at the terminal, or of standard input, what came back of the items the request names, or
 * of all that is ashore in its own right (at a terminal from which station, where it is at several):
 * result, next date, certificate, price, renewed parts;
 * then whether to write it. The request gets a bag of the answers: items without one stay
 * ashore. Nothing is begun meanwhile, lest nobody else can write while a person looks for a
 * certificate. The end of the input before the last answer is FAULT_INPUT, a no is an empty
 * bag. */
MUST_CHECK bool ask_homecomings(
    struct context *context, struct return_request *request, struct fault *fault);

/* Asks at the terminal from which station gear came back, of those at which these items are ashore;
 * asks again until it is one of them, found as names are. "" for all of them, and where they are at
 * one. */
MUST_CHECK bool ask_station(struct context *context, const size_t *items, size_t count,
    const char **station_out, struct fault *fault);

#endif
