/* Inside the book: loading all rows, numbers for those that are added, rows given as one
 * list, and items that are added. Not for other rooms. */
#ifndef BECKET_BOOK_ROWS_H
#define BECKET_BOOK_ROWS_H

#include "book/call.h"
#include "book/contents.h"
#include "book/value.h"

#include <stddef.h>

/* Loading, in one pass: each table is read once, ordered by its owner's number, so that
 * an owner's rows are a slice of one flat array. Only for files of this room. */

/* How many rows of each table will be read, in the order of LOAD_COUNTS; of what hangs on
 * items, from the records on, 1 where any item of the book has some, else 0. */
struct counts {
	size_t vessels, periods, winters, away, bookings, sheets;
	size_t stations, closures, kinds, shut, paces, makes, prices;
	size_t items, records, events, extensions, movements, intervals;
};

/* A row that belongs to something: its index in the owners, or none to be had. */
struct place_of_id {
	int64_t id;
	size_t index;
};

/* The tables that are loaded, as bits: which of them a transaction has touched. */
enum load_table {
	LOADS_NOTHING = 0,
	LOADS_VESSELS = 1 << 0, /* and all that tells of vessels */
	LOADS_STATIONS = 1 << 1,
	LOADS_ITEMS = 1 << 2,
	LOADS_RECORDS = 1 << 3,
	LOADS_EVENTS = 1 << 4,
	LOADS_EXTENSIONS = 1 << 5,
	LOADS_MOVEMENTS = 1 << 6,
	LOADS_INTERVALS = 1 << 7,
	LOADS_LISTS = LOADS_RECORDS | LOADS_EVENTS | LOADS_EXTENSIONS | LOADS_MOVEMENTS |
		      LOADS_INTERVALS, /* what hangs on items */
};

/* What is being loaded. All memory is the arena's. */
struct loading {
	struct book *book;
	struct arena *arena;
	const char *wanted; /* the vessels it is narrowed to, as a list; NULL for all */
	bool with_withdrawn;
	struct counts counts;
	struct vessel *vessels; /* by number until all slices are cut, then by name */
	size_t vessel_count;
	struct period *periods;   /* of all vessels, by vessel and day */
	struct station *stations; /* likewise */
	size_t station_count;
	struct item *items; /* as they come until all are there, then by vessel and tag */
	size_t item_count;
	const struct place_of_id *places; /* where they then are, by number */
	int64_t revision;
	bool parts_elsewhere; /* as contents have it */
	/* what is taken from contents loaded before, bits of enum load_table; and the
	 * vessels wanted, by number. NULL and 0 for nothing */
	const struct book_contents *before;
	unsigned taken;
	const int64_t *numbers;
	size_t number_count;
};

/* The numbers of an item and of that which it is part of, 0 for none. */
struct part_of {
	int64_t id;
	int64_t parent;
};

/* Finds a number in places sorted by it; NULL when it is not there. */
const struct place_of_id *place_find(
    const struct place_of_id *places, size_t count, int64_t id);

/* Finds the book's revision and how many rows there are. For a part of the book (NULL:
 * all) it first finds its vessels, loading->wanted. `*there_out` is false where one of
 * its vessels or tags is not in the book. */
MUST_CHECK bool load_counts(struct loading *loading, const struct book_part *part,
    bool *there_out, struct fault *fault);

/* Starts a statement that loads for all vessels; where the load is narrowed, the
 * statement after it in the list. Whether withdrawn items are wanted is given to those
 * that ask. Where there is no room for a row the call stays closed, and has no rows. */
MUST_CHECK bool load_open(struct loading *loading, enum statement statement, size_t room,
    struct call *call_out, struct fault *fault);

/* Moves a loading statement to its next row. False when there is no further one, when
 * there is no `room` for it, or on failure: `*done_out` is then false and the fault
 * set. */
bool load_next(struct call *call, bool room, bool *done_out, struct fault *fault);

/* Puts zeroed memory for `count` elements into the typed pointer at `out`; never NULL. */
void load_room(struct loading *loading, size_t count, size_t size, void *out);

/* Room for rows of which nobody has counted how many come. Starts as `{ 0 }`. */
struct load_slots {
	char *next;          /* in the arena */
	size_t left;         /* rows for which there is room behind it */
	const size_t *count; /* of the owner of the row before */
};

