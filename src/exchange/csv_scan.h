/* A CSV file cut into rows of cells by libcsv, with the line each cell starts in. Inside the
 * exchange room only. */
#ifndef BECKET_EXCHANGE_CSV_SCAN_H
#define BECKET_EXCHANGE_CSV_SCAN_H

#include "base/memory.h"

struct csv_cell {
	const char *text; /* in the arena, zero-terminated */
	size_t length;    /* in bytes; more than strlen when a zero byte is in it */
};

struct csv_cells {
	struct csv_cell *items;
	size_t count;
	size_t capacity;
	size_t line;     /* where the row starts, the file's first line being 1 */
	bool open_ended; /* a worksheet's: blanks at its end are not in it */
};

/* Where and why scanning stopped short. */
struct csv_stop {
	const char *why; /* NULL when the whole file was read */
	size_t line;
	size_t cell; /* index in its row */
};

/* Calls `taker.row` for each row that is no empty line; it returns false to end the scan, and
 * scanning then fails with its fault. A file that is not well-formed sets `stop_out` after
 * the rows before the bad one were handed out, and is no failure. The bytes are UTF-8 without a
 * byte order mark. A first line `sep=;` names the separator, as some spreadsheets write it, and
 * is no row. */
struct csv_taker {
	bool (*row)(const struct csv_cells *cells, void *context, struct fault *fault);
	void *context;
};

MUST_CHECK bool csv_scan(const char *bytes, size_t length, struct arena *arena,
    struct csv_taker taker, struct csv_stop *stop_out, struct fault *fault);

#endif
