/* Rows that are written many at a time. A statement builds the lists that a table checks its words
 * by each time it runs, which costs ten times what the row does: so the first few rows of a batch are
 * added one by one, and those after them wait in a table of the connection's own and are added
 * together. Only for files of this room. */
#ifndef BECKET_BOOK_BATCH_H
#define BECKET_BOOK_BATCH_H

#include "book/call.h"

/* The statements of one table. `add` and `stage` have the same parameters. */
struct batch_kind {
	enum statement add;   /* adds one row */
	enum statement table; /* makes the table to wait in, where there is none yet */
	enum statement stage; /* puts one row there */
	enum statement
	    move; /* adds all that wait, in the order in which they were put there */
	enum statement clear; /* empties it */
};

#define BATCH_KIND(name)                                                                 \
	{                                                                                \
		name##_ADD, name##_TABLE, name##_STAGE, name##_MOVE, name##_CLEAR        \
	}

/* Starts as `{ .book = book, .kind = kind }`; what is neither added nor moved is not written. */
struct batch {
	struct book *book;
	const struct batch_kind *kind;
	struct call call; /* the statement at hand */
	int added;        /* rows that were added one by one */
	int waiting;      /* rows that are to be moved */
	bool staging;
};

/* The call that the next row's values are given to; borrowed until batch_add. */
MUST_CHECK bool batch_row(
    struct batch *batch, struct call **call_out, struct fault *fault);

/* Adds the row that was given. */
MUST_CHECK bool batch_add(struct batch *batch, struct fault *fault);

/* Adds what still waits: after the last row, and before anything asks for the rows. */
MUST_CHECK bool batch_move(struct batch *batch, struct fault *fault);

void batch_close(struct batch *batch);

#define SCOPED_BATCH __attribute__((cleanup(batch_close))) struct batch

#endif
