/* Reminders: what is to be put in a calendar, made from the winters' shore lists. Pure; the
 * iCalendar writing is in ics.h. */
#ifndef BECKET_CALENDAR_REMINDERS_H
#define BECKET_CALENDAR_REMINDERS_H

#include "book/reminders.h"
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
	day_t aim; /* the day it would be on by what it is about; DAY_NONE long past */
	bool last_chance;  /* it rings two weeks, three days and a day ahead */
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

/* All of them sorted by their keys, which are told apart; the array in the arena. */
const struct reminder **reminders_by_key(
    const struct reminders *reminders, struct arena *arena);

/* A vessel that falls short of what she must carry. */
struct shortfall {
	size_t vessel;
	day_t day; /* the first day she is short; DAY_NONE when she is short today */
	/* those of that day; only the short ones count */
	const struct muster_line *lines;
	size_t line_count;
};

/* True when a muster is not all right, and there is a line that holds to say so of. */
bool shortfall_is_told(const struct muster *muster);

/* Finds when each vessel next falls short, as seen from `today`: from her next season on when
 * she is laid up, since gear is ashore then. Days on which none of her carriage lines holds are
 * passed over. Stores, and those that never fall short, are not among them. In `arena`; the engine
 * is asked day by day. */
void shortfalls_find(const struct due_engine *engine, day_t today, struct arena *arena,
    const struct shortfall **shortfalls_out, size_t *count_out);

/* The day whose muster is told on a day: when she is laid up then, the first of her season; else
 * that day. */
day_t day_in_season(const struct vessel *vessel, day_t day);

/* What was given out before, looked up. */
struct given_before {
	/* what is stored of a key, forgotten or not; NULL: nothing is. It and what it says
	 * last as long as the reminders */
	const struct book_reminder *(*find)(const char *key, void *of);
	void *of;
};

/* Puts a list of it in order, by key. */
void given_sort(struct book_reminder *items, size_t count);

/* Such a list, and the look-up in it: for `of` and `find`. */
struct given_sorted {
	const struct book_reminder *items;
	size_t count;
};

const struct book_reminder *given_find_in(const char *key, void *of);

/* What reminders are made from, all borrowed. */
struct reminder_source {
	const struct kinds *kinds;
	const struct inventory *inventory;
	/* the inventory may be a part of a fleet: a boat is named though she is alone in it */
	bool of_several;
	const struct reminder_choices *choices;
	/* finds what is not in date on a reminder's own day; NULL: nothing is gathered, and
	 * a shortfall is told as it was found */
	const struct due_engine *engine;
	struct given_before given;
	bool events; /* no to-dos are made */
	/* number of the journal's last entry that may have changed what any of them says */
	int64_t entry;
	/* one a vessel: of the last that may have changed what hers say; NULL: none after that */
	const int64_t *entries;
	const struct shortfall *shortfalls;
	size_t shortfall_count;
	const char *currency; /* ISO 4217 code of the lines' prices */
	day_t today;
};

