/* Our columns, the spellings of headers that stand for them (csv_columns.c), and which cell of a
 * row is which column (csv_layout.c). Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_CSV_COLUMNS_H
#define BECKET_EXCHANGE_CSV_COLUMNS_H

#include "exchange/csv_complaints.h"
#include "exchange/csv_scan.h"
#include "exchange/inventory_csv.h"

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

/* The column a mapping names: exactly one of ours, or "ignore". */
bool csv_column_of_mapping(const char *word, enum csv_column *out);

/* Which cell of a row is which column. Lives in an arena. */
struct csv_layout {
	size_t count;                 /* cells in the header */
	const enum csv_column *items; /* the column of each cell */
	const char *const *headers;   /* each cell's header as the file has it */
	bool present[COLUMN_COUNT];
	bool disarmed; /* written for a spreadsheet: DISARMING heads an empty column */
	bool usable;   /* rows can say which item they are about; else none is read */
	/* How a plain date in the column expires is worded: a column headed "use by" holds
	 * limits that end earlier than they look. */
	enum stamp_wording expires_wording;
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

#endif
