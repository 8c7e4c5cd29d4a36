#include "cli/gear_options.h"
#include "cli/values.h"

#include <string.h>

static bool
read_field(struct context *context, const struct field *field, const char *word, void *of,
    struct fault *fault)
{
	int most = field->most == 0 ? FIELD_NUMBER_MOST : field->most;
	void *at = field_in(field, of);
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
		return stamp_typed(word, context->desk.today, at, fault);
	case VALUE_DAY:
		return day_typed(word, context->desk.today, at, fault);
	case VALUE_COUNT:
		return count_typed(word, field->least, most, at, fault);
	case VALUE_PRICE:
		return price_read(context, word, at, fault);
	case VALUE_STATE:
		return place_parse(word, at, fault);
	case VALUE_BECAUSE:
		return because_parse(word, at, fault);
	case VALUE_TASK:
		return task_parse(word, at, fault);
	case VALUE_USE:
		return use_parse(word, at, fault);
	case VALUE_LENGTH:
		return length_read(word, at, fault);
	case VALUE_FLAG:
		*(bool *)at = strcmp(word, "yes") == 0;
		return true;
	case VALUE_EITHER:
		*(int *)at = strcmp(word, "yes") == 0 ? 1 : -1;
		return true;
	}
	return false;
}

static bool
read_option(void *of, const struct option_spec *spec, const char *value, void *at,
    struct fault *fault)
{
	struct context *context = of;
	const struct kind *kind = NULL;
	if (spec->type == OPTION_FIELD) {
		return read_field(context, spec->field, value, at, fault);
	}
	if (spec->type == OPTION_PRICE) {
		return price_read(context, value, at, fault);
	}
	if (!desk_kind(&context->desk, value, &kind, fault)) {
		return false;
	}
	*(const char **)at = kind->id;
	return true;
}

struct option_reader
context_reader(struct context *context)
{
	return (struct option_reader){read_option, context, &context->desk.arena};
}
