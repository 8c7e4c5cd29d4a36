/* The lines of one entry of the journal, as they are written. Only for files of this room. */
#ifndef BECKET_BOOK_JOURNAL_LINES_H
#define BECKET_BOOK_JOURNAL_LINES_H

#include "book/call.h"

/* So many lines are added by one statement: SQLite makes itself ready to undo each statement that sets
 * off a trigger. What is left over, which is all there is of an act on a few pieces, goes as one list. */
enum { LINES_AT_ONCE = 16 };

/* Starts as `{ .book = book, .number = number of the entry }`; clear with entry_lines_clear. What is
 * added waits until there are enough, or entry_lines_end writes it. */
struct entry_lines {
	struct book *book;
	int64_t number;
	int64_t position; /* of the next line that is written */
	size_t count;     /* lines that wait */
	struct journal_line waiting[LINES_AT_ONCE];
	struct arena words; /* theirs */
};

/* Adds a line to the entry; its words are copied. Ill-formed UTF-8 is FAULT_INPUT, told when the line is
 * written. */
MUST_CHECK bool entry_lines_add(
    struct entry_lines *lines, const struct journal_line *line, struct fault *fault);

/* Writes what still waits. */
MUST_CHECK bool entry_lines_end(struct entry_lines *lines, struct fault *fault);

void entry_lines_clear(struct entry_lines *lines);

#endif
