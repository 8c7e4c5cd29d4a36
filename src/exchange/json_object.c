#include "exchange/json_object.h"

#include "base/memory.h"

void
json_put(struct answer *answer, json_t *object, const char *key, json_t *value)
{
	(void)answer;
	if (json_object_set_new(object, key, value) != 0) {
		memory_ended();
	}
}

void
json_put_words(struct answer *answer, json_t *object, const char *key, const char *words)
{
	bool none = words == NULL || *words == '\0';
	json_put(answer, object, key, none ? json_null() : json_string(words));
}

void
json_put_string(
    struct answer *answer, json_t *object, const char *key, const char *string)
{
	json_put(answer, object, key, json_string(string == NULL ? "" : string));
}

void
json_put_bool(struct answer *answer, json_t *object, const char *key, bool value)
{
	json_put(answer, object, key, json_boolean(value));
}

void
json_put_number(
    struct answer *answer, json_t *object, const char *key, int64_t value, int64_t none)
{
	json_put(answer, object, key, value == none ? json_null() : json_integer(value));
}

void
json_put_day(struct answer *answer, json_t *object, const char *key, day_t day)
{
	char buffer[DAY_ISO_SIZE];
	json_put_words(answer, object, key, day_iso(day, buffer));
}

void
json_put_stamp(struct answer *answer, json_t *object, const char *key, struct stamp stamp)
{
	char buffer[STAMP_TEXT_SIZE];
	json_put_words(answer, object, key, stamp_text(stamp, buffer));
}

void
json_push(struct answer *answer, json_t *array, json_t *value)
{
	(void)answer;
	if (json_array_append_new(array, value) != 0) {
		memory_ended();
	}
}

static int
add_bytes(const char *bytes, size_t length, void *context)
{
	struct text *out = context;
	text_add_bytes(out, bytes, length);
	return 0;
}

/* Writes a value and frees it. */
static void
dump(struct answer *answer, json_t *value)
{
	if (json_dump_callback(value, add_bytes, answer->out, 0) != 0) {
		memory_ended();
	}
	json_decref(value);
}

void
answer_value(struct answer *answer, json_t *value)
{
	dump(answer, value);
	text_add_byte(answer->out, '\n');
}

void
answer_element(struct answer *answer, json_t *value)
{
	text_add(answer->out, answer->begun ? ",\n" : "[");
	answer->begun = true;
	dump(answer, value);
}

void
answer_end(struct answer *answer)
{
	text_add(answer->out, answer->begun ? "]\n" : "[]\n");
}
