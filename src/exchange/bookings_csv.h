/* Bookings as CSV (RFC 4180, UTF-8, a header row): a row a booking. */
#ifndef BECKET_EXCHANGE_BOOKINGS_CSV_H
#define BECKET_EXCHANGE_BOOKINGS_CSV_H

#include "exchange/inventory_csv.h"

/* Reads rows with the columns vessel, from, to, persons, children and note, in any order; the
 * first three must be there. A booking of hers that begins on the same day is replaced, so that a
 * list can be read again. Every bad row is told in the one fault, with line and column, both what
 * can't be read and what booking_check refuses. Strings live in the arena. */
MUST_CHECK bool csv_read_bookings(const struct csv_source *source, enum date_order order,
    const struct inventory *inventory, struct arena *arena, struct booking_request **out,
    size_t *count_out, struct fault *fault);

#endif
