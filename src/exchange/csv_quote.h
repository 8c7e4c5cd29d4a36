/* Days and prices as cells of CSV. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_CSV_QUOTE_H
#define BECKET_EXCHANGE_CSV_QUOTE_H

#include "base/csv_line.h"
#include "dates/day.h"

#include <stdint.h>

/* Adds a day as ISO has it; a blank cell for DAY_NONE and DAY_NEVER. */
void csv_line_day(struct csv_line *line, day_t day);

/* Adds a price in the main unit, "249.00"; a blank cell when it is not known. */
void csv_line_price(struct csv_line *line, const char *currency, int64_t minor);

#endif
