#include "page/form.h"

#include <string.h>

static int
hex_digit(char letter)
{
	if (letter >= '0' && letter <= '9') {
		return letter - '0';
	}
	int small = text_lower(letter);
	return small >= 'a' && small <= 'f' ? small - 'a' + 10 : -1;
}

void
form_unescape(const char *words, size_t length, bool plus_is_blank, struct text *out)
{
	for (size_t i = 0; i < length; i++) {
		int high = i + 2 < length ? hex_digit(words[i + 1]) : -1;
		int low = i + 2 < length ? hex_digit(words[i + 2]) : -1;
		if (words[i] == '%' && high >= 0 && low >= 0) {
			text_add_byte(out, (char)(high * 16 + low));
			i += 2;
		} else {
			bool blank = plus_is_blank && words[i] == '+';
			text_add_byte(out, (char)(blank ? ' ' : words[i]));
		}
	}
}

void
form_escape(const char *value, struct text *out)
{
	for (const char *at = value; *at != '\0'; at++) {
		char letter = (char)text_lower(*at);
		bool plain = (letter >= 'a' && letter <= 'z') ||
			     (letter >= '0' && letter <= '9') ||
			     strchr("-._~", letter) != NULL;
		if (plain) {
			text_add_byte(out, *at);
		} else {
			text_add_format(out, "%%%02X", (unsigned)(unsigned char)*at);
		}
	}
}

bool
form_keep_text(const char *bytes, size_t length, struct arena *arena, const char **out,
    struct fault *fault)
{
	if (length > FORM_VALUE_MOST) {
		return fault_set(fault, FAULT_INPUT, "a field has more than %d bytes",
		    FORM_VALUE_MOST);
	}
	if (memchr(bytes, '\0', length) != NULL || !utf8_valid(bytes, length)) {
		return fault_set(fault, FAULT_INPUT, "a field is not written in UTF-8");
	}
	char *copy = arena_alloc(arena, length + 1);
	char *to = copy;
	for (size_t i = 0; i < length; i++) {
		bool pair = bytes[i] == '\r' && i + 1 < length && bytes[i + 1] == '\n';
		if (!pair) {
			*to++ = bytes[i];
		}
	}
	*to = '\0';
	*out = copy;
	return true;
}

bool
form_add(
    struct form *form, struct form_field field, struct arena *arena, struct fault *fault)
{
	if (form->count == FORM_FIELDS_MOST) {
		return fault_set(fault, FAULT_INPUT, "the form has more than %d fields",
		    FORM_FIELDS_MOST);
	}
	ARENA_ADD(arena, form, field);
	return true;
}

/* Undoes the escapes of one side of "name=value". */
static bool
read_side(const char *words, size_t length, struct arena *arena, const char **out,
    struct fault *fault)
{
	SCOPED_TEXT text = {0};
	form_unescape(words, length, true, &text);
	return form_keep_text(text_string(&text), text.length, arena, out, fault);
}

bool
form_read(const char *words, size_t length, struct arena *arena, struct form *out,
    struct fault *fault)
{
	const char *end = words + length;
	for (const char *at = words; at < end;) {
		const char *stop = memchr(at, '&', (size_t)(end - at));
		stop = stop == NULL ? end : stop;
		const char *equals = memchr(at, '=', (size_t)(stop - at));
		const char *name_end = equals == NULL ? stop : equals;
		const char *value = equals == NULL ? stop : equals + 1;
		struct form_field field = {0};
		if (stop > at &&
		    (!read_side(at, (size_t)(name_end - at), arena, &field.name, fault) ||
			!read_side(
			    value, (size_t)(stop - value), arena, &field.value, fault) ||
			!form_add(out, field, arena, fault))) {
			return false;
		}
		at = stop + 1;
	}
	return true;
}

const char *
form_value(const struct form *form, const char *name)
{
	for (size_t i = 0; i < form->count; i++) {
		if (form->items[i].file_name == NULL &&
		    strcmp(form->items[i].name, name) == 0) {
			return form->items[i].value;
		}
	}
	return NULL;
}

const struct form_field *
form_file(const struct form *form, const char *name)
{
	for (size_t i = 0; i < form->count; i++) {
		const struct form_field *field = &form->items[i];
		if (field->file_name != NULL && field->length > 0 &&
		    strcmp(field->name, name) == 0) {
			return field;
		}
	}
	return NULL;
}

const char *
form_rest(const struct form_field *field, const char *prefix)
{
	size_t length = strlen(prefix);
	return strncmp(field->name, prefix, length) == 0 ? field->name + length : NULL;
}
