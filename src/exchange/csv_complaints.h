/* What is wrong with a file, gathered so that every bad row is told at once. Inside the
 * exchange room only. */
#ifndef BECKET_EXCHANGE_CSV_COMPLAINTS_H
#define BECKET_EXCHANGE_CSV_COMPLAINTS_H

#include "base/memory.h"
#include "exchange/csv_doubts.h"

struct complaint {
	size_t line;
	size_t order;     /* the how-manieth it was, to keep their order within a line */
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

/* True when there are none. Otherwise tells the doubts of the rest that no answer cures, and sets the fault: one as `name: line 7, column made:
 * ...`, several as a heading and a line each in the order of the file, at most 20 and no
 * more than a fault has room for, then how many more there are. What is wrong with several
 * cells of a column in the same way is told of the first, with how many more there are. */
MUST_CHECK bool complaints_none(
    struct complaints *complaints, const char *name, struct fault *fault);

#define SCOPED_COMPLAINTS __attribute__((cleanup(complaints_clear))) struct complaints

#endif
