/* What the readers of both spreadsheet formats share. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_WORKBOOK_PARTS_H
#define BECKET_EXCHANGE_WORKBOOK_PARTS_H

#include "base/text.h"
#include "dates/day.h"
#include "exchange/workbook.h"

/* How a cell's number format shows it. */
enum shown {
	SHOWN_PLAIN, /* a number */
	SHOWN_YEAR,
	SHOWN_MONTH, /* month and year */
	SHOWN_DAY,
	SHOWN_TIME, /* a time of day, no date */
};

/* How many cells are taken of one file. */
enum { CELLS_MOST = 8000000 };

/* The row that is being gathered. */
struct grid {
	struct csv_cells row;
	size_t cells_left; /* how many more are taken */
	struct arena *arena;
	struct csv_taker taker;
};

struct workbook {
	struct zip *zip;       /* libzip's */
	const char *worksheet; /* asked for; NULL for the first that is shown */
	struct grid grid;
	struct csv_notes *notes;
};

/* Puts text into a column of the row, 0 being the first; blank text is no cell. */
MUST_CHECK bool grid_put(
    struct grid *grid, size_t column, const char *text, struct fault *fault);

/* Hands the row out where it has anything in it, and starts the next; `line` is its number,
 * from 1. */
MUST_CHECK bool grid_row_end(struct grid *grid, size_t line, struct fault *fault);

/* A number as a person would write it: "45", "45.5". In the buffer. */
enum { NUMBER_TEXT_SIZE = 32 };

const char *number_text(double number, char buffer[NUMBER_TEXT_SIZE]);

/* A day no finer than it is shown: "2027-06-30", "2027-06", "2027". In the buffer. */
const char *shown_day(day_t day, enum shown shown, char buffer[NUMBER_TEXT_SIZE]);

/* One XML file of the archive, read node by node. */
struct part {
	const char *name;
	struct _xmlTextReader
	    *xml;            /* libxml2's, owned; NULL where there is no such part */
	const char *element; /* the node's name without a prefix; good while it is open */
	bool starts;         /* it stands at the start of an element */
	bool ends;           /* at its end; both for an empty one */
};

/* Opens one; `xml` stays NULL where it is not there. */
void part_open(const struct workbook *book, const char *name, struct part *out);
void part_close(struct part *part);

/* Steps to the next node. False at the end, and where `fault` says why there is none. */
bool part_next(struct part *part, struct fault *fault);

/* True at the start, or at the end, of an element of the name. */
bool part_starts(const struct part *part, const char *element);
bool part_ends(const struct part *part, const char *element);

/* An attribute by its name without a prefix, copied into the arena; NULL where it is not there. */
const char *part_attribute(
    const struct part *part, const char *name, struct arena *arena);

/* The same for a count: 1 where it is not there; at most `most`. */
size_t part_count(const struct part *part, const char *name, size_t most);

/* Adds the text that the node is, if it is text. */
void part_add_text(const struct part *part, struct text *out);

/* Notes which of several worksheets was read; complains of one that is not there. `names` are
 * those of the file, `read` the index of the one read, or `count` for none. */
MUST_CHECK bool workbook_note_choice(const struct workbook *book,
    const char *const *names, size_t count, size_t read, struct fault *fault);

MUST_CHECK bool xlsx_scan(struct workbook *book, struct fault *fault);
MUST_CHECK bool ods_scan(struct workbook *book, struct fault *fault);

#define SCOPED_PART __attribute__((cleanup(part_close))) struct part

#endif
