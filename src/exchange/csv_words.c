#include "exchange/csv_words.h"

#include "base/text.h"

#include <stdlib.h>
#include <string.h>

static const char DIGITS[] = "0123456789";

bool
csv_says_not_known(const char *text)
{
	/* The last two are the long dashes of UTF-8 text. */
	static const char *const WORDS[] = {"?", "??", "???", "-", "--", "n/a", "n.a.",
	    "na", "nil", "none", "not known", "tba", "tbc", "unknown", "\xE2\x80\x93",
	    "\xE2\x80\x94"};
	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		if (text_same_letters(text, WORDS[i])) {
			return true;
		}
	}
	return false;
}

/* The number that ends before, or begins at, a place in a text; 0 for none. */
static size_t
number_before(const char *text, size_t end)
{
	size_t start = end;
	while (start > 0 && strchr(DIGITS, text[start - 1]) != NULL) {
		start--;
	}
	return start == end ? 0 : strtoul(text + start, NULL, 10);
}

static size_t
number_at(const char *text)
{
	return strspn(text, DIGITS) == 0 ? 0 : strtoul(text, NULL, 10);
}

/* The number in brackets of its own, "(6)"; 0 for none. */
static size_t
number_in_brackets(const char *text)
{
	for (const char *at = strchr(text, '('); at != NULL; at = strchr(at + 1, '(')) {
		size_t digits = strspn(at + 1, DIGITS);
		if (digits > 0 && digits < 4 && at[1 + digits] == ')') {
			return number_at(at + 1);
		}
	}
	return 0;
}

size_t
csv_how_many(const char *text)
{
	for (size_t at = strcspn(text, "xX"); text[at] != '\0';
	     at += 1 + strcspn(text + at + 1, "xX")) {
		size_t end = at;
		while (end > 0 && text[end - 1] == ' ') {
			end--;
		}
		bool starts = at == 0 || text[at - 1] == ' ' || text[at - 1] == '(';
		const char *after = text + at + 1;
		size_t before =
		    *after == ' ' || *after == '\0' ? number_before(text, end) : 0;
		size_t behind = starts ? number_at(after + strspn(after, " ")) : 0;
		if (before > 0 || behind > 0) {
			return before > 0 ? before : behind;
		}
	}
	return number_in_brackets(text);
}
