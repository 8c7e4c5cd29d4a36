/* Fields of gear as parameters and columns. */
#include "base/text.h"
#include "book/call.h"

#include <string.h>

void
give_field(struct call *call, const struct field *field, const void *of)
{
	const void *at = of == NULL ? NULL : field_of(field, of);
	if (at == NULL) {
		field->type == VALUE_STAMP ? give_stamp(call, NULL) : give_null(call);
		return;
	}
	const char *text = NULL;
	switch (field->type) {
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
		text = *(const char *const *)at;
		give_text(call, text == NULL ? "" : text);
		break;
	case VALUE_STAMP:
		give_stamp(call, at);
		break;
	case VALUE_DAY:
		give_day(call, *(const day_t *)at);
		break;
	case VALUE_COUNT:
	case VALUE_LENGTH:
	case VALUE_EITHER:
		give_int(call, *(const int *)at);
		break;
	case VALUE_FLAG:
		give_int(call, *(const bool *)at);
		break;
	case VALUE_USE:
		give_code(call, &USE_CODES, *(const enum use *)at);
		break;
	case VALUE_PRICE:
		give_int(call, *(const int64_t *)at);
		break;
	case VALUE_STATE:
		give_code(call, &PLACE_CODES, *(const enum place_state *)at);
		break;
	case VALUE_BECAUSE:
		give_code(call, &BECAUSE_CODES, *(const enum because *)at);
		break;
	case VALUE_TASK:
		give_code(call, &TASK_CODES, *(const enum task *)at);
		break;
	}
}

bool
field_is_utf8(const struct field *field, const void *of)
{
	bool text = field->type == VALUE_TEXT || field->type == VALUE_NAME;
	const char *told = text ? *(const char *const *)field_of(field, of) : NULL;
	return told == NULL || utf8_valid(told, strlen(told));
}

void
take_field(struct call *call, struct arena *arena, const struct field *field, void *out)
{
	void *at = field_in(field, out);
	switch (field->type) {
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
		*(const char **)at = take_text(call, arena);
		break;
	case VALUE_STAMP:
		*(struct stamp *)at = take_stamp(call);
		break;
	case VALUE_DAY:
		*(day_t *)at = take_day(call);
		break;
	case VALUE_COUNT:
	case VALUE_LENGTH:
	case VALUE_EITHER:
		*(int *)at = (int)take_int(call);
		break;
	case VALUE_FLAG:
		*(bool *)at = take_int(call) != 0;
		break;
	case VALUE_USE:
		*(enum use *)at = (enum use)take_code(call, &USE_CODES);
		break;
	case VALUE_PRICE:
		*(int64_t *)at = take_int(call);
		break;
	case VALUE_STATE:
		*(enum place_state *)at = (enum place_state)take_code(call, &PLACE_CODES);
		break;
	case VALUE_BECAUSE:
		*(enum because *)at = (enum because)take_code(call, &BECAUSE_CODES);
		break;
	case VALUE_TASK:
		*(enum task *)at = (enum task)take_code(call, &TASK_CODES);
		break;
	}
}

bool
field_check(const struct field *field, const void *of, struct fault *fault)
{
	const void *at = field_of(field, of);
	int least = field->blank > 0 ? field->blank : 0;
	int64_t number = least;
	if (field->type == VALUE_PRICE) {
		number = *(const int64_t *)at;
	} else if (field->type == VALUE_COUNT || field->type == VALUE_LENGTH) {
		number = *(const int *)at;
	}
	return number >= least || number == field->blank ||
	       fault_set(fault, FAULT_INPUT, "%s is %lld; expected %d or more",
		   field->option, (long long)number, least);
}
