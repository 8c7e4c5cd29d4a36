#include "base/text.h"

#include "base/memory.h"

#include <assert.h>
#include <ctype.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void
text_clear(struct text *text)
{
	free(text->bytes);
	*text = (struct text){0};
}

void
text_hand_on(struct text *text)
{
	enum { LONG = 64 * 1024 };

	if (text->drain != NULL && text->length >= LONG) {
		text->drain->take(text, text->drain->context);
		text_reset(text);
	}
}

void
text_reset(struct text *text)
{
	text->length = 0;
	if (text->bytes != NULL) {
		text->bytes[0] = '\0';
	}
}

void
text_cut(struct text *text, size_t length)
{
	if (text->length > length) {
		text->length = length;
		text->bytes[length] = '\0';
	}
}

char *
text_room(struct text *text, size_t more)
{
	if (more > SIZE_MAX / 4 - text->length) {
		memory_ended();
	}
	size_t needed = text->length + more + 1;
	if (needed <= text->capacity) {
		return text->bytes + text->length;
	}
	size_t capacity = text->capacity < 64 ? 64 : text->capacity * 2;
	if (capacity < needed) {
		capacity = needed;
	}
	text->bytes = memory_held(realloc(text->bytes, capacity));
	text->capacity = capacity;
	return text->bytes + text->length;
}

/* Most additions find room: what is asked for each is here, so that the compiler can put
 * it where it is used. */
static inline char *
grow(struct text *text, size_t length)
{
	bool room = length < text->capacity - text->length;
	char *at = room ? text->bytes + text->length : text_room(text, length);
	at[length] = '\0'; /* and the terminator */
	text->length += length;
	return at;
}

char *
text_grow(struct text *text, size_t length)
{
	return grow(text, length);
}

void
text_add_bytes(struct text *text, const char *bytes, size_t length)
{
	memcpy(grow(text, length), bytes, length);
}

void
text_add(struct text *text, const char *string)
{
	size_t length = strlen(string);
	memcpy(grow(text, length), string, length);
}

void
text_add_capital(struct text *text, const char *words)
{
	if (*words >= 'a' && *words <= 'z') {
		text_add_byte(text, (char)(*words - 'a' + 'A'));
		words++;
	}
	text_add(text, words);
}

void
text_add_byte(struct text *text, char byte)
{
	*grow(text, 1) = byte;
}

