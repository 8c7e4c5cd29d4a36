/* Random dates for tests, from a small generator, so that a failing round can be repeated on
 * any machine. */
#ifndef BECKET_TEST_DRAW_H
#define BECKET_TEST_DRAW_H

#include "dates/stamp.h"

/* A number from 0 up to but not `below`. */
static inline unsigned
draw(unsigned *seed, unsigned below)
{
	*seed = *seed * 1664525U + 1013904223U;
	return (*seed >> 8) % below;
}

/* A stamp of any precision, or none, in the years from `first_year` on. */
static inline struct stamp
draw_stamp(unsigned *seed, int first_year, unsigned years)
{
	struct stamp stamp =
	    stamp_of_day(day_from_civil(first_year + (int)draw(seed, years), 1, 1) +
			 (day_t)draw(seed, 365));
	stamp.precision = (enum stamp_precision)draw(seed, 4);
	if (stamp.precision == STAMP_NONE) {
		return (struct stamp){0};
	}
	if (stamp.precision < STAMP_DAY) {
		stamp.day = 0;
	}
	if (stamp.precision < STAMP_MONTH) {
		stamp.month = 0;
	}
	return stamp;
}

#endif
