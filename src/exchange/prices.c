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

bool
price_parse(const char *string, int64_t *minor_out, struct fault *fault)
{
	size_t whole = strspn(string, "0123456789");
	const char *rest = string + whole;
	if (*string == '-') {
		return refuse(string, "it is negative", fault);
	}
	if (strchr(string, ',') != NULL) {
		return refuse(string, "a comma could part thousands or decimals", fault);
	}
	if (whole == 0) {
		return refuse(string, "it does not start with a digit", fault);
	}
	if (whole > WHOLE_DIGITS_MOST) {
		return refuse(string, "it is too large", fault);
	}
	size_t decimals = *rest == '.' ? strspn(rest + 1, "0123456789") : 0;
	if (*rest == '.' && (decimals < 1 || decimals > 2)) {
		return refuse(string, "after the point come one or two digits", fault);
	}
	if (rest[*rest == '.' ? decimals + 1 : 0] != '\0') {
		return refuse(string, "there is more than a number", fault);
	}
	int64_t minor = 0;
	for (size_t i = 0; i < whole; i++) {
		minor = minor * 10 + (string[i] - '0');
	}
	for (size_t i = 0; i < 2; i++) {
		minor = minor * 10 + (i < decimals ? rest[1 + i] - '0' : 0);
	}
	*minor_out = minor;
	return true;
}
