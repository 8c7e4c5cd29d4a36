/* Lists of words, and what a mistyped one may have meant. */
#ifndef BECKET_BASE_WORDS_H
#define BECKET_BASE_WORDS_H

#include "base/memory.h"

#include <stddef.h>

/* A list of words; where one is used it is said who owns the words. Grows by ARRAY_ROOM
 * or ARENA_ROOM. */
struct word_list {
	const char **items;
	size_t count;
	size_t capacity;
};

/* Where a word stands in a list that is sorted by text_order (base/text.h), its count for
 * nowhere; and whether it stands there at all. */
size_t words_place(const struct word_list *sorted, const char *word);
bool words_among(const struct word_list *sorted, const char *word);

/* True when both have a whole word of two letters or more, between blanks and hyphens, in
 * whatever case. */
bool words_in_common(const char *a, const char *b);

/* True when every word of `words` is a word of `text`, or one of those with an "s" added,
 * in any order and case. The number is told elsewhere, so a plural says nothing new. */
bool words_all_in(const char *words, const char *text);

/* True when a word is near enough to a typed one to be suggested; the measure is this
 * program's own. At most a third of the typed letters are wrong, or one where fewer than
 * six were typed, in any case, two swapped neighbours counting as one; and the two begin
 * alike, have a word in common, or one letter of four or more is wrong. `*off_out` is how
 * many are wrong. Words of more than 63 bytes are near to none. */
bool word_is_near(const char *typed, const char *word, size_t *off_out);

/* The entry of `names` nearest to `word` of those that are near, the first of equals;
 * NULL for none. */
const char *nearest_word(const char *word, const char *const *names, size_t count);

/* Cuts "a,b,c" into a list in the arena; blanks around the words are dropped. A blank
 * word is FAULT_INPUT. */
MUST_CHECK bool words_cut(
    struct arena *arena, const char *value, struct word_list *out, struct fault *fault);

#endif
