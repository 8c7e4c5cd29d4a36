/* Lists of words, and what a mistyped one may have meant. */
#ifndef BECKET_BASE_WORDS_H
#define BECKET_BASE_WORDS_H

#include "base/memory.h"

#include <stddef.h>

/* Words, and who owns them is said where it is used. Grows by ARRAY_ROOM or ARENA_ROOM. */
struct word_list {
	const char **items;
	size_t count;
	size_t capacity;
};

/* True when both have a whole word of two letters or more, between blanks and hyphens, in whatever
 * case. */
bool words_in_common(const char *a, const char *b);

/* True when every word of `words` is one of `text`, or one of those with an "s" behind it, in whatever order and
 * case: it says nothing that the text does not, for how many there are is told beside it. */
bool words_all_in(const char *words, const char *text);

/* True when a word is near enough to a typed one to be told as what may be meant; our measure.
 * At most a third of the letters typed are off, or one of less than six, whatever their case, two
 * neighbours swapped counting as one; and they begin alike, have a word in common, or one letter of four or more is off. `*off_out` is how many are off. Words of
 * more than 63 bytes are near to none. */
bool word_is_near(const char *typed, const char *word, size_t *off_out);

/* The entry of `names` nearest to `word` of those that are near, the first of equals; NULL for
 * none. */
const char *nearest_word(const char *word, const char *const *names, size_t count);

/* Cuts "a,b,c" into a list in the arena; blanks around the words are dropped. A blank word is
 * FAULT_INPUT. */
MUST_CHECK bool words_cut(
    struct arena *arena, const char *value, struct word_list *out, struct fault *fault);

#endif
