#include "exchange/csv_words.h"

#include "base/text.h"

#include <stdlib.h>
#include <string.h>

static const char DIGITS[] = "0123456789";

/* True when a text is among the words of a list with blanks between, in any case of letters. */
static bool
has_word(const char *list, const char *text)
{
	SCOPED_TEXT word = {0};
	for (const char *at = list; *at != '\0'; at += strspn(at, " ")) {
		size_t length = strcspn(at, " ");
		text_reset(&word);
		text_add_bytes(&word, at, length);
		if (text_same_letters(text, text_string(&word))) {
			return true;
		}
		at += length;
	}
	return false;
}

bool
csv_says_not_known(const char *text)
{
	/* The last two are the long dashes of UTF-8 text. */
	static const char *const WORDS[] = {"?", "??", "???", "-", "--", "n/a", "n.a.",
	    "na", "nil", "none", "not known", "tba", "tbc", "unknown", "unbekannt",
	    "k.a.", "keine", "inconnu", "inconnue", "sans", "ukjent", "ingen",
	    "\xE2\x80\x93", "\xE2\x80\x94"};
	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		if (text_same_letters(text, WORDS[i])) {
			return true;
		}
	}
	return false;
}

bool
csv_says_no_gear(const char *text)
{
	static const char *const WORDS[] = {"total", "totals", "subtotal", "sub-total",
	    "grand total", "sum", "summe", "gesamt", "gesamtsumme", "zwischensumme",
	    "somme", "sous-total", "totaux", "totalt", "i alt", "delsum"};
	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		size_t at = 0;
		while (WORDS[i][at] != '\0' && text_lower(text[at]) == WORDS[i][at]) {
			at++;
		}
		if (WORDS[i][at] == '\0' &&
		    (text[at] == '\0' || strchr(" :(=", text[at]) != NULL)) {
			return true;
		}
	}
	size_t length = strlen(text);
	return length > 0 && text[length - 1] == ':';
}

/* The number of a word, 1 to 12; 0 for none. */
static long
number_of_word(const char *text)
{
	static const char *const NUMBERS[] = {"one a single ein eine une un en ett et",
	    "two pair zwei paar deux paire to par", "three drei trois tre",
	    "four vier quatre fire", "five fünf cinq fem", "six sechs seks",
	    "seven sieben sept sju syv", "eight acht huit åtte", "nine neun neuf ni",
	    "ten zehn dix ti", "eleven elf onze elleve", "twelve dozen zwölf douze tolv"};
	text += text_same_letters(text, "a pair") || text_same_letters(text, "a dozen")
		    ? 2
		    : 0;
	for (size_t i = 0; i < sizeof NUMBERS / sizeof NUMBERS[0]; i++) {
		if (has_word(NUMBERS[i], text)) {
			return (long)i + 1;
		}
	}
	return 0;
}

long
csv_count(const char *text)
{
	static const char UNITS[] =
	    "x pc pcs pce pces piece pieces off no nos ea each of "
	    "stk stck stück stueck st pièce pièces pc. pcs. stk.";
	bool times = text_lower(*text) == 'x';
	text += times ? 1 + strspn(text + 1, " ") : 0;
	size_t digits = strspn(text, DIGITS);
	if (digits == 0 || digits > 6) {
		return times ? 0 : number_of_word(text);
	}
	long value = strtol(text, NULL, 10);
	text += digits;
	text += *text == '.' || *text == ',' ? 1 + strspn(text + 1, "0") : 0;
	text += strspn(text, " ");
	return *text == '\0' || (!times && has_word(UNITS, text)) ? value : 0;
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
