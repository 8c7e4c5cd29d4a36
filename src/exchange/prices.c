#include "exchange/inventory_csv.h"
#include "exchange/item_fields.h"

#include <string.h>

/* Digits before the point; what lies above fits no int64_t worry and no boat. */
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
	size_t groups;    /* thousands that are parted off */
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
	bool first_fits = figures->whole >= 1 && figures->whole <= 3;
	figures->mark = first_fits ? mark_at(at) : NULL;
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

/* True for a number with letters or a sign right before or behind it. */
static bool
has_currency(const char *string)
{
	static const char NOT_ONE[] = "0123456789.,-' ";
	size_t length = strlen(string);
	bool number = string[strcspn(string, "0123456789")] != '\0';
	return number && (strchr(NOT_ONE, string[0]) == NULL ||
			     strchr(NOT_ONE, string[length - 1]) == NULL);
}

/* One parted thousand, and nothing behind it, could as well be three decimals. A comma or
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

static bool
take_apart(const char *string, struct figures *figures, struct fault *fault)
{
	size_t first = strspn(string, "0123456789");
	keep_digits(figures, string, first);
	const char *at = take_groups(figures, string + first);
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
		if (figures->decimal_count < 1 || figures->decimal_count > 2) {
			return refuse(string,
			    "after the point or comma come one or two digits", fault);
		}
	}
	return *at == '\0' || refuse(string, "there is more than a number", fault);
}

bool
price_parse(const char *string, int64_t *minor_out, struct fault *fault)
{
	if (*string == '-') {
		return refuse(string, "it is negative", fault);
	}
	if (has_currency(string)) {
		return refuse(string,
		    "prices are all in the book's currency, so leave its sign out",
		    fault);
	}
	if (strspn(string, "0123456789") == 0) {
		return refuse(string, "it does not start with a digit", fault);
	}
	struct figures figures = {.whole = 0};
	if (!take_apart(string, &figures, fault)) {
		return false;
	}
	int64_t minor = 0;
	for (size_t i = 0; i < figures.whole; i++) {
		minor = minor * 10 + (figures.digits[i] - '0');
	}
	for (size_t i = 0; i < 2; i++) {
		bool there = i < figures.decimal_count;
		minor = minor * 10 + (there ? figures.decimals[i] - '0' : 0);
	}
	*minor_out = minor;
	return true;
}
