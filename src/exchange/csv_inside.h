/* Inside the exchange: what all readers and writers of CSV share. Files cut into cells,
 * words and days in cells, complaints and remarks, headers with fixed names. Not for
 * other rooms. */
#ifndef BECKET_EXCHANGE_CSV_INSIDE_H
#define BECKET_EXCHANGE_CSV_INSIDE_H

#include "base/fault.h"
#include "base/memory.h"
#include "base/text.h"
#include "dates/day.h"
#include "dates/stamp.h"
#include "exchange/csv_doubts.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* A CSV file cut into rows of cells by libcsv, with the line each cell starts in. */

struct csv_cell {
	const char *text; /* in the scan's arena, zero-terminated */
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

/* Calls `taker.row` for each row that is no empty line; it returns false to end the scan,
 * and scanning then fails with its fault. A file that is not well-formed sets `stop_out`
 * after the rows before the bad one were handed out, and is no failure. The text is
 * UTF-8 without a byte order mark. A first line `sep=;` names the separator, as some
 * spreadsheets write it, and is no row. The cells' text lives in `arena`; where that is
 * NULL, until `taker.row` returns. FAULT_FILE. */
struct csv_taker {
	bool (*row)(const struct csv_cells *cells, void *context, struct fault *fault);
	void *context;
};

struct csv_source;
MUST_CHECK bool csv_scan(const struct csv_source *text, struct arena *arena,
    struct csv_taker taker, struct csv_stop *stop_out, struct fault *fault);

/* Remarks on a file that is taken, each told once. */

/* Starts as `{ .arena = arena }`; free with csv_notes_clear. */
struct csv_notes {
	struct arena *arena; /* borrowed */
	struct text text;    /* a line each */
	const char **told;   /* owned: what was said already */
	size_t count;
	size_t capacity;
};

void csv_notes_clear(struct csv_notes *notes);

/* Adds "line 7: ..." unless the same was said of a line before. */
void csv_note_once(struct csv_notes *notes, size_t line, const char *format, ...)
    FORMAT_LIKE(3, 4);

/* What is wrong with a file, gathered so that every bad row is told at once. */

struct complaint {
	size_t line;
	size_t order;     /* its number, to keep their order within a line */
	const char *text; /* in the arena */
	const char *like; /* in the arena: the same for what is wrong in the same way */
	bool asked;       /* an answer to a doubt, or a mended cell, cures it */
};

/* Starts as `{ .arena = arena, .all = ... }`; free with complaints_clear. */
struct complaints {
	struct arena *arena; /* borrowed */
	struct text *all;    /* borrowed: where every one is told; NULL for nowhere */
	struct csv_doubts
	    *doubts;     /* borrowed: where what can be cleared up is told; or NULL */
	size_t doubted;  /* how many of them are so */
	bool asked_next; /* the next one is */
	struct complaint *items;
	size_t count;
	size_t capacity;
};

void complaints_clear(struct complaints *complaints);

/* Adds one: the line it is about, the cell as csv_cell_name has it ("" for the whole row),
 * and what is wrong. */
void complain(struct complaints *complaints, size_t line, const char *cell,
    const char *format, ...) FORMAT_LIKE(4, 5);

/* Says that the complaint about to be added goes with a doubt that was told already. */
void complain_answered(struct complaints *complaints);

/* Says that the complaint about to be added is of what a person can clear up: see csv_doubt. */
void complain_doubt(struct complaints *complaints, enum csv_doubt_about about,
    const char *theirs, size_t line, const char *example);

/* Says that the complaint just added is of a cell that can be mended alone. */
void complain_mendable(struct complaints *complaints);

/* True when there are none. Otherwise tells the doubts of the rest that no answer cures,
 * and sets the fault: one as `name: line 7, column made: ...`, several as a heading and a
 * line each in the order of the file, at most 20 and no more than a fault has room for,
 * then how many more there are. What is wrong with several cells of a column in the same
 * way is told of the first, with how many more there are. */
MUST_CHECK bool complaints_none(
    struct complaints *complaints, const char *name, struct fault *fault);

#define SCOPED_COMPLAINTS __attribute__((cleanup(complaints_clear))) struct complaints

/* The header of a list whose columns have fixed names. */

/* The columns a list may have, those that must be there first; at most CSV_NAMES_MOST. */
struct csv_names {
	const char *const *items;
	size_t count;
	size_t needed;
	/* other names of each, as csv_fold_header leaves them, with blanks between; NULL for
	 * none */
	const char *const *synonyms;
};

enum { CSV_NAMES_MOST = 16 };

/* The column of each cell of a header, an index in `names`, in the complaints' arena. A cell that
 * names none, a column that is there twice or is missing are complained of; what is returned is
 * then of no use. Letter case, blanks around and, of synonyms, accents
 * do not matter. */
const size_t *csv_names_read(const struct csv_cells *header,
    const struct csv_names *names, struct complaints *complaints);

/* Words in cells that say something without being a date or a number. */

/* True when a text is among the words of a list with blanks between, in any case of letters. */
bool csv_has_word(const char *list, const char *text);

/* True for "n/a", "unknown", "?" and the like, in any case of letters and in the languages whose
 * headers are known. */
bool csv_says_not_known(const char *text);

/* True for words that begin as a sum at a list's end does, "Total" or "Summe:", in the languages
 * whose headers are known, or end as a heading in it, "Flares:". */
bool csv_says_no_gear(const char *text);

/* The number, from 1, in a cell that says how many: "4", "4.0" as a spreadsheet may write it, "4
 * pcs", "x4", "four", "a pair"; 0 for anything else. In the languages whose headers are known. */
long csv_count(const char *text);

/* stamp_parse for a list; a fault about a date that could be either way round names the option that
 * says which way it is. */
MUST_CHECK bool csv_stamp(
    const char *text, enum date_order order, struct stamp *out, struct fault *fault);

/* True for a date that could be either way round. */
bool csv_either_way(const char *text);

/* How many things words with a multiplier, or with a number in brackets, seem to speak of:
 * "Hand flares x4", "2 x PLB", "Flares (6)"; 0 for words with neither. */
size_t csv_how_many(const char *text);

/* Adds the words without what csv_how_many reads in them: "Flares" for "Flares (6)"; as they are
 * where they say no number. */
void csv_without_how_many(const char *text, struct text *out);

#endif
