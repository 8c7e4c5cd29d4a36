/* A calendar feed over HTTP, as one request and its answer. Pure except for the maker it is
 * given: no socket, no clock. The sockets are in serve*.c.
 *
 * A feed has one address that holds a long random secret, so it needs no login; every other
 * address is "not found", and so is one that was revoked. Only GET and HEAD are answered. A
 * request that brings the ETag it has (RFC 9110 section 13.1.2), or the date of the last
 * change (section 13.1.3), is told 304 when that is still true. */
#ifndef BECKET_PAGE_FEED_H
#define BECKET_PAGE_FEED_H

#include "page/web.h"

#include <stdint.h>

enum { FEED_ETAG_SIZE = 40 };

/* A calendar as it stands. */
struct feed {
	struct text body; /* owned by whoever made the feed */
	char etag
	    [FEED_ETAG_SIZE]; /* a digest of the body: word characters only, no quotes */
	int64_t modified;     /* seconds since 1970, UTC, of the last change, removals
				    * included */
};

/* Makes the feed whose address has this secret; false in `*found_out` when there is none. On
 * failure the fault goes to the log and the client is told 503. */
struct feed_source {
	bool (*make)(void *context, const char *secret, struct feed *out, bool *found_out,
	    struct fault *fault);
	void *context;
};

/* Answers a request from a `const struct feed_source`, the context: for struct web_source. Fails
 * only when the feed can't be made, and has then answered 503. */
bool feed_answer(void *context, const struct web_request *request, struct web_answer *out,
    struct fault *fault);

/* The path of the feed with this secret, "/feed/SECRET.ics", added to `out`. */
void feed_path(const char *secret, struct text *out);

/* A date as HTTP has it: "Sun, 06 Nov 1994 08:49:37 GMT" (the example of RFC 9110 section
 * 5.6.7). Returns `buffer`. */
const char *http_date(int64_t seconds, char buffer[HTTP_DATE_SIZE]);

/* Reads such a date. False for the two obsolete forms and for what is none; the caller then
 * does as if none had been sent. */
bool http_date_read(const char *words, int64_t *seconds_out);

#endif
