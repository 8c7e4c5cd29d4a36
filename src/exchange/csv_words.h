/* Words in cells that say something without being a date or a number. Inside the exchange
 * room only. */
#ifndef BECKET_EXCHANGE_CSV_WORDS_H
#define BECKET_EXCHANGE_CSV_WORDS_H

#include <stdbool.h>

/* True for "n/a", "unknown", "?" and the like, in any case of letters. */
bool csv_says_not_known(const char *text);

/* True for words with a multiplier: "Hand flares x4", "2 x PLB". */
bool csv_says_how_many(const char *text);

#endif
