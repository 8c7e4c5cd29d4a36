/* Rows of cells written as RFC 4180 has them. */
#ifndef BECKET_BASE_CSV_LINE_H
#define BECKET_BASE_CSV_LINE_H

#include "base/text.h"

#include <stddef.h>

/* A row being written: a comma before each cell but the first. */
struct csv_line {
	struct text *out; /* borrowed */
	size_t columns;   /* how many the header has; 0 for a line without one */
	size_t cells;     /* so far */
	bool disarmed; /* cells that a spreadsheet would run get DISARMING before them */
};

/* The quote mark that keeps a spreadsheet from running a cell. In a file written so it
 * also heads an empty last column, by which the file is known as disarmed when it is
 * read. */
#define DISARMING "'"

/* True for a cell that a spreadsheet would take for a formula: it begins with = + - @, a
 * tab, a line break, or one of the four signs in full width. The list is that of OWASP's
 * page "CSV Injection", from memory but for = + - @ and the tab, which its standard ASVS
 * 5.0 has, too (1.2.10). */
bool csv_is_run(const char *cell);

/* True for a cell that csv_is_run holds of once the quote marks before it are taken away:
 * one that a disarmed file has with one quote mark more. */
bool csv_is_disarmed(const char *cell);

/* Adds a cell, quoted where a reader would otherwise change it. */
void csv_line_cell(struct csv_line *line, const char *cell);

/* Ends the row with CR LF. One of more or fewer cells than the header has columns ends
 * the program, for its cells would stand in the wrong columns. */
void csv_line_end(struct csv_line *line);

#endif
