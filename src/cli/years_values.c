/* Options of `becket years` read into suppositions: prices, another use. */
#include "cli/command.h"
#include "cli/values.h"

#include <string.h>

/* Reads the age between "@" and "="; where `at` is NULL the price holds from new. A new
 * thing's price has no age. */
static bool
read_age(
    const char *at, const char *equals, struct outlook_price *out, struct fault *fault)
{
	SCOPED_TEXT age = {0};
	out->from_years = 0;
	if (at == NULL) {
		return true;
	}
	if (out->task == TASK_RENEW) {
		return fault_set(fault, FAULT_INPUT,
		    "the price of a new one does not depend on an age; leave the \"@\" out");
	}
	text_add_bytes(&age, at + 1, (size_t)(equals - at - 1));
	return age_read(text_string(&age), &out->from_years, fault);
}

/* Reads "liferaft-valise:service=249.00", perhaps with "@10y" before the "=". */
static bool
read_price(struct context *context, const char *value, struct outlook_price *out,
    struct fault *fault)
{
	const char *colon = strchr(value, ':');
	const char *equals = colon == NULL ? NULL : strchr(colon, '=');
	if (equals == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "--price: expected KIND:TASK=PRICE, as liferaft-valise:service=249.00 or "
		    "liferaft-valise:service@10y=349.00, found \"%.80s\"",
		    value);
	}
	SCOPED_TEXT kind = {0};
	SCOPED_TEXT task = {0};
	text_add_bytes(&kind, value, (size_t)(colon - value));
	const char *at = memchr(colon, '@', (size_t)(equals - colon));
	text_add_bytes(
	    &task, colon + 1, (size_t)((at == NULL ? equals : at) - colon - 1));
	out->kind = arena_string(&context->desk.arena, text_string(&kind));
	return (task_parse(text_string(&task), &out->task, fault) &&
		   read_age(at, equals, out, fault) &&
		   price_read(context, equals + 1, &out->minor, fault)) ||
	       fault_prefix(fault, "--price");
}

bool
years_read_prices(struct context *context, const struct word_list *words,
    struct years_asked *asked, struct fault *fault)
{
	struct outlook_price *prices =
	    arena_alloc(&context->desk.arena, (words->count + 1) * sizeof *prices);
	for (size_t i = 0; i < words->count; i++) {
		if (!read_price(context, words->items[i], &prices[i], fault)) {
			return false;
		}
	}
	asked->prices = prices;
	asked->price_count = words->count;
	return true;
}

bool
years_read_use(struct context *context, const char *words, day_t from,
    struct years_asked *asked, struct fault *fault)
{
	struct supposition *use = arena_alloc(&context->desk.arena, sizeof *use);
	if (words == NULL) {
		return true;
	}
	*use = (struct supposition){.from = from, .says = SAYS_USE, .area = ""};
	asked->use = use;
	if (strncmp(words, "use=", 4) != 0 || strchr(words, '@') != NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "--if: expected use=private or use=commercial, and --if-from DATE where it "
		    "is not from today on, found \"%.60s\"",
		    words);
	}
	return use_parse(words + 4, &use->use, fault) || fault_prefix(fault, "--if");
}
