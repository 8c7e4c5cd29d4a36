#include "gear/words.h"

#include "base/alike.h"
#include "base/text.h"

const char *const TASK_WORDS[] = {
    [TASK_SERVICE] = "service",
    [TASK_INSPECT] = "inspect",
    [TASK_WEIGH] = "weigh",
    [TASK_TEST] = "test",
    [TASK_RENEW] = "renew",
    [TASK_REGISTER] = "register",
};

const char *const DOER_WORDS[] = {
    [DOER_OWNER] = "owner",
    [DOER_STATION] = "station",
    [DOER_AUTHORITY] = "authority",
};

const char *const GRADE_WORDS[] = {
    [GRADE_LAW] = "law",
    [GRADE_MAKER] = "maker",
    [GRADE_PRACTICE] = "practice",
};

const char *const ANCHOR_WORDS[] = {
    [ANCHOR_MADE] = "made",
    [ANCHOR_PACKED] = "packed",
    [ANCHOR_BOUGHT] = "bought",
    [ANCHOR_FITTED] = "fitted",
    [ANCHOR_LAST] = "last",
    [ANCHOR_MARKED] = "marked",
    [ANCHOR_EVENT] = "event",
    [ANCHOR_CERTIFICATE] = "certificate",
    [ANCHOR_CONTENTS] = "contents",
    [ANCHOR_HIRE] = "hire",
};

const char *const USE_WORDS[] = {
    [USE_PRIVATE] = "private",
    [USE_COMMERCIAL] = "commercial",
};

const char *const EVENT_WORDS[] = {
    [EVENT_FIRED] = "fired",
    [EVENT_INFLATED] = "inflated",
    [EVENT_ACTIVATED] = "activated",
    [EVENT_USED] = "used",
};

const char *const STATE_WORDS[] = {
    [STATE_IN_DATE] = "in-date",
    [STATE_OVERDUE] = "overdue",
    [STATE_EXPIRED] = "expired",
    [STATE_LIFE_EXPIRED] = "life-expired",
    [STATE_DATE_UNKNOWN] = "date-unknown",
};

const char *const STANDING_WORDS[] = {
    [STANDING_READ] = "read",
    [STANDING_READ_OLDER] = "read, older edition or sibling section",
    [STANDING_RELAYED] = "relayed",
    [STANDING_MEMORY] = "memory",
    [STANDING_NOT_REACHED] = "not reached",
    [STANDING_COMMON_PRACTICE] = "common practice",
    [STANDING_NOT_VERIFIED] = "not verified",
};

const char *const GEAR_SUBJECT_WORDS[] = {
    [GEAR_SUBJECT_RAFT] = "raft",
    [GEAR_SUBJECT_LIFEJACKETS] = "lifejackets",
    [GEAR_SUBJECT_BEACONS] = "beacons",
    [GEAR_SUBJECT_SIGNALS] = "visual-signals",
    [GEAR_SUBJECT_EXTINGUISHERS] = "extinguishers",
    [GEAR_SUBJECT_LIFEBUOY] = "lifebuoy",
    [GEAR_SUBJECT_TETHERS] = "tethers",
    [GEAR_SUBJECT_FIRST_AID] = "first-aid",
    [GEAR_SUBJECT_SOUND_RADIO] = "sound-radio",
};

#define COUNT_OF(words) (sizeof(words) / sizeof(words)[0])

/* Finds a word in a list. On failure says what was expected. */
static bool
find_word(const char *what, const char *word, const char *const *words, size_t count,
    size_t *index_out, struct fault *fault)
{
	*index_out = word_meant(word, words, count);
	if (*index_out < count) {
		return true;
	}
	SCOPED_TEXT expected = {0};
	for (size_t i = 0; i < count; i++) {
		text_add_format(&expected, "%s%s", i == 0 ? "" : ", ", words[i]);
	}
	return fault_set(fault, FAULT_INPUT, "\"%.60s\" is no %s; expected one of: %s",
	    word, what, text_string(&expected));
}

const char *
task_word(enum task task)
{
	return TASK_WORDS[task];
}

const char *
doer_word(enum doer doer)
{
	return DOER_WORDS[doer];
}

const char *
grade_word(enum grade grade)
{
	return GRADE_WORDS[grade];
}

const char *
anchor_word(enum anchor anchor)
{
	return ANCHOR_WORDS[anchor];
}

const char *
use_word(enum use use)
{
	return USE_WORDS[use];
}

const char *
event_word(enum event_kind event)
{
	return EVENT_WORDS[event];
}

const char *
state_word(enum state state)
{
	return STATE_WORDS[state];
}

const char *
standing_word(enum standing standing)
{
	return STANDING_WORDS[standing];
}

const char *
subject_name(enum carriage_subject subject)
{
	static const char *const NAMES[] = {
	    [GEAR_SUBJECT_RAFT] = "raft",
	    [GEAR_SUBJECT_LIFEJACKETS] = "lifejackets",
	    [GEAR_SUBJECT_BEACONS] = "beacons",
	    [GEAR_SUBJECT_SIGNALS] = "visual signals",
	    [GEAR_SUBJECT_EXTINGUISHERS] = "extinguishers",
	    [GEAR_SUBJECT_LIFEBUOY] = "lifebuoy and danbuoy",
	    [GEAR_SUBJECT_TETHERS] = "tethers",
	    [GEAR_SUBJECT_FIRST_AID] = "first aid",
	    [GEAR_SUBJECT_SOUND_RADIO] = "sound and radio",
	};

	return NAMES[subject];
}

bool
task_parse(const char *word, enum task *out, struct fault *fault)
{
	size_t index = 0;
	if (!find_word("task", word, TASK_WORDS, COUNT_OF(TASK_WORDS), &index, fault)) {
		return false;
	}
	*out = (enum task)index;
	return true;
}

bool
use_parse(const char *word, enum use *out, struct fault *fault)
{
	size_t index = 0;
	if (!find_word("use", word, USE_WORDS, COUNT_OF(USE_WORDS), &index, fault)) {
		return false;
	}
	*out = (enum use)index;
	return true;
}

bool
event_parse(const char *word, enum event_kind *out, struct fault *fault)
{
	size_t index = 0;
	if (!find_word(
		"event", word, EVENT_WORDS, COUNT_OF(EVENT_WORDS), &index, fault)) {
		return false;
	}
	*out = (enum event_kind)index;
	return true;
}
