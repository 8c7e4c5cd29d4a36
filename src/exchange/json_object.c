#include "exchange/json_object.h"

#include "base/memory.h"

#include <assert.h>
#include <string.h>

void
json_put(json_t *object, const char *key, json_t *value)
{
	if (json_object_set_new_nocheck(object, key, value) != 0) { /* keys are ours */
		memory_ended();
	}
}

void
json_put_words(json_t *object, const char *key, const char *words)
{
	bool none = words == NULL || *words == '\0';
	json_put(object, key, none ? json_null() : json_string(words));
}

void
json_put_string(json_t *object, const char *key, const char *string)
{
	json_put(object, key, json_string(string == NULL ? "" : string));
}

void
json_put_bool(json_t *object, const char *key, bool value)
{
	json_put(object, key, json_boolean(value));
}

void
json_put_number(json_t *object, const char *key, int64_t value, int64_t none)
{
	json_put(object, key, value == none ? json_null() : json_integer(value));
}

void
json_put_day(json_t *object, const char *key, day_t day)
{
	char buffer[DAY_ISO_SIZE];
	json_put_words(object, key, day_iso(day, buffer));
}

void
json_put_stamp(json_t *object, const char *key, struct stamp stamp)
{
	char buffer[STAMP_TEXT_SIZE];
	json_put_words(object, key, stamp_text(stamp, buffer));
}

void
json_push(json_t *array, json_t *value)
{
	if (json_array_append_new(array, value) != 0) {
		memory_ended();
	}
}

json_t *
json_keyed(json_t *object, const struct answer_keys *keys)
{
	const char *name = NULL;
	json_t *value = NULL;
	size_t at = 0;
	json_object_foreach(object, name, value)
	{
		assert(at < keys->count && strcmp(name, keys->items[at].name) == 0);
		at++;
	}
	assert(at == keys->count);
	return object;
}

static int
add_bytes(const char *bytes, size_t length, void *context)
{
	struct text *out = context;
	text_add_bytes(out, bytes, length);
	return 0;
}

enum { DUMP_SIZE = 2048 };

/* Writes a value and frees it. */
static void
dump(struct text *out, json_t *value)
{
	char most[DUMP_SIZE]; /* has nearly all of them, whole */
	size_t length = json_dumpb(value, most, sizeof most, 0);
	if (length > 0 && length <= sizeof most) {
		text_add_bytes(out, most, length);
	} else if (json_dump_callback(value, add_bytes, out, 0) != 0) {
		memory_ended();
	}
	json_decref(value);
}

void
answer_value(struct text *out, json_t *value)
{
	dump(out, value);
	text_add_byte(out, '\n');
}

void
answer_element(struct answer *answer, json_t *value)
{
	text_add(answer->out, answer->begun ? ",\n" : "[");
	answer->begun = true;
	dump(answer->out, value);
}

void
answer_end(struct answer *answer)
{
	text_add(answer->out, answer->begun ? "]\n" : "[]\n");
}
