/* What sums of money are multiples of. */
#ifndef BECKET_BASE_MEASURE_H
#define BECKET_BASE_MEASURE_H

#include <stdint.h>

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

#endif
