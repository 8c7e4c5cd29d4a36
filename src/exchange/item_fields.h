/* The columns of an item as one table of values, to compare, to show and to write. Inside
 * the exchange room only. */
#ifndef BECKET_EXCHANGE_ITEM_FIELDS_H
#define BECKET_EXCHANGE_ITEM_FIELDS_H

#include "base/text.h"
#include "book/book.h"

enum { FIELD_COUNT = FIELD_STANDS_FOR + 1 };

/* An item as a change that would write all of it. Borrows from the inventory. */
struct item_change item_as_change(const struct inventory *inventory, size_t item);

/* A change that would write nothing, with every value blank. */
struct item_change blank_change(void);

/* The field that is a string, a stamp, a day or a whole number; NULL when it is another. */
const char **change_string(struct item_change *change, enum item_field field);
struct stamp *change_stamp(struct item_change *change, enum item_field field);
day_t *change_day(struct item_change *change, enum item_field field);
int *change_number(struct item_change *change, enum item_field field);

/* Adds a field's value as its CSV cell has it, not yet quoted; nothing when empty. */
void change_add_field(const struct item_change *change, enum item_field field,
    const char *currency, struct text *out);

bool change_same_field(
    const struct item_change *a, const struct item_change *b, enum item_field field);

/* True when both records are one to the book: task, day, next date and certificate. */
bool record_same(const struct record *a, const struct record *b);

#endif