/* Zeroed room for the next row of an owner, all of whose rows come one after the other: they
 * stand in one array, of whose first row the typed pointer at `first_out` is kept the
 * address, and `*count` their number. `size` is that of a row; the same slots serve for all
 * owners. NULL with FAULT_BOOK where a row of another came between, as in a damaged index. */
MUST_CHECK void *load_slot(struct loading *loading, struct load_slots *slots, size_t size,
    void *first_out, size_t *count, struct fault *fault);

/* load_take finds what can be taken from the contents loaded before, once the vessels
 * wanted are known; load_vessels_taken takes the vessels. */
void load_take(struct loading *loading, const struct book_part *part);
void load_vessels_taken(struct loading *loading);

/* The items themselves; `vessels` are those loaded, and `parents` as load_items has them. */
void load_items_taken(
    struct loading *loading, const struct place_of_id *vessels, struct part_of *parents);

/* Takes the records and other lists of the items that were loaded before. */
void load_lists_taken(struct loading *loading);

/* A row that is loaded: the call that has its values behind the number of its owner, and where
 * they go, zeroed. It is counted among its owner's already. */
struct load_row {
	struct loading *loading;
	struct call *call;
	const void *owner;
	void *into;
};

/* A table whose rows hang on vessels, stations or items. */
struct load_list {
	enum statement statement;
	size_t size;           /* of a row, in memory */
	size_t first;          /* where an owner has its first row, */
	size_t count;          /* and how many they are */
	size_t room;           /* where `struct counts` has how many may come */
	enum load_table table; /* of items: what is not read where that is taken */
	bool whole;            /* its statement is the same whatever is wanted */
	void (*take)(const struct load_row *row);
};

#define LOAD_LIST(statement_, owner_, member_, number_, counts_, ...)                    \
	{                                                                                \
		.statement = (statement_),                                               \
		.size = sizeof *((struct owner_ *)0)->member_,                           \
		.first = offsetof(struct owner_, member_),                               \
		.count = offsetof(struct owner_, number_),                               \
		.room = offsetof(struct counts, counts_), __VA_ARGS__                    \
	}

/* Takes the first and last day that make up a row. */
void load_take_days(const struct load_row *row);

/* The owner of a number; NULL where it is not loaded. Vessels and stations are asked for in
 * the order of their numbers, and `*at` is where the last was. */
typedef void *load_owner(struct loading *loading, size_t *at, int64_t id);

/* Loads these tables one after the other; rows whose owner is not loaded are left out. Each
 * owner's rows are a slice of one array, and those of vessels and stations follow each other. */
MUST_CHECK bool load_lists(struct loading *loading, const struct load_list *lists,
    size_t count, load_owner *owner_of, struct fault *fault);

MUST_CHECK bool load_vessels(struct loading *loading, struct fault *fault);
MUST_CHECK bool load_stations(struct loading *loading, struct fault *fault);
MUST_CHECK bool load_items(struct loading *loading, struct fault *fault);

/* The numbers of added rows, in a transaction that writes: the program gives them, so
 * that they are the same on any database. Only for files of this room. */

/* The number of the next row of a table or entry of the journal, in a transaction that
 * writes; a number given out is not given again once that is kept, whatever becomes of
 * the row. `number_coming` only tells it, `number_next` gives it out, `number_give` to a call. */
MUST_CHECK bool number_coming(
    struct book *book, enum numbered of, int64_t *out, struct fault *fault);
MUST_CHECK bool number_next(
    struct book *book, enum numbered of, int64_t *out, struct fault *fault);
MUST_CHECK bool number_give(
    struct call *call, enum numbered of, int64_t *out, struct fault *fault);

/* numbers_read reads the next numbers, and with them the revision. numbers_give gives
 * them to the call that writes them; NULLs where they have not been read. */
MUST_CHECK bool numbers_read(
    struct book *book, int64_t *revision_out, struct fault *fault);
void numbers_give(struct call *call);

/* Sets each table's next number to follow the rows that it has; written when the
 * transaction is kept. `*off_out` is true where it did not follow them: an older program
 * or another one has numbered rows, or the disk is at fault. */
