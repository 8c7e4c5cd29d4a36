/* Running the statements: binding, stepping, reading, and transactions that undo themselves.
 * Only for files of this room. */
#ifndef BECKET_BOOK_CALL_H
#define BECKET_BOOK_CALL_H

#include "book/book.h"
#include "book/database.h"
#include "book/journal.h"
#include "book/statements.h"
#include "book/tables.h"
#include "gear/item.h"

/* What a transaction changes of the tables that the journal tells of (journal_inside.h).
 * Starts as `{ 0 }`. */
struct collected {
	bool listens;   /* else nothing is collected */
	bool large;     /* many rows will be added: they are in runs from the first on */
	uint64_t named; /* columns, as bits, of what is added now; 0: perhaps all */
	size_t apart;   /* rows that are in no run, of all tables */
	struct collected_table *first, *last; /* in the arena */
	struct arena arena;
};

/* What has numbers: a table's rows, and the journal's entries, which have no gap. */
#define NUMBERED_ID(id, ...) NUMBERED_##id,

enum numbered {
	BOOK_TABLES(NUMBERED_ID, FIELD_NOTHING, NUMBERED_ID, FIELD_NOTHING) NUMBERED_ENTRY
};

/* An item as it was found last in the open transaction; its tag is "" for none. */
struct item_found {
	int64_t id;
	char tag[4 * 60 + 1];
};

struct book {
	struct database *database;                    /* owned */
	struct prepared *statements[STATEMENT_COUNT]; /* owned; prepared at first use */
	struct prepared *kept_one; /* that of call_open_kept, owned; NULL for none */
	struct text kept_text;     /* its */
	struct prepared *many; /* that of call_open_many (rows.h), owned; NULL for none */
	enum statement many_of;
	bool begun;   /* between book_begin and its end */
	bool spoilt;  /* a part of the open transaction failed: it is not committed */
	bool strange; /* it wrote to a table that is not as tables.h has it: likewise */
	bool fresh;   /* made when it was opened */
	bool aside; /* a file beside the book: what is written there is no change of it */
	bool alone; /* read with the file locked; nothing is written */
	bool may_write; /* it was opened to look at, and can be written as it is */
	int64_t total;  /* rows changed on this connection before that */
	size_t
	    entering;   /* entries of the journal that the open transaction has written */
	size_t entries; /* those that were committed */
	bool watched;   /* a transaction that is journalled is open */
	struct collected told; /* of what it changes that which the journal tells of */
	/* the table of the row written last, mostly that of the next; NULL for none yet */
	const struct table_shape *heard;
	struct item_found found;
	unsigned touched; /* what is loaded of the tables it has changed (rows.h) */
	int64_t
	    as_of; /* the revision as of which it was begun; -1 for none in particular */
	const struct call *reading; /* of which rows are being read; NULL for none */
	bool numbered; /* the next numbers have been read in the open transaction */
	int64_t numbers[NUMBERED_ENTRY + 1]; /* they */
	uint64_t
	    sum; /* what the open transaction adds to the book's sum, so far as it is known */
	struct signature signature; /* its strings are in `signing` */
	struct arena signing;
	char identity[33];
	char currency[4]; /* ISO 4217 code, read with the identity */
	struct text
	    older; /* where it is kept as it was before a migration; "" not migrated */
};

/* The words by which fixed values are stored: not those shown, which may change. */
struct codes {
	const char *const *words;
	int count;
};

extern const struct codes TASK_CODES, STATE_CODES, USE_CODES, EVENT_CODES, PLACE_CODES,
    SCOPE_CODES, BECAUSE_CODES, MOVE_CODES, RESULT_CODES, COUNTS_FROM_CODES,
    GIVEN_BY_CODES;

/* What is wrong with the values of a call; told when it runs. */
enum call_trouble {
	CALL_FINE,
	CALL_BAD_UTF8,  /* given text is no UTF-8 */
	CALL_BAD_VALUE, /* the book has a value that no book may have */
};

/* One use of a statement. Values are given in the order of the parameters and taken in the
 * order of the columns. Trouble is kept until the next run or row. */
struct call {
	struct book *book;
	struct prepared *prepared; /* the book's, or `own`; NULL: it is closed */
	bool own;                  /* made for this call alone, and owned */
	bool running;              /* between its first step and its end */
	enum rows_changed rows;    /* how many it changes */
	const char *text;
	int listed; /* rows of the list it is given, for ROWS_LISTED and _AT_MOST */
	int given;
	int taken;
	struct arena copies; /* of given text that is not borrowed */
	enum call_trouble trouble;
	int bad_column; /* of CALL_BAD_VALUE: the first of the value's columns */
};

