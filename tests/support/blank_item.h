/* An item of which nothing is known but what it is. */
#ifndef BECKET_TEST_BLANK_ITEM_H
#define BECKET_TEST_BLANK_ITEM_H

#include "gear/item.h"

static inline struct item
blank_item(const char *tag, const char *kind)
{
	return (struct item){.tag = tag,
	    .kind = kind,
	    .description = "",
	    .serial = "",
	    .place = "",
	    .notes = "",
	    .to_buy = "",
	    .make = "",
	    .rating = "",
	    .landed_to = "",
	    .stands_for = "",
	    .landed_on = DAY_NONE,
	    .hired_until = DAY_NONE,
	    .quantity = 1,
	    .price_minor = -1,
	    .parent = ITEM_NO_PARENT};
}

#endif
