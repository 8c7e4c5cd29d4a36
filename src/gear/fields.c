#include "gear/fields.h"

#include "gear/fleet_change.h"
#include "gear/item.h"
#include "gear/money.h"

#include <string.h>

#define FIELD_OPTION(option, argument, help) option
#define FIELD_OPTION_MORE(option, ...) option
#define FIELD_WORD(option, argument, help) option
#define FIELD_WORDS(option, argument, help) option
#define FIELD_NO_OPTION NULL
#define ROW(owner, member_, type_, name_, option_, ...)                                  \
	{                                                                                \
		.name = (name_), .option = (option_), .type = VALUE_##type_,             \
		.offset = offsetof(struct owner, member_), __VA_ARGS__                   \
	}
#define LINK_ROW(id, member, type, place, name, option, ...)                             \
	[FIELD_##id] =                                                                   \
	    ROW(item_change, member, type, name, option, .link = true, __VA_ARGS__),
#define ITEM_ROW(id, member, type, place, name, option, ...)                             \
	[FIELD_##id] = ROW(item_change, member, type, name, option, __VA_ARGS__),
#define RECORD_ROW(id, member, type, place, name, option, ...)                           \
	[RECORD_##id] =                                                                  \
	    ROW(record, member, type, name, option, .record = true, __VA_ARGS__),

const struct field ITEM_FIELDS[FIELD_COUNT] = {
    INVENTORY_FIELDS(LINK_ROW, ITEM_ROW, FIELD_NOTHING)};

const struct field RECORD_FIELDS[RECORD_FIELD_COUNT] = {
    INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, RECORD_ROW)};

#define VESSEL_ROW(id, member, type, name, option, ...)                                  \
	[VESSEL_##id] = ROW(vessel_change, member, type, name, option, __VA_ARGS__),
#define TIMED_ROW(id, member, type, name, option, ...)                                   \
	[VESSEL_##id] =                                                                  \
	    ROW(vessel_change, member, type, name, option, .timed = true, __VA_ARGS__),
#define VESSEL_PART(id, option_) [VESSEL_##id] = {.option = (option_), .part = true},
#define STATION_ROW(id, member, type, name, option, ...)                                 \
	[STATION_##id] = ROW(station_change, member, type, name, option, __VA_ARGS__),
#define STATION_PART(id, option_) [STATION_##id] = {.option = (option_), .part = true},

const struct field VESSEL_FIELDS[VESSEL_FIELD_COUNT] = {
    VESSEL_ROWS(VESSEL_ROW, TIMED_ROW, VESSEL_PART, FIELD_NOTHING)};

const struct field STATION_FIELDS[STATION_FIELD_COUNT] = {
    STATION_ROWS(STATION_ROW, STATION_PART)};

bool
field_is_empty(const struct field *field, const void *of)
{
	SCOPED_TEXT cell = {0};
	field_add(field, of, "", &cell);
	return cell.length == 0;
}

const struct field *
field_shown_after(int shown)
{
	const struct field *next = NULL;
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[i];
		if (field->shown > shown &&
		    (next == NULL || field->shown < next->shown)) {
			next = field;
		}
	}
	return next;
}

void *
field_in(const struct field *field, void *of)
{
	return (char *)of + field->offset;
}

const void *
field_of(const struct field *field, const void *of)
{
	return (const char *)of + field->offset;
}

void
field_empty(const struct field *field, void *of)
{
	void *at = field_in(field, of);
	switch (field->type) {
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
		*(const char **)at = "";
		break;
	case VALUE_STAMP:
		*(struct stamp *)at = (struct stamp){0};
		break;
	case VALUE_DAY:
		*(day_t *)at = DAY_NONE;
		break;
	case VALUE_COUNT:
	case VALUE_LENGTH:
	case VALUE_EITHER:
		*(int *)at = field->blank;
		break;
	case VALUE_FLAG:
		*(bool *)at = false;
		break;
	case VALUE_PRICE:
		*(int64_t *)at = field->blank;
		break;
	case VALUE_USE:
		*(enum use *)at = USE_PRIVATE;
		break;
	case VALUE_STATE:
		*(enum place_state *)at = PLACE_ABOARD;
		break;
	case VALUE_BECAUSE:
		*(enum because *)at = BECAUSE_NOT_SAID;
		break;
	case VALUE_TASK:
		*(enum task *)at = TASK_SERVICE;
		break;
	}
}

/* A text that may be NULL. */
static const char *
words_at(const void *at)
{
	const char *words = *(const char *const *)at;
	return words == NULL ? "" : words;
}

bool
field_same(const struct field *field, const void *a, const void *b)
{
	const void *x = field_of(field, a);
	const void *y = field_of(field, b);
	switch (field->type) {
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
		return strcmp(words_at(x), words_at(y)) == 0;
	case VALUE_STAMP:
		return stamp_same(*(const struct stamp *)x, *(const struct stamp *)y);
	case VALUE_DAY:
		return *(const day_t *)x == *(const day_t *)y;
	case VALUE_COUNT:
	case VALUE_LENGTH:
	case VALUE_EITHER:
		return *(const int *)x == *(const int *)y;
	case VALUE_FLAG:
		return *(const bool *)x == *(const bool *)y;
	case VALUE_USE:
		return *(const enum use *)x == *(const enum use *)y;
	case VALUE_PRICE:
		return *(const int64_t *)x == *(const int64_t *)y;
	case VALUE_STATE:
		return *(const enum place_state *)x == *(const enum place_state *)y;
	case VALUE_BECAUSE:
		return *(const enum because *)x == *(const enum because *)y;
	case VALUE_TASK:
		return *(const enum task *)x == *(const enum task *)y;
	}
	return false;
}

void
field_add(
    const struct field *field, const void *of, const char *currency, struct text *out)
{
	const void *at = field_of(field, of);
	char stamp[STAMP_TEXT_SIZE];
	char day[DAY_ISO_SIZE];
	switch (field->type) {
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
		text_add(out, words_at(at));
		break;
	case VALUE_STAMP:
		text_add(out, stamp_text(*(const struct stamp *)at, stamp));
		break;
	case VALUE_DAY:
		if (*(const day_t *)at != DAY_NONE) {
			text_add(out, day_iso(*(const day_t *)at, day));
		}
		break;
	case VALUE_USE:
		text_add(out, use_word(*(const enum use *)at));
		break;
	case VALUE_FLAG:
		text_add(out, *(const bool *)at ? "yes" : "");
		break;
	case VALUE_EITHER:
		text_add(out, *(const int *)at > 0   ? "yes"
			      : *(const int *)at < 0 ? "no"
						     : "");
		break;
	case VALUE_COUNT:
	case VALUE_LENGTH:
		if (*(const int *)at > 0) {
			text_add_format(out, "%d", *(const int *)at);
		}
		break;
	case VALUE_PRICE:
		money_add(*(const int64_t *)at, currency, out);
		break;
	case VALUE_STATE:
		text_add(out, place_word(*(const enum place_state *)at));
		break;
	case VALUE_BECAUSE:
		text_add(out, because_word(*(const enum because *)at));
		break;
	case VALUE_TASK:
		text_add(out, task_word(*(const enum task *)at));
		break;
	}
}

void
field_add_words(
    const struct field *field, const void *of, const char *currency, struct text *out)
{
	const void *at = field_of(field, of);
	size_t before = out->length;
	char stamp[STAMP_TEXT_SIZE];
	char day[DAY_WORDS_SIZE];
	char money[MONEY_WORDS_SIZE];
	if (field->type == VALUE_STAMP) {
		bool known = ((const struct stamp *)at)->precision != STAMP_NONE;
		text_add(out, known ? stamp_words(*(const struct stamp *)at, stamp) : "");
	} else if (field->type == VALUE_DAY) {
		bool known = *(const day_t *)at != DAY_NONE;
		text_add(out, known ? day_words(*(const day_t *)at, day) : "");
	} else if (field->type == VALUE_PRICE) {
		text_add(out, money_words(*(const int64_t *)at, currency, money));
	} else {
		field_add(field, of, currency, out);
	}
	if (field->unit != NULL && out->length > before) {
		text_add_format(
		    out, " %s%s", field->unit, *(const int *)at == 1 ? "" : "s");
	}
}

void
fields_add_understood(const struct item_change *change, unsigned fields,
    const char *currency, struct text *out)
{
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[i];
		bool dated = field->type == VALUE_STAMP || field->type == VALUE_DAY ||
			     field->type == VALUE_PRICE;
		bool many = i == FIELD_QUANTITY && change->quantity > 1;
		if ((fields & 1U << i) == 0 || !(dated || many)) {
			continue;
		}
		size_t before = out->length;
		text_add(out, ", ");
		text_add(out, field->name);
		text_add_byte(out, ' ');
		size_t named = out->length;
		field_add_words(field, change, currency, out);
		if (out->length == named) {
			text_cut(out, before);
		}
	}
}
