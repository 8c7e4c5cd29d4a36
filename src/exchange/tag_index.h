/* The items of an inventory by tag, to find many of them. */
#ifndef BECKET_EXCHANGE_TAG_INDEX_H
#define BECKET_EXCHANGE_TAG_INDEX_H

#include "gear/item.h"

struct tag_entry {
	const char *tag;
	size_t item;
};

struct tag_index {
	struct tag_entry *items; /* owned */
	size_t count;
};

void tag_index_make(const struct inventory *inventory, struct tag_index *out);
void tag_index_clear(struct tag_index *index);

/* The item with this tag, or ITEM_NO_PARENT. */
size_t tag_index_find(const struct tag_index *index, const char *tag);

#define SCOPED_TAG_INDEX __attribute__((cleanup(tag_index_clear))) struct tag_index

#endif
