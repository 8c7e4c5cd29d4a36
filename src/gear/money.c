#include "gear/money.h"

#include "base/text.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

int
money_decimals(const char *currency)
{
	static const char *const NONE[] = {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY",
	    "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"};
	static const char *const THREE[] = {
	    "BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"};
	if (currency == NULL) {
		return 2;
	}
	return words_have(NONE, sizeof NONE / sizeof NONE[0], currency)      ? 0
	       : words_have(THREE, sizeof THREE / sizeof THREE[0], currency) ? 3
									     : 2;
}

const char *
money_words(int64_t minor, const char *currency, char buffer[MONEY_WORDS_SIZE])
{
	buffer[0] = '\0';
	if (minor < 0) {
		return buffer;
	}
	int decimals = money_decimals(currency);
	if (decimals == 0) {
		(void)snprintf(
		    buffer, MONEY_WORDS_SIZE, "%.8s %" PRId64, currency, minor);
		return buffer;
	}
	int64_t unit = decimals == 3 ? 1000 : 100;
	(void)snprintf(buffer, MONEY_WORDS_SIZE, "%.8s %" PRId64 ".%0*" PRId64, currency,
	    minor / unit, decimals, minor % unit);
	return buffer;
}

void
money_add(int64_t minor, const char *currency, struct text *out)
{
	int decimals = money_decimals(currency);
	int64_t unit = decimals == 0 ? 1 : decimals == 3 ? 1000 : 100;
	if (minor < 0) {
		return;
	}
	text_add_format(out, "%" PRId64, minor / unit);
	if (decimals > 0) {
		text_add_format(out, ".%0*" PRId64, decimals, minor % unit);
	}
}

/* The most digits before the decimals: in minor units this is far below the largest
 * int64_t. */
enum { WHOLE_DIGITS_MOST = 12 };

static bool
refuse(const char *string, const char *why, struct fault *fault)
{
	return fault_set(fault, FAULT_INPUT,
	    "\"%.40s\" is no price: %s; expected one like 249 or 249.00", string, why);
}

/* What stands between thousands, as bytes; a plain and a no-break space (UTF-8). */
static const char *const GROUP_MARKS[] = {",", ".", " ", "\xC2\xA0", "'"};

/* The mark that stands here, or NULL. */
static const char *
mark_at(const char *at)
{
	for (size_t i = 0; i < sizeof GROUP_MARKS / sizeof GROUP_MARKS[0]; i++) {
		if (strncmp(at, GROUP_MARKS[i], strlen(GROUP_MARKS[i])) == 0) {
			return GROUP_MARKS[i];
		}
	}
	return NULL;
}

/* A price taken apart. */
struct figures {
	char digits[WHOLE_DIGITS_MOST + 1]; /* before the decimals */
	size_t whole;
	size_t groups;    /* groups of thousands */
	const char *mark; /* by what; NULL when there are none */
	const char *decimals;
	size_t decimal_count;
};

static void
keep_digits(struct figures *figures, const char *from, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		if (figures->whole < WHOLE_DIGITS_MOST) {
			figures->digits[figures->whole] = from[i];
		}
		figures->whole++;
	}
}

/* Moves past ".250" in "1.250,00": a mark, the same each time, and just three digits. */
static const char *
take_groups(struct figures *figures, const char *at)
{
	figures->mark = figures->whole <= 3 ? mark_at(at) : NULL;
	while (figures->mark != NULL) {
		size_t length = strlen(figures->mark);
		if (strncmp(at, figures->mark, length) != 0 ||
		    strspn(at + length, "0123456789") != 3) {
			break;
		}
		keep_digits(figures, at + length, 3);
		figures->groups++;
		at += length + 3;
	}
	return at;
}

/* One parted thousand, and nothing after it, could as well be three decimals. A comma or
 * point that parts thousands can't part decimals too. */
static bool
check_marks(
    const char *string, const struct figures *figures, char point, struct fault *fault)
{
	bool pointed = figures->mark != NULL && strchr(",.", *figures->mark) != NULL;
	if (figures->groups == 1 && pointed && point == '\0') {
		return refuse(
		    string, "its comma or point could part thousands or decimals", fault);
	}
	if (figures->mark != NULL && figures->groups > 0 && point == *figures->mark) {
		return refuse(string, "thousands and decimals are parted alike", fault);
	}
	return true;
}

