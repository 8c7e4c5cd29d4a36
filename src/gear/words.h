/* The fixed words of rules: tasks, doers, grades, anchors, uses. */
#ifndef BECKET_GEAR_WORDS_H
#define BECKET_GEAR_WORDS_H

#include "base/fault.h"

/* What must happen to an item. */
enum task {
	TASK_SERVICE,
	TASK_INSPECT,
	TASK_WEIGH,
	TASK_TEST,
	TASK_RENEW,    /* replace or refit */
	TASK_REGISTER, /* with the authority that keeps the register */
};

enum { TASK_COUNT = TASK_REGISTER + 1 };

/* Who may do it. */
enum doer {
	DOER_OWNER,
	DOER_STATION, /* an approved service agent */
	DOER_AUTHORITY,
};

/* How binding a rule is. */
enum grade {
	GRADE_LAW,
	GRADE_MAKER, /* label, manual, certificate */
	GRADE_PRACTICE,
};

/* What a clock counts from. */
enum anchor {
	ANCHOR_MADE,
	ANCHOR_PACKED,
	ANCHOR_BOUGHT,
	ANCHOR_FITTED,
	ANCHOR_LAST,   /* the last record of this task, or of one that counts as it */
	ANCHOR_MARKED, /* the expiry marked on the item */
	ANCHOR_EVENT,  /* fired, inflated, activated, used */
	ANCHOR_CERTIFICATE, /* the next date that the last record's paper states */
	ANCHOR_CONTENTS,    /* the earliest dated part inside; made by the engine only */
	ANCHOR_HIRE,        /* the last day of a hired item; made by the engine only */
};

/* What a boat is used for. */
enum use {
	USE_PRIVATE,
	USE_COMMERCIAL,
};

/* Something that happened to an item and puts it out until it was dealt with. */
enum event_kind {
	EVENT_FIRED,     /* a raft or an extinguisher went off */
	EVENT_INFLATED,  /* a lifejacket or a recovery module */
	EVENT_ACTIVATED, /* a beacon, other than by its self-test */
	EVENT_USED,      /* anything else */
};

enum { EVENT_COUNT = EVENT_USED + 1 };

/* What a task is called once its day has passed: overdue where gear is serviced, the next
 * two where it is renewed. */
enum state {
	STATE_IN_DATE,
	STATE_OVERDUE,      /* a task's day has passed */
	STATE_EXPIRED,      /* the marked or shelf life has passed */
	STATE_LIFE_EXPIRED, /* the maximum age has passed */
	STATE_DATE_UNKNOWN, /* no clock can start; never counted as in date */
};

/* Where a figure comes from, as far as whoever wrote the sheet could see. */
enum standing {
	STANDING_READ,
	STANDING_READ_OLDER, /* read: older edition or sibling section */
	STANDING_RELAYED,
	STANDING_MEMORY,
	STANDING_NOT_REACHED, /* looked for again and not reached: ask before trusting it */
	STANDING_COMMON_PRACTICE,
	STANDING_NOT_VERIFIED, /* carries no figure */
};

/* What a boat must have something of, or be told that nothing is stated. */
enum carriage_subject {
	GEAR_SUBJECT_RAFT,
	GEAR_SUBJECT_LIFEJACKETS,
	GEAR_SUBJECT_BEACONS,
	GEAR_SUBJECT_SIGNALS, /* that are seen: flares, smokes, lights, flags */
	GEAR_SUBJECT_EXTINGUISHERS,
	GEAR_SUBJECT_LIFEBUOY,
	GEAR_SUBJECT_TETHERS,
	GEAR_SUBJECT_FIRST_AID,
	GEAR_SUBJECT_SOUND_RADIO,
};

enum { GEAR_SUBJECT_COUNT = GEAR_SUBJECT_SOUND_RADIO + 1 };

/* The word for each, as sheets, books and outputs spell it: "service", "owner", "law",
 * "made", "private", "fired", "in-date", "common practice". */
const char *task_word(enum task task);
const char *doer_word(enum doer doer);
const char *grade_word(enum grade grade);
const char *anchor_word(enum anchor anchor);
const char *use_word(enum use use);
const char *event_word(enum event_kind event);
const char *state_word(enum state state);
const char *standing_word(enum standing standing);

/* A subject for people: "visual signals". */
const char *subject_name(enum carriage_subject subject);

/* The way back. On failure names what was found and lists what was expected. */
MUST_CHECK bool task_parse(const char *word, enum task *out, struct fault *fault);
MUST_CHECK bool use_parse(const char *word, enum use *out, struct fault *fault);
MUST_CHECK bool event_parse(const char *word, enum event_kind *out, struct fault *fault);

/* The words of one enum as an array, in the enum's order, for tables that read them. */
extern const char *const TASK_WORDS[];
extern const char *const DOER_WORDS[];
extern const char *const GRADE_WORDS[];
extern const char *const ANCHOR_WORDS[];
extern const char *const USE_WORDS[];
extern const char *const EVENT_WORDS[];
extern const char *const STATE_WORDS[];
extern const char *const STANDING_WORDS[];
extern const char *const GEAR_SUBJECT_WORDS[];

#endif
