/* What is not clear in a list and a person can clear up: a header, words for a kind, how dates are
 * to be read. Each is told once for the whole list, so that it is asked about once. */
#ifndef BECKET_EXCHANGE_CSV_DOUBTS_H
#define BECKET_EXCHANGE_CSV_DOUBTS_H

#include "base/words.h"

#include <stdbool.h>

enum csv_doubt_about {
	DOUBT_HEADER, /* `theirs` means no column of ours, or one that another means, too */
	DOUBT_KIND,   /* `theirs` is no kind, or could be several */
	DOUBT_NO_GEAR,    /* the rows with `theirs` seem to be headings or sums */
	DOUBT_NO_KIND,    /* rows in which no kind stands, nor a tag; `theirs` is "" */
	DOUBT_QUANTITIES, /* `theirs` seems to say how many, and no column does */
	DOUBT_NEXT_ALONE, /* `theirs` is a next date without the day the work was done */
	DOUBT_ORDER,      /* `theirs` is a date whose day and month could be either */
	DOUBT_TWO_DIGITS, /* `theirs` is a date with a year of two digits */
	DOUBT_DECIMALS,   /* `theirs` is a price whose mark could be either */
	DOUBT_VESSEL,     /* whose gear it is; `theirs` is "" */
};

enum { DOUBT_EXAMPLES_MOST = 3 };

struct csv_doubt {
	enum csv_doubt_about about;
	const char *theirs;
	size_t line; /* where it stands first */
	size_t rows; /* how many there are of it, except for a header */
	const char
	    *examples[DOUBT_EXAMPLES_MOST]; /* of what stands under it or beside it */
	size_t example_count;
	const char *hint;       /* what makes one answer likely; "" for nothing */
	struct word_list lines; /* of the rows that may be left out; as text */
};

/* A cell that can't be read, in its row: it can be mended alone. */
struct csv_bad_cell {
	size_t line;              /* where its row starts */
	size_t cell;              /* its index in the row */
	const char *why;          /* what is wrong with it */
	const char *const *heads; /* of each cell of the row, as the list has them */
	const char *const *texts; /* what stands in each */
	size_t count;
};

struct csv_bad_cells {
	struct csv_bad_cell *items;
	size_t count;
	size_t capacity;
};

/* How a column of the list is read. */
struct csv_column_read {
	const char *head;  /* as the list has it; "" for none */
	const char *ours;  /* "ignore" for none of ours */
	const char *first; /* what stands in it first; "" for nothing */
};

struct csv_columns_read {
	struct csv_column_read *items; /* in their order */
	size_t count;
	size_t capacity;
};

/* How words for a kind are read, without how many there are. */
struct csv_words_read {
	const char *theirs;
	const char *ours; /* the kind's id; "" where each row's description tells */
	size_t rows;
};

/* So that a list without end, each of whose rows has other words, is read in a time that
 * does not grow with its square. */
enum { CSV_WORDS_MOST = 2000 };

struct csv_all_words_read {
	struct csv_words_read *items; /* as they come first; CSV_WORDS_MOST at most */
	size_t count;
	size_t capacity;
	size_t unlisted; /* rows whose words came when there were so many already */
};

/* Starts as `{ .arena = arena }`, where all that is in it lives. */
struct csv_doubts {
	struct arena *arena; /* borrowed */
	struct csv_doubt *items;
	size_t count;
	size_t capacity;
	struct csv_bad_cells cells;
	/* what is wrong beside these, that no answer cures, a line each: each way in
	 * which something is wrong once, with the lines it is in; "" for nothing, NULL
	 * where nothing was complained of */
	const char *rest;
	struct csv_columns_read columns;
	struct csv_all_words_read words; /* of rows whose words are no id themselves */
};

/* Adds one, or counts a further row of one that is there, with an example ("" for none).
 * `doubts` may be NULL, which takes nothing. */
void csv_doubt(struct csv_doubts *doubts, enum csv_doubt_about about, const char *theirs,
    size_t line, const char *example);

/* Notes how a row's words for its kind are read. `doubts` may be NULL, which takes nothing. */
void csv_words_are(struct csv_doubts *doubts, const char *theirs, const char *ours);

/* Says of one that is there what makes an answer likely. */
void csv_doubt_hint(struct csv_doubts *doubts, enum csv_doubt_about about,
    const char *theirs, const char *hint);

/* Adds an example to a header that is doubted, while there are few; nothing for others. */
void csv_doubt_example(
    struct csv_doubts *doubts, const char *header, const char *example);

#endif