/* Where a currency has three decimals, "12.345" has them: it is written so. */
static bool
take_three_decimals(struct figures *figures, const char *at, int most)
{
	bool three =
	    most == 3 && figures->groups == 1 && *figures->mark == '.' && *at == '\0';
	if (three) {
		figures->whole -= 3;
		figures->decimals = at - 3;
		figures->decimal_count = 3;
	}
	return three;
}

static bool
check_decimals(
    const char *string, const struct figures *figures, int most, struct fault *fault)
{
	if (most == 0 && strspn(figures->decimals, "0") >= figures->decimal_count) {
		return true;
	}
	if (most == 0) {
		return refuse(string, "the book's currency has no decimals", fault);
	}
	if (figures->decimal_count < 1 || figures->decimal_count > (size_t)most) {
		return refuse(string,
		    most == 2 ? "after the point or comma come one or two digits"
			      : "after the point or comma come one to three digits",
		    fault);
	}
	return true;
}

static bool
take_apart(const char *string, int most, struct figures *figures, struct fault *fault)
{
	size_t first = strspn(string, "0123456789");
	keep_digits(figures, string, first);
	const char *at = take_groups(figures, string + first);
	if (take_three_decimals(figures, at, most)) {
		return true;
	}
	char point = '\0';
	if (*at == ',' || *at == '.') {
		point = *at;
	}
	if (!check_marks(string, figures, point, fault)) {
		return false;
	}
	if (figures->whole > WHOLE_DIGITS_MOST) {
		return refuse(string, "it is too large", fault);
	}
	if (point != '\0') {
		figures->decimals = at + 1;
		figures->decimal_count = strspn(at + 1, "0123456789");
		at += 1 + figures->decimal_count;
		if (!check_decimals(string, figures, most, fault)) {
			return false;
		}
	}
	return *at == '\0' || refuse(string, "there is more than a number", fault);
}

/* Signs of currencies, from memory: several share one. */
static const struct {
	const char *code;
	const char *sign;
} SIGNS[] = {{"AUD", "$"}, {"BRL", "R$"}, {"CAD", "$"}, {"CHF", "Fr"},
    {"CNY", "\xC2\xA5"}, {"CZK", "K\xC4\x8D"}, {"DKK", "kr"}, {"EUR", "\xE2\x82\xAC"},
    {"GBP", "\xC2\xA3"}, {"HUF", "Ft"}, {"ILS", "\xE2\x82\xAA"}, {"INR", "\xE2\x82\xB9"},
    {"ISK", "kr"}, {"JPY", "\xC2\xA5"}, {"KRW", "\xE2\x82\xA9"}, {"NOK", "kr"},
    {"NZD", "$"}, {"PLN", "z\xC5\x82"}, {"SEK", "kr"}, {"TRY", "\xE2\x82\xBA"},
    {"USD", "$"}, {"ZAR", "R"}};

enum { NUMBER_SIZE = 64 };

/* Blanks, among them the no-break ones that stand before a sign, at the head of a
 * text. */
static size_t
blanks(const char *text)
{
	size_t length = 0;
	for (;;) {
		if (text[length] == ' ') {
			length++;
		} else if (strncmp(text + length, "\xC2\xA0", 2) == 0) {
			length += 2;
		} else if (strncmp(text + length, "\xE2\x80\xAF", 3) == 0) {
			length += 3;
		} else {
			return length;
		}
	}
}

/* The length of the word or sign at the head of a text, up to a blank, digit or its
 * end. */
static size_t
word_length(const char *text)
{
	size_t length = 0;
	while (text[length] != '\0' && strchr("0123456789", text[length]) == NULL &&
	       blanks(text + length) == 0) {
		length++;
	}
	return length;
}

static bool
is_currency(const char *word, size_t length, const char *currency)
{
	if (length == strlen(currency) && strncasecmp(word, currency, length) == 0) {
		return true;
	}
	for (size_t i = 0; i < sizeof SIGNS / sizeof SIGNS[0]; i++) {
		if (strcmp(SIGNS[i].code, currency) == 0 &&
		    strlen(SIGNS[i].sign) == length &&
		    strncmp(word, SIGNS[i].sign, length) == 0) {
			return true;
		}
	}
	return false;
}

