/* The walk through what is not clear in a list, at a terminal. */
#ifndef BECKET_CLI_IMPORT_WALK_H
#define BECKET_CLI_IMPORT_WALK_H

#include "cli/context.h"
#include "desk/acts.h"

/* Reads the list as a dry run, asks about each thing in it that is not clear, once for the whole
 * list, and reads it again, until all is clear; then shows what each row comes to, its dates with
 * it, and asks whether to write that. What the answers come to is in the request's options, and
 * those about headers and words are kept with the book: also when the list has other faults, where
 * that is wanted, so that mending the list does not mean answering again.
 *
 * FAULT_INPUT for a no, for "stop" and the end of the input, and for what no answer cures; nothing
 * is written then, but for answers that are to be kept. Not to be called without a terminal. */
MUST_CHECK bool import_walk(
    struct context *context, struct import_request *request, struct fault *fault);

#endif
