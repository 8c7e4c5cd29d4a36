/* The inventory as CSV (RFC 4180, UTF-8, a header row), in and out, through libcsv.
 *
 * The columns are the rows of gear/fields.h, so that nothing that is known of gear is
 * lost between writing and reading; a blank `state` is aboard. Events (fired, inflated,
 * ...), extensions and movements are not in the CSV. */
#ifndef BECKET_EXCHANGE_INVENTORY_CSV_H
#define BECKET_EXCHANGE_INVENTORY_CSV_H

#include "base/memory.h"
#include "base/text.h"
#include "book/book.h"
#include "exchange/csv_doubts.h"
#include "exchange/csv_rows.h"
#include "rules/sheet.h"

/* A word of the file and the one of ours that it stands for: a header and a column or
 * "ignore" ("Where" for "place"), or words for a kind and the kind. */
struct csv_mapping {
	const char *theirs;
	const char *ours;
	/* answered about an earlier list: nothing is wrong where this one has no such
	 * header, and its use is noted */
	bool kept;
};

/* What words for a kind stand for where the rows that have them are no gear. */
#define CSV_NO_GEAR "no-gear"

/* What a person says of how a file is to be read. */
struct list_how {
	const char *character_set; /* of a text; NULL to tell it from the bytes */
	const char *worksheet;     /* of a spreadsheet file; NULL for the first shown */
};

/* What a number among the words for a thing means, where no column says how many. */
enum csv_quantities {
	QUANTITIES_ASKED, /* not told: such a row is refused */
	QUANTITIES_FROM_WORDS,
	QUANTITIES_ONE,
};

/* What parts the decimals of a list's prices, where "1.250" could be either. */
enum csv_decimals {
	DECIMALS_ASKED, /* not told: such a price is refused */
	DECIMALS_COMMA,
	DECIMALS_POINT,
};

/* What a next date means in a row that has no day on which the work was done: it belongs
 * to a record, and there is none. */
enum csv_next_alone {
	NEXT_ALONE_ASKED, /* not told: such a row is refused */
	NEXT_ALONE_NOTES, /* kept as words in the notes; it counts for nothing */
};

/* Lines of a file, the first and the last of them. */
struct csv_lines {
	size_t first;
	size_t last;
};

/* A cell as a person mended it, in place of what the file has there. */
struct csv_mended {
	size_t line; /* where its row starts */
	size_t cell; /* its index in the row */
	const char *text;
};

struct csv_options {
	struct list_how how;
	enum date_order order;
	enum csv_quantities quantities;
	enum csv_decimals decimals;
	enum csv_next_alone next_alone;
	bool two_digit_years; /* a date that ends in two digits ends in a year */
	const struct csv_mapping *mappings;
	size_t mapping_count;
	const struct csv_mapping *meanings;
	size_t meaning_count;
	/* rows that start in these are no gear ("Total"), and passed over; one in which
	 * no row starts is refused */
	const struct csv_lines *left_out;
	size_t left_out_count;
	const struct csv_mended *mended;
	size_t mended_count;
	/* for rows whose vessel is blank, or a file without that column; NULL when
	 * none was told */
	const char *vessel;
	const char *currency; /* of every price, an ISO 4217 code; not NULL */
	/* where all that is wrong is told, a line each, beside the fault that has room
	 * for some of it; NULL for nowhere. Borrowed by the rows too */
	struct text *complaints;
	/* where what a person can clear up is told beside the fault; NULL for nowhere */
	struct csv_doubts *doubts;
};

/* A file that was read: into memory, or, where it may be large, into a spool. */
struct csv_source {
	const char *name;          /* for messages */
	const char *bytes;         /* borrowed; NULL where the spool has them */
	const struct spool *spool; /* borrowed */
	size_t begin;              /* where in the spool */
	size_t length;
};

/* Reads a file's bytes: CSV in any character set, .xlsx or .ods. Every bad row is
 * reported in the one fault, a line each, with line and column (at most 20, then how many
 * more): `boats.csv: line 7, column made: ...`. Rows above the column names are passed
 * over, with a note. A zero byte, a missing or doubled header, unknown headers that are
 * neither synonyms nor mapped, a row with fewer or more cells than the header, an
 * ambiguous date, a kind that can't be told, a next date without the day it was served:
 * refused. The same tag twice is refused too, unless the later row brings another record
 * and contradicts nothing. Rows and columns that are all blank are passed over. A row
 * that seems a sum or a heading, by its words or since nothing but the kind stands in it,
 * not even a quantity where that has a column, is refused unless it is left out or its
 * words are told. A header "paid" is the price of a new one beside the day it was bought,
 * or where no day of a task is, unless another column is that price. Several columns of
 * notes are joined in their order. What is told lives in `arena`. A header "item",
 * "equipment" or "gear" is the description where another header can only mean the kind;
 * "name" is the kind where none does and no tag is there. The kind is told from its
 * column's words or else, with a note, from the description's; in a file without
 * descriptions, the words for the kind of an item without a tag are kept as its
 * description. A date or price that says "n/a", "unknown", "?" or the like is not known,
 * with a note. Separator: the comma, or semicolon or tab when the header has more of
 * those. A plain date in a column headed "use by" or "use before" is so worded. */
