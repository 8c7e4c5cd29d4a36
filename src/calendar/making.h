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
};

/* Takes the reminder out of the working room, with the caution at its end. */
MUST_CHECK bool making_finish(
    struct making *making, const struct made_as *as, struct fault *fault);

/* Adds a to-do for each line, to be done by `day`, or by the line's own last or due day where
 * that is DAY_NONE; they belong to the reminder made last. */
MUST_CHECK bool todos_add(struct making *making, const struct shore_lines *lines,
    day_t day, struct fault *fault);

#endif
