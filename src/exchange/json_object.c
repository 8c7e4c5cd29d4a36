#include "exchange/json_object.h"

#include "base/memory.h"
#include "gear/words.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

struct json
json_none(void)
{
	return (struct json){.is = JSON_IS_NONE};
}

struct json
json_flag(bool flag)
{
	return (struct json){.is = JSON_IS_FLAG, .number = flag};
}

struct json
json_whole(int64_t number)
{
	return (struct json){.is = JSON_IS_NUMBER, .number = number};
}

struct json
json_words(const char *words)
{
	return words == NULL || *words == '\0' ? json_none() : json_text(words);
}

struct json
json_text(const char *text)
{
	return (struct json){.is = JSON_IS_WORDS, .words = text == NULL ? "" : text};
}

struct json
json_number(int64_t value, int64_t none)
{
	return value == none ? json_none() : json_whole(value);
}

struct json
json_count(size_t count)
{
	return json_whole((int64_t)count);
}

struct json
json_day(day_t day)
{
	return day == DAY_NONE || day == DAY_NEVER
		   ? json_none()
		   : (struct json){.is = JSON_IS_DAY, .day = day};
}

struct json
json_stamp(struct stamp stamp)
{
	return stamp.precision == STAMP_NONE
		   ? json_none()
		   : (struct json){.is = JSON_IS_STAMP, .stamp = stamp};
}

static struct json
made(enum json_is is)
{
	return (struct json){
	    .is = is, .made = memory_zeroed(1, sizeof(struct json_made))};
}

struct json
json_list(void)
{
	return made(JSON_IS_ARRAY);
}

struct json
json_begun(void)
{
	return made(JSON_IS_OBJECT);
}

void
json_push(struct json array, struct json value)
{
	struct text *text = &array.made->text;
	text_add(text, text->length == 0 ? "[" : ", ");
	json_write(value, text);
}

struct json
json_strings(const char *const *strings, size_t count)
{
	struct json array = json_list();
	for (size_t i = 0; i < count; i++) {
		json_push(array, json_text(strings[i]));
	}
	return array;
}

