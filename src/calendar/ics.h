/* Reminders as an iCalendar object (RFC 5545), through libical, one event at a time. */
#ifndef BECKET_CALENDAR_ICS_H
#define BECKET_CALENDAR_ICS_H

#include "base/text.h"
#include "calendar/reminders.h"

/* Adds a whole calendar to `out`: CRLF, lines of at most 75 octets, the same reminders
 * giving the same bytes. `name` is the calendar's name. It and every category must be words
 * without comma, semicolon, backslash or control character; every reminder must be settled
 * and have a day in 1900 to 2199; all text must be well-formed UTF-8: else FAULT_INPUT, and
 * `out` is untouched. Texts lose control characters, runs of blanks and blanks at the ends of
 * their lines; a tab becomes a blank, and in a summary so does a line break. */
MUST_CHECK bool ics_write(const char *name, const struct reminder *reminders,
    size_t count, struct text *out, struct fault *fault);

/* The parts of that, for a calendar of which all is not in memory: its head, a reminder, its end.
 * A `feed` says how often to look again: every 12 hours (RFC 7986, section 5.7, and the
 * X-PUBLISHED-TTL that older programs know). Where one fails a part of it may be added. */
MUST_CHECK bool ics_begin(
    const char *name, bool feed, struct text *out, struct fault *fault);
MUST_CHECK bool ics_add(
    const struct reminder *reminder, struct text *out, struct fault *fault);
void ics_end(struct text *out);

/* Adds one reminder as a CalDAV resource of its own (RFC 4791, section 4.1): a calendar with
 * this one event and nothing that belongs to a whole calendar. Otherwise as ics_write. */
MUST_CHECK bool ics_write_resource(
    const struct reminder *reminder, struct text *out, struct fault *fault);

/* Folds one unfolded content line: no line over 75 octets (RFC 5545, section 3.1), no UTF-8
 * sequence split, none between a backslash and its letter, no line of blanks only or ending
 * in a blank. Blanks that end the content line are dropped. Adds CRLF. The line must be
 * UTF-8 with no run of more than 70 blanks; otherwise only the length is kept. */
void ics_fold(const char *line, size_t length, struct text *out);

#endif
