/* Values built through jansson, written out. Its own writer asks of each object whether it is inside
 * itself, by its address in words, and takes each letter of a text apart: that was half of what a
 * fleet's `due` took. Its bytes are the same, which a test holds. */
#include "exchange/json_object.h"

#include <string.h>

/* Adds the letter that may not stand in a string as it is (RFC 8259, section 7). */
static void
write_escaped(unsigned char letter, struct text *out)
{
	static const char LETTERS[] = "\"\\\b\f\n\r\t";
	static const char WRITTEN[] = "\"\\bfnrt";
	const char *found = memchr(LETTERS, letter, sizeof LETTERS - 1);
	if (found == NULL) {
		text_add_format(out, "\\u%04X", (unsigned)letter);
		return;
	}
	text_add_byte(out, '\\');
	text_add_byte(out, WRITTEN[found - LETTERS]);
}

static void
write_string(const char *string, size_t length, struct text *out)
{
	size_t plain = 0; /* from here on nothing has been written */
	text_add_byte(out, '"');
	for (size_t i = 0; i < length; i++) {
		unsigned char letter = (unsigned char)string[i];
		if (letter < ' ' || letter == '"' || letter == '\\') {
			text_add_bytes(out, string + plain, i - plain);
			write_escaped(letter, out);
			plain = i + 1;
		}
	}
	text_add_bytes(out, string + plain, length - plain);
	text_add_byte(out, '"');
}

static void
write_object(json_t *object, struct text *out)
{
	const char *key = NULL;
	json_t *value = NULL;
	const char *before = "{";
	json_object_foreach(object, key, value)
	{
		text_add(out, before);
		write_string(key, strlen(key), out);
		text_add(out, ": ");
		json_write(value, out);
		before = ", ";
	}
	text_add(out, *before == '{' ? "{}" : "}");
}

static void
write_array(const json_t *array, struct text *out)
{
	text_add_byte(out, '[');
	for (size_t i = 0; i < json_array_size(array); i++) {
		text_add(out, i == 0 ? "" : ", ");
		json_write(json_array_get(array, i), out);
	}
	text_add_byte(out, ']');
}

void
json_write(json_t *value, struct text *out)
{
	switch (json_typeof(value)) {
	case JSON_OBJECT:
		write_object(value, out);
		return;
	case JSON_ARRAY:
		write_array(value, out);
		return;
	case JSON_STRING:
		write_string(json_string_value(value), json_string_length(value), out);
		return;
	case JSON_INTEGER:
		text_add_format(out, "%" JSON_INTEGER_FORMAT, json_integer_value(value));
		return;
	case JSON_REAL: /* none is made: money and lengths are whole numbers */
	case JSON_NULL:
		text_add(out, "null");
		return;
	case JSON_TRUE:
		text_add(out, "true");
		return;
	case JSON_FALSE:
		text_add(out, "false");
		return;
	}
}
