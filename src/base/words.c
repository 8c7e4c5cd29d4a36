#include "base/words.h"

#include <stdbool.h>
#include <string.h>

enum { LONGEST_WORD = 63 };

/* How many letters must be added, dropped or changed to make `b` of `a`; two neighbours
 * swapped count as one. Both at most LONGEST_WORD letters. */
static size_t
letters_off(const char *a, const char *b)
{
	size_t rows[3][LONGEST_WORD + 1] = {{0}};
	size_t length_b = strlen(b);
	size_t *before = rows[0];
	size_t *last = rows[1];
	size_t *row = rows[2];
	for (size_t j = 0; j <= length_b; j++) {
		last[j] = j;
	}
	for (size_t i = 1; a[i - 1] != '\0'; i++) {
		row[0] = i;
		for (size_t j = 1; j <= length_b; j++) {
			size_t best = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
			best = last[j] + 1 < best ? last[j] + 1 : best;
			best = row[j - 1] + 1 < best ? row[j - 1] + 1 : best;
			bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] &&
				       a[i - 2] == b[j - 1];
			if (swapped && before[j - 2] + 1 < best) {
				best = before[j - 2] + 1;
			}
			row[j] = best;
		}
		size_t *free_row = before;
		before = last;
		last = row;
		row = free_row;
	}
	return last[length_b];
}

const char *
nearest_word(const char *word, const char *const *names, size_t count)
{
	size_t length = strlen(word);
	if (length == 0 || length > LONGEST_WORD) {
		return NULL;
	}
	size_t best = (length < 6 ? 1 : length / 3) + 1;
	const char *nearest = NULL;
	for (size_t i = 0; i < count; i++) {
		if (strlen(names[i]) > LONGEST_WORD) {
			continue;
		}
		size_t off = letters_off(word, names[i]);
		if (off < best) {
			best = off;
			nearest = names[i];
		}
	}
	return nearest;
}

bool
words_cut(
    struct arena *arena, const char *value, struct word_list *out, struct fault *fault)
{
	size_t most = 1;
	for (const char *at = value; *at != '\0'; at++) {
		most += *at == ',' ? 1 : 0;
	}
	const char **words = arena_alloc(arena, most * sizeof *words);
	for (size_t i = 0; i < most; i++) {
		value += strspn(value, " ");
		size_t length = strcspn(value, ",");
		size_t kept = length;
		while (kept > 0 && value[kept - 1] == ' ') {
			kept--;
		}
		if (kept == 0) {
			return fault_set(
			    fault, FAULT_INPUT, "a word between commas is blank");
		}
		char *word = arena_alloc(arena, kept + 1);
		memcpy(word, value, kept);
		words[i] = word;
		value += length + (i + 1 < most ? 1 : 0);
	}
	*out = (struct word_list){words, most, most};
	return true;
}
