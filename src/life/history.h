/* Everything on record about one serial number, on whatever boat and under whatever tag. Pure.
 *
 * A tag outlives the thing that bears it: at a renewal another takes its place, and its number
 * goes with it. What lies before a renewal belongs to the number that the movement of that
 * renewal kept; what lies after the last one, to the number the item has now. */
#ifndef BECKET_LIFE_HISTORY_H
#define BECKET_LIFE_HISTORY_H

#include "base/memory.h"
#include "gear/item.h"

/* One thing that happened; one of the three is set. */
struct happening {
	day_t on;
	size_t item;
	const struct record *record;
	const struct event *event;
	const struct movement *movement;
};

struct history {
	struct happening *items; /* oldest first; in the arena */
	size_t count;
	size_t *bearers; /* items that bear the number, or bore it; in the arena */
	size_t bearer_count;
};

/* `words` is a serial number; where none is known by it, a tag, and then everything under that
 * tag is told. No bearers when it is neither. */
void history_find(const struct inventory *inventory, const char *words,
    struct arena *arena, struct history *out);

#endif
