/* Words made comparable whatever their case, and with accents left out, in any script. */
#ifndef BECKET_BASE_FOLD_H
#define BECKET_BASE_FOLD_H

#include "base/text.h"

/* Adds well-formed UTF-8 with the full case folding of Unicode (section 3.13), in no language's
 * own way: "STRASSE" and "Straße" are one, and so are composed and decomposed letters. */
void fold_case(const char *string, struct text *out);

/* The same without marks on letters, and with letters that have theirs grown in as the plain
 * one: "Ærlig Sjøgang" is "aerlig sjogang". */
void fold_accents(const char *string, struct text *out);

#endif
