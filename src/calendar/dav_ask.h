/* A question to a WebDAV server and what it says. Private to caldav.c and caldav_find.c. */
#ifndef BECKET_CALENDAR_DAV_ASK_H
#define BECKET_CALENDAR_DAV_ASK_H

#include "calendar/dav_xml.h"
#include "calendar/http.h"

struct dav_question {
	const char *method;
	const char *url;
	const char *depth; /* "0" or "1"; NULL for none */
	const char *body;  /* XML */
};

struct dav_reply {
	int status;               /* 207 when there is an answer */
	const char *url;          /* where it came from; in the arena */
	struct dav_answer answer; /* empty but for 207 */
};

/* Asks. Any status is a reply; what is sent with 207 must be a multistatus. */
MUST_CHECK bool dav_ask(struct http *http, const struct dav_question *question,
    struct arena *arena, struct dav_reply *out, struct fault *fault);

/* The fault for a status that there is no going on from. Returns false. */
bool dav_unexpected(int status, const char *url, struct fault *fault);

#endif
