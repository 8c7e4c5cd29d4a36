/* Money for people. */
#ifndef BECKET_REPORT_MONEY_H
#define BECKET_REPORT_MONEY_H

#include <stdint.h>

enum { MONEY_WORDS_SIZE = 40 };

/* Writes an amount in minor units as `EUR 249.00`, or as `JPY 12000` for the currencies
 * that ISO 4217 gives no minor unit (and three decimals for those it gives three); "" when
 * `minor` is negative, which means not known. `currency` is the ISO 4217 code. Returns
 * `buffer`. */
const char *money_words(
    int64_t minor, const char *currency, char buffer[MONEY_WORDS_SIZE]);

#endif
