/* Inside the exchange: rows of an inventory while they are being read, their columns,
 * what their words say of the kind, and tags for those without one. Not for other
 * rooms. */
#ifndef BECKET_EXCHANGE_CSV_READ_H
#define BECKET_EXCHANGE_CSV_READ_H

#include "base/memory.h"
#include "exchange/csv_inside.h"
#include "exchange/inventory_csv.h"
#include "gear/item.h"
#include "rules/kinds.h"

/* Our columns, the spellings of headers that stand for them (csv_columns.c), and which cell of a
 * row is which column (csv_layout.c). */

/* The columns in the order they are written: the places of the rows in gear/fields.h. */
#define COLUMN_ID(id, member, type, place, ...) COLUMN_##id = (place),

enum csv_column {
	INVENTORY_FIELDS(COLUMN_ID, COLUMN_ID, COLUMN_ID) COLUMN_COUNT =
	    FIELD_COUNT + (int)RECORD_FIELD_COUNT,
	COLUMN_IGNORED, /* a header that is mapped to "ignore" */
	COLUMN_UNNAMED, /* no header: its cells must be blank */
};

enum { NO_FIELD = -1 };

/* The row of a column's field. */
const struct field *csv_column_row(enum csv_column column);

/* The item field a column fills, an enum item_field; NO_FIELD for what belongs to the record. */
int csv_column_field(enum csv_column column);

/* Copies a header in small letters without accents, ASCII blanks and punctuation, cut to size. */
enum { CSV_FOLDED_SIZE = 64 };

void csv_fold_header(const char *header, char folded[CSV_FOLDED_SIZE]);

/* True when both are one header, so folded. */
bool csv_same_header(const char *a, const char *b);

/* The column a header means without being mapped; false when it means none. */
bool csv_column_of_header(const char *header, enum csv_column *out);

/* The column a mapping names, spelled as a header may be, or "ignore"; false when it names none. */
bool csv_column_of_mapping(const char *word, enum csv_column *out);

/* Which cell of a row is which column. Lives in an arena. */
struct csv_layout {
	size_t count;                 /* cells in the header */
	const enum csv_column *items; /* the column of each cell */
	const char *const *headers;   /* each cell's header as the file has it */
	bool present[COLUMN_COUNT];
	unsigned
	    fields; /* bit 1 << enum item_field for each column of an item that is there */
	bool disarmed; /* written for a spreadsheet: DISARMING heads an empty column */
	bool usable;   /* rows can say which item they are about; else none is read */
	/* How a plain date in a column of dates that end is worded: a column headed "use by" holds
	 * limits that end earlier than they look. */
	enum stamp_wording wordings[COLUMN_COUNT];
};

/* What to call a cell in a message: `column made`, or `column "Date made" (made)`. In the
 * arena. */
const char *csv_cell_name(
    const struct csv_layout *layout, size_t cell, struct arena *arena);

/* How many cells of a row are headers that mean a column, mapped or by their spelling. */
size_t csv_layout_known(const struct csv_cells *row, const struct csv_options *options);

/* Makes a layout from the header row. What is wrong with it (an unknown, doubled or
 * missing header, a mapping whose header is not there) goes to `complaints`. */
void csv_layout_make(const struct csv_cells *header, const struct csv_options *options,
    struct complaints *complaints, struct text *notes, struct csv_layout *out);

/* How the cells of a list are read. */
struct csv_cell_how {
	enum date_order order;
	enum csv_decimals decimals; /* of prices */
	bool two_digit_years;
	enum stamp_wording wording;    /* of a plain date in the cell's column */
	const char *currency;          /* of every price, an ISO 4217 code */
	struct arena *arena;           /* for the row's words */
	struct complaints *complaints; /* told of what a person can clear up */
	size_t line;
	struct date_hints *hints;
};

/* What a list's dates with slashes say of their order, where none was told. */
struct date_hints {
	const char
	    *day_first; /* the first that can only be so; NULL while there is none */
	const char *month_first;
	size_t either; /* how many could be both */
};

/* The text without blanks around it: the end of it where none follow, else a copy in the
 * arena. */
const char *csv_trimmed(struct arena *arena, const char *text);

/* Reads a cell that is not blank into its place in the row. */
MUST_CHECK bool csv_read_cell(const struct csv_cell_how *how, struct csv_row *row,
    enum csv_column column, const char *text, struct fault *fault);

