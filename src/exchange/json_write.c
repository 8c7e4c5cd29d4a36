/* Values written out, byte for byte as jansson writes them without flags, to which a test
 * holds them. */
#include "base/numbers.h"
#include "exchange/json_object.h"

#include <stdlib.h>
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

/* Adds words that may stand as they are. */
static void
write_plain(const char *words, size_t length, struct text *out)
{
	char *at = text_grow(out, length + 2);
	at[0] = '"';
	memcpy(at + 1, words, length);
	at[length + 1] = '"';
}

#define EACH UINT64_C(0x0101010101010101)

/* True where eight bytes may hold one that may not stand as it is, or is not of ASCII; for
 * some that do not, too. Each byte's highest bit tells, after a subtraction that borrows
 * there: of a control character, a quotation mark, a backslash. */
static bool
is_odd(uint64_t bytes)
{
	uint64_t tells = bytes | (bytes - EACH * ' ') | ((bytes ^ EACH * '"') - EACH) |
			 ((bytes ^ EACH * '\\') - EACH);
	return (tells & EACH * 0x80) != 0;
}

/* True when words of that length may stand as they are, and are of ASCII. */
static bool
is_plain(const char *words, size_t length)
{
	uint64_t bytes = 0;
	for (; length >= sizeof bytes; length -= sizeof bytes) {
		memcpy(&bytes, words, sizeof bytes);
		if (is_odd(bytes)) {
			return false;
		}
		words += sizeof bytes;
	}
	bytes = EACH * ' ';
	memcpy(&bytes, words, length);
	return !is_odd(bytes);
}

/* How many bytes stand as they are; whether any is of no ASCII letter is added to *high. */
static size_t
plain_bytes(const char *words, unsigned *high)
{
	const unsigned char *at = (const unsigned char *)words;
	while (*at >= ' ' && *at != '"' && *at != '\\') {
		*high |= *at++;
	}
	return (size_t)(at - (const unsigned char *)words);
}

/* Words with letters that may not stand as they are, or with any that are not of ASCII. */
static void
write_odd_words(const char *words, struct text *out)
{
	unsigned high = 0;
	size_t from = out->length;
	size_t plain = plain_bytes(words, &high);
	text_add_byte(out, '"');
	text_add_bytes(out, words, plain);
	while (words[plain] != '\0') {
		write_escaped((unsigned char)words[plain], out);
		words += plain + 1;
		plain = plain_bytes(words, &high);
		text_add_bytes(out, words, plain);
	}
	if (high >= 0x80) {
		/* such text is in no book that only this program wrote */
		text_mend_utf8(out, from);
	}
	text_add_byte(out, '"');
}

static void
write_words(const char *words, struct text *out)
{
	size_t length = strlen(words);
	if (is_plain(words, length)) {
		write_plain(words, length, out);
	} else {
		write_odd_words(words, out);
	}
}

/* A date, which has no letter that may not stand as it is. */
static void
write_date(const char *words, struct text *out)
{
	write_plain(words, strlen(words), out);
}

static void
write_number(int64_t number, struct text *out)
{
	char digits[INTEGER_TEXT_SIZE];
	text_add(out, integer_text(number, digits));
}

static void
write_made(struct json value, struct text *out)
{
	struct json_made *made = value.made;
	bool object = value.is == JSON_IS_OBJECT;
	if (made->text.length == 0) {
		text_add(out, object ? "{}" : "[]");
	} else {
		text_add_bytes(out, made->text.bytes, made->text.length);
		text_add_byte(out, object ? '}' : ']');
	}
	text_clear(&made->text);
	free(made);
}

void
json_write(struct json value, struct text *out)
{
	char day[DAY_ISO_SIZE];
	char stamp[STAMP_TEXT_SIZE];
	switch (value.is) {
	case JSON_IS_NONE:
		text_add_bytes(out, "null", 4);
		return;
	case JSON_IS_FLAG:
		text_add(out, value.number != 0 ? "true" : "false");
		return;
	case JSON_IS_NUMBER:
		write_number(value.number, out);
		return;
	case JSON_IS_WORDS:
		write_words(value.words, out);
		return;
	case JSON_IS_DAY:
		write_date(day_iso(value.day, day), out);
		return;
	case JSON_IS_STAMP:
		write_date(stamp_text(value.stamp, stamp), out);
		return;
	case JSON_IS_OBJECT:
	case JSON_IS_ARRAY:
		write_made(value, out);
		return;
	}
}

void
json_write_key(bool first, const char *name, size_t length, struct text *out)
{
	char *at = text_grow(out, length + (first ? 5 : 6));
	*at++ = first ? '{' : ',';
	if (!first) {
		*at++ = ' ';
	}
	*at++ = '"';
	memcpy(at, name, length); /* names are ours: nothing is to be escaped */
	at[length] = '"';
	at[length + 1] = ':';
	at[length + 2] = ' ';
}
