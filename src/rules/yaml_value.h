/* Single values out of a loaded YAML text, each checked. libcyaml hands every value over as
 * it is written, so that "012" is no octal and every complaint has the same shape.
 *
 * Each reader leaves its output as it is when the value is absent (NULL), so an output
 * starts as the default. */
#ifndef BECKET_RULES_YAML_VALUE_H
#define BECKET_RULES_YAML_VALUE_H

#include "base/memory.h"
#include "dates/day.h"
#include "rules/yaml_source.h"

/* A mapping in the text. */
struct yaml_spot {
	const struct yaml_source *source; /* borrowed */
	char path[YAML_PATH_SIZE];        /* "" is the top */
};

/* A list of values as libcyaml fills it. */
struct yaml_list {
	char **items;
	unsigned count;
};

/* The spot at entry `index` (from 0) of a list under `key`, or of the mapping under `key`
 * where index is SIZE_MAX. */
struct yaml_spot yaml_spot_in(
    const struct yaml_spot *spot, const char *key, size_t index);

/* Reports the value under `key`, or under entry `index` (from 0) of the list there. */
bool yaml_spot_bad(const struct yaml_spot *spot, const char *key, const char *found,
    const char *expected, struct fault *fault);
bool yaml_entry_bad(const struct yaml_spot *spot, const char *key, size_t index,
    const char *found, const char *expected, struct fault *fault);

/* Puts file, line and field before what a fault says. Returns false. */
bool yaml_spot_prefix(const struct yaml_spot *spot, const char *key, struct fault *fault);

/* A whole number from `least` to `most`, in decimal digits. */
struct yaml_range {
	int least;
	int most;
	const char *unit; /* "months", for messages */
};

MUST_CHECK bool yaml_read_int(const struct yaml_spot *spot, const char *key,
    const char *value, struct yaml_range range, int *out, struct fault *fault);

/* A decimal number of metres up to 500 with at most two places, as centimetres. */
MUST_CHECK bool yaml_read_metres(const struct yaml_spot *spot, const char *key,
    const char *value, int *cm_out, struct fault *fault);

/* `yes` or `no`. */
MUST_CHECK bool yaml_read_bool(const struct yaml_spot *spot, const char *key,
    const char *value, bool *out, struct fault *fault);

/* `YYYY-MM-DD`. */
MUST_CHECK bool yaml_read_day(const struct yaml_spot *spot, const char *key,
    const char *value, day_t *out, struct fault *fault);

/* Words an enum is spelt with, in its order. */
struct yaml_words {
	const char *const *words;
	unsigned count;
};

/* One of some words; gives its index. */
MUST_CHECK bool yaml_read_word(const struct yaml_spot *spot, const char *key,
    const char *value, struct yaml_words words, unsigned *out, struct fault *fault);

/* The index of each word of a list, into `out`, which has room for as many; a word given
 * twice is a failure. */
MUST_CHECK bool yaml_read_indices(const struct yaml_spot *spot, const char *key,
    const struct yaml_list *list, struct yaml_words words, unsigned *out,
    struct fault *fault);

/* A list of words as bits, 1 << index; a word given twice is a failure. */
MUST_CHECK bool yaml_read_bits(const struct yaml_spot *spot, const char *key,
    const struct yaml_list *list, struct yaml_words words, unsigned *out,
    struct fault *fault);

/* A copy of words that may not be blank; of words that may be absent (then ""). */
MUST_CHECK bool yaml_read_text(const struct yaml_spot *spot, const char *key,
    const char *value, struct arena *arena, const char **out, struct fault *fault);
void yaml_read_optional_text(const char *value, struct arena *arena, const char **out);

/* Copies of a list's words, none of which may be blank. NULL and 0 for none. */
MUST_CHECK bool yaml_read_texts(const struct yaml_spot *spot, const char *key,
    const struct yaml_list *list, struct arena *arena, const char *const **out,
    struct fault *fault);

#endif
