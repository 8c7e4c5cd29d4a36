/* Events and to-dos read back from an iCalendar object, whoever wrote it: what a person can
 * see and change in a calendar app. */
#ifndef BECKET_CALENDAR_ICS_READ_H
#define BECKET_CALENDAR_ICS_READ_H

#include "base/memory.h"
#include "base/text.h"
#include "dates/day.h"

/* One event or to-do. Strings live in the arena it was read with, are never NULL ("" for
 * none), and are tidied as ics_write tidies its own. */
struct ics_found {
	const char *uid;
	bool todo; /* a to-do; else an event */
	day_t day; /* of its start, or, for a to-do, of its due date; DAY_NONE when
			       * there is none that exists, or outside 1900 to 2199 */
	/* the day, by UTC, a to-do was ticked off; DAY_NONE when it was not, or the
	 * program did not say when */
	day_t completed;
	int days; /* how many days it lasts; 1 unless it is an all-day event */
	/* start and end as written when it has times; "" when all day */
	const char *time;
	const char *summary; /* one line */
	const char *description;
	const char *location;
	const char *status; /* in capitals: "CONFIRMED", "CANCELLED", "COMPLETED" */
	bool repeats;       /* has a rule or further dates, or days that differ */
	int sequence;
};

/* Reads every event and to-do of the calendars in `bytes`; time zones, journals and the rest
 * are passed over, and so is a component without UID. Days that differ from a repeating
 * event's rule are not listed by themselves: its first component has `repeats` set.
 *
 * FAULT_INPUT: no calendar at all, text that is not UTF-8, a zero byte, or components
 * more than 8 deep. The caller caps the length. Lines that are no property, and values
 * that are not what their property has, count as not there. A byte order mark before it
 * is passed over. On failure the outputs are untouched. */
MUST_CHECK bool ics_read(const char *bytes, size_t length, struct arena *arena,
    struct ics_found **out, size_t *count_out, struct fault *fault);

/* Adds a digest of what a person can see of it except its day, in hexadecimal: two that
 * differ in it were changed by hand. Alarms and the category don't count: calendar
 * programs drop and add them by themselves. A status of CONFIRMED, or NEEDS-ACTION, is
 * none. */
void ics_digest(const struct ics_found *found, struct text *out);

#endif
