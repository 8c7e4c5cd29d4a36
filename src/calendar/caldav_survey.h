/* Both sides of a calendar before a push. Private to this room. */
#ifndef BECKET_CALENDAR_CALDAV_SURVEY_H
#define BECKET_CALENDAR_CALDAV_SURVEY_H

#include "calendar/caldav_push.h"

/* Gathers what is wanted (in the order of the reminders), what is remembered, and what is
 * there. A resource whose ETag is the one remembered is not fetched again; the rest of a
 * calendar is fetched only when a reminder is not found at the address where it should be. */
MUST_CHECK bool caldav_survey(const struct caldav_push *push, struct arena *arena,
    struct caldav_sides *out, struct fault *fault);

/* Reads what a resource holds. One that can't be read has no day, and a digest that no other
 * has; `uid` is then the one expected there. */
void caldav_read_resource(const struct caldav_resource *resource, const char *uid,
    struct arena *arena, struct caldav_theirs *out);

#endif
