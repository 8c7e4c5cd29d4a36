#include "page/page_text.h"

#include "report/words.h"

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
		markup_begin(markup, "span");
		markup_attribute(markup, "class", "soft");
		markup_text_format(markup, ", %s", words);
		markup_end(markup);
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
	const char *string = text_string(&words);
	char first = string[0];
	text_add_byte(
	    out, first >= 'a' && first <= 'z' ? (char)(first - 'a' + 'A') : first);
	text_add(out, string + 1);
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