void
text_add_shell_word(struct text *text, const char *word)
{
	static const char PLAIN[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
				    "0123456789._-";
	if (word[0] != '\0' && word[strspn(word, PLAIN)] == '\0') {
		text_add(text, word);
		return;
	}
	text_add_byte(text, '\'');
	for (const char *at = word; *at != '\0'; at++) {
		if (*at == '\'') {
			text_add(text, "'\\'");
		}
		text_add_byte(text, *at);
	}
	text_add_byte(text, '\'');
}

void
text_add_arguments(struct text *text, const char *format, va_list arguments)
{
	assert(format != NULL);
	va_list again;
	va_copy(again, arguments);
	int length = vsnprintf(NULL, 0, format, arguments);
	assert(length >= 0 && "a format of ours that the C library can't write");
	(void)text_room(text, (size_t)length);
	(void)vsnprintf(text->bytes + text->length, (size_t)length + 1, format, again);
	text->length += (size_t)length;
	va_end(again);
}

void
text_add_format(struct text *text, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	text_add_arguments(text, format, arguments);
	va_end(arguments);
}

const char *
arena_format(struct arena *arena, const char *format, ...)
{
	SCOPED_TEXT text = {0};
	va_list arguments;
	va_start(arguments, format);
	text_add_arguments(&text, format, arguments);
	va_end(arguments);
	return arena_string(arena, text_string(&text));
}

const char *
text_string(const struct text *text)
{
	return text->bytes == NULL ? "" : text->bytes;
}

/* The length in bytes of the well-formed sequence at `bytes`, and its code point; 0 when it
 * is not well-formed. */
static size_t
decode(const unsigned char *bytes, size_t length, uint32_t *point_out)
{
	static const uint32_t LEAST[] = {0, 0, 0x80, 0x800, 0x10000};
	unsigned char lead = bytes[0];
	size_t size = lead < 0x80           ? 1
		      : (lead >> 5) == 0x6  ? 2
		      : (lead >> 4) == 0xE  ? 3
		      : (lead >> 3) == 0x1E ? 4
					    : 0;
	if (size == 0 || size > length) {
		return 0;
	}
	uint32_t point = size == 1 ? lead : lead & (0x7FU >> size);
	for (size_t i = 1; i < size; i++) {
		if ((bytes[i] & 0xC0) != 0x80) {
			return 0;
		}
		point = point << 6 | (bytes[i] & 0x3FU);
	}
	bool surrogate = point >= 0xD800 && point <= 0xDFFF;
	if (point < LEAST[size] || point > 0x10FFFF || surrogate) {
		return 0;
	}
	*point_out = point;
	return size;
}

/* True when eight bytes more are ASCII, as nearly all are. */
static inline bool
eight_ascii(const unsigned char *at, size_t left)
{
	uint64_t eight = 0;
	if (left < sizeof eight) {
		return false;
	}
	memcpy(&eight, at, sizeof eight);
	return (eight & UINT64_C(0x8080808080808080)) == 0;
}

bool
utf8_valid(const char *bytes, size_t length)
{
	const unsigned char *at = (const unsigned char *)bytes;
	size_t left = length;
	for (;;) {
		uint32_t point = 0;
		while (eight_ascii(at, left)) {
			at += 8;
			left -= 8;
		}
		while (left > 0 && *at < 0x80) {
			at++;
			left--;
		}
		if (left == 0) {
			return true;
		}
		size_t size = decode(at, left, &point);
		if (size == 0) {
			return false;
		}
		at += size;
		left -= size;
	}
}

void
text_mend_utf8(struct text *text, size_t from)
{
	if (from == text->length || utf8_valid(text->bytes + from, text->length - from)) {
		return;
	}
	for (size_t i = from; i < text->length; i++) {
		if ((unsigned char)text->bytes[i] >= 0x80) {
			text->bytes[i] = '?';
		}
	}
}

struct point_range {
	uint32_t first;
	uint32_t last;
};

/* `ranges` are in order; most points, of ASCII, lie before the first. */
static bool
in_ranges(uint32_t point, const struct point_range *ranges, size_t count)
{
	for (size_t i = 0; i < count && point >= ranges[i].first; i++) {
		if (point <= ranges[i].last) {
			return true;
		}
	}
	return false;
}

size_t
utf8_count(const char *string)
{
	size_t count = 0;
	for (const char *at = string; *at != '\0'; at++) {
		count += ((unsigned char)*at & 0xC0) != 0x80;
	}
	return count;
}

const char *
utf8_hidden(const char *string)
{
	static const struct point_range HIDDEN[] = {{0x80, 0x9F}, {0xAD, 0xAD},
	    {0x61C, 0x61C}, {0x200B, 0x200B}, {0x200E, 0x200F}, {0x2028, 0x202E},
	    {0x2060, 0x206F}, {0xFEFF, 0xFEFF}};
	size_t left = strlen(string);
	while (left > 0) {
		uint32_t point = 0;
		size_t size = decode((const unsigned char *)string, left, &point);
		if (size == 0) {
			return string;
		}
		if (in_ranges(point, HIDDEN, sizeof HIDDEN / sizeof HIDDEN[0])) {
			return string;
		}
		string += size;
		left -= size;
	}
	return NULL;
}

/* The blocks that matter for names and notes, after Unicode 15 (UAX 11 East_Asian_Width W
 * and F; general category Mn and Cf). From memory, coarse at the edges: a wrong answer
 * moves a column by one, no more. */
static size_t
point_columns(uint32_t point)
{
	static const struct point_range NONE[] = {{0x300, 0x36F}, {0x483, 0x489},
	    {0x591, 0x5BD}, {0x610, 0x61A}, {0x64B, 0x65F}, {0x200B, 0x200F},
	    {0x202A, 0x202E}, {0x2060, 0x2064}, {0x20D0, 0x20F0}, {0xFE00, 0xFE0F},
	    {0xFE20, 0xFE2F}, {0x1F3FB, 0x1F3FF}};
	static const struct point_range WIDE[] = {{0x1100, 0x115F}, {0x2E80, 0x303E},
	    {0x3041, 0x33FF}, {0x3400, 0x4DBF}, {0x4E00, 0x9FFF}, {0xA000, 0xA4CF},
	    {0xAC00, 0xD7A3}, {0xF900, 0xFAFF}, {0xFE30, 0xFE4F}, {0xFF00, 0xFF60},
	    {0xFFE0, 0xFFE6}, {0x1F300, 0x1F64F}, {0x1F680, 0x1F6FF}, {0x1F900, 0x1F9FF},
	    {0x20000, 0x3FFFD}};
	if (in_ranges(point, NONE, sizeof NONE / sizeof NONE[0])) {
		return 0;
	}
	return in_ranges(point, WIDE, sizeof WIDE / sizeof WIDE[0]) ? 2 : 1;
}

size_t
utf8_columns(const char *string)
{
	const unsigned char *at = (const unsigned char *)string;
	size_t left = strlen(string);
	size_t columns = 0;
	while (left > 0) {
		uint32_t point = *at;
		if (eight_ascii(at, left)) {
			columns += 8;
			at += 8;
			left -= 8;
			continue;
		}
		if (point < 0x80) { /* nearly every letter, and of one column */
			columns++;
			at++;
			left--;
			continue;
		}
		size_t size = decode(at, left, &point);
		if (size == 0) {
			size = 1;
			point = '?';
		}
		columns += point_columns(point);
		at += size;
		left -= size;
	}
	return columns;
}

bool
text_same_letters(const char *a, const char *b)
{
	while (*a != '\0' && text_lower(*a) == text_lower(*b)) {
		a++;
		b++;
	}
	return *a == '\0' && *b == '\0';
}

/* Compares two runs of digits by value and moves both past them. */
static int
compare_digits(const char **a, const char **b)
{
	while (**a == '0') {
		(*a)++;
	}
	while (**b == '0') {
		(*b)++;
	}
	size_t a_length = strspn(*a, "0123456789");
	size_t b_length = strspn(*b, "0123456789");
	int order = a_length != b_length ? (a_length < b_length ? -1 : 1)
					 : memcmp(*a, *b, a_length);
	*a += a_length;
	*b += b_length;
	return order;
}

bool
words_have(const char *const *words, size_t count, const char *word)
{
	for (size_t i = 0; i < count; i++) {
		if (strcmp(words[i], word) == 0) {
			return true;
		}
	}
	return false;
}

int
text_order(const void *a, const void *b)
{
	return strcmp(*(const char *const *)a, *(const char *const *)b);
}

int
text_compare_natural(const char *a, const char *b)
{
	const char *x = a;
	const char *y = b;
	while (*x != '\0' && *y != '\0') {
		if (isdigit((unsigned char)*x) && isdigit((unsigned char)*y)) {
			int order = compare_digits(&x, &y);
			if (order != 0) {
				return order;
			}
		} else if (*x != *y) {
			return (unsigned char)*x < (unsigned char)*y ? -1 : 1;
		} else {
			x++;
			y++;
		}
	}
	if (*x == *y) {
		return strcmp(a, b);
	}
	return *x == '\0' ? -1 : 1;
}
