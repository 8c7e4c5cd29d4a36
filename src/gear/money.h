/* Money: every price of a book is in its one currency, kept in minor units. */
#ifndef BECKET_GEAR_MONEY_H
#define BECKET_GEAR_MONEY_H

#include "base/fault.h"
#include "base/text.h"

#include <stdint.h>

enum { MONEY_WORDS_SIZE = 40 };

/* How many decimals a currency (ISO 4217 code) has: its minor units by ISO 4217, from
 * memory. Two where it is NULL, "" or not known here. */
int money_decimals(const char *currency);

/* Writes an amount in minor units as `EUR 249.00`, or as `JPY 12000` for the currencies
 * that ISO 4217 gives no minor unit (and three decimals for those it gives three); ""
 * when `minor` is negative, which means not known. `currency` is the ISO 4217 code.
 * Returns `buffer`. */
const char *money_words(
    int64_t minor, const char *currency, char buffer[MONEY_WORDS_SIZE]);

/* Adds the same without the code, "249.00"; nothing when it is not known. */
void money_add(int64_t minor, const char *currency, struct text *out);

/* Reads a price in the main unit as people write it ("249", "249.5", "249,00",
 * "1.250,00", "1 250.00", "EUR 249", "249,00 €") to minor units. The book's own currency
 * may stand before or after, by its code or its sign. A comma or point with one or two
 * digits after it (three where the currency has three decimals) parts decimals; a comma,
 * point, blank or apostrophe before just three digits parts thousands, where decimals
 * after it, or a second such mark, leave no doubt. A dash in the place of the decimals
 * ("45.-", "45,--") stands for none.
 *
 * FAULT_INPUT with words for "1,250" and "1.250", which could be either (with three decimals
 * the point is theirs, as money_words has it), for a negative one, another currency, decimals
 * that the currency has not, and what is no number; `*minor_out` is then left alone. */
MUST_CHECK bool money_parse(
    const char *string, const char *currency, int64_t *minor_out, struct fault *fault);

/* The code of the other currency that a price is in, by its sign or code; "CUR" for a
 * sign of several ("$"). NULL for what is a price in `currency`, or in none that is
 * known. */
const char *money_other(const char *string, const char *currency);

#endif