MUST_CHECK bool csv_read_inventory(const struct csv_source *source,
    const struct kinds *kinds, const struct csv_options *options, struct arena *arena,
    struct csv_rows *out, struct fault *fault);

/* Gives every row without a tag the tag of the item in the book with the same vessel,
 * kind and serial (serial not blank; else, with no serial, the same description, place
 * and dates, as far as the file has those columns), or a fresh one: the kind's letters
 * and the next free number ("LR-1"). Refuses, with line and column as above, what only
 * the book can tell: a tag that is new without a vessel or a kind, a part of what is
 * neither in the book nor in the file, a part of itself, the same serial in two rows
 * without tags. `name` is the file's name for messages; `inventory` the whole book,
 * withdrawn items too, so that no tag comes twice, or what of it the rows have to do with. */
MUST_CHECK bool csv_find_tags(const char *name, struct csv_rows *rows,
    const struct inventory *inventory, struct arena *arena, struct fault *fault);

/* Tags that are not in the book, as csv_find_tags makes them, `count` in a row; in
 * `arena`. */
MUST_CHECK bool tags_fresh(const char *kind, const struct inventory *inventory,
    size_t count, struct arena *arena, const char ***tags_out);

/* Room for the letters of fresh tags. */
enum { LETTERS_SIZE = 8 };

/* Of many tags the last ones that fresh tags of some kinds follow: with the letters of each and the
 * greatest number. Starts as `{ 0 }`; free with last_tags_clear. */
struct last_tags {
	struct last_tag {
		char letters[LETTERS_SIZE];
		long number;     /* -1 while there is none */
		struct text tag; /* owned */
	} * items;               /* owned; one for all kinds with the same letters */

	size_t count;
	size_t capacity;
};

void last_tags_clear(struct last_tags *last);

/* Asks for that of a kind, then shows each of the tags. */
void last_tags_want(struct last_tags *last, const char *kind);
void last_tags_see(struct last_tags *last, const char *tag);

/* What a person has said beforehand of serial numbers that are asked about. */
struct serial_answers {
	bool right; /* --serials-are-right: alike, and two all the same */
	bool again; /* --again: condemned, and entered all the same */
};

/* Refuses rows, which have their tags, whose serial number is new or another than in the
 * book and is asked about (see life/serials.h), unless that was answered beforehand: a
 * complaint a row, with line and column as above. */
MUST_CHECK bool csv_check_serials(const char *name, const struct csv_rows *rows,
    const struct inventory *inventory, struct serial_answers answers, struct arena *arena,
    struct fault *fault);

/* What an import would do to the book, for a dry run and for the summary after it. */
struct csv_effect {
	size_t added;   /* items that are not in the book */
	size_t changed; /* items with a column that differs */
	size_t same;    /* items without one; they may have new records */
	size_t records; /* new records */
	size_t emptied; /* what the book has and a blank cell of the file empties */
	size_t unnamed; /* gear, not withdrawn, of the file's boats that is not in it */
};

/* Compares rows that have their tags with the book and writes a line per row that adds or
 * changes something: "line 7: FL-2 changed: expires 2026-06 -> 2027-06", "line 8: LJ-3
 * added: lifejacket-auto "Crew 3" aboard Quillfish, made Apr 2021"; last, the tags of
 * gear that the file does not name, which stays as it is. `currency` is that of the
 * list. */
MUST_CHECK bool csv_compare(const struct csv_rows *rows,
    const struct inventory *inventory, const char *currency,
    struct csv_effect *effect_out, struct spool *lines_out, struct fault *fault);

/* Writes the column names; and items as rows that csv_read_inventory reads back to the
 * same book: one row an item with its last record, and a further row with the same tag
 * for each earlier record. Lines end in CR LF. Text is written as it is;
 * `for_spreadsheet`, with a quote mark before what a spreadsheet would run, which
 * csv_read_inventory takes away again. */
void csv_write_names(bool for_spreadsheet, struct text *out);
void csv_write_items(const struct inventory *inventory, const size_t *items, size_t count,
    bool for_spreadsheet, struct text *out);

/* Our name of the column that a header means in any of its spellings; NULL for none. */
const char *csv_column_meant(const char *header);

/* Our column names, in the order they are written. */
extern const char *const CSV_COLUMNS[];
extern const size_t CSV_COLUMN_COUNT;

/* The rulebooks rows are compared with: of each vessel of the inventory, by its index
 * there, and of a boat that is new. Borrowed. */
struct csv_rulebooks {
	const struct rulebook *const *of;
	const struct rulebook *fresh;
};

/* Refuses days of a service that no column names, of gear of which nothing in its boat's
 * sheets asks a service, nor takes one for what it asks: they would be kept and count for
 * nothing. After csv_find_tags; `name` and `inventory` as there. */
MUST_CHECK bool csv_check_services(const char *name, const struct csv_rows *rows,
    const struct inventory *inventory, const struct csv_rulebooks *rulebooks,
    struct arena *arena, struct fault *fault);

#endif
