/* Hand-ins that a person gives up for their winter, and takes back. */
#ifndef BECKET_CLI_GIVING_UP_H
#define BECKET_CLI_GIVING_UP_H

#include "calendar/reminders.h"
#include "cli/context.h"

/* Finds the one hand-in still to come at a station, or whose identity starts so. None or more than
 * one is FAULT_INPUT, which begins with the option. */
MUST_CHECK bool hand_in_to_come(struct context *context,
    const struct reminders *reminders, const char *option, const char *name,
    const struct reminder **out, struct fault *fault);

/* Reads "STATION", "ID" or either with "=REASON": of the hand-ins to come the one to that station, or
 * whose identity starts so. `out` is what is to be kept. FAULT_INPUT where there is none or more than
 * one, and for a boat in use all year, who has no winter to give it up for. In the context's arena. */
MUST_CHECK bool giving_up_read(struct context *context, const struct reminders *reminders,
    const char *words, struct planned_day *out, struct fault *fault);

/* Finds what was given up by the same words, to take it back; `*found_out` false where none is meant.
 * More than one is FAULT_INPUT. */
MUST_CHECK bool given_up_find(struct context *context, const char *name,
    struct planned_day *out, bool *found_out, struct fault *fault);

/* Adds what was given up for a winter that is not over, and how it is taken back, a line each; nothing where there is none. */
MUST_CHECK bool given_up_say(struct context *context,
    const struct reminder_choices *choices, struct text *out, struct fault *fault);

#endif
