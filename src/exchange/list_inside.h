/* Inside the exchange: a list as it comes, in whatever character set or as a spreadsheet,
 * cut into rows. Not for other rooms. */
#ifndef BECKET_EXCHANGE_LIST_INSIDE_H
#define BECKET_EXCHANGE_LIST_INSIDE_H

#include "base/text.h"
#include "dates/day.h"
#include "exchange/csv_inside.h"
#include "exchange/inventory_csv.h"
#include "exchange/list_source.h"

/* A list as it comes: CSV in whatever character set, or a spreadsheet file, cut into rows of
 * cells. */

/* Hands out the rows of a spreadsheet file as workbook_scan does, those of any other as csv_scan
 * does once its text is UTF-8 (below). `stop_out` as there. FAULT_INPUT too for a file that
 * holds a spreadsheet of a kind that is not read, or an encrypted one. */
MUST_CHECK bool list_scan(const struct csv_source *source, const struct list_how *how,
    struct arena *arena, struct csv_taker taker, struct csv_notes *notes,
    struct csv_stop *stop_out, struct fault *fault);

/* A list's bytes, from the beginning to the end; those of a spool some at a time. */

/* Has all bytes of a source held: in `room` where a spool has them. FAULT_FILE. */
MUST_CHECK bool csv_source_hold(
    struct csv_source *source, struct text *room, struct fault *fault);

/* Starts as `{ .source = source }`; free with list_feed_clear. */
struct list_feed {
	const struct csv_source *source; /* borrowed */
	const char *at; /* what is held and not taken, until more of it is */
	size_t left;
	/* the rest is the feed's own */
	size_t next; /* what is not held begins here */
	struct text held;
};

void list_feed_clear(struct list_feed *feed);

/* Holds some more, of what is not in memory as much as is left or 64 KiB, whichever is more;
 * nothing more at the end. FAULT_FILE. */
MUST_CHECK bool list_feed_more(struct list_feed *feed, struct fault *fault);

/* Takes so many bytes of what is held. */
void list_feed_take(struct list_feed *feed, size_t length);

/* Holds the next line whole, and how long it is with its end: LF, CR LF or CR; 0 at the end of the
 * list. FAULT_FILE. */
MUST_CHECK bool list_feed_line(
    struct list_feed *feed, size_t *size_out, struct fault *fault);

/* As utf8_valid, of all of it. FAULT_FILE. */
MUST_CHECK bool list_is_utf8(
    const struct csv_source *source, bool *out, struct fault *fault);

#define SCOPED_FEED __attribute__((cleanup(list_feed_clear))) struct list_feed

/* A list's bytes, in whatever character set they are, as UTF-8. */

/* Has `out` be the list's text, without a byte order mark: its own bytes where these are
 * UTF-8, else what the C library's iconv makes of them, in `room`. `character_set` is
 * what was told, by any name iconv knows; NULL tells it from the bytes: a byte order mark
 * or zeros at every other place are UTF-16, well-formed UTF-8 is UTF-8, and what is
 * neither is taken for Windows-1252, or for ISO-8859-15 where that has its euro and none
 * of Windows' own characters, with a note of the first word that shows it. FAULT_INPUT
 * for an unknown set, and for bytes that are not of it; FAULT_FILE. */
MUST_CHECK bool to_utf8(const struct csv_source *source, const char *character_set,
    struct csv_notes *notes, struct text *room, struct csv_source *out,
    struct fault *fault);

/* A spreadsheet file (.xlsx as ECMA-376 Office Open XML has it, .ods as OASIS OpenDocument 1.3
 * has it) cut into rows of cells, as csv_scan cuts a CSV file.
 *
 * Cells are what a person sees in them: text as it is, a number as plainly as it can be
 * written, the last computed value of a formula (none is computed here), and a date no finer
 * than its cell shows it: what is shown as "06/2027" comes as 2027-06, though the file keeps a
 * day for it. A time of day is dropped. */

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

/* What the readers of both spreadsheet formats share. */

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
	struct arena *passing; /* the same where a row's text does not last; else NULL */
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
struct xml_part {
	const char *name;
	struct _xmlTextReader /* NOLINT(bugprone-reserved-identifier) its own name */
	    *xml;             /* libxml2's, owned; NULL where there is no such part */
	const char *element; /* the node's name without a prefix; good while it is open */
	bool starts;         /* it stands at the start of an element */
	bool ends;           /* at its end; both for an empty one */
};

/* Opens one; `xml` stays NULL where it is not there. */
void xml_open(const struct workbook *book, const char *name, struct xml_part *out);
void xml_close(struct xml_part *part);

/* Steps to the next node. False at the end, and where `fault` says why there is none. */
bool xml_next(struct xml_part *part, struct fault *fault);

/* True at the start, or at the end, of an element of the name. */
bool xml_starts(const struct xml_part *part, const char *element);
bool xml_ends(const struct xml_part *part, const char *element);

/* An attribute by its name without a prefix, copied into the arena; NULL where it is not there. */
const char *xml_attribute(
    const struct xml_part *part, const char *name, struct arena *arena);

/* The same for a count: 1 where it is not there; at most `most`. */
size_t xml_count(const struct xml_part *part, const char *name, size_t most);

/* Adds the text that the node is, if it is text. */
void xml_add_text(const struct xml_part *part, struct text *out);

/* Notes which of several worksheets was read; complains of one that is not there. `names` are
 * those of the file, `read` the index of the one read, or `count` for none. */
MUST_CHECK bool workbook_note_choice(const struct workbook *book,
    const char *const *names, size_t count, size_t read, struct fault *fault);

MUST_CHECK bool xlsx_scan(struct workbook *book, struct fault *fault);
MUST_CHECK bool ods_scan(struct workbook *book, struct fault *fault);

#define SCOPED_XML __attribute__((cleanup(xml_close))) struct xml_part

/* A list whose columns have fixed names, in any order: a row of these, and a row a thing. */

struct named_list {
	const struct list_source *source; /* borrowed, as the next */
	struct csv_names names;
	const char
	    *nothing; /* "no booking is in it": what is said of a list without rows */
	/* takes a row that is no wider than the header, complaining of what is wrong with it */
	void (*take)(void *reader, const struct csv_cells *cells);
	void *reader;
	struct complaints complaints;
	const size_t *columns; /* of each cell, an index in the names; in the arena */
	size_t column_count;
	bool has_header;
	bool usable; /* nothing is wrong with the header; else no row is taken */
	size_t rows;
};

/* Reads it, from a zeroed one with the first five filled in. All that is wrong is told in the one
 * fault; remarks are added to the source's notes. */
MUST_CHECK bool named_list_read(struct named_list *list, struct fault *fault);

/* Reads a cell that must be a day, neither coarser nor worded. */
MUST_CHECK bool named_list_day(
    const struct named_list *list, const char *word, day_t *out, struct fault *fault);

#endif
