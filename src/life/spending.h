/* What gear has cost: work on record, and what was bought. Pure. */
#ifndef BECKET_LIFE_SPENDING_H
#define BECKET_LIFE_SPENDING_H

#include "base/memory.h"
#include "gear/item.h"

/* A sum under a heading. */
struct spent {
	const char *name;     /* a kind's id, a station's name ("" for none); borrowed */
	int year;             /* for sums by year; 0 otherwise */
	int64_t work_minor;   /* records, and movements with a price of their own */
	int64_t bought_minor; /* things bought, at the price of a new one */
	size_t priced;        /* how many of them had a price */
};

struct spent_list {
	struct spent *items; /* in the arena */
	size_t count;
};

struct spending {
	int year;                   /* the year asked about; 0 for all */
	struct spent_list kinds;    /* the dearest first */
	struct spent_list stations; /* likewise; work alone */
	struct spent_list years;    /* by year; only when every year was asked about */
	struct spent total;
	size_t unpriced; /* records of those days that have no price */
};

/* Sums up everything of a year, or of every year when `year` is 0: the records of each item,
 * those from before a renewal too, by the first day they may be of; movements that cost
 * something; and items whose day of purchase is known, at their price times their quantity. A
 * renewal's record has its own price, so what it brought is not counted twice. */
void spending_sum(const struct inventory *inventory, int year, struct arena *arena,
    struct spending *out);

#endif