/* Starts a call. While the rows of another call are being read, none can be started: what
 * is asked for each row waits until all rows are there (call_rows), or the book would
 * have to hold a place in both. */
MUST_CHECK bool call_open(struct book *book, enum statement statement,
    struct call *call_out, struct fault *fault);

/* The same for a statement that is not in statements.h because it names what only the
 * schema knows: nothing in its text comes from outside. The text is borrowed until the
 * close. */
MUST_CHECK bool call_open_text(
    struct book *book, const char *sql, struct call *call_out, struct fault *fault);

/* The same for one that is run again and again: it stays prepared until this is called
 * with another text. */
MUST_CHECK bool call_open_kept(
    struct book *book, const char *sql, struct call *call_out, struct fault *fault);

/* Adds the name of a table or column to such a text, in quotes. */
void add_quoted(struct text *sql, const char *name);

void call_close(struct call *call);

#define SCOPED_CALL __attribute__((cleanup(call_close))) struct call

/* The next parameter. Text is borrowed until the next run or the close; NULL gives SQL's NULL. */
void give_text(struct call *call, const char *text);
void give_copy(struct call *call, const char *text); /* not borrowed */
void give_int(struct call *call, int64_t value);
void give_null(struct call *call);
void give_bytes(struct call *call, const void *bytes, size_t length);
void give_day(struct call *call, day_t day);
void give_code(struct call *call, const struct codes *codes, unsigned value);

/* Several as one parameter: the words of all whose bit 1 << value is set, with blanks
 * between. */
void give_codes(struct call *call, const struct codes *codes, unsigned set);

/* Three parameters: day, wording, estimated; three NULLs for NULL. */
void give_stamp(struct call *call, const struct stamp *stamp);

/* The parameters of a field of gear: three for a stamp, else one; NULLs where `of`, the struct it
 * is in, is NULL. And its columns, taken into `out`; text is copied to the arena. */
void give_field(struct call *call, const struct field *field, const void *of);
void take_field(
    struct call *call, struct arena *arena, const struct field *field, void *out);

/* False for ill-formed UTF-8; FAULT_INPUT for a number below the least allowed. */
bool field_is_utf8(const struct field *field, const void *of);
MUST_CHECK bool field_check(
    const struct field *field, const void *of, struct fault *fault);

/* Runs to the end; then values can be given anew. FAULT_BOOK where another number of rows
 * was changed than the statement says: the caller then rolls back. */
MUST_CHECK bool call_run(struct call *call, struct fault *fault);

/* Steps to the next row; *row_out is false when there is none. */
MUST_CHECK bool call_row(struct call *call, bool *row_out, struct fault *fault);

/* Takes the columns of the row at hand into one zeroed element of an array. */
typedef void row_taker(struct call *call, struct arena *arena, void *out);

/* Steps through the rows that are left. `*items_out`, a typed pointer, becomes an array in the
 * arena with an element of `size` bytes a row; NULL when there is none. */
MUST_CHECK bool call_rows(struct call *call, struct arena *arena, row_taker *take,
    size_t size, void *items_out, size_t *count_out, struct fault *fault);

/* The next column of the row, as it is held; borrowed until the next row. */
struct value take_value(struct call *call);

/* The next column of the row; 0 and "" for SQL's NULL. Text is copied to the arena. */
int64_t take_int(struct call *call);
const char *take_text(struct call *call, struct arena *arena);
void take_bytes(struct call *call, struct text *out); /* added to it */
day_t take_day(struct call *call);
struct stamp take_stamp(struct call *call);   /* three columns */
struct yearly take_yearly(struct call *call); /* two columns */
int take_code(struct call *call, const struct codes *codes);
/* The value of a word that is not ended by a zero byte; -1 for none. */
int code_of(const struct codes *codes, const char *word, size_t length);
unsigned take_codes(struct call *call, const struct codes *codes);

/* True, and passes it, when the next column is NULL. */
bool take_null(struct call *call);

/* Runs a statement without parameters. */
MUST_CHECK bool call_plain(
    struct book *book, enum statement statement, struct fault *fault);

/* Runs a statement with one text parameter that gives at most one row with one number; 0 in
 * *id_out when it gives none. */
MUST_CHECK bool call_id(struct book *book, enum statement statement, const char *text,
    int64_t *id_out, struct fault *fault);

