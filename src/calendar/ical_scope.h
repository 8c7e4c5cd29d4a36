/* libical's own things, freed when they go out of scope. For ics.c and ics_read.c alone. */
#ifndef BECKET_CALENDAR_ICAL_SCOPE_H
#define BECKET_CALENDAR_ICAL_SCOPE_H

#include "calendar/ical_calls.h"

#include <stdlib.h>

/* What one event, or one piece of a line, may take of memory, many times over: libical
 * writes to what it was not given. */
enum { ICAL_ROOM = 1024 * 1024 };

static inline void
component_clear(icalcomponent **component)
{
	if (*component != NULL) {
		icalcomponent_free(*component);
	}
}

static inline void
string_clear(char **string)
{
	free(*string);
}

#define SCOPED_COMPONENT __attribute__((cleanup(component_clear))) icalcomponent
#define SCOPED_STRING __attribute__((cleanup(string_clear))) char

#endif
