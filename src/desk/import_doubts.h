/* What is doubtful in a file that is imported, though each row can be read: days that are still
 * to come or can't be, and names that are those of the book but for a letter. */
#ifndef BECKET_DESK_IMPORT_DOUBTS_H
#define BECKET_DESK_IMPORT_DOUBTS_H

#include "desk/acts.h"
#include "exchange/inventory_csv.h"

/* Remarks, with the line, on days after today, work done before a thing was made and marks that
 * end before it was: at most twenty, then how many more. */
void import_remarks(struct desk *desk, const struct csv_rows *rows);

/* Asks about a new boat whose name is a known one's but for capitals or one letter, and a new tag
 * that is a known one's but for capitals, or of the same kind and but for one letter: a slip would
 * make a second one beside it. FAULT_INPUT, and the desk's question, unless the request says that
 * they are right.
 * `rows` have their tags. */
MUST_CHECK bool import_names(struct desk *desk, const struct import_request *request,
    const struct csv_rows *rows, struct fault *fault);

#endif
