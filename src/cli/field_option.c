#include "cli/field_option.h"

#include "cli/values.h"

#include <string.h>

bool
field_option_read(struct context *context, const struct field *field, void *of,
    bool *given_out, struct fault *fault)
{
	const struct given_options *given = context->given;
	const struct range range = {
	    field->least, field->most == 0 ? FIELD_NUMBER_MOST : field->most};
	const char *word = options_value(given, field->option);
	void *at = field_in(field, of);
	*given_out = word != NULL;
	if (word == NULL) {
		return true;
	}
	if (field->none != NULL && text_same_letters(word, field->none)) {
		field_empty(field, of);
		return true;
	}
	switch (field->type) {
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
		*(const char **)at = word;
		return true;
	case VALUE_STAMP:
		return value_stamp(given, field->option, at, NULL, fault);
	case VALUE_DAY:
		return value_day(given, field->option, at, NULL, fault);
	case VALUE_COUNT:
		return value_number(given, field->option, range, at, NULL, fault);
	case VALUE_PRICE:
		return value_price(context, field->option, at, NULL, fault);
	case VALUE_STATE:
		return place_parse(word, at, fault);
	case VALUE_BECAUSE:
		return because_parse(word, at, fault);
	case VALUE_TASK:
		return task_parse(word, at, fault);
	case VALUE_USE:
		return use_parse(word, at, fault);
	case VALUE_LENGTH:
		return value_length(given, field->option, at, NULL, fault);
	case VALUE_FLAG:
		*(bool *)at = strcmp(word, "yes") == 0;
		return true;
	case VALUE_EITHER:
		*(int *)at = strcmp(word, "yes") == 0 ? 1 : -1;
		return true;
	}
	return false;
}

bool
field_options_read(struct context *context, const struct field *fields, size_t count,
    void *of, unsigned *set, struct fault *fault)
{
	for (size_t i = 0; i < count; i++) {
		const struct field *field = &fields[i];
		bool given =
		    field->option != NULL && options_has(context->given, field->option);
		*set |= given ? 1U << i : 0U;
		if (given && !field->part &&
		    !field_option_read(context, field, of, &given, fault)) {
			return false;
		}
	}
	return true;
}
