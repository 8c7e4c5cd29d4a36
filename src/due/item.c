#include "due/item.h"

#include <string.h>

static const char *const PLACE_WORDS[] = {
    [PLACE_ABOARD] = "aboard",
    [PLACE_RESERVE] = "reserve",
    [PLACE_LANDED] = "landed",
    [PLACE_STAND_IN] = "stand-in",
    [PLACE_WITHDRAWN] = "withdrawn",
};

const char *
place_word(enum place_state place)
{
	return PLACE_WORDS[place];
}

bool
place_parse(const char *word, enum place_state *out, struct fault *fault)
{
	for (int i = 0; i < PLACE_COUNT; i++) {
		if (strcmp(word, PLACE_WORDS[i]) == 0) {
			*out = (enum place_state)i;
			return true;
		}
	}
	return fault_set(fault, FAULT_INPUT,
	    "\"%.60s\" is no state of an item; expected one of: aboard, reserve, landed, "
	    "stand-in, withdrawn",
	    word);
}

/* The first item of a vessel from `vessel` on. */
static size_t
first_from(const struct inventory *inventory, size_t vessel)
{
	size_t low = 0;
	size_t high = inventory->item_count;
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (inventory->items[middle].vessel < vessel) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	return low;
}

size_t
inventory_aboard(const struct inventory *inventory, size_t vessel, size_t *count_out)
{
	size_t first = first_from(inventory, vessel);
	*count_out = first_from(inventory, vessel + 1) - first;
	return first;
}
