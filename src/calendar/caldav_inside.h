/* Inside the calendar: WebDAV asked and read, and a calendar looked over. Not for other rooms. */
#ifndef BECKET_CALENDAR_CALDAV_INSIDE_H
#define BECKET_CALENDAR_CALDAV_INSIDE_H

#include "base/memory.h"
#include "base/text.h"
#include "calendar/caldav_push.h"
#include "calendar/http.h"

/* The XML of WebDAV (RFC 4918) and CalDAV (RFC 4791), through libxml2: what is asked, and what
 * a server says. An answer is hostile until read: no entities, no
 * document type, nothing fetched, at most 250 elements deep. */

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
	size_t capacity;
};

/* Reads a multistatus body. Only properties that were found (status 200) count.
 * FAULT_FILE when it is none, or a text of it has more than 10,000,000 bytes. */
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

/* ---- A question to a WebDAV server and what it says ---- */

struct dav_question {
	const char *method;
	const char *url;
	const char *depth; /* "0" or "1"; NULL for none */
	const char *body;  /* XML */
};

struct dav_reply {
	int status;               /* 207 when there is an answer */
	const char *url;          /* where it came from; in the arena */
	struct dav_answer answer; /* empty except for 207 */
};

/* Asks. Any status is a reply; what is sent with 207 must be a multistatus. */
MUST_CHECK bool dav_ask(struct http *http, const struct dav_question *question,
    struct arena *arena, struct dav_reply *out, struct fault *fault);

/* The fault for a status that there is no going on from. Returns false. */
bool dav_unexpected(int status, const char *url, struct fault *fault);

/* ---- Both sides of a calendar before a push ---- */

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
