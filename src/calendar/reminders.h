/* Reminders: what is to be put in a calendar, made from the winters' shore lists. Pure; the
 * iCalendar writing is in ics.h. */
#ifndef BECKET_CALENDAR_REMINDERS_H
#define BECKET_CALENDAR_REMINDERS_H

#include "book/book.h"
#include "muster/muster.h"
#include "rules/kinds.h"
#include "winter/winter.h"

/* One all-day event, or one to-do. Strings live in the arena it was made with. */
struct reminder {
	const char *key; /* what it is about, so that moving the day keeps its identity */
	const size_t *vessels; /* whose it is: indices in the inventory */
	size_t vessel_count;
	const char *station; /* where to; "" when nowhere */
	const char *summary;
	const char *description; /* "" when none */
	const char *category;    /* one word without comma: "becket" */
	day_t day;
	bool todo;         /* a to-do, to be done by `day` */
	const char *about; /* a to-do's reminder: its key; "" for none */
	/* filled by reminders_settle: */
	int sequence;
	const char *uid;
	const char *about_uid; /* the identity of `about`; "" for none */
	int64_t modified;      /* seconds since 1970, UTC */
	const char *shape;
};

struct reminders {
	struct reminder *items; /* in the arena */
	size_t count;
	size_t capacity; /* items is grown with arena memory */
};

/* A vessel that falls short of what she must carry. */
struct fall {
	size_t vessel;
	day_t day; /* the first day she is short; DAY_NONE when she is short today */
	/* those of that day; only the short ones count */
	const struct muster_line *lines;
	size_t line_count;
};

/* Finds when each vessel next falls short, as seen from `today`: from her next season on when
 * she is laid up, since gear is ashore then. Vessels without carriage lines, stores, and those
 * that never fall short are not among them. In `arena`; the engine is asked day by day. */
MUST_CHECK bool falls_find(const struct due_engine *engine, day_t today,
    struct arena *arena, const struct fall **falls_out, size_t *count_out,
    struct fault *fault);

/* What reminders are made from, all borrowed. */
struct reminder_source {
	const struct kinds *kinds;
	const struct inventory *inventory;
	const struct station *stations; /* as the lists' trips count them */
	size_t station_count;
	const struct reminder_choices *choices;
	const struct fall *falls;
	size_t fall_count;
	const char *currency; /* ISO 4217 code of the lines' prices */
	day_t today;
};

/* The reminders of some shore lists: one a station hand-in with its list, one a collect day,
 * one a vessel for what to do oneself, one for what to buy and dispose of, one for
 * paperwork, one for the day she next falls short, and single ones for what can't wait or
 * can't be done this winter; when asked for, one for the routine looks and one for each item
 * and task. Besides, a to-do for each task of each line, to be done by the collect day, the
 * last day that works or the due day. Sorted by day, then key; one to a key, so a vessel's
 * winters may be given one list each.
 *
 * Days:
 *   - the day a person chose, when it is not past. A hand-in that was moved takes its collect
 *     day along. One that was moved beyond the last day that works says so;
 *   - hand in, collect: the trip's own days; what is ashore already: the day it can be fetched;
 *   - do oneself, buy (or, with nothing to buy, dispose), paperwork: as many days as their
 *     kinds' notice, 28 where none was chosen, before the earliest `not_after` among the lines
 *     and fitting-out, but not before lay-up, nor, where that leaves it within `not_after`,
 *     before the latest `not_before`. What one does oneself then waits for the chosen day of
 *     the week, where that is still within `not_after`;
 *   - falling short: that day, or the fitting-out day of the winter that day is in;
 *   - what can't wait, routine looks, single items: the due day less the kind's notice;
 *   - what can't be done: lay-up, when another plan is needed;
 *   - whatever would be before `today`: the next of the chosen days of the week, so that it is
 *     never in the past and does not move every day.
 *
 * Keys, "|" and "\" in a name preceded by "\"; WINTER is the year, 0 for in use all year, and
 * N counts a station's trips in one winter from 1:
 *   hand-in|VESSEL|WINTER|STATION|N  collect|VESSEL|WINTER|STATION|N
 *   base-hand-in|BASE|WINTER|STATION|N  base-collect|BASE|WINTER|STATION|N (where her base has
 *   other vessels, whoever of them has gear on the trip)
 *   fetch|VESSEL|STATION|SINCE  self|VESSEL|WINTER
 *   buy|VESSEL|WINTER  paperwork|VESSEL|WINTER  short|VESSEL  routine|VESSEL  now|TAG|TASK
 *   cannot|TAG|TASK  item|TAG|TASK  do|TAG|TASK|WINTER
 *
 * On failure `out` is untouched. */
MUST_CHECK bool reminders_make(const struct reminder_source *source,
    const struct shore_list *lists, size_t count, struct arena *arena,
    struct reminders *out, struct fault *fault);

/* Keeps the to-dos, or all but them; after settling, as above. */
void reminders_keep_form(struct reminders *reminders, bool todos);

/* What a to-do is about. */
struct todo {
	const char *tag;
	enum task task;
};

/* Reads a to-do's key, in `arena`; `*is_todo_out` is false for another reminder's. */
MUST_CHECK bool todo_of_key(const char *key, struct arena *arena, struct todo *out,
    bool *is_todo_out, struct fault *fault);

/* Keeps the reminders of a scope, in their order. Of a station: the hand-ins and collects
 * there. They are settled before, so that narrowing them makes none go. */
void reminders_narrow(struct reminders *reminders, const struct inventory *inventory,
    const struct scope *scope);

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
