/* The years ahead as CSV: one row a thing done, one row a trip. */
#ifndef BECKET_EXCHANGE_YEARS_CSV_H
#define BECKET_EXCHANGE_YEARS_CSV_H

#include "base/text.h"
#include "years/outlook.h"

/* Columns: plan winter station tag kind task doer by price carriage. A trip has no tag and the
 * task "trip". Prices are in the main unit; blank where not known. */
void csv_write_years(const struct outlook_view *view, struct text *out);

#endif
