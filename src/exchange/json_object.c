#include "exchange/json_object.h"

#include "base/memory.h"
#include "gear/words.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

json_t *
json_words(const char *words)
{
	return words == NULL || *words == '\0' ? json_null() : json_string(words);
}

json_t *
json_text(const char *text)
{
	return json_string(text == NULL ? "" : text);
}

json_t *
json_number(int64_t value, int64_t none)
{
	return value == none ? json_null() : json_integer(value);
}

json_t *
json_count(size_t count)
{
	return json_integer((json_int_t)count);
}

json_t *
json_day(day_t day)
{
	char buffer[DAY_ISO_SIZE];
	return json_words(day_iso(day, buffer));
}

json_t *
json_stamp(struct stamp stamp)
{
	char buffer[STAMP_TEXT_SIZE];
	return json_words(stamp_text(stamp, buffer));
}

void
json_push(json_t *array, json_t *value)
{
	if (json_array_append_new(array, value) != 0) {
		memory_ended();
	}
}

json_t *
json_strings(const char *const *strings, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(array, json_string(strings[i]));
	}
	return array;
}

json_t *
json_tasks(unsigned tasks)
{
	json_t *array = json_array();
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		if ((tasks >> task & 1U) != 0) {
			json_push(array, json_string(task_word((enum task)task)));
		}
	}
	return array;
}

/* How long the name of a key is, without what stands under it. */
static size_t
name_length(const char *key)
{
	return strcspn(key, ":");
}

/* Where the next key of an object stands in its table. */
static size_t
next_key(const json_t *object, const struct answer_keys *keys)
{
	size_t at = 0;
	if (json_object_size(object) == 0) {
		return 0;
	}
	while (at < keys->count && (keys->items[at][0] == '\0' ||
				       json_object_getn(object, keys->items[at],
					   name_length(keys->items[at])) != NULL)) {
		at++;
	}
	return at;
}

/* Puts a value under a name of so many bytes. */
static void
put(json_t *object, const char *name, size_t length, json_t *value)
{
	if (json_object_setn_new_nocheck(object, name, length, value) != 0) {
		memory_ended(); /* since names are ours */
	}
}

json_t *
json_put(json_t *object, const struct answer_keys *keys, enum json_which which,
    json_t *const *values, size_t count)
{
	size_t first = next_key(object, keys);
	assert(which == JSON_NEXT ? first + count < keys->count
				  : first + count == keys->count);
	for (size_t i = 0; i < count; i++) {
		const char *key = keys->items[first + i];
		if (which != JSON_SOME || !json_is_null(values[i])) {
			put(object, key, name_length(key), values[i]);
		}
	}
	return object;
}

size_t
field_keys(const struct field *field, char written[2][FIELD_KEY_SIZE])
{
	const char *key = field->key == NULL ? field->name : field->key;
	(void)snprintf(written[0], FIELD_KEY_SIZE, "%s", key);
	if (field->type != VALUE_STAMP) {
		return 1;
	}
	(void)snprintf(written[1], FIELD_KEY_SIZE, "%s_as_written", key);
	return 2;
}

json_t *
json_field(const struct field *field, const void *of)
{
	const void *at = field_of(field, of);
	SCOPED_TEXT words = {0};
	switch (field->type) {
	case VALUE_STAMP: {
		struct stamp stamp = *(const struct stamp *)at;
		return json_day(
		    field->mark ? stamp_good_through(stamp) : stamp_first(stamp));
	}
	case VALUE_DAY:
		return json_day(*(const day_t *)at);
	case VALUE_COUNT:
	case VALUE_LENGTH:
		return json_number(*(const int *)at, field->null ? 0 : INT64_MIN);
	case VALUE_FLAG:
		return json_boolean(*(const bool *)at);
	case VALUE_EITHER: {
		int known = *(const int *)at;
		return known == 0 ? json_null() : json_boolean(known > 0);
	}
	case VALUE_PRICE:
		return json_number(*(const int64_t *)at, field->blank);
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
	case VALUE_STATE:
	case VALUE_BECAUSE:
	case VALUE_TASK:
	case VALUE_USE:
		break;
	}
	field_add(field, of, "", &words);
	return (field->null ? json_words : json_text)(text_string(&words));
}

json_t *
json_put_fields(json_t *object, const struct answer_keys *keys, const void *of)
{
	const struct field *field = NULL;
	char names[2][FIELD_KEY_SIZE];
	for (size_t nth = 0; (field = keys->field(nth)) != NULL; nth++) {
		bool stamp = field_keys(field, names) > 1;
		if (json_object_get(object, names[0]) != NULL) {
			continue;
		}
		put(object, names[0], strlen(names[0]), json_field(field, of));
		if (stamp) {
			const struct stamp *written = field_of(field, of);
			put(object, names[1], strlen(names[1]), json_stamp(*written));
		}
	}
	return object;
}

void
answer_value(struct text *out, json_t *value)
{
	json_write(value, out);
	json_decref(value);
	text_add_byte(out, '\n');
}

void
answer_element(struct answer *answer, json_t *value)
{
	text_add(answer->out, answer->begun ? ",\n" : "[");
	answer->begun = true;
	json_write(value, answer->out);
	json_decref(value);
	text_hand_on(answer->out);
}

void
answer_end(struct answer *answer)
{
	text_add(answer->out, answer->begun ? "]\n" : "[]\n");
}
