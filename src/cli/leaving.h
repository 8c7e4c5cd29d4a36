/* A vessel that leaves the fleet, sold or given up, and comes back. */
#ifndef BECKET_CLI_LEAVING_H
#define BECKET_CLI_LEAVING_H

#include "cli/context.h"
#include "desk/acts.h"

/* Has a vessel of the book leave, or come back.
 * Her gear goes with her, to the spares of her base, or is withdrawn: asked about at a terminal,
 * FAULT_USAGE without one when the request does not say. What is at a station stays hers, to be
 * collected. One transaction. */
MUST_CHECK bool vessel_leave(
    struct context *context, struct leave_request *request, struct fault *fault);

#endif
