/* Numbers: which comes first, the lesser and the greater, what sums are multiples of,
 * digests. */
#ifndef BECKET_BASE_NUMBERS_H
#define BECKET_BASE_NUMBERS_H

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

/* Adds a figure to a digest (Fowler, Noll, Vo: 64-bit FNV-1a, a figure at a time). */
#define DIGEST_START 14695981039346656037U

static inline uint64_t
digest_mix(uint64_t digest, uint64_t figure)
{
	return (digest ^ figure) * 1099511628211U;
}

#endif
