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
	struct text key;               /* working room, as the two below */
	struct text summary;
	struct text description;
};

void making_clear(struct making *making);

/* The name of the vessel at hand. */
const char *making_vessel(const struct making *making);

/* Empties the working room for the next reminder. */
void making_start(struct making *making);

/* Adds a name to the key, so that no name can be read as two. */
void making_key_name(struct making *making, const char *name);

/* Starts the key with what kind of reminder it is, the vessel and the winter. */
void making_key_start(struct making *making, const char *word);

/* What a reminder has beside its words. */
struct made_as {
	const char *station; /* where to; "" for nowhere */
	day_t day;           /* DAY_NONE for long ago */
	day_t last;          /* the last day that works; DAY_NEVER when not known */
	bool todo;
	const char *about; /* a to-do's reminder: its key; "" for none */
	/* whose it is, in the arena; NULL for the vessel at hand */
	const size_t *vessels;
	size_t vessel_count;
};

/* Takes the reminder out of the working room, with the caution at its end. */
MUST_CHECK bool making_finish(
    struct making *making, const struct made_as *as, struct fault *fault);

/* The same for an event of the vessel at hand that goes to no station. */
MUST_CHECK bool making_finish_on(
    struct making *making, day_t day, day_t last, struct fault *fault);

/* How many days before its day a line is to be told: what a person chose for its kind, or
 * `otherwise`. */
int making_notice(
    const struct making *making, const struct shore_line *line, int otherwise);

/* The key of the reminder made last; "" before the first. */
const char *making_last_key(const struct making *making);

/* The earliest of the lines' last days; DAY_NEVER when none has one. */
day_t making_last_day(const struct shore_lines *lines);

/* Adds a to-do for each line, to be done by `day`, or by the line's own last or due day where
 * that is DAY_NONE; they belong to the reminder with the key `about`. */
MUST_CHECK bool todos_add(struct making *making, const struct shore_lines *lines,
    const char *about, day_t day, struct fault *fault);

/* Adds two reminders for each trip of the list at hand, with its to-dos: one a hand-in with
 * its list, one a collect. A trip that vessels of a base share is told once, under the first
 * list that has it. */
MUST_CHECK bool trips_add(struct making *making, struct fault *fault);

/* Adds a reminder to fetch what went ashore, one for each station and day. */
MUST_CHECK bool fetches_add(struct making *making, struct fault *fault);

/* Adds what can't wait for a winter, each on its due day less its notice, with a to-do. */
MUST_CHECK bool now_add(struct making *making, struct fault *fault);

/* Adds what can't be done this winter, on lay-up day: it needs another plan by then. */
MUST_CHECK bool cannot_add(struct making *making, struct fault *fault);

/* Adds one for each line of the parts that are otherwise gathered, where a person chose so. */
MUST_CHECK bool singles_add(struct making *making, struct fault *fault);

/* Adds the looks that come round within the year, on the day the first of them is due, where
 * a person chose so. */
MUST_CHECK bool routines_add(struct making *making, struct fault *fault);

#endif
