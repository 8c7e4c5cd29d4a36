/* What is to be done so that a calendar on a server shows the reminders, without overwriting
 * what a person did there. Pure. */
#ifndef BECKET_CALENDAR_CALDAV_PLAN_H
#define BECKET_CALENDAR_CALDAV_PLAN_H

#include "book/caldav.h"

/* A reminder as it is to be. Digests as ics_digest makes them. */
struct caldav_ours {
	const char *uid;
	const char *summary;
	day_t day;
	const char *rest; /* digest of all that is visible but the day */
	bool fixed;       /* its day is a fact, and no one can plan another */
};

/* A resource as it stands on the server. */
struct caldav_theirs {
	const char *uid;
	const char *url;
	const char *etag;
	const char *summary;
	const char *status; /* "COMPLETED", "CANCELLED"; "" for none to speak of */
	day_t day;          /* DAY_NONE when it has none that can be read */
	const char *rest;
	day_t done_on; /* a to-do ticked there: the day; DAY_NONE when it is not told */
	int sequence;  /* of what was fetched; 0 where it was not */
};

/* What to do about a person's own change. */
enum caldav_keep {
	/* plan the day they moved it to, unless it was moved here, too; leave all else and say
	 * so */
	CALDAV_ASK,
	CALDAV_KEEP_THEIRS, /* the same, and say no more of the rest until a side changes */
	CALDAV_KEEP_OURS,   /* put the reminder back as it is to be */
};

enum caldav_act {
	CALDAV_NOTHING, /* both are as they were left */
	CALDAV_NOTE,    /* both agree, and the book has to hear of it */
	CALDAV_CREATE,
	CALDAV_CHANGE,
	CALDAV_REMOVE,
	CALDAV_FORGET, /* gone from both sides: so may be what is remembered */
	CALDAV_PLAN,   /* the day it was moved to there becomes the planned one here */
	CALDAV_ACCEPT, /* a person's change stays, and the book remembers that it may */
	CALDAV_LEAVE,  /* a person's change stays, and has to be spoken of */
};

/* What a person did there. */
enum caldav_finding {
	CALDAV_FOUND_NOTHING,
	CALDAV_FOUND_MOVED,   /* another day, and nothing else */
	CALDAV_FOUND_EDITED,  /* other words, times, place or state */
	CALDAV_FOUND_REMOVED, /* it is no longer there */
	CALDAV_FOUND_STRANGE, /* this book never put it there, or has forgotten it did */
	CALDAV_FOUND_TWICE,   /* at two addresses */
};

/* One thing to be done about one UID. What is not there is NULL; all is borrowed. */
struct caldav_deed {
	enum caldav_act act;
	enum caldav_finding finding;
	bool outdated; /* the reminder no longer applies: there is no `ours` */
	bool both;     /* moved there, and to another day here, since both agreed */
	const char *uid;
	const struct caldav_ours *ours;
	const struct book_pushed *before;
	const struct caldav_theirs *theirs;
};

/* What a person chose for one. */
struct caldav_choice {
	const char *uid;
	enum caldav_keep keep;
};

struct caldav_sides {
	const struct caldav_ours *ours; /* all reminders that are wanted, one a UID */
	size_t our_count;
	const struct book_pushed *before; /* all that is remembered of this calendar */
	size_t before_count;
	/* everything there with a UID of this book's */
	const struct caldav_theirs *theirs;
	size_t their_count;
	day_t today;
	/* what is to hold of single ones, whatever is of the rest */
	const struct caldav_choice *choices;
	size_t choice_count;
	const struct book_given *given; /* by UID and SEQUENCE */
	size_t given_count;
};

/* The deeds, by UID; in any order of the inputs the same. With o, b, t for ours, what was
 * pushed before and theirs:
 *
 *   o only: create.  b only, or accepted: forget.  t only: strange.
 *   o and t alike: nothing, or note it where the book does not know.
 *   o and t unlike, no b: strange.
 *   o and b, no t: removed there by a person, unless that was accepted and o is the same.
 *   o, b, t: t changed since b: moved or edited.  Only o changed: change it, unless t is a
 *     person's change that was accepted: that one is spoken of again.
 *   b and t, no o: remove it; where t changed since b: edited. One that was ticked there as
 *     done, and is no longer wanted, needs nothing more: accepted.
 *
 * What a person did is left, accepted or undone as `keep` has it; undone means created,
 * changed or removed. A move, when the reminder is still wanted and the day is not past,
 * is planned instead of left or accepted; with CALDAV_ASK it is left, as `both`, where
 * its day was changed here as well. A day that was given out under a SEQUENCE before the
 * last is an older copy that some program put back, and no one's move: it is changed.
 * CALDAV_KEEP_OURS undoes what was accepted before as well. In the arena. */
void caldav_plan(const struct caldav_sides *sides, enum caldav_keep keep,
    struct arena *arena, struct caldav_deed **out, size_t *count_out);

#endif
