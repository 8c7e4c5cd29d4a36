#include "gear/item.h"

#include "gear/paper.h"

#include <string.h>

bool
record_follows(const struct record *record, const struct event *event)
{
	day_t done = stamp_first(record->on);
	if (done != event->on) {
		return done > event->on;
	}
	return record->on.precision == STAMP_DAY && event->entered > 0 &&
	       record->entered > event->entered;
}

bool
record_same(const struct record *a, const struct record *b)
{
	static const enum record_field SAME[] = {
	    RECORD_SERVED, RECORD_TASK, RECORD_NEXT, RECORD_CERTIFICATE};

	for (size_t i = 0; i < sizeof SAME / sizeof SAME[0]; i++) {
		if (!field_same(&RECORD_FIELDS[SAME[i]], a, b)) {
			return false;
		}
	}
	return true;
}

bool
record_is_new_thing(const struct record *record)
{
	return record->task == TASK_RENEW && !record->refit;
}

_Static_assert(FIELD_COUNT <= 32, "a change says in 32 bits what it sets");

struct item_change
blank_change(void)
{
	struct item_change change = {0};
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		field_empty(&ITEM_FIELDS[i], &change);
	}
	change.tag = NULL;
	return change;
}

struct item_change
item_as_change(const struct inventory *inventory, size_t index)
{
	const struct item *item = &inventory->items[index];
	return (struct item_change){
	    .set = (1U << (FIELD_COUNT - 1) << 1) - 1,
	    .tag = item->tag,
	    .vessel = inventory->vessels[item->vessel].name,
	    .part_of =
		item->parent == ITEM_NO_PARENT ? "" : inventory->items[item->parent].tag,
	    .values = item->values,
	};
}

day_t
item_born(const struct item *item)
{
	day_t made = stamp_first(item->made);
	return made == DAY_NONE ? stamp_first(item->packed) : made;
}

const struct interval *
item_interval(const struct item *item, enum task task)
{
	for (size_t i = item->interval_count; i > 0; i--) {
		if (item->intervals[i - 1].task == task) {
			return &item->intervals[i - 1];
		}
	}
	return NULL;
}

int
item_age(const struct item *item, day_t on)
{
	day_t born = item_born(item);
	return born == DAY_NONE ? AGE_NOT_KNOWN : day_years_between(born, on);
}

/* The first item of a vessel from `vessel` on. */
static size_t
first_from(const struct inventory *inventory, size_t vessel)
{
	size_t low = 0;
	size_t high = inventory->item_count;
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (inventory->items[middle].vessel < vessel) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	return low;
}

size_t
inventory_aboard(const struct inventory *inventory, size_t vessel, size_t *count_out)
{
	size_t first = first_from(inventory, vessel);
	*count_out = first_from(inventory, vessel + 1) - first;
	return first;
}

size_t
inventory_tagged(const struct inventory *inventory, const char *tag)
{
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (strcmp(inventory->items[i].tag, tag) == 0) {
			return i;
		}
	}
	return ITEM_NO_PARENT;
}

const struct paper_type PAPER_TYPES[] = {
    {"image/jpeg", "JPEG picture", "jpg jpeg jpe "},
    {"image/png", "PNG picture", "png "},
    {"image/webp", "WebP picture", "webp "},
    {"image/heic", "HEIC picture", "heic heif "},
    {"image/heif", "HEIF picture", "heif heic "},
    {"application/pdf", "PDF", "pdf "},
    {"image/tiff", "TIFF picture", "tif tiff "},
    {"text/plain", "plain text", "txt text "},
    {NULL, NULL, NULL},
};

const struct paper_type *
paper_type_find(const char *media_type)
{
	for (const struct paper_type *type = PAPER_TYPES; type->media_type != NULL;
	     type++) {
		if (strcmp(type->media_type, media_type) == 0) {
			return type;
		}
	}
	return NULL;
}
