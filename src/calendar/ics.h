/* Reminders as an iCalendar object (RFC 5545), through libical, one event at a time. */
#ifndef BECKET_CALENDAR_ICS_H
#define BECKET_CALENDAR_ICS_H

#include "base/text.h"
#include "calendar/reminders.h"

/* Adds a whole calendar to `out`: CRLF, lines of at most 75 octets, the same reminders
 * giving the same bytes. `name` is the calendar's name, without comma or semicolon. */
MUST_CHECK bool ics_write(const char *name, const struct reminder *reminders,
    size_t count, struct text *out, struct fault *fault);

/* Folds one unfolded content line: no line over 75 octets, no UTF-8 sequence split, none
 * between a backslash and its letter, no continuation blank or ending in a blank. Adds CRLF. */
void ics_fold(const char *line, size_t length, struct text *out);

#endif
