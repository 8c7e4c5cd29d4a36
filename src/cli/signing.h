/* Under what a command's changes stand in the journal. */
#ifndef BECKET_CLI_SIGNING_H
#define BECKET_CLI_SIGNING_H

#include "book/journal.h"
#include "cli/context.h"

/* The signature, its strings in the context's arena: --signed, else the login (LOGNAME, else
 * what the system calls the user), the command's words, and the time; with --today the start
 * of that day, marked as told, so that a book can be made again the same. A blank --signed is
 * FAULT_INPUT. */
MUST_CHECK bool context_signature(
    struct context *context, struct signature *out, struct fault *fault);

#endif
