/* Words made comparable whatever their case, and with accents left out, in any script. */
#ifndef BECKET_BASE_FOLD_H
#define BECKET_BASE_FOLD_H

#include "base/text.h"

/* Adds well-formed UTF-8 with the full case folding of Unicode (section 3.13), in no
 * language's own way: "STRASSE" and "Straße" are one, and so are composed and decomposed
 * letters. */
void fold_case(const char *string, struct text *out);

/* The same without marks on letters, with letters of which the mark is a part as the
 * plain one, and with letters of another width or shape as the usual one (NFKD): "Ærlig
 * Sjøgang" is "aerlig sjogang", and "ＬＪ－１" is "lj-1". Marks that make another letter
 * stay, as the voicing of kana and the vowels of Indic scripts: those of the combining
 * classes 0 and 7 to 9 (Unicode Standard Annex 44, table 15). */
void fold_accents(const char *string, struct text *out);

#endif
