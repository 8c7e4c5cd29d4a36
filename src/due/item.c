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
