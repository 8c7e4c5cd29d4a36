#include "cli/gear_options.h"
#include "cli/values.h"

#include <assert.h>
#include <string.h>

/* Memory in the arena for one element for each value. */
static void *
room_for(struct context *context, const struct word_list *values, size_t size)
{
	return arena_alloc(&context->desk.arena, (values->count + 1) * size);
}

/* It is a fault to give "none" beside other values of the same option. */
static bool
none_alone(const char *option, bool none, size_t count, struct fault *fault)
{
	return !none || count == 0 ||
	       fault_set(fault, FAULT_USAGE,
		   "--%s none and --%s with a value exclude each other", option, option);
}

static bool
read_closed(struct context *context, const struct word_list *values,
    struct station_change *change, struct fault *fault)
{
	struct yearly *closed = room_for(context, values, sizeof *closed);
	struct span *shut = room_for(context, values, sizeof *shut);
	bool none = false;
	for (size_t i = 0; i < values->count; i++) {
		const char *value = values->items[i];
		bool dated = strspn(value, "0123456789") == 4;
		if (text_same_letters(value, "none")) {
			none = true;
		} else if (dated && span_parse(value, &shut[change->shut_count], fault)) {
			change->shut_count++;
		} else if (!dated &&
			   yearly_parse(value, &closed[change->closed_count], fault)) {
			change->closed_count++;
		} else {
			return fault_prefix(fault, "--closed");
		}
	}
	change->closed = closed;
	change->shut = shut;
	return none_alone(
	    "closed", none, change->closed_count + change->shut_count, fault);
}

/* Cuts `value` at the first `mark` into two words in the arena; the second is NULL when
 * there is no mark. */
static void
cut(struct context *context, const char *value, char mark, char **first_out,
    char **second_out)
{
	assert(value != NULL);
	size_t size = strlen(value) + 1;
	char *word = arena_alloc(&context->desk.arena, size);
	memcpy(word, value, size);
	char *at = strchr(word, mark);
	*first_out = word;
	*second_out = NULL;
	if (at != NULL) {
		*at = '\0';
		*second_out = at + 1;
	}
}

/* Reads "02..04=28", or "02=28" for one month. */
static bool
read_pace(struct context *context, const char *value, struct station_pace *out,
    struct fault *fault)
{
	char *months = NULL;
	char *days = NULL;
	char *first = NULL;
	char *last = NULL;
	cut(context, value, '=', &months, &days);
	cut(context, months, '.', &first, &last);
	bool two = last != NULL && last[0] == '.';
	long numbers[3] = {0};
	if ((last != NULL && !two) || days == NULL ||
	    !number_read(first, 1, 12, &numbers[0]) ||
	    !number_read(two ? last + 1 : first, 1, 12, &numbers[1]) ||
	    !number_read(days, 0, 365, &numbers[2])) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no turn-round for some months; expected MM..MM=DAYS, as "
		    "02..04=28",
		    value);
	}
	*out = (struct station_pace){(int)numbers[0], (int)numbers[1], (int)numbers[2]};
	return true;
}

static bool
read_paces(struct context *context, const struct word_list *values,
    struct station_change *change, struct fault *fault)
{
	struct station_pace *paces = room_for(context, values, sizeof *paces);
	bool none = false;
	for (size_t i = 0; i < values->count; i++) {
		const char *value = values->items[i];
		if (text_same_letters(value, "none")) {
			none = true;
		} else if (!read_pace(
			       context, value, &paces[change->pace_count++], fault)) {
			return fault_prefix(fault, "--turn-round-in");
		}
	}
	change->paces = paces;
	return none_alone("turn-round-in", none, change->pace_count, fault);
}

static bool
read_kinds(struct context *context, const char *value, struct station_change *change,
    struct fault *fault)
{
	if (value == NULL || text_same_letters(value, "all")) {
		return true;
	}
	const char *const *words = NULL;
	size_t count = 0;
	if (!value_list(&context->desk.arena, "kinds", value, &words, &count, fault)) {
		return false;
	}
	struct word_list kinds = {0};
	for (size_t i = 0; i < count; i++) {
		if (!desk_kinds_meant(&context->desk, words[i], &kinds, fault)) {
			return fault_prefix(fault, "--kinds");
		}
	}
	change->kinds = kinds.items;
	change->kind_count = kinds.count;
	return true;
}

