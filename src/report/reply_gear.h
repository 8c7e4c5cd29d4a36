/* Cells about gear. Inside the report room only. */
#ifndef BECKET_REPORT_REPLY_GEAR_H
#define BECKET_REPORT_REPLY_GEAR_H

#include "due/due.h"
#include "report/reply.h"
#include "rules/kinds.h"

/* Adds a cell with what an item is, in full where there is room. */
void reply_item(struct reply_table *table, const struct kinds *kinds,
    const struct inventory *inventory, size_t item, const char *note);

#endif
