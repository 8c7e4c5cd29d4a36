/* Lines of the journal as people read them: the book keeps money in minor units and says so in its
 * words, "price (minor units)" with "4550" or "task service, price (minor units) 4550"; here it is
 * EUR 45.50. */
#ifndef BECKET_REPORT_JOURNAL_WORDS_H
#define BECKET_REPORT_JOURNAL_WORDS_H

#include "base/text.h"

/* Adds what a field is called. */
void journal_field_words(const char *field, struct text *out);

/* Adds a value of that field, or all that a line says where it has none; `currency` is the book's. */
void journal_value_words(
    const char *field, const char *value, const char *currency, struct text *out);

#endif