/* Adds the makes of one "KIND=MAKE,MAKE" to the change. */
static bool
add_makes(struct context *context, const char *value, const char **kinds,
    struct station_change *change, struct fault *fault)
{
	char *words = NULL;
	char *list = NULL;
	const char *const *names = NULL;
	size_t count = 0;
	const struct kind *kind = NULL;
	cut(context, value, '=', &words, &list);
	if (list == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "--makes: \"%.60s\" names no make; expected KIND=MAKE,MAKE or KIND=all",
		    value);
	}
	if (!desk_kind(&context->desk, words, &kind, fault)) {
		return fault_prefix(fault, "--makes");
	}
	kinds[change->make_kind_count++] = kind->id;
	if (text_same_letters(list, "all")) {
		return true;
	}
	if (!value_list(&context->desk.arena, "makes", list, &names, &count, fault)) {
		return false;
	}
	size_t total = change->make_count + count;
	struct station_make *makes =
	    arena_alloc(&context->desk.arena, total * sizeof *makes);
	for (size_t i = 0; i < total; i++) {
		makes[i] = i < change->make_count ? change->makes[i]
						  : (struct station_make){kind->id,
							names[i - change->make_count]};
	}
	change->makes = makes;
	change->make_count = total;
	return true;
}

static bool
read_makes(struct context *context, const struct word_list *values,
    struct station_change *change, struct fault *fault)
{
	const char **kinds = room_for(context, values, sizeof *kinds);
	for (size_t i = 0; i < values->count; i++) {
		const char *value = values->items[i];
		if (!add_makes(context, value, kinds, change, fault)) {
			return false;
		}
	}
	change->make_kinds = kinds;
	return true;
}

/* Reads "KIND:TASK=PRICE" or "KIND=PRICE", either with an optional "@10y" before the "=",
 * or either with "none" as the price. */
static bool
read_price(struct context *context, const char *value, struct station_price *out,
    struct fault *fault)
{
	char *what = NULL;
	char *money = NULL;
	char *whom = NULL;
	char *age = NULL;
	char *words = NULL;
	char *task = NULL;
	const struct kind *kind = NULL;
	struct station_price price = {.every_task = true, .minor = -1};
	cut(context, value, '=', &what, &money);
	cut(context, what, '@', &whom, &age);
	cut(context, whom, ':', &words, &task);
	if (money == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.60s\" has no price; expected KIND=PRICE, KIND:TASK=PRICE, or one "
		    "from an age on, as KIND:TASK@10y=PRICE",
		    value);
	}
	if (age != NULL && !age_read(age, &price.from_years, fault)) {
		return false;
	}
	price.every_task = task == NULL;
	if (!desk_kind(&context->desk, words, &kind, fault) ||
	    (task != NULL && !task_parse(task, &price.task, fault)) ||
	    (!text_same_letters(money, "none") &&
		!price_read(context, money, &price.minor, fault))) {
		return false;
	}
	price.kind = kind->id;
	*out = price;
	return true;
}

static bool
read_prices(struct context *context, const struct word_list *values,
    struct station_change *change, struct fault *fault)
{
	struct station_price *prices = room_for(context, values, sizeof *prices);
	for (size_t i = 0; i < values->count; i++) {
		const char *value = values->items[i];
		if (text_same_letters(value, "none")) {
			change->no_prices = true;
		} else if (!read_price(
			       context, value, &prices[change->price_count++], fault)) {
			return fault_prefix(fault, "--price");
		}
	}
	change->prices = prices;
	return true;
}

bool
station_options_read(
    struct context *context, struct station_change *change, struct fault *fault)
{
	struct station_said said = {.change = *change};
	if (!options_into(context->given, &said, fault)) {
		return false;
	}
	*change = said.change;
	return (said.open == NULL ||
		   weekdays_parse(said.open, &change->weekdays, fault) ||
		   fault_prefix(fault, "--open")) &&
	       read_closed(context, &said.closed, change, fault) &&
	       read_paces(context, &said.paces, change, fault) &&
	       read_kinds(context, said.kinds, change, fault) &&
	       read_makes(context, &said.makes, change, fault) &&
	       read_prices(context, &said.prices, change, fault);
}
