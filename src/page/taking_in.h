/* Inside the page room: the pages "Bring a list" and "It came back". */
#ifndef BECKET_PAGE_TAKING_IN_H
#define BECKET_PAGE_TAKING_IN_H

#include "desk/acts.h"
#include "desk/import_answers.h"
#include "page/shell.h"

/* ---- the page "Bring a list" ---- */

struct list_page {
	struct visit *visit;
	struct import_request request;
	struct import_answers answers; /* to be kept for the next list */
	struct csv_doubts doubts;      /* what is not clear and can be answered */
	struct import_outcome out;     /* its words are owned, as the next */
	struct text words;             /* the same words */
	struct desk trial;             /* the book as it would be; owned */
	bool read;                     /* it was read without a fault */
	const char *wrong;             /* why it could not be read; NULL when it was */
};

/* Copies the answers in the form into the request. */
MUST_CHECK bool list_options(struct list_page *page, struct fault *fault);

/* The boat of rows that name none: as typed, else the only one in the book; "" for
 * none. */
const char *list_vessel(const struct list_page *page);

/* Gives a desk the questions that were answered with yes. */
void list_answered(const struct list_page *page, struct desk *desk);

/* Reads the list, which was sent before, into a copy of the book. */
MUST_CHECK bool list_try(struct list_page *page, struct fault *fault);

void list_clear(struct list_page *page);

/* The part that is shown of a list too long for one page. */
struct list_part {
	const char *field; /* the field that sends where the part begins */
	size_t at_once;
	size_t from; /* the first that is shown, counted from 0 */
	size_t to;   /* the first after it that is not shown */
	size_t count;
};

/* The part of `count` things that the field asks for. */
struct list_part list_part_of(
    const struct list_page *page, const char *field, size_t at_once, size_t count);

/* Says which of them are shown, with buttons that lead to the others; nothing when all
 * are. `what` is their plural: "pieces". */
void list_write_part(
    const struct list_page *page, const struct list_part *part, const char *what);

/* True when the page has a field of that name in its cells or columns. */
bool list_asks_cell(const struct list_page *page, const char *name);

/* The cells to be corrected, each shown in its row; nothing when there are none. */
void list_write_cells(struct list_page *page);

/* How each column is read, and what else it may mean. */
void list_write_columns(struct list_page *page);

/* How words for kinds are read, and what else they may mean; nothing where there are
 * none. */
void list_write_words(struct list_page *page);

/* What the list would become: dates of new gear, remarks on how the list was read, and
 * what writing it would change. */
void list_write_dates(struct list_page *page);
void list_write_remarks(struct list_page *page);
void list_write_changes(struct list_page *page);

/* Adds all kinds as options, and the option that it is no gear. */
void list_kind_options(struct list_page *page);

/* Adds what was said of the list without a command's marks and options; it names the
 * buttons and fields of the page instead. */
void list_words(const char *words, struct text *out);

/* The page's name for one of our columns: "how many" for quantity. */
const char *list_column_words(const char *column);

/* Writes the page: the choice of a file, or how the list sent before was read. */
void list_write(struct list_page *page);

/* ---- the page "It came back" ---- */

/* One piece that is ashore, and what is said of it. */
struct back_piece {
	size_t item; /* index in the inventory of visit->desk */
	bool said;   /* what became of it was said */
	bool stays;  /* it stays at the station */
	struct homecoming home;
	const char *then; /* what follows from that; NULL when not worked out */
};

/* What is wrong with a field, by its name. */
struct field_fault {
	const char *name;
	const char *words;
};

struct back_page {
	struct visit *visit;
	const char *station;
	struct back_piece *pieces;
	size_t count;
	day_t on;
	day_t done;
	struct field_fault *items; /* of what is wrong */
	size_t wrong_count;
	size_t wrong_room;
	const char *problem; /* what is wrong with it as a whole; NULL for nothing */
	/* what saving changes, a line each; NULL when not worked out */
	const char *changes;
	size_t back; /* so many come back aboard, go for good and stay */
	size_t gone;
	size_t stay;
};

/* The item of a piece. */
const struct item *back_item(
    const struct back_page *page, const struct back_piece *piece);

/* The name of a piece's field, "n.LJ-1", in the visit's arena. */
const char *piece_field(
    const struct back_page *page, const char *prefix, const char *tag);

/* True for a part of a piece that went ashore with that piece and for which a new one was
 * asked. */
bool is_new_part(
    const struct back_page *page, const struct back_piece *piece, size_t part);

/* What is wrong with a field; NULL for nothing. */
const char *field_wrong(const struct back_page *page, const char *name);

/* Reads what was typed into the pieces; what is wrong is noted field by field. */
void back_read(struct back_page *page);

/* Finds on a copy of the book what saving would change. A fault in what was typed becomes
 * the page's problem. */
MUST_CHECK bool back_reckon(struct back_page *page, struct fault *fault);

/* Brings the bag back, on a desk of the caller's. */
MUST_CHECK bool back_return(
    const struct back_page *page, struct desk *desk, struct fault *fault);

/* Writes the whole page. */
void back_write(struct back_page *page);

#endif
