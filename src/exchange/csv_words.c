#include "exchange/csv_words.h"

#include "base/text.h"

#include <string.h>

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

bool
csv_says_how_many(const char *text)
{
	static const char DIGITS[] = "0123456789";
	size_t at = strcspn(text, "xX");
	while (text[at] != '\0') {
		size_t before = at;
		while (before > 0 && text[before - 1] == ' ') {
			before--;
		}
		bool counted = before > 0 && strchr(DIGITS, text[before - 1]) != NULL;
		bool starts = at == 0 || text[at - 1] == ' ' || text[at - 1] == '(';
		const char *after = text + at + 1;
		if (counted && (*after == ' ' || *after == '\0')) {
			return true;
		}
		if (starts && strspn(after + strspn(after, " "), DIGITS) > 0) {
			return true;
		}
		at += 1 + strcspn(after, "xX");
	}
	return false;
}
