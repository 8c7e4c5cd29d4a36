/* Whose word holds where a person changed a calendar: said with --keep, or asked. */
#ifndef BECKET_CLI_CALENDAR_KEEP_H
#define BECKET_CLI_CALENDAR_KEEP_H

#include "calendar/caldav_push.h"
#include "cli/context.h"

/* What --keep says. All in the context's arena. */
struct calendar_keep {
	enum caldav_keep usual; /* of all that is not named */
	struct caldav_choice *choices;
	size_t count;
};

/* Reads what every --keep says, `words`: "ours" or "theirs" for all, "ours=ID,ID" or "theirs=ID,ID" for the reminders
 * of the book whose identities start so. Looks them up in the book. FAULT_INPUT for an identity
 * that is not one reminder's, or is told both; FAULT_USAGE for another word. */
MUST_CHECK bool calendar_keep_read(struct context *context, const struct word_list *words,
    struct calendar_keep *out, struct fault *fault);

/* Adds one choice. */
MUST_CHECK bool calendar_keep_add(struct context *context, struct calendar_keep *keep,
    const char *uid, enum caldav_keep which, struct fault *fault);

/* Asks at the terminal which day holds of a reminder that was moved on both sides. CALDAV_ASK when
 * it is to be left. */
MUST_CHECK bool calendar_keep_ask(const char *summary, day_t theirs, day_t ours,
    enum caldav_keep *out, struct fault *fault);

#endif