MUST_CHECK bool numbers_renew(struct book *book, bool *off_out, struct fault *fault);

/* Adds a row that is a number and a name. */
MUST_CHECK bool add_named(struct book *book, enum statement add, enum numbered of,
    const char *name, int64_t *id_out, struct fault *fault);

/* Many rows, or words, given to a statement as one parameter: a list in JSON (RFC 8259),
 * which the statement takes apart with json_each. So they need one execution, not one
 * each. Only for files of this room. */

/* A list is for few rows: SQLite reads it again for each value of each row. Rows beyond
 * this number are written by a statement that has their values as parameters. */
enum { ROWS_IN_LIST = 200 };

/* Rows in their order; a row's values are `value ->> 0`, `value ->> 1` of json_each.
 * Starts as `{ 0 }`. */
struct row_list {
	struct text json;
	int count; /* rows */
};

void row_list_clear(struct row_list *list);

#define SCOPED_ROW_LIST __attribute__((cleanup(row_list_clear))) struct row_list

/* Begins the next row; its values in the order of the columns. */
void row_list_row(struct row_list *list);
void row_list_text(struct row_list *list, const char *text);
void row_list_int(struct row_list *list, int64_t value);

/* Ends the list, which stays there while the statement runs, and gives it as a parameter. */
void give_list(struct call *call, struct row_list *list);

/* Runs a statement whose one parameter is the list, and empties it; does nothing where it
 * has no row. */
MUST_CHECK bool row_list_run(struct row_list *list, struct book *book,
    enum statement statement, struct fault *fault);

/* Adds a string of such a list, in its quotes. */
void text_add_json(struct text *out, const char *string);

/* A parameter that is a list of words, `value` of json_each. */
void give_words(struct call *call, const char *const *words, size_t count);

/* Starts a call of a statement that adds one row by its values ("INSERT ... VALUES (...)"),
 * for ROWS_MANY of them, given one behind the other. It stays prepared until this is called
 * for another: only one is open at a time. */
MUST_CHECK bool call_open_many(struct book *book, enum statement statement,
    struct call *call_out, struct fault *fault);

/* What each value of a date kept ends with (`dates` of the table reckoned): it is in no
 * word of this program, no id of a rule and no sheet's name, which is a file's. */
#define RECKONED_END "/"

/* Adding items, of a list some at a time. Only for files of this room. */

/* An index: of which item is not known. */
#define ITEM_UNKNOWN SIZE_MAX

/* An item that is not in the book; borrowed. */
struct new_item {
	const struct item_change *change;
	size_t index; /* in its list */
	int64_t id;
	int64_t vessel; /* their numbers; 0 for no whole */
	int64_t whole;
	int above; /* wholes it is in, one inside the other; WHOLES_MOST: it may be too many */
};

/* How many these may be; a longer chain of parts is taken for a loop. */
enum { WHOLES_MOST = 32 };

/* Items that wait to be added. Starts with `book`, `many` and `told`; to be cleared. */
struct items_waiting {
	struct book *book;
	bool many;       /* else each is added at once */
	unsigned told;   /* fields that any item of the list tells */
	size_t at_fault; /* after a failure the item's index, or ITEM_UNKNOWN */
	struct item_change nothing; /* what is not told: set with field_empty */
	struct text sql;            /* that adds ROWS_MANY; owned */
	uint64_t named;             /* its columns (struct collected); 0: not known yet */
	size_t count;
	struct new_item rows[ROWS_MANY];
};

void items_waiting_clear(struct items_waiting *waiting);

/* Gives an item its number and has it wait; when there are ROWS_MANY, all are added. What
 * is left of a list, which is all there is after an act on a few pieces, is added one by
 * one. A tag that none may have, a field that is needed and not told, and ill-formed UTF-8
 * are FAULT_INPUT. */
MUST_CHECK bool items_waiting_add(
    struct items_waiting *waiting, struct new_item *item, struct fault *fault);

/* Finds the whole of a part among those that wait; 0 for none. */
void items_waiting_find(const struct items_waiting *waiting, struct new_item *part);

/* Adds all that wait. */
MUST_CHECK bool items_waiting_end(struct items_waiting *waiting, struct fault *fault);

#endif
