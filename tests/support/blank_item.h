/* An item of which nothing is known but what it is. */
#ifndef BECKET_TEST_BLANK_ITEM_H
#define BECKET_TEST_BLANK_ITEM_H

#include "gear/item.h"

static inline struct item
blank_item(const char *tag, const char *kind)
{
	struct item item = {
	    .tag = tag, .values = blank_change().values, .parent = ITEM_NO_PARENT};
	item.kind = kind;
	return item;
}

#endif
