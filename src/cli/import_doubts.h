/* What is doubtful in a file that is imported, though each row can be read: days that are still
 * to come or can't be, and names that are those of the book but for a letter. */
#ifndef BECKET_CLI_IMPORT_DOUBTS_H
#define BECKET_CLI_IMPORT_DOUBTS_H

#include "cli/context.h"
#include "exchange/inventory_csv.h"

/* Remarks, with the line, on days after today, work done before a thing was made and marks that
 * end before it was: at most twenty, then how many more. */
void import_remarks(struct context *context, const struct csv_rows *rows);

/* Asks about a new boat whose name is a known one's but for capitals or one letter, and a new tag
 * that is a known one's but for capitals, or of the same kind and but for one letter: a slip would
 * make a second one beside it. Without a terminal FAULT_INPUT, unless --names-are-right is given.
 * `rows` have their tags. */
MUST_CHECK bool import_names(struct context *context, const char *name,
    const struct csv_rows *rows, struct fault *fault);

#endif
