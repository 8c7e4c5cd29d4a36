/* What a row's words say of its kind. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_CSV_KINDS_H
#define BECKET_EXCHANGE_CSV_KINDS_H

#include "exchange/csv_notes.h"
#include "exchange/inventory_csv.h"
#include "rules/kinds.h"

/* What a person said the words mean, in any case, or else what is left of them without how many
 * there are ("Flares" of "Flares (6)"); NULL where nobody did. */
const struct csv_mapping *csv_told_kind(
    const struct csv_options *options, const char *words);

/* Tells the kind from the words of the column kind ("" when blank) and, where they fit none
 * or more than one, from those of the description: a description may pick one of those that
 * fit, never another. What was guessed is noted. `id_out` lives as long as the catalogue. The
 * fault says why no kind can be told. */
MUST_CHECK bool csv_tell_kind(const struct kinds *kinds, const char *words,
    const char *description, struct csv_notes *notes, size_t line, const char **id_out,
    struct fault *fault);

#endif
