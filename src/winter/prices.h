/* One price policy for the winter, the trips and the years. Pure.
 *
 * What a station asks for work is what its list says for the age the thing has by
 * then; where its list says nothing, what was paid there last for the same task on the
 * same thing. Where that is not known either, the highest price known for the same
 * work counts, whoever asks it or was paid it: a station is never chosen because its
 * price is not known. Where no price is known at that age, the dearest of any age
 * counts. Where none is known anywhere at any age, the work adds nothing to a sum, so
 * that no thing is bought new because of that.
 *
 * What a new one costs is the item's own price, wherever it is bought. Where it has none
 * the years buy it no sooner than it must be renewed, unless that was asked for; a part
 * is renewed at a visit of what it is in. */
#ifndef BECKET_WINTER_PRICES_H
#define BECKET_WINTER_PRICES_H

#include "gear/item.h"
#include "gear/station.h"

/* The station an item went to last; "" when none is on record. */
const char *last_station(const struct item *item);

/* A price for work. */
struct asked_price {
	int64_t minor;  /* for all pieces; -1 when not known */
	int from_years; /* the age from which it holds; 0 from new, or not by age */
};

/* What a station asks for a task on an item at an age in whole years (AGE_NOT_KNOWN:
 * the dearest of any age), by its list, else as it was paid there last. */
struct asked_price price_asked(
    const struct station *station, const struct item *item, enum task task, int age);

/* The highest price known for a task on an item at an age: of what every station of
 * the book asks, and of what was paid last at each station that is not in it. Where no
 * price is known for that age, the dearest of any age; -1 when there is none. */
int64_t price_highest(const struct station *stations, size_t count,
    const struct item *item, enum task task, int age);

#endif
