#include "base/words.h"

#include "base/text.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

size_t
words_place(const struct word_list *sorted, const char *word)
{
	const char *const *found =
	    sorted->count == 0
		? NULL
		: bsearch(&word, sorted->items, sorted->count, sizeof word, text_order);
	return found == NULL ? sorted->count : (size_t)(found - sorted->items);
}

bool
words_among(const struct word_list *sorted, const char *word)
{
	return words_place(sorted, word) < sorted->count;
}

/* Between the words of a name. */
static const char GAPS[] = " -";

/* In a word of so many letters the first may be the wrong one; shorter words are too much
 * alike. */
enum { LONGEST_WORD = 63, LONG_ENOUGH = 4 };

static bool
same_letter(char a, char b)
{
	return text_lower(a) == text_lower(b);
}

/* How many letters must be added, dropped or changed to make `b` of `a`, whatever their
 * case; two neighbours swapped count as one. Both at most LONGEST_WORD letters. */
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
			size_t best =
			    last[j - 1] + (same_letter(a[i - 1], b[j - 1]) ? 0 : 1);
			best = last[j] + 1 < best ? last[j] + 1 : best;
			best = row[j - 1] + 1 < best ? row[j - 1] + 1 : best;
			bool swapped = i > 1 && j > 1 &&
				       same_letter(a[i - 1], b[j - 2]) &&
				       same_letter(a[i - 2], b[j - 1]);
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

/* Whether a word of `text` is this one. */
static bool
has_word(const char *text, const char *word, size_t length)
{
	for (const char *at = text; *at != '\0'; at += strspn(at, GAPS)) {
		size_t here = strcspn(at, GAPS);
		if (here == length && strncasecmp(at, word, length) == 0) {
			return true;
		}
		at += here;
	}
	return false;
}

bool
words_in_common(const char *a, const char *b)
{
	for (const char *at = a; *at != '\0'; at += strspn(at, GAPS)) {
		size_t length = strcspn(at, GAPS);
		if (length > 1 && has_word(b, at, length)) {
			return true;
		}
		at += length;
	}
	return false;
}

bool
words_all_in(const char *words, const char *text)
{
	const char *at = words + strspn(words, GAPS);
	while (*at != '\0') {
		size_t length = strcspn(at, GAPS);
		bool many =
		    length > 1 && (at[length - 1] == 's' || at[length - 1] == 'S');
		if (!has_word(text, at, length) &&
		    !(many && has_word(text, at, length - 1))) {
			break;
		}
		at += length;
		at += strspn(at, GAPS);
	}
	return *at == '\0';
}

bool
word_is_near(const char *typed, const char *word, size_t *off_out)
{
	size_t length = strlen(typed);
	if (length == 0 || length > LONGEST_WORD || strlen(word) > LONGEST_WORD) {
		return false;
	}
	size_t off = letters_off(typed, word);
	*off_out = off;
	return off <= (length < 6 ? 1 : length / 3) &&
	       (same_letter(typed[0], word[0]) || words_in_common(typed, word) ||
		   (off <= 1 && length >= LONG_ENOUGH));
}

const char *
nearest_word(const char *word, const char *const *names, size_t count)
{
	size_t best = LONGEST_WORD;
	const char *nearest = NULL;
	for (size_t i = 0; i < count; i++) {
		size_t off = 0;
		if (word_is_near(word, names[i], &off) && off < best) {
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
