/* The shore lists of all loaded vessels, for the winter and the calendar. */
#ifndef BECKET_CLI_PLANS_H
#define BECKET_CLI_PLANS_H

#include "cli/context.h"
#include "winter/winter.h"

/* Makes the shore list of every loaded vessel, in their order; `year` 0 means the winter
 * each is in, or else her next. The engine must be ready. In the context's arena. */
MUST_CHECK bool plans_make(struct context *context, int year,
    struct shore_list **lists_out, size_t *count_out, struct fault *fault);

#endif
