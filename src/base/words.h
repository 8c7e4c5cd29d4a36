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

/* The entry of `names` nearest to `word`, or NULL when none is near enough to be a slip of
 * the finger: at most a third of the letters are off, or one in a short word. */
const char *nearest_word(const char *word, const char *const *names, size_t count);

/* Cuts "a,b,c" into a list in the arena; blanks around the words are dropped. A blank word is
 * FAULT_INPUT. */
MUST_CHECK bool words_cut(
    struct arena *arena, const char *value, struct word_list *out, struct fault *fault);

#endif
