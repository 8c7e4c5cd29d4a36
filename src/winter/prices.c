/* What is asked for work, and what counts where that is not known. */
#include "winter/prices.h"

#include "base/numbers.h"

#include <string.h>

const char *
last_station(const struct item *item)
{
	const char *name = "";
	for (size_t i = item->record_count; i > 0 && name[0] == '\0'; i--) {
		name = item->records[i - 1].station;
	}
	return name;
}

/* What was paid for a task there last; -1 when that is not on record. */
static int64_t
paid_at(const char *station, const struct item *item, enum task task)
{
	for (size_t i = item->record_count; i > 0; i--) {
		const struct record *record = &item->records[i - 1];
		if (record->task == task && record->price_minor >= 0 &&
		    strcmp(record->station, station) == 0) {
			return record->price_minor;
		}
	}
	return -1;
}

struct asked_price
price_asked(
    const struct station *station, const struct item *item, enum task task, int age)
{
	const struct station_price *listed =
	    station_price(station, item->kind, task, age);
	if (listed == NULL) {
		return (struct asked_price){paid_at(station->name, item, task), 0};
	}
	return (struct asked_price){listed->minor * item->quantity, listed->from_years};
}

/* True when what the station asks for it at that age is listed. */
static bool
is_listed(const struct station *station, const struct item *item, enum task task, int age)
{
	return station != NULL && station_price(station, item->kind, task, age) != NULL;
}

/* The highest price at an age; -1 when none is known for it. Stations that list no
 * prices, as most of a fleet's do, are passed over: what was paid there stands in the
 * records. */
static int64_t
highest_at(const struct station *stations, size_t count, const struct item *item,
    enum task task, int age)
{
	int64_t highest = -1;
	for (size_t i = 0; i < count; i++) {
		int64_t minor = is_listed(&stations[i], item, task, age)
				    ? price_asked(&stations[i], item, task, age).minor
				    : -1;
		highest = GREATER(minor, highest);
	}
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		bool paid = record->task == task && record->price_minor >= 0;
		int64_t minor =
		    paid && !is_listed(station_named(stations, count, record->station),
				item, task, age)
			? paid_at(record->station, item, task)
			: -1;
		highest = GREATER(minor, highest);
	}
	return highest;
}

int64_t
price_highest(const struct station *stations, size_t count, const struct item *item,
    enum task task, int age)
{
	int64_t highest = highest_at(stations, count, item, task, age);
	return highest < 0 ? highest_at(stations, count, item, task, AGE_NOT_KNOWN)
			   : highest;
}
