/* Inside the book: adding items. Not for other rooms. */
#ifndef BECKET_BOOK_PUT_INSIDE_H
#define BECKET_BOOK_PUT_INSIDE_H

#include "base/text.h"
#include "book/rows.h"

/* A list has so many items added by one statement: SQLite opens the table's indexes anew for each that adds any. What is
 * left of it, which is all there is after an act on a few pieces, is added one by one. */
enum { ITEMS_AT_ONCE = 16 };

/* An index: some of several. */
#define NO_ITEM SIZE_MAX

/* An item that is not in the book; borrowed. */
struct new_item {
	const struct item_change *change;
	size_t index; /* in its list */
	int64_t id;
	int64_t vessel; /* their numbers; 0 for no whole */
	int64_t whole;
};

/* Items that wait to be added. Starts with `book`, `many` and `told`; clear with items_waiting_clear. */
struct items_waiting {
	struct book *book;
	bool many;     /* else each is added at once */
	unsigned told; /* fields that any item of the list tells */
	size_t
	    at_fault; /* after a failure the index of the item that it is about, or NO_ITEM */
	struct item_change
	    nothing;     /* what a field has that is not told: set with field_empty */
	struct text sql; /* that adds ITEMS_AT_ONCE; owned */
	size_t count;
	struct new_item rows[ITEMS_AT_ONCE];
};

void items_waiting_clear(struct items_waiting *waiting);

/* Gives an item its number and has it wait; when there are enough, all are added. A tag that none may have, a
 * field that is needed and not told, and ill-formed UTF-8 are FAULT_INPUT. */
MUST_CHECK bool items_waiting_add(
    struct items_waiting *waiting, struct new_item *item, struct fault *fault);

/* The number of the one that waits with this tag; 0 for none. */
int64_t items_waiting_find(const struct items_waiting *waiting, const char *tag);

/* Adds all that wait. */
MUST_CHECK bool items_waiting_end(struct items_waiting *waiting, struct fault *fault);

#endif
