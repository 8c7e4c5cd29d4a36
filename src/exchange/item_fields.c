#include "exchange/item_fields.h"

#include "exchange/csv_quote.h"
#include "gear/money.h"

#include <inttypes.h>
#include <string.h>

struct item_change
blank_change(void)
{
	return (struct item_change){
	    .vessel = "",
	    .kind = "",
	    .description = "",
	    .serial = "",
	    .place = "",
	    .notes = "",
	    .part_of = "",
	    .make = "",
	    .rating = "",
	    .landed_to = "",
	    .stands_for = "",
	    .landed_on = DAY_NONE,
	    .hired_until = DAY_NONE,
	    .quantity = 1,
	    .price_minor = -1,
	};
}

struct item_change
item_as_change(const struct inventory *inventory, size_t index)
{
	const struct item *item = &inventory->items[index];
	return (struct item_change){
	    .set = (1U << FIELD_COUNT) - 1,
	    .tag = item->tag,
	    .vessel = inventory->vessels[item->vessel].name,
	    .kind = item->kind,
	    .description = item->description,
	    .serial = item->serial,
	    .place = item->place,
	    .notes = item->notes,
	    .part_of =
		item->parent == ITEM_NO_PARENT ? "" : inventory->items[item->parent].tag,
	    .quantity = item->quantity,
	    .price_minor = item->price_minor,
	    .made = item->made,
	    .packed = item->packed,
	    .bought = item->bought,
	    .fitted = item->fitted,
	    .expires = item->expires,
	    .state = item->state,
	    .make = item->make,
	    .capacity = item->capacity,
	    .rating = item->rating,
	    .landed_to = item->landed_to,
	    .landed_on = item->landed_on,
	    .hired_until = item->hired_until,
	    .because = item->because,
	    .stands_for = item->stands_for,
	};
}

const char **
change_string(struct item_change *change, enum item_field field)
{
	const char **const strings[FIELD_COUNT] = {
	    [FIELD_VESSEL] = &change->vessel,
	    [FIELD_KIND] = &change->kind,
	    [FIELD_DESCRIPTION] = &change->description,
	    [FIELD_SERIAL] = &change->serial,
	    [FIELD_PLACE] = &change->place,
	    [FIELD_PART_OF] = &change->part_of,
	    [FIELD_NOTES] = &change->notes,
	    [FIELD_MAKE] = &change->make,
	    [FIELD_RATING] = &change->rating,
	    [FIELD_LANDED_TO] = &change->landed_to,
	    [FIELD_STANDS_FOR] = &change->stands_for,
	};
	return strings[field];
}

struct stamp *
change_stamp(struct item_change *change, enum item_field field)
{
	struct stamp *const stamps[FIELD_COUNT] = {
	    [FIELD_MADE] = &change->made,
	    [FIELD_PACKED] = &change->packed,
	    [FIELD_BOUGHT] = &change->bought,
	    [FIELD_FITTED] = &change->fitted,
	    [FIELD_EXPIRES] = &change->expires,
	};
	return stamps[field];
}

day_t *
change_day(struct item_change *change, enum item_field field)
{
	day_t *const days[FIELD_COUNT] = {
	    [FIELD_LANDED_ON] = &change->landed_on,
	    [FIELD_HIRED_UNTIL] = &change->hired_until,
	};
	return days[field];
}

int *
change_number(struct item_change *change, enum item_field field)
{
	int *const numbers[FIELD_COUNT] = {
	    [FIELD_QUANTITY] = &change->quantity,
	    [FIELD_CAPACITY] = &change->capacity,
	};
	return numbers[field];
}

/* A day as a CSV cell has it; nothing for none. */
static void
day_add(day_t day, struct text *out)
{
	char buffer[DAY_ISO_SIZE];
	if (day != DAY_NONE) {
		text_add(out, day_iso(day, buffer));
	}
}

void
change_add_field(const struct item_change *change, enum item_field field,
    const char *currency, struct text *out)
{
	struct item_change copy = *change;
	const char **string = change_string(&copy, field);
	const struct stamp *stamp = change_stamp(&copy, field);
	const day_t *day = change_day(&copy, field);
	const int *number = change_number(&copy, field);
	if (string != NULL) {
		text_add(out, *string == NULL ? "" : *string);
	} else if (stamp != NULL) {
		char buffer[STAMP_TEXT_SIZE];
		text_add(out, stamp_text(*stamp, buffer));
	} else if (day != NULL) {
		day_add(*day, out);
	} else if (number != NULL && *number > 0) {
		text_add_format(out, "%d", *number);
	} else if (field == FIELD_PRICE) {
		money_add(change->price_minor, currency, out);
	} else if (field == FIELD_STATE) {
		text_add(out, place_word(change->state));
	} else if (field == FIELD_BECAUSE) {
		text_add(out, because_word(change->because));
	}
}

static bool
same_string(const char *a, const char *b)
{
	return strcmp(a == NULL ? "" : a, b == NULL ? "" : b) == 0;
}

bool
change_same_field(
    const struct item_change *a, const struct item_change *b, enum item_field field)
{
	struct item_change x = *a;
	struct item_change y = *b;
	const char **string = change_string(&x, field);
	const struct stamp *stamp = change_stamp(&x, field);
	if (string != NULL) {
		return same_string(*string, *change_string(&y, field));
	}
	if (stamp != NULL) {
		return stamp_same(*stamp, *change_stamp(&y, field));
	}
	const day_t *day = change_day(&x, field);
	const int *number = change_number(&x, field);
	if (day != NULL) {
		return *day == *change_day(&y, field);
	}
	if (number != NULL) {
		return *number == *change_number(&y, field);
	}
	if (field == FIELD_PRICE) {
		return a->price_minor == b->price_minor;
	}
	return field == FIELD_BECAUSE ? a->because == b->because : a->state == b->state;
}

bool
record_same(const struct record *a, const struct record *b)
{
	return a->task == b->task && stamp_same(a->on, b->on) &&
	       stamp_same(a->next, b->next) &&
	       same_string(a->certificate, b->certificate);
}
