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
	const char *summary;
	const char *description; /* "" when none */
	const char *category;    /* one word without comma: "becket" */
	day_t day;
	/* filled by reminders_settle: */
	int sequence;
	const char *uid;
	int64_t modified; /* seconds since 1970, UTC */
	const char *shape;
};

struct reminders {
	struct reminder *items; /* in the arena */
	size_t count;
	size_t capacity; /* items is grown with arena memory */
};

/* The reminders of some shore lists: one a station hand-in with its list, one a collect day,
 * one a vessel for what to do oneself, one for what to buy and dispose of, one for
 * paperwork, and single ones for what can't wait or can't be done this winter. Sorted by day,
 * then key; one to a key, so a vessel's winters may be given one list each.
 *
 * Days, none of them before `today`:
 *   - hand in, collect: the trip's own days;
 *   - do oneself, buy (or, with nothing to buy, dispose), paperwork: 28 days before the
 *     earliest `not_after` among the lines and fitting-out, but not before lay-up, nor, where
 *     that leaves it within `not_after`, before the latest `not_before`;
 *   - what can't wait: its due day; overdue or date unknown: `today`;
 *   - what can't be done: lay-up, when another plan is needed.
 *
 * Keys, "|" and "\" in a name preceded by "\"; WINTER is the year, 0 for in use all year, and
 * N counts a station's trips in one winter from 1:
 *   hand-in|VESSEL|WINTER|STATION|N  collect|VESSEL|WINTER|STATION|N  self|VESSEL|WINTER
 *   buy|VESSEL|WINTER  paperwork|VESSEL|WINTER  now|TAG|TASK  cannot|TAG|TASK
 *
 * `currency` is the ISO 4217 code of the lines' prices. On failure `out` is untouched. */
MUST_CHECK bool reminders_make(const struct kinds *kinds,
    const struct inventory *inventory, const struct shore_list *lists, size_t count,
    const char *currency, day_t today, struct arena *arena, struct reminders *out,
    struct fault *fault);

/* Gives each reminder its identity: the stored UID, and SEQUENCE + 1 with a new time where
 * its visible shape (day, summary, description, category) changed, nothing new where it did
 * not. A new one gets SEQUENCE 0 and a UUID (RFC 9562, version 8) that depends on the book's
 * identity and its key alone. `gone_out` lists stored keys that no longer apply, in the
 * arena. A stored one whose shape is "" was gone before: it is not listed again, and counts
 * as changed when its key comes back. `now` is in seconds since 1970, UTC; a change is always
 * later than the one before, even when the clock was set back. Two reminders of one key are
 * FAULT_INPUT. After a failure the reminders are not to be used. */
MUST_CHECK bool reminders_settle(struct reminders *reminders,
    const struct book_reminder *stored, size_t stored_count, const char *identity,
    int64_t now, struct arena *arena, const char *const **gone_out,
    size_t *gone_count_out, struct fault *fault);

#endif
