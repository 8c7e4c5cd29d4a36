/* Numbers: which comes first, the lesser and the greater, what sums are multiples of,
 * their digits, digests. */
#ifndef BECKET_BASE_NUMBERS_H
#define BECKET_BASE_NUMBERS_H

#include <stddef.h>
#include <stdint.h>

/* Less than 0, 0 or more than 0 where `a` comes before `b`, with it, or after it: of
 * numbers of any type. This and the next two look at what they are given twice. */
#define ORDER(a, b) (((a) > (b)) - ((a) < (b)))

/* An order, and where that is 0 the order of two numbers: for what is sorted by
 * several. */
#define ORDER_THEN(order, a, b) ((order) != 0 ? (order) : ORDER(a, b))

/* The lesser and the greater of two numbers of one type. */
#define LESSER(a, b) ((a) < (b) ? (a) : (b))
#define GREATER(a, b) ((a) > (b) ? (a) : (b))

/* The largest number that both are multiples of; of 0 and another, the other. */
static inline int64_t
common_measure(int64_t a, int64_t b)
{
	while (b != 0) {
		int64_t rest = a % b;
		a = b;
		b = rest;
	}
	return a;
}

/* Writes the last `count` digits of a number that is not below 0; returns the place behind
 * them. A book and its answers are full of these: the C library's formats cost five times
 * as much. */
static inline char *
digits_put(char *at, int64_t number, size_t count)
{
	for (size_t i = count; i > 0; number /= 10) {
		at[--i] = (char)('0' + number % 10);
	}
	return at + count;
}

enum { INTEGER_TEXT_SIZE = 21 }; /* "-9223372036854775808" and the zero byte */

/* A number in decimal digits, in the buffer, not always at its start. */
static inline const char *
integer_text(int64_t number, char buffer[INTEGER_TEXT_SIZE])
{
	char *at = buffer + INTEGER_TEXT_SIZE - 1;
	uint64_t left = number < 0 ? 0 - (uint64_t)number : (uint64_t)number;
	*at = '\0';
	do {
		*--at = (char)('0' + left % 10);
		left /= 10;
	} while (left > 0);
	if (number < 0) {
		*--at = '-';
	}
	return at;
}

/* Adds a figure to a digest (Fowler, Noll, Vo: 64-bit FNV-1a, a figure at a time). */
#define DIGEST_START 14695981039346656037U

static inline uint64_t
digest_mix(uint64_t digest, uint64_t figure)
{
	return (digest ^ figure) * 1099511628211U;
}

#endif
