/* Whose reminders are wanted, as options. */
#ifndef BECKET_CLI_SCOPE_OPTION_H
#define BECKET_CLI_SCOPE_OPTION_H

#include "cli/context.h"

/* The scope that --vessel, --base or --station names, of which the tables let one stand alone; the
 * fleet without any. FAULT_INPUT for a name that is not in the book, which is loaded for it. */
MUST_CHECK bool scope_given(
    struct context *context, struct scope *out, struct fault *fault);

#endif
