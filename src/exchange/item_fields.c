#include "exchange/item_fields.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

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
	};
}

const char **
change_string(struct item_change *change, enum item_field field)
{
	switch (field) {
	case FIELD_VESSEL:
		return &change->vessel;
	case FIELD_KIND:
		return &change->kind;
	case FIELD_DESCRIPTION:
		return &change->description;
	case FIELD_SERIAL:
		return &change->serial;
	case FIELD_PLACE:
		return &change->place;
	case FIELD_PART_OF:
		return &change->part_of;
	case FIELD_NOTES:
		return &change->notes;
	case FIELD_QUANTITY:
	case FIELD_MADE:
	case FIELD_PACKED:
	case FIELD_BOUGHT:
	case FIELD_FITTED:
	case FIELD_EXPIRES:
	case FIELD_PRICE:
	case FIELD_STATE:
		return NULL;
	}
	return NULL;
}

struct stamp *
change_stamp(struct item_change *change, enum item_field field)
{
	switch (field) {
	case FIELD_MADE:
		return &change->made;
	case FIELD_PACKED:
		return &change->packed;
	case FIELD_BOUGHT:
		return &change->bought;
	case FIELD_FITTED:
		return &change->fitted;
	case FIELD_EXPIRES:
		return &change->expires;
	case FIELD_VESSEL:
	case FIELD_KIND:
	case FIELD_DESCRIPTION:
	case FIELD_SERIAL:
	case FIELD_QUANTITY:
	case FIELD_PLACE:
	case FIELD_PART_OF:
	case FIELD_PRICE:
	case FIELD_NOTES:
	case FIELD_STATE:
		return NULL;
	}
	return NULL;
}

void
price_add(int64_t minor, struct text *out)
{
	if (minor >= 0) {
		text_add_format(out, "%" PRId64 ".%02d", minor / 100, (int)(minor % 100));
	}
}

void
change_add_field(
    const struct item_change *change, enum item_field field, struct text *out)
{
	struct item_change copy = *change;
	const char **string = change_string(&copy, field);
	const struct stamp *stamp = change_stamp(&copy, field);
	if (string != NULL) {
		text_add(out, *string == NULL ? "" : *string);
	} else if (stamp != NULL) {
		char buffer[STAMP_TEXT_SIZE];
		text_add(out, stamp_text(*stamp, buffer));
	} else if (field == FIELD_QUANTITY) {
		text_add_format(out, "%d", change->quantity);
	} else if (field == FIELD_PRICE) {
		price_add(change->price_minor, out);
	} else {
		text_add(out, place_word(change->state));
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
	if (field == FIELD_QUANTITY) {
		return a->quantity == b->quantity;
	}
	return field == FIELD_PRICE ? a->price_minor == b->price_minor
				    : a->state == b->state;
}

bool
record_same(const struct record *a, const struct record *b)
{
	return a->task == b->task && stamp_same(a->on, b->on) &&
	       stamp_same(a->next, b->next) &&
	       same_string(a->certificate, b->certificate);
}

static int
by_tag(const void *a, const void *b)
{
	const struct tag_entry *x = a;
	const struct tag_entry *y = b;
	return strcmp(x->tag, y->tag);
}

bool
tag_index_make(
    const struct inventory *inventory, struct tag_index *out, struct fault *fault)
{
	struct tag_entry *items = calloc(inventory->item_count + 1, sizeof *items);
	if (items == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < inventory->item_count; i++) {
		items[i] = (struct tag_entry){inventory->items[i].tag, i};
	}
	qsort(items, inventory->item_count, sizeof *items, by_tag);
	*out = (struct tag_index){items, inventory->item_count};
	return true;
}

void
tag_index_clear(struct tag_index *index)
{
	free(index->items);
	*index = (struct tag_index){0};
}

size_t
tag_index_find(const struct tag_index *index, const char *tag)
{
	struct tag_entry wanted = {.tag = tag};
	const struct tag_entry *found = index->count == 0
					    ? NULL
					    : bsearch(&wanted, index->items, index->count,
						  sizeof *index->items, by_tag);
	return found == NULL ? ITEM_NO_PARENT : found->item;
}
