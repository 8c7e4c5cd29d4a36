/* What the files of the page "Bring a list" share. Only for them. */
#ifndef BECKET_PAGE_LIST_PAGE_H
#define BECKET_PAGE_LIST_PAGE_H

#include "desk/acts.h"
#include "desk/import_answers.h"
#include "page/shell.h"

struct list_page {
	struct visit *visit;
	struct import_request request;
	struct import_answers answers; /* to be kept for the next list */
	struct csv_doubts doubts;      /* what is not clear and can be answered */
	struct import_outcome out;     /* its words are owned */
	struct desk trial;             /* the book as it would be; owned */
	bool read;                     /* it could be read */
	const char *wrong;             /* why not; NULL where it could */
};

/* Takes what was answered from the form into the request. */
MUST_CHECK bool list_options(struct list_page *page, struct fault *fault);

/* The boat of rows that name none: as typed, else the only one in the book; "" for none. */
const char *list_vessel(const struct list_page *page);

/* Gives a desk the questions that were answered with yes. */
void list_answered(const struct list_page *page, struct desk *desk);

/* Reads the list that is held into a copy of the book. */
MUST_CHECK bool list_try(struct list_page *page, struct fault *fault);

void list_clear(struct list_page *page);

/* Of what is too much for one page so much is shown at a time. */
struct list_part {
	const char *field; /* in which it is sent from where on */
	size_t at_once;
	size_t from; /* the first that is shown, counted from 0 */
	size_t to;   /* the first that is not any more */
	size_t count;
};

/* The part of `count` things that is asked for in that field. */
struct list_part list_part_of(
    const struct list_page *page, const char *field, size_t at_once, size_t count);

/* Which of them are shown, and the buttons that lead to the others; nothing where all are. `what` is of
 * many: "pieces". */
void list_write_part(
    const struct list_page *page, const struct list_part *part, const char *what);

/* True when the page asks for a field of that name in its cells or columns. */
bool list_asks_cell(const struct list_page *page, const char *name);

/* The cells to be mended, each within its row; nothing where there is none. */
void list_write_cells(struct list_page *page);

/* How each column is read, and what else it may be. */
void list_write_columns(struct list_page *page);

/* How words for kinds are read, and what else they may mean; nothing where there are none. */
void list_write_words(struct list_page *page);

/* Adds the kinds there are as options, and that it is no gear. */
void list_kind_options(struct list_page *page);

/* Adds what was said of the list without the marks and the options of a command: in their place
 * stands what is pressed or typed on the page. */
void list_words(const char *words, struct text *out);

/* What a column of ours is called on the page: "how many" for quantity. */
const char *list_column_words(const char *column);

/* Writes the page: the file to be chosen, or what is read of the one that is held. */
void list_write(struct list_page *page);

#endif
