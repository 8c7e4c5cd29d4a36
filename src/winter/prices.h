/* One price policy for the winter, the trips and the years. Pure.
 *
 * What a station asks for work is what its list says for the age the thing has by
 * then; where its list says nothing, what was paid there last for the same task on the
 * same thing. Where that is not known either, the highest price known for the same
 * work counts, whoever asks it or was paid it: a station is never chosen because its
 * price is not known. Where no price is known at that age, the dearest of any age
 * counts. Where none is known anywhere at any age, the work adds nothing to a sum: no
 * station that has a price for it is passed over because of that. A missing price of
 * work is no reason to buy a thing new, and where a new one has no price, it is never
 * bought before it must be: that price belongs to the thing, wherever it is bought. */
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