/* The reminders of some shore lists: one a station hand-in with its list, one for the last day on
 * which what still waits serves, of each owner, station and winter, one a collect day once the
 * gear is landed, a base's boats together, one a vessel for what to do oneself, one for what to
 * buy and dispose of, one for paperwork, one for all that can't be done in time, one for all that
 * is not in date aboard, one for the day she next falls short, and single ones for what lapses in
 * the season and can't wait. Of a boat in use all year what is to be told of within twelve months,
 * but for what the station that has it was asked for and what a task due no later, or handed in by
 * then, counts as: one for what goes to a station from one day on, with the parts that are renewed
 * at the service there, and one for all else of one day. When asked for, one for the routine looks
 * and one for each item and task. Besides, a to-do for each task of each line, to be done by the
 * collect day, the last day that works or the due day.
 * Sorted by day, then key; one to a key, so a vessel's winters may be given one list each.
 *
 * Days:
 *   - hand in: the trip's own day, settled or planned; the last day: the earliest not_after of
 *     the lines that wait there, a base's boats together where they share trips;
 *   - the day a person chose, when it is not past;
 *   - the day it was given out for, while that lies ahead and what it is about would have it on
 *     the same day (its aim) as then;
 *   - else the aim. Do oneself, buy (or, with nothing to buy, dispose), paperwork: as many days
 *     as their kinds' notice, 28 where none was chosen, before the earliest `not_after` among
 *     the lines and fitting-out, but not before lay-up, nor, where that leaves it within
 *     `not_after`, before the latest `not_before`; what one does oneself then waits for the
 *     chosen day of the week, where that is still within `not_after`. What is ashore: the day
 *     it can be fetched. Falling short: that day, or the fitting-out day of the winter that day
 *     is in. What can't wait, routine looks, single items: the due day less the kind's notice;
 *     of a station's work on a boat in use all year as many days as the kind's notice, 28 where
 *     none was chosen, before the last hand-in that is back by the due day, or the last day before
 *     that on which the station takes it; where that is past, the first such day that is LEAD_DAYS
 *     or more ahead, or the last hand-in, and all of them that go to one station on one day, but
 *     for those that were given out before.
 *     What can't be done: lay-up;
 *   - where the aim is past, and for what is not in date: the first of the chosen days of the
 *     week that is LEAD_DAYS or more ahead, or the last day it would serve where that is
 *     sooner. A collect day already past when first given out is today.
 * Lists of what is not in date, of what can't be done and of what she is short of are reckoned for
 * the reminder's own day.
 *
 * A day that a person chose is kept while it lies ahead, also after the end of the winter it was
 * for, as long as what it is about still waits.
 *
 * Keys, "|" and "\" in a name preceded by "\"; WINTER is the year, 0 for in use all year (of a
 * hand-in then the year it was first given out for), and N counts an owner's trips to a station in
 * one winter from 1, for good:
 *   hand-in|VESSEL|WINTER|STATION|N  last|VESSEL|WINTER|STATION
 *   base-hand-in|BASE|WINTER|STATION|N  base-last|BASE|WINTER|STATION (where her base has other
 *   vessels, whoever of them has gear on the trip)
 *   fetch|VESSEL|STATION|SINCE  base-fetch|BASE|STATION|SINCE (likewise, except for what was given
 *   out as a vessel's before)  self|VESSEL|WINTER  buy|VESSEL|WINTER  paperwork|VESSEL|WINTER
 *   cannot|VESSEL|WINTER  not-in-date|VESSEL  short|VESSEL  routine|VESSEL  now|TAG|TASK
 *   (of several in one the first as the boat has them)
 *   item|TAG|TASK  do|TAG|TASK|WINTER */
void reminders_make(const struct reminder_source *source, const struct shore_list *lists,
    size_t count, struct arena *arena, struct reminders *out);

/* Keeps the to-dos, or all but them; after settling, as above. */
void reminders_keep_form(struct reminders *reminders, bool todos);

/* How the keys of to-dos begin. */
#define TODO_KEY "do|"

/* What a to-do is about. */
struct todo {
	const char *tag;
	enum task task;
};

/* Reads a to-do's key, in `arena`; `*is_todo_out` is false for another reminder's. */
void todo_of_key(
    const char *key, struct arena *arena, struct todo *out, bool *is_todo_out);

/* Reads the key of a hand-in's reminder, in `arena`: owner, winter, station and number are filled
 * in, the rest is 0; `*is_one_out` is false for another reminder's. */
void hand_in_of_key(
    const char *key, struct arena *arena, struct settled_hand_in *out, bool *is_one_out);

/* True when a scope of a vessel or of a base has this vessel in it. */
bool scope_has_vessel(const struct scope *scope, const struct vessel *vessel);

/* Keeps the reminders of a scope, in their order. Of a station: the hand-ins and collects
 * there. They are settled before, so that narrowing them makes none go. */
void reminders_narrow(struct reminders *reminders, const struct inventory *inventory,
    const struct scope *scope);

/* The UUID of a reminder that was never stored, in `arena`, as the next function gives it. */
const char *reminder_identity(const char *identity, const char *key, struct arena *arena);

/* Gives each reminder its identity: the stored UID, and SEQUENCE + 1 with a new time where
 * its visible shape (day, summary, description, category) changed, nothing new where it did
 * not. A new one gets SEQUENCE 0 and a UUID (RFC 9562, version 8) that depends on the book's
 * identity and its key alone. A stored one whose shape is "" was gone before, and counts
 * as changed when its key comes back. `now` is in seconds since 1970, UTC; a change is always
 * later than the one before, even when the clock was set back. Two reminders of one key are
 * FAULT_INPUT. After a failure the reminders are not to be used. */
MUST_CHECK bool reminders_settle(struct reminders *reminders,
    const struct given_before *given, const char *identity, int64_t now,
    struct arena *arena, struct fault *fault);

#endif
