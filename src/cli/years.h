/* What `becket years` reckons with that is words of its own. */
#ifndef BECKET_CLI_YEARS_H
#define BECKET_CLI_YEARS_H

#include "cli/context.h"

/* Reads prices, as "liferaft-valise:service@10y=349.00". */
MUST_CHECK bool years_read_prices(struct context *context, const struct word_list *words,
    struct years_asked *asked, struct fault *fault);

/* Reads a use, as "use=commercial", and since when; NULL for none. */
MUST_CHECK bool years_read_use(struct context *context, const char *words, day_t from,
    struct years_asked *asked, struct fault *fault);

#endif
