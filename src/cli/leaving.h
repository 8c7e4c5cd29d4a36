/* A vessel that leaves the fleet, sold or given up, and comes back. */
#ifndef BECKET_CLI_LEAVING_H
#define BECKET_CLI_LEAVING_H

#include "cli/context.h"

/* Carries out --left, --because and --gear, or --back, of a vessel of the book.
 * Her gear goes with her, to the spares of her base, or is withdrawn: asked about at a terminal,
 * FAULT_USAGE without one when --gear does not say. What is at a station stays hers, to be
 * collected. One transaction. */
MUST_CHECK bool vessel_leave(
    struct context *context, const char *name, struct fault *fault);

#endif