/* A bit a column, shifted by its place. */
#define COLUMN_BIT ((uint64_t)1)

/* What a row is settled with. Borrowed. */
struct csv_settling {
	const struct kinds *kinds;
	const struct csv_options *options;
	const struct csv_layout *layout;
	struct complaints *complaints;
	struct csv_notes *notes;
	struct arena *words; /* for those of the row */
};

/* Settles a row whose cells are read, of which those of `columns`, bits of their places, are not
 * blank: its kind, how many, its record, the fields it writes, and whether it says whose and what
 * it is. What is wrong is complained of. False for a row that was said to be no gear. */
bool csv_settle_row(
    const struct csv_settling *settling, struct csv_row *row, uint64_t columns);

/* Settles rows that share a tag: the first is about the item, the others bring further
 * records. One that contradicts the first, or brings nothing new, is complained of.
 * FAULT_FILE. */
MUST_CHECK bool csv_settle_further(
    struct csv_rows *rows, struct complaints *complaints, struct fault *fault);

/* ---- What a row's words say of its kind ---- */

/* What a person said the words mean, in any case, or else what is left of them without how many
 * there are ("Flares" of "Flares (6)"); NULL where nobody did. */
const struct csv_mapping *csv_told_kind(
    const struct csv_options *options, const char *words);

/* Tells the kind from the words of the column kind ("" when blank) and, where they fit none
 * or more than one, from those of the description: a description may pick one of those that
 * fit, never another. What was guessed is noted. `id_out` lives as long as the catalogue. The
 * fault says why no kind can be told. */
MUST_CHECK bool csv_tell_kind(const struct kinds *kinds, const char *words,
    const char *description, struct csv_notes *notes, size_t line, const char **id_out,
    struct fault *fault);

/* Tags for items that have none: letters for the kind and the next number. */

/* The highest number used with some letters. */
struct series {
	char letters[LETTERS_SIZE];
	long last;
};

/* Starts as `{ 0 }`; free with numbers_clear. */
struct numbers {
	struct series *items; /* owned */
	size_t count;
	size_t capacity;
};

void numbers_clear(struct numbers *numbers);

/* Counts a tag of the shape "LR-12"; any other can't clash with a fresh one. */
MUST_CHECK bool numbers_count(struct numbers *numbers, const char *tag);

/* Counts every tag in the book. */
MUST_CHECK bool numbers_count_book(
    struct numbers *numbers, const struct inventory *inventory);

/* Makes the next tag for a kind, in `arena`, and counts it. */
MUST_CHECK bool numbers_next(
    struct numbers *numbers, const char *kind, struct arena *arena, const char **tag_out);

#define SCOPED_NUMBERS __attribute__((cleanup(numbers_clear))) struct numbers

/* ---- the reading of one list ---- */

/* An inventory as it is read, row by row. */
struct csv_reader {
	const struct kinds *kinds;
	const struct csv_options *options;
	struct complaints complaints;
	struct csv_layout layout;
	bool has_layout;
	struct csv_cells first;      /* while the header is looked for: the first row */
	size_t title_rows;           /* rows seen while it is */
	const struct csv_cells *row; /* the one that is being taken */
	bool *left_out_met;          /* of each range to leave out: a row starts in it */
	struct date_hints hints;
	struct csv_notes notes;
	struct arena words; /* of the row that is being taken */
	struct csv_row blank;
	struct csv_rows rows;
};

/* True for a cell with nothing in it but spaces. */
bool csv_is_blank(const struct csv_cell *cell);

/* Takes the next row while the column names are looked for. They stand in the first row that has
 * two of them or more, among those that a title may take up; where none has, in the first that is
 * most like it. Makes the reader's layout once it is found. */
void csv_look_for_header(struct csv_reader *reader, const struct csv_cells *cells);

/* Ends a list in which no row has column names that are known: the row most like it is
 * told what is wrong with it. */
void csv_end_search(struct csv_reader *reader);

/* Keeps what stands first under each column, for whoever is shown how it is read. */
void csv_note_first_cells(struct csv_reader *reader, const struct csv_cells *cells);

/* Tells what stands under the headers that are doubted, though no row can be read yet. */
void csv_show_doubted(struct csv_reader *reader, const struct csv_cells *cells);

#endif
