/* The XML of WebDAV (RFC 4918) and CalDAV (RFC 4791), through libxml2: what is asked, and what
 * a server says. Private to this room. An answer is hostile until read: no entities, no
 * document type, nothing fetched, at most 250 elements deep. */
#ifndef BECKET_CALENDAR_DAV_XML_H
#define BECKET_CALENDAR_DAV_XML_H

#include "base/memory.h"
#include "base/text.h"

/* What is said of one address. Strings are in the arena, "" when not told. */
struct dav_said {
	const char *href;
	int status; /* of the address as a whole; 200 when its properties have their own */
	bool is_collection;
	bool is_calendar;
	bool tells_components; /* it says which components it takes */
	bool takes_events;     /* as it says; false when it says nothing */
	bool takes_todos;
	const char *name; /* displayname */
	const char *etag; /* with its quotes */
	const char *principal;
	const char *home;
	const char *data; /* calendar-data */
};

struct dav_answer {
	struct dav_said *items; /* in the arena */
	size_t count;
};

/* Reads a multistatus body. Only properties that were found (status 200) count.
 * FAULT_FILE when it is none. */
MUST_CHECK bool dav_read(const char *bytes, size_t length, struct arena *arena,
    struct dav_answer *out, struct fault *fault);

/* Adds the name of the condition that a refusal gives ("no-uid-conflict"), or nothing when
 * the body gives none. */
void dav_read_condition(const char *bytes, size_t length, struct text *out);

/* Bodies of requests: all properties looked for in discovery; the ETags in a collection. */
extern const char DAV_ASK_PLACE[];
extern const char DAV_ASK_ETAGS[];

/* Adds the body that asks for the calendars' contents at some addresses, and that which
 * makes a calendar of to-dos, or of events, with this name. */
void dav_ask_contents(const char *const *hrefs, size_t count, struct text *out);
void dav_ask_make(const char *name, bool todos, struct text *out);

#endif
