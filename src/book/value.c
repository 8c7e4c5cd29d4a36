#include "book/value.h"

#include "base/numbers.h"

#include <assert.h>
#include <string.h>

bool
bytes_take(struct bytes_left *left, size_t count, const unsigned char **out)
{
	if (count > left->left) {
		return false;
	}
	*out = left->at;
	left->at += count;
	left->left -= count;
	return true;
}

bool
number_take(struct bytes_left *left, uint64_t *out)
{
	const unsigned char *byte = NULL;
	*out = 0;
	if (left->left > 0 && *left->at < 0x80) { /* most are small */
		*out = *left->at;
		return bytes_take(left, 1, &byte);
	}
	for (unsigned shift = 0; shift < 64; shift += 7) {
		if (!bytes_take(left, 1, &byte)) {
			return false;
		}
		uint64_t bits = *byte & 0x7fU;
		*out |= bits << shift;
		if ((*byte & 0x80U) == 0) {
			return shift < 63 || bits <= 1;
		}
	}
	return false;
}

bool
eight_take(struct bytes_left *left, int64_t *out)
{
	const unsigned char *bytes = NULL;
	uint64_t bits = 0;
	if (!bytes_take(left, 8, &bytes)) {
		return false;
	}
	for (int i = 0; i < 8; i++) {
		bits = bits << 8 | bytes[i];
	}
	*out = (int64_t)bits;
	return true;
}

bool
value_take(struct bytes_left *left, struct value *out)
{
	const unsigned char *byte = NULL;
	uint64_t number = 0;
	if (!bytes_take(left, 1, &byte) || *byte >= HELD_UNSAID) {
		return false;
	}
	*out = (struct value){.held = (enum value_held) * byte};
	switch (out->held) {
	case HELD_NOTHING:
	case HELD_UNSAID:
		return true;
	case HELD_INTEGER:
		if (!number_take(left, &number)) {
			return false;
		}
		out->number = (int64_t)(number >> 1 ^ (0 - (number & 1)));
		return true;
	case HELD_REAL:
		return eight_take(left, &out->number);
	case HELD_TEXT:
	case HELD_BYTES:
		break;
	}
	if (!number_take(left, &number) || number > left->left) {
		return false;
	}
	out->length = (size_t)number;
	const unsigned char *bytes = NULL;
	bool taken = bytes_take(left, out->length, &bytes);
	out->bytes = (const char *)bytes;
	return taken;
}

void
values_take(struct bytes_left bytes, size_t count, struct value *out)
{
	bool taken = true;
	for (size_t i = 0; taken && i < count; i++) {
		taken = value_take(&bytes, &out[i]);
	}
	assert(taken);
}

bool
bytes_same(struct bytes_left a, struct bytes_left b)
{
	return a.left == b.left && (a.left == 0 || memcmp(a.at, b.at, a.left) == 0);
}

enum { NUMBER_LONGEST = 10 };

/* Writes a number as bytes, and says how many. */
static inline size_t
put_number(char *bytes, uint64_t number)
{
	size_t count = 0;
	for (; number >= 0x80; number >>= 7) {
		bytes[count++] = (char)(unsigned char)(0x80 | (number & 0x7f));
	}
	bytes[count++] = (char)number;
	return count;
}

void
number_add(struct text *out, uint64_t number)
{
	char bytes[NUMBER_LONGEST];
	text_add_bytes(out, bytes, put_number(bytes, number));
}

/* Puts a type and a number, and returns where what comes behind them goes. */
static char *
put_type(char *at, enum value_held held, uint64_t number)
{
	*at++ = (char)held;
	return at + put_number(at, number);
}

/* The same of a value: its type, a number, and its bytes if it has any. */
static char *
put_value(char *at, const struct value *value)
{
	uint64_t bits = (uint64_t)value->number;
	switch (value->held) {
	case HELD_NOTHING:
	case HELD_UNSAID:
		*at++ = HELD_NOTHING;
		return at;
	case HELD_INTEGER:
		return put_type(
		    at, HELD_INTEGER, value->number < 0 ? ~(bits << 1) : bits << 1);
	case HELD_REAL:
		*at++ = HELD_REAL;
		for (int shift = 56; shift >= 0; shift -= 8) {
			*at++ = (char)(unsigned char)(bits >> shift);
		}
		return at;
	case HELD_TEXT:
	case HELD_BYTES:
		break;
	}
	at = put_type(at, value->held, value->length);
	memcpy(at, value->bytes, value->length);
	return at + value->length;
}

void
values_add(struct text *out, const struct value *values, size_t count)
{
	size_t most = 0;
	for (size_t i = 0; i < count; i++) {
		most += 1 + NUMBER_LONGEST + values[i].length;
	}
	char *at = text_room(out, most);
	for (size_t i = 0; i < count; i++) {
		at = put_value(at, &values[i]);
	}
	*at = '\0';
	out->length = (size_t)(at - out->bytes);
}

void
value_add(struct text *out, const struct value *value)
{
	values_add(out, value, 1);
}

bool
value_same(const struct value *a, const struct value *b)
{
	return a->held == b->held && a->number == b->number && a->length == b->length &&
	       (a->length == 0 || memcmp(a->bytes, b->bytes, a->length) == 0);
}

double
value_real(const struct value *value)
{
	double real = 0;
	memcpy(&real, &value->number, sizeof real);
	return real;
}

/* A number as text in the arena. */
static const char *
number_text_of(int64_t number, struct arena *arena)
{
	char digits[INTEGER_TEXT_SIZE];
	return number == 0 ? "0" /* most are */
			   : arena_string(arena, integer_text(number, digits));
}

/* A zero byte within it ends the text, as in any string. */
static const char *
text_of(const struct value *value, struct arena *arena)
{
	if (value->length == 0) {
		return "";
	}
	const char *copy = arena_bytes(arena, value->bytes, value->length);
	return utf8_valid(copy, strlen(copy)) ? copy : "(no UTF-8)";
}

/* "12.5"; "300 bytes", or nothing of none. */
static const char *
other_text_of(const struct value *value, struct arena *arena)
{
	SCOPED_TEXT words = {0};
	if (value->held == HELD_REAL) {
		text_add_format(&words, "%.15g", value_real(value));
	} else if (value->length > 0) {
		text_add_format(&words, "%zu bytes", value->length);
	}
	return arena_string(arena, text_string(&words));
}

const char *
value_text(const struct value *value, struct arena *arena)
{
	switch (value->held) {
	case HELD_NOTHING:
	case HELD_UNSAID:
		break;
	case HELD_INTEGER:
		return number_text_of(value->number, arena);
	case HELD_TEXT:
		return text_of(value, arena);
	case HELD_REAL:
	case HELD_BYTES:
		return other_text_of(value, arena);
	}
	return NULL;
}
