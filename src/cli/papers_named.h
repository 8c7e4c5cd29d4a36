/* Papers for gear that is handed in beside the winters: named, or due now. */
#ifndef BECKET_CLI_PAPERS_NAMED_H
#define BECKET_CLI_PAPERS_NAMED_H

#include "cli/context.h"
#include "winter/winter.h"

/* True when --tag or --due-now asks for such papers. */
bool papers_are_named(const struct context *context);

/* The shore lists of what they ask for, from --tag, --due-now, --station, --on and --for, with remarks
 * on the station. `winters` are those of the vessels that are meant. In the context's arena. */
MUST_CHECK bool papers_named(struct context *context, const struct shore_list *winters,
    size_t winter_count, struct shore_list **out, size_t *count_out, struct fault *fault);

#endif
