#include "gear/money.h"
#include "report/words_inside.h"

#include <stdlib.h>
#include <string.h>

static const char MINOR[] = " (minor units)";

/* Adds the amount that the words begin with, and returns what follows it; adds nothing
 * and returns the words where they begin with none. */
static const char *
add_amount(const char *words, const char *currency, struct text *out)
{
	char buffer[MONEY_WORDS_SIZE];
	size_t digits = strspn(words, "0123456789");
	if (digits == 0 || digits > 18) {
		return words;
	}
	text_add(out, money_words(strtoll(words, NULL, 10), currency, buffer));
	return words + digits;
}

void
journal_field_words(const char *field, struct text *out)
{
	const char *minor = strstr(field, MINOR);
	text_add_bytes(
	    out, field, minor == NULL ? strlen(field) : (size_t)(minor - field));
}

void
journal_value_words(
    const char *field, const char *value, const char *currency, struct text *out)
{
	const char *at = value;
	if (strstr(field, MINOR) != NULL) {
		at = add_amount(at, currency, out);
	}
	for (const char *minor = strstr(at, MINOR); minor != NULL;
	     minor = strstr(at, MINOR)) {
		text_add_bytes(out, at, (size_t)(minor - at));
		text_add_byte(out, ' ');
		at = minor + strlen(MINOR);
		at = add_amount(at + strspn(at, " "), currency, out);
	}
	text_add(out, at);
}
