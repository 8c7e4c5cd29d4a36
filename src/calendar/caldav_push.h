/* Reminders pushed to a calendar on a server, and what a person did there read back. */
#ifndef BECKET_CALENDAR_CALDAV_PUSH_H
#define BECKET_CALENDAR_CALDAV_PUSH_H

#include "calendar/caldav.h"
#include "calendar/caldav_plan.h"
#include "calendar/reminders.h"

enum caldav_mode {
	CALDAV_PUSH,
	CALDAV_PULL, /* nothing is written there; what a person did is planned or accepted */
	CALDAV_TRY, /* nothing is written at all */
};

/* What to push where; all borrowed. */
struct caldav_push {
	struct http *http;
	struct book *book;
	const char *calendar;             /* its address */
	const struct reminder *reminders; /* settled */
	size_t count;
	day_t today;
	int64_t now; /* seconds since 1970, UTC */
	enum caldav_keep keep;
	const struct caldav_choice *choices; /* of single reminders */
	size_t choice_count;
	const struct book_given *given; /* what was given out, by UID and SEQUENCE */
	size_t given_count;
	enum caldav_mode mode;
	void (*progress)(size_t done, size_t total, void *context); /* may be NULL */
	void *context;
};

/* What became of one reminder. Strings are never NULL. */
struct caldav_row {
	enum caldav_act act; /* CALDAV_LEAVE as well for one the server refused */
	enum caldav_finding finding;
	bool outdated; /* the reminder no longer applies */
	bool both;     /* its day was changed on both sides */
	bool fixed;    /* its day is a fact, and no one can plan another */
	const char *uid;
	const char *key;     /* of the reminder; "" when outdated */
	const char *summary; /* of the reminder */
	const char *their_summary;
	const char *their_status;
	const char *why; /* the server's refusal in words; "" for none */
	day_t our_day;   /* DAY_NONE when outdated */
	day_t their_day; /* DAY_NONE when there is none */
	day_t done_on;   /* a to-do ticked there: the day; DAY_NONE when it is not told */
};

struct caldav_report {
	struct caldav_row *rows; /* in the arena, by day, then UID */
	size_t count;
};

/* Compares both sides and does what caldav_plan says, one resource after the other. After
 * each the book remembers it in a transaction of its own, so that a push that breaks off is
 * taken up by the next; the fault says how many were done. A day that a person moved a
 * reminder to is stored as the planned one; the reminders have to be made anew then, and
 * pushed once more. One that is put back over a person's change gets a SEQUENCE above theirs,
 * here too: servers and programs may take a lower one for an older version. No transaction
 * may be open. */
MUST_CHECK bool caldav_push(const struct caldav_push *push, struct arena *arena,
    struct caldav_report *out, struct fault *fault);

#endif
