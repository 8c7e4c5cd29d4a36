#include "exchange/tag_index.h"

#include "base/memory.h"

#include <stdlib.h>
#include <string.h>

static int
by_tag(const void *a, const void *b)
{
	const struct tag_entry *x = a;
	const struct tag_entry *y = b;
	return strcmp(x->tag, y->tag);
}

void
tag_index_make(const struct inventory *inventory, struct tag_index *out)
{
	struct tag_entry *items = memory_zeroed(inventory->item_count + 1, sizeof *items);
	for (size_t i = 0; i < inventory->item_count; i++) {
		items[i] = (struct tag_entry){inventory->items[i].tag, i};
	}
	qsort(items, inventory->item_count, sizeof *items, by_tag);
	*out = (struct tag_index){items, inventory->item_count};
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
