/* From a command line to a command and its answer. */
#ifndef BECKET_CLI_DISPATCH_H
#define BECKET_CLI_DISPATCH_H

#include "cli/options.h"

/* Runs the command line after the program's own name, writes the answer to standard output
 * and the remarks to standard error. Nothing is written to standard output when it fails.
 * `status_out` is 0, or 1 when it ran and not all is right. */
MUST_CHECK bool dispatch(struct command_line line, int *status_out, struct fault *fault);

#endif
