/* CalDAV (RFC 4791): finding a calendar, seeing what is in it, and changing one resource at a
 * time. Strings handed out live in the arena. In every function FAULT_FILE is a server that
 * can't be reached or gives no sense, FAULT_INPUT one that does not take the password or
 * points to another server; after either nobody knows whether a change was made. */
#ifndef BECKET_CALENDAR_CALDAV_H
#define BECKET_CALENDAR_CALDAV_H

#include "base/memory.h"
#include "calendar/http.h"

struct caldav_calendar {
	const char *url;
	const char *name;  /* as the person sees it; else the last part of the URL */
	bool takes_events; /* both are true where it does not say */
	bool takes_todos;
};

/* Where calendars are. */
struct caldav_calendars {
	const char *home; /* where more can be made; "" when it is not known */
	const struct caldav_calendar *calendars;
	size_t count;
};

/* Finds the calendars from any address: of the server, a principal, a calendar home, or a
 * calendar itself, which is then the only one. Where the server's first page says nothing,
 * /.well-known/caldav is asked (RFC 6764, section 5). An address with no calendar server
 * behind it is FAULT_FILE. */
MUST_CHECK bool caldav_find(struct http *http, const char *url, struct arena *arena,
    struct caldav_calendars *out, struct fault *fault);

/* The calendar of this name, or, when `name` is NULL, the only one that takes what is wanted:
 * to-dos, or else events. FAULT_INPUT with the names there are when that is not one, or when
 * it does not take them. `*out` is NULL, without a fault, when `make` is set and there is
 * none of that name. */
MUST_CHECK bool caldav_choose(const struct caldav_calendars *place, const char *name,
    bool todos, bool make, const struct caldav_calendar **out, struct fault *fault);

/* Makes a calendar for to-dos, or for events. FAULT_INPUT when the server makes none. */
MUST_CHECK bool caldav_make(struct http *http, const struct caldav_calendars *place,
    const char *name, bool todos, struct arena *arena, struct caldav_calendar *out,
    struct fault *fault);

/* One resource in a calendar. */
struct caldav_resource {
	const char *url;
	const char *etag;
	const char *data; /* iCalendar text; "" when it was not asked for or not given */
};

struct caldav_resources {
	struct caldav_resource *items; /* in the arena */
	size_t count;
};

/* Lists all resources, with their ETags and no data. */
MUST_CHECK bool caldav_list(struct http *http, const char *calendar, struct arena *arena,
    struct caldav_resources *out, struct fault *fault);

/* Fetches some of them with their data, in no order. Those that are no longer there, and
 * those without data, are left out. */
MUST_CHECK bool caldav_fetch(struct http *http, const char *calendar,
    const char *const *urls, size_t count, struct arena *arena,
    struct caldav_resources *out, struct fault *fault);

/* How a change went. */
enum caldav_outcome {
	CALDAV_DONE,
	CALDAV_NOT_AS_SEEN, /* it was changed, made or removed there in the meantime */
	CALDAV_REFUSED,     /* the server does not take it */
};

struct caldav_reply {
	enum caldav_outcome outcome;
	const char *url;  /* where it is now */
	const char *etag; /* "" when the server did not say */
	const char *why;  /* words for CALDAV_REFUSED, else "" */
};

/* Writes a resource: a new one when `etag` is NULL, else in place of the one with this ETag
 * and no other. An answer of 207 is a refusal: part of it did not go through. */
MUST_CHECK bool caldav_put(struct http *http, const char *url, const char *etag,
    const struct text *ics, struct arena *arena, struct caldav_reply *out,
    struct fault *fault);

/* Removes the resource with this ETag. One that is gone already counts as removed. */
MUST_CHECK bool caldav_remove(struct http *http, const char *url, const char *etag,
    struct arena *arena, struct caldav_reply *out, struct fault *fault);

#endif
