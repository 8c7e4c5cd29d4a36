/* A spreadsheet file (.xlsx as ECMA-376 Office Open XML has it, .ods as OASIS OpenDocument 1.3
 * has it) cut into rows of cells, as csv_scan cuts a CSV file. Inside the exchange room only.
 *
 * Cells are what a person sees in them: text as it is, a number as plainly as it can be
 * written, the last computed value of a formula (none is computed here), and a date no finer
 * than its cell shows it: what is shown as "06/2027" comes as 2027-06, though the file keeps a
 * day for it. A time of day is dropped. */
#ifndef BECKET_EXCHANGE_WORKBOOK_H
#define BECKET_EXCHANGE_WORKBOOK_H

#include "exchange/csv_notes.h"
#include "exchange/csv_scan.h"
#include "exchange/inventory_csv.h"

/* True for bytes that begin as a zip archive does, which both are. */
bool workbook_is(const char *bytes, size_t length);

/* Hands out the rows of one worksheet that have something in them: the one named, or, for
 * NULL, the first that is shown. Which it was is noted where there are several. The row's line
 * is its number in the worksheet; trailing blanks are dropped.
 *
 * FAULT_INPUT for what is no such file, is encrypted, has no such worksheet, or goes beyond
 * what a list of gear can need: 256 MiB unpacked, 1,024 columns, 8 million cells. */
MUST_CHECK bool workbook_scan(const struct csv_source *source, const char *worksheet,
    struct arena *arena, struct csv_taker taker, struct csv_notes *notes,
    struct fault *fault);

#endif
