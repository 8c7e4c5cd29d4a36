/* How a person's words for a kind are compared with the catalogue's spellings. Inside the
 * rules room only; kinds.h has what others call. */
#ifndef BECKET_RULES_KIND_WORDS_H
#define BECKET_RULES_KIND_WORDS_H

#include "rules/kinds.h"

/* One way to write a kind, made comparable. */
struct spelling {
	const char *words;
	const struct kind *kind;
};

enum { SPELLING_SIZE = 128 };

/* Makes words comparable: small letters without accents, one blank for any run of blanks, hyphens and other
 * punctuation, "and" for + / and &, no plural -s, numbers apart from the words they are
 * written to ("PLB1", "2kg"). False when they are too long to be a kind. */
bool kind_words_fold(const char *words, char out[SPELLING_SIZE]);

/* The kinds that folded words could mean, as kinds_fitting has it. `spellings` are sorted by
 * their words. */
size_t kind_words_fit(const struct spelling *spellings, size_t count, const char *words,
    const struct kind *fits[KINDS_FIT_MOST]);

/* The kinds with the most alike spellings, as kinds_nearest has it. */
size_t kind_words_near(const struct spelling *spellings, size_t count, const char *words,
    const struct kind *nearest[KINDS_NEAR_MOST]);

#endif
