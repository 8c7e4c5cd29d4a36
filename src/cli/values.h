/* Values on the command line: numbers, days, prices, as options give them. Every fault names
 * the option, what was found and what was expected. */
#ifndef BECKET_CLI_VALUES_H
#define BECKET_CLI_VALUES_H

#include "cli/context.h"
#include "dates/stamp.h"

/* Each reads the named option when it was given and sets `*out` (and `*given_out`, which may
 * be NULL); leaves `*out` alone when it was not. */

/* The numbers from `least` to `most`. */
struct range {
	int least;
	int most;
};

/* A whole number in a range. */
MUST_CHECK bool value_number(const struct given_options *given, const char *name,
    struct range range, int *out, bool *given_out, struct fault *fault);

/* An exact day: 2026-11-01, 1 Nov 2026, today, yesterday, tomorrow. */
MUST_CHECK bool value_day(const struct given_options *given, const char *name, day_t *out,
    bool *given_out, struct fault *fault);

/* A date as coarse as it is known. */
MUST_CHECK bool value_stamp(const struct given_options *given, const char *name,
    struct stamp *out, bool *given_out, struct fault *fault);

/* Money to minor units, in the main unit of the book's currency: see money_parse. */
MUST_CHECK bool value_price(struct context *context, const char *name, int64_t *out,
    bool *given_out, struct fault *fault);

/* A length in metres, with or without decimals, to whole centimetres. */
MUST_CHECK bool value_length(const struct given_options *given, const char *name,
    int *out_cm, bool *given_out, struct fault *fault);

/* Cuts "a,b,c" into a list in the arena; blanks around the words are dropped. A blank word
 * is a fault. */
MUST_CHECK bool value_list(struct arena *arena, const char *name, const char *value,
    const char *const **out, size_t *count_out, struct fault *fault);

/* Reads an age in whole years, 1 to `most`, as "10y". The fault does not name the option. */
MUST_CHECK bool age_read(const char *text, int most, int *out, struct fault *fault);

/* What reads the options that take a book or its kinds. */
struct option_reader context_reader(struct context *context);

/* Reads money as value_price does. The fault does not name the option. A whole number, which
 * until version 0.1 was in minor units here, brings a remark with both readings. */
MUST_CHECK bool price_read(
    struct context *context, const char *text, int64_t *out, struct fault *fault);

#endif
