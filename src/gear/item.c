#include "gear/item.h"

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
