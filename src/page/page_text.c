#include "page/shell.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

void
text_what(struct markup *markup, const struct kinds *kinds, const struct item *item)
{
	const char *words = description_of(kinds, item);
	if (item->quantity > 1) {
		markup_text_format(markup, "%d × ", item->quantity);
	}
	markup_text(markup, kind_name(kinds, item->kind));
	if (words[0] != '\0') {
		markup_element_format(markup, "span", "soft", ", %s", words);
	}
}

void
text_number(size_t number, struct text *out)
{
	static const char *const WORDS[] = {"no", "one", "two", "three", "four", "five",
	    "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};
	if (number < sizeof WORDS / sizeof WORDS[0]) {
		text_add(out, WORDS[number]);
	} else {
		text_add_format(out, "%zu", number);
	}
}

void
text_capital_number(size_t number, struct text *out)
{
	SCOPED_TEXT words = {0};
	text_number(number, &words);
	text_add_capital(out, text_string(&words));
}

void
text_lines(struct markup *markup, const char *lines)
{
	markup_begin(markup, "ul");
	for (const char *at = lines; *at != '\0';) {
		size_t length = strcspn(at, "\n");
		SCOPED_TEXT line = {0};
		text_add_bytes(&line, at, length);
		markup_element(markup, "li", NULL, text_string(&line));
		at += length + (at[length] == '\n' ? 1 : 0);
	}
	markup_end(markup);
}

void
text_in_place(
    const char *words, const char *const table[][2], size_t count, struct text *out)
{
	for (const char *at = words; *at != '\0';) {
		size_t i = 0;
		while (i < count && strncmp(at, table[i][0], strlen(table[i][0])) != 0) {
			i++;
		}
		if (i < count) {
			text_add(out, table[i][1]);
			at += strlen(table[i][0]);
		} else {
			text_add_byte(out, *at++);
		}
	}
}

void
text_sentence(const char *words, struct text *out)
{
	size_t first = strspn(words, "abcdefghijklmnopqrstuvwxyz");
	size_t length = strlen(words);
	bool capital = first > 0 && words[first] == ' ';
	(capital ? text_add_capital : text_add)(out, words);
	if (length > 0 && words[length - 1] != '.' && words[length - 1] != '?') {
		text_add_byte(out, '.');
	}
}

bool
text_figures(const char *typed, int most, int *out)
{
	size_t length = strlen(typed);
	bool digits = length > 0 && length < 7 && strspn(typed, "0123456789") == length;
	long number = digits ? strtol(typed, NULL, 10) : -1;
	if (number < 0 || number > most) {
		return false;
	}
	*out = (int)number;
	return true;
}
