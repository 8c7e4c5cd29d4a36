/* The words of option tables: choices, near misses, usage lines. */
#include "cli/options.h"

#include <string.h>

bool
options_is_choice(const char *name)
{
	if (strchr(name, '|') == NULL) {
		return false;
	}
	for (const char *at = name; *at != '\0'; at++) {
		if (*at >= 'A' && *at <= 'Z') {
			return false;
		}
	}
	return true;
}

const char *
word_choices(const struct word_spec *word)
{
	if (word->choices != NULL) {
		return word->choices;
	}
	return options_is_choice(word->name) ? word->name : NULL;
}

bool
options_choice_has(const char *choice, const char *word)
{
	size_t length = strlen(word);
	while (*choice != '\0') {
		size_t this = strcspn(choice, "|");
		if (this == length && strncmp(choice, word, length) == 0) {
			return true;
		}
		choice += this;
		choice += *choice == '|' ? 1 : 0;
	}
	return false;
}

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

static void
add_usage_word(struct text *out, const struct word_spec *word)
{
	text_add_format(out, "%s%s%s%s%s", out->length > 0 ? " " : "",
	    word->required ? "" : "[", word->name, word->repeatable ? "..." : "",
	    word->required ? "" : "]");
}

static void
add_usage_option(struct text *out, const struct option_spec *option)
{
	text_add_format(out, "%s%s--%s%s%s%s%s", out->length > 0 ? " " : "",
	    option->required ? "" : "[", option->name,
	    option->argument != NULL ? " " : "",
	    option->argument != NULL ? option->argument : "", option->required ? "" : "]",
	    option->repeatable ? "..." : "");
}

void
options_usage(const struct option_table *table, struct text *out)
{
	for (size_t i = 0; i < table->word_count; i++) {
		add_usage_word(out, &table->words[i]);
	}
	for (size_t pass = 0; pass < 2; pass++) {
		for (size_t i = 0; i < table->option_count; i++) {
			const struct option_spec *option = &table->options[i];
			if (!option->hidden && option->required == (pass == 0)) {
				add_usage_option(out, option);
			}
		}
	}
}
