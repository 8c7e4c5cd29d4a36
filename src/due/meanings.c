#include "due/meanings.h"

const char *const DUE_MEANINGS[] = {
    "a printed expiry is of the maker at least, whatever sheets are followed; common practice "
    "does not make it later",
    "a paper's next date ends with a later record of its task, or of one that counts as it",
    "an extension moves the intervals of its task, never a printed date or an age limit, from "
    "the day it was given until the task is done",
    "an anniversary is kept only by what was done inside its window; what was done outside "
    "starts anew",
    "what was used is out from the first use that nothing followed, also where no rule in force "
    "deals with it; a use to come does not count yet",
    "dates of parts inside do not stand in for a service day that is not known",
    "a renewal older than what is in place is history",
    "where a rule leaves the interval to the maker, there is no date until it is entered "
    "(becket interval)",
    "a rule that may hold counts also where what it asks for is not known",
    "what is inside and of unknown date binds by the day on which it will have lapsed",
    "a day with a window is told also where its rule is over before the window is",
};
const size_t DUE_MEANING_COUNT = sizeof DUE_MEANINGS / sizeof DUE_MEANINGS[0];
