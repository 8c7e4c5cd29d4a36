#include "base/text.h"
#include "exchange/csv_inside.h"

#include <stdlib.h>
#include <string.h>

static const char DIGITS[] = "0123456789";

bool
csv_has_word(const char *list, const char *text)
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
	static const char WORDS[][10] = {"?", "??", "???", "-", "--", "n/a", "n.a.", "na",
	    "nil", "none", "not known", "tba", "tbc", "unknown", "unbekannt", "k.a.",
	    "keine", "inconnu", "inconnue", "sans", "ukjent", "ingen", "\xE2\x80\x93",
	    "\xE2\x80\x94"};
	int first = text_lower(*text);
	if (first >= '0' && first <= '9') {
		return false; /* as nearly all dates and numbers */
	}
	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		/* nearly every cell says something else, which its first letter tells */
		if (WORDS[i][0] == first && text_same_letters(text, WORDS[i])) {
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
		if (csv_has_word(NUMBERS[i], text)) {
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
	return *text == '\0' || (!times && csv_has_word(UNITS, text)) ? value : 0;
}

/* Where words say how many, and the number there; 0 for nowhere. */
struct how_many {
	size_t many;
	size_t start;
	size_t end;
};

static struct how_many
number_between(const char *text, size_t digits_at, size_t start, size_t end)
{
	size_t many = strspn(text + digits_at, DIGITS) == 0
			  ? 0
			  : strtoul(text + digits_at, NULL, 10);
	return (struct how_many){.many = many, .start = start, .end = end};
}

/* "4 x" before a word or the end, with its x at a place. */
static struct how_many
number_before(const char *text, size_t at)
{
	size_t start = at;
	while (start > 0 && text[start - 1] == ' ') {
		start--;
	}
	while (start > 0 && strchr(DIGITS, text[start - 1]) != NULL) {
		start--;
	}
	bool ends = text[at + 1] == ' ' || text[at + 1] == '\0';
	return ends ? number_between(text, start, start, at + 1)
		    : (struct how_many){.many = 0};
}

/* "x4" at the beginning of a word. */
static struct how_many
number_behind(const char *text, size_t at)
{
	size_t digits = at + 1 + strspn(text + at + 1, " ");
	size_t end = digits + strspn(text + digits, DIGITS);
	bool starts = at == 0 || text[at - 1] == ' ' || text[at - 1] == '(';
	return starts ? number_between(text, digits, at, end)
		      : (struct how_many){.many = 0};
}

/* A number in brackets of its own, "(6)". */
static struct how_many
number_in_brackets(const char *text)
{
	for (const char *at = strchr(text, '('); at != NULL; at = strchr(at + 1, '(')) {
		size_t digits = strspn(at + 1, DIGITS);
		size_t start = (size_t)(at - text);
		if (digits > 0 && digits < 4 && at[1 + digits] == ')') {
			return number_between(text, start + 1, start, start + digits + 2);
		}
	}
	return (struct how_many){.many = 0};
}

static struct how_many
find_how_many(const char *text)
{
	for (size_t at = strcspn(text, "xX"); text[at] != '\0';
	     at += 1 + strcspn(text + at + 1, "xX")) {
		struct how_many before = number_before(text, at);
		struct how_many found =
		    before.many > 0 ? before : number_behind(text, at);
		if (found.many > 0) {
			return found;
		}
	}
	return number_in_brackets(text);
}

size_t
csv_how_many(const char *text)
{
	return find_how_many(text).many;
}

void
csv_without_how_many(const char *text, struct text *out)
{
	struct how_many found = find_how_many(text);
	size_t start = found.start;
	const char *rest = text + found.end;
	if (found.many > 0 && start > 0 && text[start - 1] == '(' && *rest == ')') {
		start--; /* "(x6)" */
		rest++;
	}
	while (found.many > 0 && start > 0 && text[start - 1] == ' ') {
		start--;
	}
	text_add_bytes(out, text, start);
	text_add(out, start == 0 ? rest + strspn(rest, " ") : rest);
}

bool
csv_either_way(const char *text)
{
	struct stamp stamp;
	struct fault fault = {0};
	bool day_first = stamp_parse(text, ORDER_DAY_FIRST, &stamp, &fault);
	bool month_first = stamp_parse(text, ORDER_MONTH_FIRST, &stamp, &fault);
	return day_first && month_first && !stamp_parse(text, ORDER_ISO, &stamp, &fault);
}

bool
csv_stamp(const char *text, enum date_order order, struct stamp *out, struct fault *fault)
{
	if (stamp_parse(text, order, out, fault)) {
		return true;
	}
	if (order == ORDER_ISO && csv_either_way(text)) {
		SCOPED_TEXT why = {0};
		text_add(&why, fault->text);
		return fault_set(fault, FAULT_INPUT,
		    "%s, or say which comes first (--dates day-first or month-first)",
		    text_string(&why));
	}
	return false;
}
