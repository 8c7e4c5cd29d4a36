/* A list's bytes, in whatever character set they are, as UTF-8. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_TO_UTF8_H
#define BECKET_EXCHANGE_TO_UTF8_H

#include "exchange/csv_notes.h"
#include "exchange/inventory_csv.h"

/* Adds the list's text to `out`, without a byte order mark, by the C library's iconv.
 * `character_set` is what was told, by any name iconv knows; NULL tells it from the bytes: a
 * byte order mark or zeros at every other place are UTF-16, well-formed UTF-8 is UTF-8, and
 * what is neither is taken for Windows-1252, or for ISO-8859-15 where that has its euro and none of
 * Windows' own characters, with a note of the first word that shows it.
 * FAULT_INPUT for an unknown set, and for bytes that are not of it. */
MUST_CHECK bool to_utf8(const struct csv_source *source, const char *character_set,
    struct csv_notes *notes, struct text *out, struct fault *fault);

#endif
