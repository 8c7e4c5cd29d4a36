/* The shore list as CSV: one row a line of it. */
#ifndef BECKET_EXCHANGE_WINTER_CSV_H
#define BECKET_EXCHANGE_WINTER_CSV_H

#include "base/text.h"
#include "winter/winter.h"

/* Columns: vessel winter part station hand_in collect tag kind task due not_before not_after
 * price why. `part` is one of hand-in, self, buy, paperwork, dispose, waits, cannot, now. */
void csv_write_winter(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct text *out);

#endif
