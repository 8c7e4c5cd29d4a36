/* What a station's list says of the gear that came back, as CSV: a row an item. */
#ifndef BECKET_EXCHANGE_RETURNS_CSV_H
#define BECKET_EXCHANGE_RETURNS_CSV_H

#include "exchange/list_source.h"
#include "life/homecoming.h"

/* Reads rows with the columns tag, result, task, done, next, by, certificate, price,
 * renewed, keep and note, in any order; tag must be there. A blank cell, or a column that
 * is not there, is as `common` has it; result is then passed. Prices are in the main
 * unit. Several tasks, renewed parts and kept tags are separated by semicolons; the task
 * "as-asked" is all that was asked of the station. Every bad row is told in the one
 * fault, with line and column, both what can't be read and what the book contradicts (see
 * homecoming_check): `back.csv: line 3, column done: ...`. */
MUST_CHECK bool csv_read_returns(const struct list_source *source,
    const struct homecoming *common, struct homecoming **out, size_t *count_out,
    struct fault *fault);

#endif