static bool
refuse_currency(const char *string, const char *currency, struct fault *fault)
{
	return fault_set(fault, FAULT_INPUT,
	    "\"%.40s\" is no price: every price of this book is in %s; expected one like "
	    "249.00 or %s 249.00",
	    string, currency, currency);
}

/* Where the number ends: before blanks, a word or a sign that is no part of it. */
static size_t
number_length(const char *text)
{
	size_t length = 0;
	for (size_t i = 0; text[i] != '\0'; i++) {
		if (strchr("0123456789", text[i]) != NULL) {
			length = i + 1;
		}
	}
	/* a mark after the last digit is for the number's own check to complain of */
	return length + strspn(text + length, ",.");
}

/* The length of the dash that stands for no decimals in "45.-", "45,--" and the like. */
static size_t
stroke_length(const char *text)
{
	size_t hyphens = strspn(text, "-");
	bool dash = strncmp(text, "\xE2\x80\x93", 3) == 0 || /* en dash */
		    strncmp(text, "\xE2\x80\x94", 3) == 0;   /* em dash */
	return dash ? 3 : hyphens <= 2 ? hyphens : 0;
}

/* The number alone, without the book's currency before or after it; a dash for decimals
 * becomes a zero in it. `number` is all 0 before. */
static bool
take_currency(const char *string, const char *currency, char number[NUMBER_SIZE],
    struct fault *fault)
{
	const char *at = string + blanks(string);
	size_t before = word_length(at);
	if (before > 0 && strchr("-.,", *at) == NULL) { /* a figure follows */
		if (!is_currency(at, before, currency)) {
			return refuse_currency(string, currency, fault);
		}
		at += before;
		at += blanks(at);
	}
	size_t length = number_length(at);
	size_t stroke = length > 0 && strchr(",.", at[length - 1]) != NULL
			    ? stroke_length(at + length)
			    : 0;
	const char *behind = at + length + stroke;
	behind += blanks(behind);
	size_t word = word_length(behind);
	/* "45-": what is no word is no currency either */
	bool named = word > 0 && strchr("-+*/%=#:;.,!?()", *behind) == NULL;
	if (named && !is_currency(behind, word, currency)) {
		return refuse_currency(string, currency, fault);
	}
	const char *end = named ? behind + word : behind;
	if (*(end + blanks(end)) != '\0' || length + 1 >= NUMBER_SIZE) {
		return refuse(string, "there is more than a number", fault);
	}
	memcpy(number, at, length);
	number[length] = stroke > 0 ? '0' : '\0';
	return true;
}

bool
money_parse(
    const char *string, const char *currency, int64_t *minor_out, struct fault *fault)
{
	char number[NUMBER_SIZE] = "";
	int most = money_decimals(currency);
	if (string[strcspn(string, "0123456789")] == '\0') {
		return refuse(string, "there is no figure in it", fault);
	}
	if (!take_currency(string, currency, number, fault)) {
		return false;
	}
	if (*number == '-') {
		return refuse(string, "it is negative", fault);
	}
	if (strspn(number, "0123456789") == 0) {
		return refuse(string, "it does not start with a digit", fault);
	}
	struct figures figures = {.whole = 0};
	if (!take_apart(number, most, &figures, fault)) {
		return false;
	}
	int64_t minor = 0;
	for (size_t i = 0; i < figures.whole; i++) {
		minor = minor * 10 + (figures.digits[i] - '0');
	}
	for (size_t i = 0; i < (size_t)most; i++) {
		bool there = i < figures.decimal_count;
		minor = minor * 10 + (there ? figures.decimals[i] - '0' : 0);
	}
	*minor_out = minor;
	return true;
}

const char *
money_other(const char *string, const char *currency)
{
	const char *other = NULL;
	int64_t minor = -1;
	struct fault fault = {0};
	if (money_parse(string, currency, &minor, &fault)) {
		return NULL;
	}
	for (size_t i = 0; i < sizeof SIGNS / sizeof SIGNS[0]; i++) {
		if (money_parse(string, SIGNS[i].code, &minor, &fault)) {
			if (other != NULL) {
				return "CUR";
			}
			other = SIGNS[i].code;
		}
	}
	return other;
}
