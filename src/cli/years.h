/* What `becket years` reckons with that is words of its own. */
#ifndef BECKET_CLI_YEARS_H
#define BECKET_CLI_YEARS_H

#include "cli/context.h"

/* Reads --price, as "liferaft-valise:service@10y=349.00", and --if, as
 * "use=commercial" with --if-from. */
MUST_CHECK bool years_read(
    struct context *context, struct years_asked *asked, struct fault *fault);

#endif
