#include "gear/movement.h"

#include "base/alike.h"

static const char *const PLACE_WORDS[] = {
    [PLACE_ABOARD] = "aboard",
    [PLACE_RESERVE] = "reserve",
    [PLACE_LANDED] = "landed",
    [PLACE_STAND_IN] = "stand-in",
    [PLACE_WITHDRAWN] = "withdrawn",
};

static const char *const BECAUSE_WORDS[] = {
    [BECAUSE_NOT_SAID] = "",
    [BECAUSE_CONDEMNED] = "condemned",
    [BECAUSE_LOST] = "lost",
    [BECAUSE_USED] = "used",
    [BECAUSE_EXPIRED] = "expired",
    [BECAUSE_SOLD] = "sold",
    [BECAUSE_GIVEN_BACK] = "given-back",
};

static const char *const RESULT_WORDS[] = {
    [RESULT_NOT_SAID] = "",
    [RESULT_PASSED] = "passed",
    [RESULT_PASSED_SHORTER] = "passed-shorter",
    [RESULT_CONDEMNED] = "condemned",
    [RESULT_NOT_DONE] = "not-done",
};

static const char *const MOVE_WORDS[] = {
    [MOVE_LANDED] = "landed",
    [MOVE_RETURNED] = "returned",
    [MOVE_CARRIED] = "moved",
    [MOVE_WITHDRAWN] = "withdrawn",
    [MOVE_RESERVED] = "reserved",
    [MOVE_ABOARD] = "aboard",
    [MOVE_STOOD_IN] = "stood-in",
    [MOVE_RENEWED] = "renewed",
};

const char *
place_word(enum place_state place)
{
	return PLACE_WORDS[place];
}

bool
place_parse(const char *word, enum place_state *out, struct fault *fault)
{
	size_t index = word_meant(word, PLACE_WORDS, PLACE_COUNT);
	if (index < PLACE_COUNT) {
		*out = (enum place_state)index;
		return true;
	}
	return fault_set(fault, FAULT_INPUT,
	    "\"%.60s\" is no state of an item; expected one of: aboard, reserve, landed, "
	    "stand-in, withdrawn",
	    word);
}

const char *
because_word(enum because because)
{
	return BECAUSE_WORDS[because];
}

bool
because_parse(const char *word, enum because *out, struct fault *fault)
{
	size_t index = word_meant(word, BECAUSE_WORDS, BECAUSE_COUNT);
	if (index < BECAUSE_COUNT) {
		*out = (enum because)index;
		return true;
	}
	return fault_set(fault, FAULT_INPUT,
	    "\"%.60s\" is no reason to withdraw an item; expected one of: condemned, lost, "
	    "used, expired, sold, given-back",
	    word);
}

const char *
move_word(enum move move)
{
	return MOVE_WORDS[move];
}

const char *
result_word(enum result result)
{
	return RESULT_WORDS[result];
}

bool
result_parse(const char *word, enum result *out, struct fault *fault)
{
	size_t index = word_meant(word, RESULT_WORDS, RESULT_COUNT);
	if (index < RESULT_COUNT && index != RESULT_NOT_SAID) {
		*out = (enum result)index;
		return true;
	}
	return fault_set(fault, FAULT_INPUT,
	    "\"%.60s\" is no result; expected one of: passed, passed-shorter, condemned, "
	    "not-done",
	    word);
}
