#include "cli/values.h"

#include "desk/reminding.h"
#include "gear/money.h"

#include <stdlib.h>
#include <string.h>

bool
age_read(const char *text, int *out, struct fault *fault)
{
	char digits[8] = "";
	size_t length = strspn(text, "0123456789");
	bool shaped =
	    length > 0 && length < sizeof digits && strcmp(text + length, "y") == 0;
	long years = 0;
	if (shaped) {
		memcpy(digits, text, length);
	}
	if (!shaped || !number_read(digits, 1, STATION_AGE_MOST, &years)) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.20s\" is no age; expected whole years from 1 to %d, as @10y; a "
		    "price from new goes without",
		    text, (int)STATION_AGE_MOST);
	}
	*out = (int)years;
	return true;
}

bool
price_read(struct context *context, const char *text, int64_t *out, struct fault *fault)
{
	const char *currency = NULL;
	char now[MONEY_WORDS_SIZE];
	char before[MONEY_WORDS_SIZE];
	long whole = 0;
	if (!desk_currency(&context->desk, &currency, fault) ||
	    !money_parse(text, currency, out, fault)) {
		return false;
	}
	if (number_read(text, 1, 1000000000L, &whole) && *out != whole) {
		desk_note(&context->desk,
		    "%s is %s; an earlier becket took a whole number for %s", text,
		    money_words(*out, currency, now),
		    money_words(whole, currency, before));
	}
	return true;
}

bool
length_read(const char *value, int *out_cm, struct fault *fault)
{
	size_t whole = strspn(value, "0123456789");
	const char *point = value + whole;
	size_t decimals = *point == '.' ? strspn(point + 1, "0123456789") : 0;
	bool shaped = whole > 0 && whole <= 3 &&
		      (*point == '\0' ||
			  (decimals > 0 && decimals <= 2 && point[1 + decimals] == '\0'));
	int length_cm = shaped ? (int)strtol(value, NULL, 10) * 100 : 0;
	if (shaped && decimals > 0) {
		length_cm += (point[1] - '0') * 10;
	}
	if (shaped && decimals > 1) {
		length_cm += point[2] - '0';
	}
	if (length_cm <= 0 || length_cm > 50000) {
		return fault_set(
		    fault, FAULT_INPUT, "\"%s\" is no length in metres, as 10.45", value);
	}
	*out_cm = length_cm;
	return true;
}

bool
value_list(struct arena *arena, const char *name, const char *value,
    const char *const **out, size_t *count_out, struct fault *fault)
{
	struct word_list words = {0};
	if (!words_cut(arena, value, &words, fault)) {
		return fault_prefix(fault, "--%s", name);
	}
	*out = words.items;
	*count_out = words.count;
	return true;
}

static struct scope
scope_as_said(const struct scope_said *said)
{
	if (said->vessel != NULL) {
		return (struct scope){SCOPE_VESSEL, said->vessel};
	}
	if (said->base != NULL) {
		return (struct scope){SCOPE_BASE, said->base};
	}
	return said->station != NULL ? (struct scope){SCOPE_STATION, said->station}
				     : (struct scope){SCOPE_FLEET, ""};
}

bool
scope_of(struct context *context, const struct scope_said *said, struct scope *out,
    struct fault *fault)
{
	*out = scope_as_said(said);
	return reminding_check_scope(&context->desk, out, fault);
}
