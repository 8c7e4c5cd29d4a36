/* Ratings as labels have them: "20-B:C", "1-A:10-B:C", "13A/113B", "150 N", "SOLAS A". A rating
 * is a row of marks, each a number with letters, or either alone; what stands between them is
 * of no account, nor are capitals, nor a blank or hyphen between a number and its letters. */
#ifndef BECKET_RULES_RATING_H
#define BECKET_RULES_RATING_H

#include <stdbool.h>

/* True when the rating has, for each mark of `wanted`, one with the same letters and a
 * number no smaller: 20-B reaches 5-B, and 21A/144B reaches 13A/113B. A number alone must
 * be the same: Category 2 does not reach Category 1. 10BC has both of its letters. A
 * rating not known ("") reaches none. */
bool rating_reaches(const char *rating, const char *wanted);

/* True when the two are the same except for capitals, blanks and hyphens. */
bool rating_same(const char *a, const char *b);

/* True for words that have a mark at all. */
bool rating_is_one(const char *rating);

/* True when each mark is one that labels are known to bear: a number with the letters of
 * fires (5-B, 13A/113B, 10BC) or of buoyancy (150 N), or one of the words SOLAS, ISO, ORC,
 * Category, Type, Class, adult, child and infant, with a number or a letter (SOLAS A,
 * ISO 9650, Type I) where it has one. */
bool rating_is_known(const char *rating);

#endif
