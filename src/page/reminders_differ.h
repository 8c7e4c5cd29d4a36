/* Inside the page room: what a choice changes about the reminders. */
#ifndef BECKET_PAGE_REMINDERS_DIFFER_H
#define BECKET_PAGE_REMINDERS_DIFFER_H

#include "base/text.h"
#include "desk/remind.h"

/* Adds a line for each reminder that is on another day, says another thing, comes or goes. */
void reminders_differ(const struct reminders_seen *before,
    const struct reminders_seen *after, struct text *out);

#endif
