/* The book's reminders, made and given their identity: what a file, a feed and a server all
 * get. */
#ifndef BECKET_CLI_REMINDING_H
#define BECKET_CLI_REMINDING_H

#include "calendar/reminders.h"
#include "cli/context.h"

/* Makes the reminders of the whole fleet as of context->desk.today, settles them and stores what
 * changed. The book must be open for writing within a transaction of the caller's, so that
 * nothing is given out of which the book knows nothing. Loads the engine when it is not. Gives
 * the to-dos, or all but them. They live in the context's arena. */
MUST_CHECK bool reminding_settled(
    struct context *context, bool todos, struct reminders *out, struct fault *fault);

/* The same with events and to-dos both. */
MUST_CHECK bool reminding_settled_both(
    struct context *context, struct reminders *out, struct fault *fault);

/* The events as they would be given out today, with their identity; nothing is stored, so that
 * looking settles nothing. */
MUST_CHECK bool reminding_seen(
    struct context *context, struct reminders *out, struct fault *fault);

/* The same with events and to-dos both. */
MUST_CHECK bool reminding_seen_both(
    struct context *context, struct reminders *out, struct fault *fault);

/* Keeps the hand-in of a reminder's key as given out, on the day that it is planned for; other
 * reminders' keys are let be. */
MUST_CHECK bool reminding_keep_hand_in(
    struct context *context, const char *key, struct fault *fault);

/* The scope that --vessel, --base or --station names, at most one of them; the fleet without
 * any. FAULT_INPUT for a name that is not in the book, which is loaded for it. */
MUST_CHECK bool reminding_scope(
    struct context *context, const char *who, struct scope *out, struct fault *fault);

/* FAULT_INPUT when the book has no vessel, base or station of a scope's name. */
MUST_CHECK bool reminding_check_scope(
    const struct context *context, const struct scope *scope, struct fault *fault);

/* What to call the calendar of a scope: the name where it fits into a calendar's (no comma,
 * semicolon or backslash), else "becket". */
const char *reminding_calendar_name(const struct scope *scope);

#endif
