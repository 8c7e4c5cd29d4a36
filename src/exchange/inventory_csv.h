/* The inventory as CSV (RFC 4180, UTF-8, a header row), in and out, through libcsv. */
#ifndef BECKET_EXCHANGE_INVENTORY_CSV_H
#define BECKET_EXCHANGE_INVENTORY_CSV_H

#include "base/memory.h"
#include "base/text.h"
#include "book/book.h"
#include "rules/kinds.h"

/* A header in the file that stands for one of our columns: "Where" for "place". */
struct csv_mapping {
	const char *header;
	const char *column; /* one of ours, or "ignore" */
};

struct csv_options {
	enum date_order order;
	const struct csv_mapping *mappings;
	size_t mapping_count;
	const char
	    *vessel; /* for rows whose vessel is blank, or a file without that column;
			     * NULL when none was told */
};

/* One row: what is written about the item, and perhaps one record. */
struct csv_row {
	size_t line; /* where it starts in the file, the header being line 1 */
	struct item_change change;
	bool has_record;
	struct record record; /* from served, task, next, station, certificate */
	bool tag_made; /* the row had no tag; change.tag is NULL and `change_find_tag`
			       * or a fresh tag is to be used */
};

struct csv_rows {
	struct csv_row *items; /* in the arena */
	size_t count;
	struct text
	    notes; /* owned: remarks worth showing, a line each (a header ignored, a
			    * kind guessed) */
};

/* Reads a file's bytes. Every bad row is reported in the one fault, a line each, with line
 * and column (at most 20, then how many more). A byte order mark is passed over; invalid
 * UTF-8, a missing or doubled header, unknown headers that are neither synonyms nor mapped,
 * an ambiguous date, a kind that can't be told, the same tag twice: refused. Strings live in
 * `arena`. Separator: the comma, or semicolon or tab when the header has those instead. */
MUST_CHECK bool csv_read_inventory(const char *name, const char *bytes, size_t length,
    const struct kinds *kinds, const struct csv_options *options, struct arena *arena,
    struct csv_rows *out, struct fault *fault);
void csv_rows_clear(struct csv_rows *rows);

/* Gives every row without a tag the tag of the item in the book with the same vessel, kind
 * and serial (serial not blank; else, with no serial, the same description, place and dates),
 * or a fresh one: the kind's letters and the next free number ("LR-1"). */
MUST_CHECK bool csv_find_tags(struct csv_rows *rows, const struct inventory *inventory,
    struct arena *arena, struct fault *fault);

/* What an import would do to the book, for a dry run and for the summary after it. */
struct csv_effect {
	size_t added;
	size_t changed;
	size_t same;
	size_t records; /* new records */
};

/* Compares rows with the book and writes a line per row that adds or changes something:
 * "line 7: FL-2 changed: expires 2026-06 -> 2027-06". */
MUST_CHECK bool csv_compare(const struct csv_rows *rows,
    const struct inventory *inventory, struct csv_effect *effect_out,
    struct text *lines_out, struct fault *fault);

/* Writes every item as rows that csv_read_inventory reads back to the same book: one row an
 * item with its last record, and a further row with the same tag for each earlier record. */
MUST_CHECK bool csv_write_inventory(
    const struct inventory *inventory, struct text *out, struct fault *fault);

/* Our column names, in the order they are written. */
extern const char *const CSV_COLUMNS[];
extern const size_t CSV_COLUMN_COUNT;

/* A price in the currency's main unit as a spreadsheet has it ("249", "249.00", "1,250.50"
 * refused) to minor units. */
MUST_CHECK bool price_parse(const char *string, int64_t *minor_out, struct fault *fault);

#endif
