/* Reminders: what is to be put in a calendar, made from the winters' shore lists. Pure; the
 * iCalendar writing is in ics.h. */
#ifndef BECKET_CALENDAR_REMINDERS_H
#define BECKET_CALENDAR_REMINDERS_H

#include "book/book.h"
#include "rules/kinds.h"
#include "winter/winter.h"

/* One all-day event. Strings live in the arena it was made with. */
struct reminder {
	const char *key; /* what it is about, so that moving the day keeps its identity */
	day_t day;
	const char *summary;
	const char *description; /* "" when none */
	const char *category;    /* one word without comma: "becket" */
	/* filled by reminders_settle: */
	const char *uid;
	int sequence;
	int64_t modified; /* seconds since 1970, UTC */
	const char *shape;
};

struct reminders {
	struct reminder *items; /* in the arena */
	size_t count;
	size_t capacity; /* items is grown with arena memory */
};

/* The reminders of some shore lists: one a station hand-in with its list, one a collect day,
 * one a vessel for what to do oneself and one for what to buy, one for paperwork, and single
 * ones for what can't wait. None on a day before `today`: what is overdue is on `today`. */
MUST_CHECK bool reminders_make(const struct kinds *kinds,
    const struct inventory *inventory, const struct shore_list *lists, size_t count,
    const char *currency, day_t today, struct arena *arena, struct reminders *out,
    struct fault *fault);

/* Gives each reminder its identity: the stored UID, and SEQUENCE + 1 with a new time where
 * its visible shape changed, nothing new where it did not. A new one gets a UID drawn from
 * the book's identity and its key's first use. `gone_out` lists stored keys that no longer
 * apply. `now` is in seconds since 1970, UTC; a change is always later than the one before. */
MUST_CHECK bool reminders_settle(struct reminders *reminders,
    const struct book_reminder *stored, size_t stored_count, const char *identity,
    int64_t now, struct arena *arena, const char *const **gone_out,
    size_t *gone_count_out, struct fault *fault);

#endif
