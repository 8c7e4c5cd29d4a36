/* The words by which fixed values are stored. */
#include "book/call.h"
#include "gear/settled.h"

static const char *const TASK_SPELLINGS[] = {
    [TASK_SERVICE] = "service",
    [TASK_INSPECT] = "inspect",
    [TASK_WEIGH] = "weigh",
    [TASK_TEST] = "test",
    [TASK_RENEW] = "renew",
    [TASK_REGISTER] = "register",
};

static const char *const STATE_SPELLINGS[] = {
    [STATE_IN_DATE] = "in-date",
    [STATE_OVERDUE] = "overdue",
    [STATE_EXPIRED] = "expired",
    [STATE_LIFE_EXPIRED] = "life-expired",
    [STATE_DATE_UNKNOWN] = "date-unknown",
};

static const char *const USE_SPELLINGS[] = {
    [USE_PRIVATE] = "private",
    [USE_COMMERCIAL] = "commercial",
};

static const char *const EVENT_SPELLINGS[] = {
    [EVENT_FIRED] = "fired",
    [EVENT_INFLATED] = "inflated",
    [EVENT_ACTIVATED] = "activated",
    [EVENT_USED] = "used",
};

static const char *const PLACE_SPELLINGS[] = {
    [PLACE_ABOARD] = "aboard",
    [PLACE_RESERVE] = "reserve",
    [PLACE_LANDED] = "landed",
    [PLACE_STAND_IN] = "stand-in",
    [PLACE_WITHDRAWN] = "withdrawn",
};

static const char *const BECAUSE_SPELLINGS[] = {
    [BECAUSE_NOT_SAID] = "",
    [BECAUSE_CONDEMNED] = "condemned",
    [BECAUSE_LOST] = "lost",
    [BECAUSE_USED] = "used",
    [BECAUSE_EXPIRED] = "expired",
    [BECAUSE_SOLD] = "sold",
    [BECAUSE_GIVEN_BACK] = "given-back",
};

static const char *const RESULT_SPELLINGS[] = {
    [RESULT_NOT_SAID] = "",
    [RESULT_PASSED] = "passed",
    [RESULT_PASSED_SHORTER] = "passed-shorter",
    [RESULT_CONDEMNED] = "condemned",
    [RESULT_NOT_DONE] = "not-done",
};

static const char *const GIVEN_BY_SPELLINGS[] = {
    [GIVEN_BY_UNKNOWN] = "",
    [GIVEN_BY_FILE] = "file",
    [GIVEN_BY_FEED] = "feed",
    [GIVEN_BY_PUSH] = "push",
    [GIVEN_BY_PAPERS] = "papers",
    [GIVEN_BY_ROTA] = "rota",
    [GIVEN_BY_PERSON] = "person",
};

static const char *const MOVE_SPELLINGS[] = {
    [MOVE_LANDED] = "landed",
    [MOVE_RETURNED] = "returned",
    [MOVE_CARRIED] = "moved",
    [MOVE_WITHDRAWN] = "withdrawn",
    [MOVE_RESERVED] = "reserved",
    [MOVE_ABOARD] = "aboard",
    [MOVE_STOOD_IN] = "stood-in",
    [MOVE_RENEWED] = "renewed",
};

/* First "not told", then the anchors an interval may have, in their order. */
static const char *const COUNTS_FROM_SPELLINGS[] = {
    "",
    [ANCHOR_MADE + 1] = "made",
    [ANCHOR_PACKED + 1] = "packed",
    [ANCHOR_BOUGHT + 1] = "bought",
    [ANCHOR_FITTED + 1] = "fitted",
    [ANCHOR_LAST + 1] = "last",
};

#define CODES(words)                                                                     \
	{                                                                                \
		words, (int)(sizeof(words) / sizeof(words)[0])                           \
	}

const struct codes TASK_CODES = CODES(TASK_SPELLINGS);
const struct codes STATE_CODES = CODES(STATE_SPELLINGS);
const struct codes USE_CODES = CODES(USE_SPELLINGS);
const struct codes EVENT_CODES = CODES(EVENT_SPELLINGS);
const struct codes PLACE_CODES = CODES(PLACE_SPELLINGS);
const struct codes BECAUSE_CODES = CODES(BECAUSE_SPELLINGS);
const struct codes RESULT_CODES = CODES(RESULT_SPELLINGS);
const struct codes MOVE_CODES = CODES(MOVE_SPELLINGS);
const struct codes GIVEN_BY_CODES = CODES(GIVEN_BY_SPELLINGS);
const struct codes COUNTS_FROM_CODES = CODES(COUNTS_FROM_SPELLINGS);
