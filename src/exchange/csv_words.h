/* Words in cells that say something without being a date or a number. Inside the exchange
 * room only. */
#ifndef BECKET_EXCHANGE_CSV_WORDS_H
#define BECKET_EXCHANGE_CSV_WORDS_H

#include <stdbool.h>
#include <stddef.h>

/* True for "n/a", "unknown", "?" and the like, in any case of letters. */
bool csv_says_not_known(const char *text);

/* How many things words with a multiplier, or with a number in brackets, seem to speak of:
 * "Hand flares x4", "2 x PLB", "Flares (6)"; 0 for words with neither. */
size_t csv_how_many(const char *text);

#endif