struct json
json_tasks(unsigned tasks)
{
	struct json array = json_list();
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		if ((tasks >> task & 1U) != 0) {
			json_push(array, json_text(task_word((enum task)task)));
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

/* Puts a value under a name of so many bytes. */
static void
put(struct json object, const char *name, size_t length, struct json value)
{
	struct text *text = &object.made->text;
	json_write_key(text->length == 0, name, length, text);
	json_write(value, text);
}

struct json
json_put(struct json object, const struct answer_keys *keys, enum json_which which,
    const struct json *values, size_t count)
{
	enum { BYTES_OF_A_KEY = 24 };

	size_t first = object.made->next;
	while (first < keys->count && keys->items[first][0] == '\0') {
		first++; /* its fields have been put */
	}
	assert(which == JSON_NEXT ? first + count < keys->count
				  : first + count == keys->count);
	(void)text_room(&object.made->text, count * BYTES_OF_A_KEY);
	for (size_t i = 0; i < count; i++) {
		const char *key = keys->items[first + i];
		if (which != JSON_SOME || values[i].is != JSON_IS_NONE) {
			put(object, key, name_length(key), values[i]);
		}
	}
	object.made->next = first + count;
	return object;
}

void
json_keys_make(const struct answer_keys *keys, struct json_keys *out)
{
	assert(keys->count <= JSON_KEYS_MOST);
	for (size_t i = 0; i < keys->count; i++) {
		const char *key = keys->items[i];
		json_write_key(i == 0, key, name_length(key), &out->bytes);
		out->ends[i] = out->bytes.length;
	}
	out->count = keys->count;
}

void
json_keys_clear(struct json_keys *keys)
{
	text_clear(&keys->bytes);
}

void
json_write_object(struct text *out, const struct json_keys *keys,
    const struct json *values, size_t count)
{
	size_t begin = 0;
	assert(count == keys->count);
	for (size_t i = 0; i < count; i++) {
		text_add_bytes(out, keys->bytes.bytes + begin, keys->ends[i] - begin);
		begin = keys->ends[i];
		json_write(values[i], out);
	}
	text_add_byte(out, '}');
}

/* What is behind the key of a stamp where it stands as written. */
#define AS_WRITTEN "_as_written"

static const char *
field_key(const struct field *field)
{
	return field->key == NULL ? field->name : field->key;
}

size_t
field_keys(const struct field *field, char written[2][FIELD_KEY_SIZE])
{
	const char *key = field_key(field);
	(void)snprintf(written[0], FIELD_KEY_SIZE, "%s", key);
	if (field->type != VALUE_STAMP) {
		return 1;
	}
	(void)snprintf(written[1], FIELD_KEY_SIZE, "%s" AS_WRITTEN, key);
	return 2;
}

/* Words that a field holds. */
static struct json
words_of(const struct field *field, const char *words)
{
	return (field->null ? json_words : json_text)(words);
}

struct json
json_field(const struct field *field, const void *of)
{
	const void *at = field_of(field, of);
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
		return json_flag(*(const bool *)at);
	case VALUE_EITHER: {
		int known = *(const int *)at;
		return known == 0 ? json_none() : json_flag(known > 0);
	}
	case VALUE_PRICE:
		return json_number(*(const int64_t *)at, field->blank);
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
		return words_of(field, *(const char *const *)at);
	case VALUE_STATE:
		return words_of(field, place_word(*(const enum place_state *)at));
	case VALUE_BECAUSE:
		return words_of(field, because_word(*(const enum because *)at));
	case VALUE_TASK:
		return words_of(field, task_word(*(const enum task *)at));
	case VALUE_USE:
		return words_of(field, use_word(*(const enum use *)at));
	}
	return json_none();
}

/* True for a key that stands in the object by itself, and not among its fields. */
static bool
is_put(const struct json_made *made, const struct answer_keys *keys, const char *name)
{
	for (size_t i = 0; i < made->next; i++) {
		size_t length = name_length(keys->items[i]);
		if (strncmp(keys->items[i], name, length) == 0 && name[length] == '\0') {
			return true;
		}
	}
	return false;
}

struct json
json_put_fields(struct json object, const struct answer_keys *keys, const void *of)
{
	const struct field *field = NULL;
	for (size_t nth = 0; (field = keys->field(nth)) != NULL; nth++) {
		const char *key = field_key(field);
		if (is_put(object.made, keys, key)) {
			continue;
		}
		put(object, key, strlen(key), json_field(field, of));
		if (field->type == VALUE_STAMP) {
			char name[FIELD_KEY_SIZE];
			size_t length = strlen(key);
			assert(length + sizeof AS_WRITTEN <= sizeof name);
			memcpy(name, key, length + 1);
			memcpy(name + length, AS_WRITTEN, sizeof AS_WRITTEN);
			put(object, name, length + sizeof AS_WRITTEN - 1,
			    json_stamp(*(const struct stamp *)field_of(field, of)));
		}
	}
	return object;
}

void
answer_value(struct text *out, struct json value)
{
	json_write(value, out);
	text_add_byte(out, '\n');
}

/* What stands before an element. */
static void
begin_element(struct answer *answer)
{
	text_add(answer->out, answer->begun ? ",\n" : "[");
	answer->begun = true;
}

void
answer_element(struct answer *answer, struct json value)
{
	begin_element(answer);
	json_write(value, answer->out);
	text_hand_on(answer->out);
}

void
answer_written(struct answer *answer, const char *bytes, size_t length)
{
	begin_element(answer);
	text_add_bytes(answer->out, bytes, length);
	text_hand_on(answer->out);
}

void
answer_end(struct answer *answer)
{
	text_add(answer->out, answer->begun ? "]\n" : "[]\n");
}

const char *
frame_next_list(const char *at)
{
	bool words = false;
	for (; words || at[0] != '[' || at[1] != ']'; at++) {
		words = *at == '"' ? !words : words;
		at += words && *at == '\\' ? 1 : 0;
	}
	return at;
}

void
frame_begin_list(struct frame_filling *filling)
{
	const char *list = frame_next_list(filling->left);
	text_add_bytes(filling->out, filling->left, (size_t)(list + 1 - filling->left));
	filling->left = list + 1;
	filling->any = false;
}
