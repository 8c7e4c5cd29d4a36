#include "life/family.h"

bool
family_has(const struct inventory *inventory, size_t whole, size_t item)
{
	size_t at = inventory->items[item].parent;
	for (size_t steps = 0; at != ITEM_NO_PARENT && steps < inventory->item_count;
	     steps++) {
		if (at == whole) {
			return true;
		}
		at = inventory->items[at].parent;
	}
	return false;
}

void
family_of(const struct inventory *inventory, size_t item, struct arena *arena,
    struct family *out)
{
	size_t count = 1;
	for (size_t i = 0; i < inventory->item_count; i++) {
		count += family_has(inventory, item, i) ? 1 : 0;
	}
	struct family family = {arena_alloc(arena, count * sizeof *family.items), 0};
	family.items[family.count++] = item;
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (i != item && inventory->items[i].state != PLACE_WITHDRAWN &&
		    family_has(inventory, item, i)) {
			family.items[family.count++] = i;
		}
	}
	*out = family;
}
