/* Questions about what came back from ashore. */
#ifndef BECKET_CLI_ASKING_H
#define BECKET_CLI_ASKING_H

#include "cli/context.h"
#include "desk/acts.h"

/* Asks at the terminal, or of standard input, what came back of the items the request names, or
 * of all that is ashore in its own right: result, next date, certificate, price, renewed parts;
 * then whether to write it. The request gets a bag of the answers: items without one stay
 * ashore. Nothing is begun meanwhile, lest nobody else can write while a person looks for a
 * certificate. The end of the input before the last answer is FAULT_INPUT, a no is an empty
 * bag. */
MUST_CHECK bool ask_homecomings(
    struct context *context, struct return_request *request, struct fault *fault);

#endif
