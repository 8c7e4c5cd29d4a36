/* What a person answered about a list, kept in the book for the next one: which column a
 * header is, and what kind words are. In the book, so that it goes with it into backups
 * and to another machine; and not journalled, so that taking an import back leaves what
 * was learned from it. How dates and prices are written is not kept: another list may be
 * of another hand. */
#ifndef BECKET_DESK_IMPORT_ANSWERS_H
#define BECKET_DESK_IMPORT_ANSWERS_H

#include "desk/desk.h"
#include "exchange/inventory_csv.h"

/* Starts as `{ 0 }`; in an arena. */
struct import_answers {
	struct import_answer *items;
	size_t count;
	size_t capacity;
};

/* Adds the book's answers after those given, which go before them: a header or word that
 * was told is not looked up. One of a kind that the catalogue has no more is left out.
 * Nothing where there is no book. */
MUST_CHECK bool import_answers_use(
    struct desk *desk, struct csv_options *options, struct fault *fault);

/* Writes answers in the transaction that is open, or, `keep`, in one of its own. Each
 * takes the place of an earlier one about the same header or words. */
MUST_CHECK bool import_answers_write(
    struct desk *desk, const struct import_answers *answers, struct fault *fault);
MUST_CHECK bool import_answers_keep(
    struct desk *desk, const struct import_answers *answers, struct fault *fault);

#endif
