/* One carriage line of a vessel explained, in sentences. */
#ifndef BECKET_REPORT_LINE_H
#define BECKET_REPORT_LINE_H

#include "base/text.h"
#include "muster/muster.h"

/* Adds where the number needed comes from, and what there is: "Needs 4. Has 2." */
void add_line_sum(const struct line_why *why, struct text *out);

/* Adds when the line holds, and who says so. */
void add_line_origin(const struct line_why *why, struct text *out);

/* Adds why a piece counts in the line, and to which day, or why it does not. */
void add_piece_reason(const struct piece_why *piece, struct text *out);

#endif