/* Runs a statement without parameters that gives one row with one number; 0 where it gives none. */
MUST_CHECK bool call_number(
    struct book *book, enum statement statement, int64_t *out, struct fault *fault);

/* Runs to the end, and tells how many rows were changed, by a statement that may change
 * none. */
MUST_CHECK bool call_run_changed(
    struct call *call, int64_t *changed_out, struct fault *fault);

/* A day as the book stores it, yyyymmdd, 0 for none; a day of the year, mmdd. */
int64_t stored_day(day_t day);
/* The day that is stored so; false where that is none. */
bool day_of_stored(int64_t stored, day_t *out);
int64_t stored_stamp(struct stamp stamp);
int64_t stored_month_day(int month, int day);

/* The stamp that a book stores as a day, a wording and whether it is an estimate; false when
 * there is no such stamp. */
MUST_CHECK bool stamp_of_stored(
    int64_t day, int64_t wording, bool estimated, struct stamp *out);

/* A change that is undone when it goes out of scope without having been kept: a transaction, or a
 * part of the one that is open. With a part the whole is undone: it can't be committed any more. */
struct writing {
	struct book *book; /* NULL once kept */
	bool whole;        /* a transaction of its own */
};

MUST_CHECK bool writing_begin(
    struct book *book, struct writing *writing_out, struct fault *fault);
MUST_CHECK bool writing_keep(struct writing *writing, struct fault *fault);
void writing_undo(struct writing *writing);

#define SCOPED_WRITING __attribute__((cleanup(writing_undo))) struct writing

/* Checks a name that others refer to: there, not blank, UTF-8, no control characters. */
MUST_CHECK bool name_check(const char *what, const char *name, struct fault *fault);

/* The same of a name that is new to the book, which besides has nothing hidden in it and no more
 * than so many characters: what an older book has stays usable. */
enum { TAG_LONGEST = 60, NAME_LONGEST = 120 };

MUST_CHECK bool name_check_new(
    const char *what, const char *name, size_t most, struct fault *fault);

/* Adds words to a list: owner, position, word. */
MUST_CHECK bool put_words(struct book *book, enum statement add, int64_t owner,
    const char *const *words, size_t count, struct fault *fault);

/* Runs a statement whose one parameter is the owner of the rows that it deletes. */
MUST_CHECK bool drop_of(
    struct book *book, enum statement drop, int64_t owner, struct fault *fault);

/* Finds a vessel, or makes one with the defaults of a new vessel. */
MUST_CHECK bool vessel_need(
    struct book *book, const char *name, int64_t *id_out, struct fault *fault);

/* Finds an item; one that is not there is FAULT_INPUT. */
MUST_CHECK bool item_need(
    struct book *book, const char *tag, int64_t *id_out, struct fault *fault);

/* Finds a record by what makes it one: task, day, certificate and next date. 0 in *id_out
 * when there is none. */
MUST_CHECK bool record_find(struct book *book, int64_t item, const struct record *record,
    int64_t *id_out, struct fault *fault);

/* The journal watches what a transaction changes, writes its entry before the end of it, and
 * forgets what it saw when there is nothing to write. `undoes` is the entry that the
 * transaction takes back, 0 for none. */
void journal_watch(struct book *book);
MUST_CHECK bool journal_write(struct book *book, int64_t undoes, struct fault *fault);
void journal_forget(struct book *book);

/* Adds a movement to an item by its number, with the serial number it has at the time. */
MUST_CHECK bool movement_write(struct book *book, int64_t item,
    const struct movement *movement, struct fault *fault);

/* Makes the rows of an older book whole: a column that a migration added is not in the rows that
 * were there, and what the journal would see of it is NULL and not its default. */
MUST_CHECK bool journal_prepare(struct book *book, struct fault *fault);

/* Writes an entry under the book's signature that changes nothing: in a transaction of its own,
 * or as part of the one that is open. */
MUST_CHECK bool journal_note(struct book *book, struct fault *fault);
MUST_CHECK bool journal_note_too(struct book *book, struct fault *fault);

/* Opens a book's file, of this program or an older one, as it is: it is not brought up to date,
 * and its identity is not read. `*damaged_out` says of a failure that SQLite can't make sense
 * of the file, or that it is empty. */
MUST_CHECK bool file_open(const char *path, enum book_mode mode, struct book **book_out,
    bool *damaged_out, struct fault *fault);

/* Reads the identity from the file. */
MUST_CHECK bool identity_read(struct book *book, struct fault *fault);

#endif
