/* The words in option tables: choices, suggestions for typing mistakes, usage lines. */
#include "base/alike.h"
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
options_choose(struct arena *arena, const char *choice, const char **word)
{
	struct word_list words = {0};
	for (const char *at = choice; *at != '\0'; at += *at == '|' ? 1 : 0) {
		size_t length = strcspn(at, "|");
		char *copy = arena_alloc(arena, length + 1);
		memcpy(copy, at, length);
		ARENA_ADD(arena, &words, copy);
		at += length;
	}
	size_t index = word_meant(*word, words.items, words.count);
	if (index >= words.count) {
		return false;
	}
	*word = words.items[index];
	return true;
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
