/* Many rows, or words, given to a statement as one parameter: a list as JSON has it (RFC 8259), which
 * the statement takes apart with json_each. What would be an execution each is one. Only for files of
 * this room. */
#ifndef BECKET_BOOK_ROW_LIST_H
#define BECKET_BOOK_ROW_LIST_H

#include "base/text.h"
#include "book/call.h"

/* A list is for few rows: SQLite reads it once more for each value of each row. Of more than these the
 * others are written by a statement that has its values as parameters. */
enum { ROWS_IN_LIST = 200 };

/* Rows in their order; a row's values are `value ->> 0`, `value ->> 1` of json_each. Starts as
 * `{ 0 }`. */
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

/* Runs a statement whose one parameter is the list, and empties it; does nothing where it has no
 * row. */
MUST_CHECK bool row_list_run(struct row_list *list, struct book *book,
    enum statement statement, struct fault *fault);

/* A parameter that is a list of words, `value` of json_each. */
void give_words(struct call *call, const char *const *words, size_t count);

#endif
