/* Words in cells that say something without being a date or a number. Inside the exchange
 * room only. */
#ifndef BECKET_EXCHANGE_CSV_WORDS_H
#define BECKET_EXCHANGE_CSV_WORDS_H

#include "base/fault.h"
#include "base/text.h"
#include "dates/stamp.h"

#include <stdbool.h>
#include <stddef.h>

/* True when a text is among the words of a list with blanks between, in any case of letters. */
bool csv_has_word(const char *list, const char *text);

/* True for "n/a", "unknown", "?" and the like, in any case of letters and in the languages whose
 * headers are known. */
bool csv_says_not_known(const char *text);

/* True for words that begin as a sum at a list's end does, "Total" or "Summe:", in the languages
 * whose headers are known, or end as a heading in it, "Flares:". */
bool csv_says_no_gear(const char *text);

/* The number, from 1, in a cell that says how many: "4", "4.0" as a spreadsheet may write it, "4
 * pcs", "x4", "four", "a pair"; 0 for anything else. In the languages whose headers are known. */
long csv_count(const char *text);

/* stamp_parse for a list; a fault about a date that could be either way round names the option that
 * says which way it is. */
MUST_CHECK bool csv_stamp(
    const char *text, enum date_order order, struct stamp *out, struct fault *fault);

/* True for a date that could be either way round. */
bool csv_either_way(const char *text);

/* How many things words with a multiplier, or with a number in brackets, seem to speak of:
 * "Hand flares x4", "2 x PLB", "Flares (6)"; 0 for words with neither. */
size_t csv_how_many(const char *text);

/* Adds the words without what csv_how_many reads in them: "Flares" for "Flares (6)"; as they are
 * where they say no number. */
void csv_without_how_many(const char *text, struct text *out);

#endif
