/* A list as it comes: CSV in whatever character set, or a spreadsheet file, cut into rows of
 * cells. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_LIST_SCAN_H
#define BECKET_EXCHANGE_LIST_SCAN_H

#include "exchange/csv_notes.h"
#include "exchange/csv_scan.h"
#include "exchange/inventory_csv.h"

/* Hands out the rows of a spreadsheet file as workbook_scan does, those of any other as csv_scan
 * does once its text is UTF-8 (to_utf8.h). `stop_out` as there. FAULT_INPUT too for a file that
 * holds a spreadsheet of a kind that is not read, or an encrypted one. */
MUST_CHECK bool list_scan(const struct csv_source *source, const struct list_how *how,
    struct arena *arena, struct csv_taker taker, struct csv_notes *notes,
    struct csv_stop *stop_out, struct fault *fault);

#endif
