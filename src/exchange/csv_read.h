/* Rows while they are being read. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_CSV_READ_H
#define BECKET_EXCHANGE_CSV_READ_H

#include "exchange/csv_columns.h"
#include "exchange/csv_notes.h"

/* How the cells of a list are read. */
struct csv_cell_how {
	enum date_order order;
	enum csv_decimals decimals; /* of prices */
	bool two_digit_years;
	enum stamp_wording expires_wording; /* of a plain date in the column expires */
	const char *currency;               /* of every price, an ISO 4217 code */
	struct arena *arena;                /* for words that are kept */
	struct complaints *complaints;      /* told of what a person can clear up */
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

/* The text without blanks around it: the end of it where there are none behind, else a copy in
 * the arena. */
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
};

/* Settles a row whose cells are read, of which those of `columns`, bits of their places, are not
 * blank: its kind, how many, its record, the fields it writes, and whether it says whose and what
 * it is. What is wrong is complained of. False for a row that was said to be no gear. */
bool csv_settle_row(
    const struct csv_settling *settling, struct csv_row *row, uint64_t columns);

/* Settles rows that share a tag: the first is about the item, the others bring further
 * records. One that contradicts the first, or brings nothing new, is complained of. */
void csv_settle_further(
    struct csv_row *rows, size_t count, struct complaints *complaints);

#endif
