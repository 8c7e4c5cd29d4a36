/* Reminders in the making: what the files that make them share. Private to this room. */
#ifndef BECKET_CALENDAR_MAKING_H
#define BECKET_CALENDAR_MAKING_H

#include "base/text.h"
#include "calendar/reminders.h"
#include "calendar/wording.h"

/* What all reminders of one call are made with. Free with making_clear. */
struct making {
	const struct reminder_source *source;
	struct wording wording;
	day_t today;
	struct arena *arena;
	struct reminders made;
	const struct shore_list *lists; /* all of them; borrowed */
	size_t list_count;
	const struct shore_list *list; /* the one at hand */
	day_t day;                     /* of the reminder at hand, once it is known */
	day_t aim;
	const char *last_key; /* of the reminder made last; NULL for none */
	struct text key;      /* working room, as the two below */
	struct text summary;
	struct text description;
};

void making_clear(struct making *making);

/* The name of the vessel at hand. */
const char *making_vessel(const struct making *making);

/* The base of a list's vessel; "" when not known. */
const char *making_base(const struct making *making, const struct shore_list *list);

/* Empties the working room for the next reminder. */
void making_start(struct making *making);

/* Adds a name to the key, so that no name can be read as two. */
void making_key_name(struct making *making, const char *name);

/* Starts the key with what kind of reminder it is, the vessel and the winter at hand. */
void making_key_start(struct making *making, const char *word);

/* The part of a list that one reminder of a winter is about. */
struct share {
	int year;  /* the winter's; 0 for in use all year */
	bool over; /* that winter is over: a person chose a later day for its reminder */
	struct shore_lines lines;
};

enum { SHARES = 2 };

/* Divides lines of the list at hand between the winter before, where a person's day for its
 * reminder of this kind (the key's first word) lies ahead, and the winter at hand. What was not
 * done in the one before is what has lapsed or will before this one. Where a person's day for
 * the one at hand lies ahead, what would have been in this part and can't be done in time any more
 * is with it. In the arena. */
void making_shares(struct making *making, const char *word, enum own_part part,
    const struct shore_lines *lines, struct share out[SHARES]);

/* Starts the key with what kind of reminder it is, the vessel and a share's winter. */
void making_key_share(struct making *making, const char *word, const struct share *share);

/* Said of a chosen day that lies behind the winter it was chosen in. */
#define WINTER_OVER                                                                      \
	"TOO LATE: this day was chosen, but the winter it was for is over by then.\n"

/* What a reminder has beside its words. */
struct made_as {
	const char *station; /* where to; "" for nowhere */
	bool last_chance;
	bool hand_in;  /* its words are those of the list */
	bool as_given; /* a hand-in's: its day and pieces are those given out last */
	bool todo;
	bool stays;        /* also once she has left: what is ashore is to be fetched */
	const char *about; /* a to-do's reminder: its key; "" for none */
	/* whose it is, in the arena; NULL for the vessel at hand */
	const size_t *vessels;
	size_t vessel_count;
};

/* Finds the day of the reminder whose key is in the working room, and has the words speak of
 * that day. `aim` is the day it would be on by what it is about, DAY_NONE for long ago; `last`
 * the last day on which it would serve, DAY_NEVER when there is none.
 *   - A day that a person chose, while it lies ahead.
 *   - The day it was given out for, while that lies ahead and its aim is the same.
 *   - Its aim, when that is today or ahead.
 *   - The first of the chosen days of the week that is at least LEAD_DAYS ahead, or `last` where
 *     that is sooner and not past. */
void making_aim(struct making *making, day_t aim, day_t last);

/* The same for one whose day is given. */
void making_on(struct making *making, day_t day);

/* What was given out under the key in the working room, still in a calendar; NULL for nothing. */
const struct book_reminder *making_stored(const struct making *making);

/* Says so where a person chose a day that is later than the last that serves. */
void making_note_too_late(struct making *making, day_t last);

/* The same of a share of the lines at hand. */
void making_note_share(struct making *making, const struct share *share, day_t last);

/* True when the vessel of a list is in the fleet on a day. */
bool making_is_here(
    const struct making *making, const struct shore_list *list, day_t day);

/* Takes the reminder out of the working room, with the caution at its end; there is none where
 * all whose it is will have left by its day, unless it stays. One that was given out
 * for the same day, which is not past, says what it said then as long as the journal has no new
 * entry that may concern its vessels: days that pass change no words. So does a hand-in whose pieces and other days are the
 * same, too; only the reasons in its list may be of the day it was given out. */
void making_finish(struct making *making, const struct made_as *as);

/* The same for an event of the vessel at hand that goes to no station. */
void making_finish_here(struct making *making);

/* How many days before its day a line is to be told: what a person chose for its kind, or
 * `otherwise`. */
int making_notice(
    const struct making *making, const struct shore_line *line, int otherwise);

/* The key of the reminder made last; "" before the first, and where none was made of it. */
const char *making_last_key(const struct making *making);

/* The earliest of the lines' last days; DAY_NEVER when none has one. */
day_t making_last_day(const struct shore_lines *lines);

/* Adds a to-do for each line, to be done by `day`, or by the line's own last or due day where
 * that is DAY_NONE; they belong to the reminder with the key `about`. */
void todos_add(
    struct making *making, const struct shore_lines *lines, const char *about, day_t day);

/* Adds a reminder for each trip of the list at hand, with its to-dos, and one for the last day on
 * which what still waits can be handed in at its station, of an owner's trips there in a winter. A trip that vessels of a base share is told once, under the first
 * list that has it. */
void trips_add(struct making *making);

/* Adds a reminder to fetch what went ashore, one for each station and day on which it went; of
 * vessels of one base one for all of them, under the first list that has it, but for what was given
 * out before as one vessel's. */
void fetches_add(struct making *making);

/* Adds one reminder of all that is not in date aboard the vessel at hand on the reminder's own
 * day: the first of the chosen days of the week at least LEAD_DAYS ahead when first given out. */
MUST_CHECK bool gathered_add(struct making *making, struct fault *fault);

/* Adds the day a vessel falls short, or is known to be. */
MUST_CHECK bool fall_add(
    struct making *making, const struct fall *fall, struct fault *fault);

/* Adds what can't wait for a winter and is still in date, or is on a day of a person's that lies
 * ahead, each on its due day less its notice; a to-do for each of these and of what is not in date any more. */
void now_add(struct making *making);

/* Adds what can't be done this winter, on lay-up day: it needs another plan by then. */
void cannot_add(struct making *making);

/* Adds one for each line of the parts that are otherwise gathered, where a person chose so. */
void singles_add(struct making *making);

/* Adds the looks that come round within the year, on the day the first of them is due, where
 * a person chose so. */
void routines_add(struct making *making);

#endif
