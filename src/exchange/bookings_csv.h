/* Bookings as a list with a header row, CSV in any character set, .xlsx or .ods: a row a booking. */
#ifndef BECKET_EXCHANGE_BOOKINGS_CSV_H
#define BECKET_EXCHANGE_BOOKINGS_CSV_H

#include "exchange/inventory_csv.h"

/* Reads rows, of a file read as `how` says, with the columns vessel, from, to, persons, children and note, in any order; the
 * first three must be there. A booking of hers that begins on the same day is replaced, so that a
 * list can be read again. Every bad row is told in the one fault, with line and column, both what
 * can't be read and what booking_check refuses. Strings live in the arena; remarks on the file are
 * added to `notes`. */
MUST_CHECK bool csv_read_bookings(const struct csv_source *source,
    const struct list_how *how, enum date_order order, const struct inventory *inventory,
    struct arena *arena, struct booking_request **out, size_t *count_out,
    struct text *notes, struct fault *fault);

#endif
