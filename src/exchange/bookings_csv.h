/* Bookings as a list with a header row, CSV in any character set, .xlsx or .ods: a row a
 * booking. */
#ifndef BECKET_EXCHANGE_BOOKINGS_CSV_H
#define BECKET_EXCHANGE_BOOKINGS_CSV_H

#include "exchange/list_source.h"

/* Reads rows with the columns vessel, from, to, persons, children and note, in any order; the
 * first three must be there. A booking of hers that begins on the same day is replaced, so that a
 * list can be read again. Every bad row is told in the one fault, with line and column, both what
 * can't be read and what booking_check refuses. */
MUST_CHECK bool csv_read_bookings(const struct list_source *source,
    struct booking_request **out, size_t *count_out, struct fault *fault);

#endif
