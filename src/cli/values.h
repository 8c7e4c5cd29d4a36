/* Values on the command line as options give them. Every fault says what was found and what was
 * expected. */
#ifndef BECKET_CLI_VALUES_H
#define BECKET_CLI_VALUES_H

#include "cli/context.h"

/* A length in metres, with or without decimals, to whole centimetres. The fault does not name the
 * option. */
MUST_CHECK bool length_read(const char *value, int *out_cm, struct fault *fault);

/* Cuts "a,b,c" into a list in the arena; blanks around the words are dropped. A blank word
 * is a fault. */
MUST_CHECK bool value_list(struct arena *arena, const char *name, const char *value,
    const char *const **out, size_t *count_out, struct fault *fault);

/* Reads an age in whole years, 1 to `most`, as "10y". The fault does not name the option. */
MUST_CHECK bool age_read(const char *text, int most, int *out, struct fault *fault);

/* Money to minor units, in the main unit of the book's currency: see money_parse. The fault does not
 * name the option. A whole number, which
 * until version 0.1 was in minor units here, brings a remark with both readings. */
MUST_CHECK bool price_read(
    struct context *context, const char *text, int64_t *out, struct fault *fault);

#endif
