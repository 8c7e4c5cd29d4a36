/* Values as a book stores them, in memory and as bytes: what the journal's changes are made of. No engine
 * is known here. Only for files of this room.
 *
 * As bytes a value is its type, one byte (the numbers below), and what is to be said beside: of an integer
 * its number with the sign as the lowest bit (0, -1, 1, -2 are 0, 1, 2, 3), of a real its 64 bits of
 * IEEE 754, the highest byte first, of text and bytes their length and themselves. A number is seven bits
 * a byte, the lowest first, and of each byte but the last the highest bit is set (LEB128 of the DWARF
 * standard, version 4, 7.6). The same value is always the same bytes. */
#ifndef BECKET_BOOK_VALUE_H
#define BECKET_BOOK_VALUE_H

#include "base/memory.h"
#include "base/text.h"

#include <stdint.h>

/* What a value is; these numbers stand in every book. */
enum value_held {
	HELD_NOTHING, /* SQL's NULL */
	HELD_INTEGER,
	HELD_REAL, /* no column of a book holds one; an entry of the journal may tell of one */
	HELD_TEXT,
	HELD_BYTES,
	HELD_UNSAID, /* what a change does not tell; never in bytes */
};

/* A parameter, a column of a row, or a value before or after a change. */
struct value {
	enum value_held held;
	int64_t number; /* of an integer, and the 64 bits of a real; 0 of anything else */
	/* of text and bytes, never NULL for them, and NULL of anything else; borrowed, and ended by a zero only
	 * where that is said */
	const char *bytes;
	size_t length; /* of `bytes` */
};

/* Bytes that are still to be read. Each of the calls below takes from their front, and fails where they
 * end before. */
struct bytes_left {
	const unsigned char *at;
	size_t left;
};

MUST_CHECK bool bytes_take(
    struct bytes_left *left, size_t count, const unsigned char **out);
MUST_CHECK bool number_take(struct bytes_left *left, uint64_t *out);

/* Text and bytes are borrowed from what is read. A type that there is not is a failure. */
MUST_CHECK bool value_take(struct bytes_left *left, struct value *out);

/* So many values of bytes that were written by value_add and nobody else, of which nothing can be wrong. */
void values_take(struct bytes_left bytes, size_t count, struct value *out);

bool bytes_same(struct bytes_left a, struct bytes_left b);

void number_add(struct text *out, uint64_t number);
void value_add(struct text *out, const struct value *value);

bool value_same(const struct value *a, const struct value *b);

/* The number that a real is. */
double value_real(const struct value *value);

/* The value as text in the arena, NULL for nothing. Bytes are told by their number, none by "". */
const char *value_text(const struct value *value, struct arena *arena);

/* A number as text in the arena. */
const char *integer_text(int64_t number, struct arena *arena);

#endif
