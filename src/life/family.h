/* An item and what is inside it or fixed to it. Pure. */
#ifndef BECKET_LIFE_FAMILY_H
#define BECKET_LIFE_FAMILY_H

#include "base/memory.h"
#include "gear/item.h"

struct family {
	size_t *items; /* indices in the inventory; the item itself first. In the arena */
	size_t count;
};

/* The item, its parts, their parts and so on, withdrawn ones left out except for the item
 * itself. A loop of parts, which a book does not hold, ends where it closes. */
void family_of(const struct inventory *inventory, size_t item, struct arena *arena,
    struct family *out);

/* True when `item` is inside `whole`, at any depth. */
bool family_has(const struct inventory *inventory, size_t whole, size_t item);

#endif
