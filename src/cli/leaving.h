/* A vessel that leaves the fleet, sold or given up, and comes back. */
#ifndef BECKET_CLI_LEAVING_H
#define BECKET_CLI_LEAVING_H

#include "cli/context.h"

/* Carries out --left, --because and --gear, or --back, of a vessel that is in the loaded book.
 * Her gear goes with her, to the spares of her base, or is withdrawn: asked about at a terminal,
 * FAULT_USAGE without one when --gear does not say. What is at a station stays hers, to be
 * collected. One transaction. */
MUST_CHECK bool vessel_leave(
    struct context *context, const char *name, struct fault *fault);

/* FAULT_INPUT for a vessel that has left by today: nothing is put on her any more. */
MUST_CHECK bool left_check(
    const struct context *context, const struct vessel *vessel, struct fault *fault);

/* The same of the vessel with this name, which is NULL where none is asked for. */
MUST_CHECK bool left_check_named(
    const struct context *context, const char *vessel, struct fault *fault);

/* The same as left_check on a day. */
MUST_CHECK bool left_check_on(
    const struct vessel *vessel, day_t day, struct fault *fault);

#endif
