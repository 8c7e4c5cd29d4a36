/* Addresses at which calendar programs fetch reminders: made, revoked, and what they
 * give. */
#ifndef BECKET_DESK_FEEDS_H
#define BECKET_DESK_FEEDS_H

#include "book/reminders.h"
#include "desk/desk.h"

/* Makes an address with a secret of its own, in the desk's arena, for the reminders of a
 * scope. */
MUST_CHECK bool desk_new_feed(struct desk *desk, const struct scope *scope, bool todos,
    struct book_feed *out, struct fault *fault);

/* Revokes an address for good: it gives nothing any more. */
MUST_CHECK bool desk_revoke_feed(struct desk *desk, int64_t number, struct fault *fault);

/* Keeps where the feeds are served. */
MUST_CHECK bool desk_keep_feed_host(
    struct desk *desk, const struct book_feed_host *serving, struct fault *fault);

enum { FEED_DIGEST_SIZE = 33 };

/* What an address gives. */
struct feed_body {
	bool found;      /* false: there is no such address, and nothing else is set */
	int64_t number;  /* of the address */
	struct text ics; /* free with text_clear */
	char digest[FEED_DIGEST_SIZE]; /* of the bytes, in hexadecimal */
	int64_t modified;              /* seconds since 1970, UTC, of the last change */
	size_t count;                  /* of reminders in it */
	size_t of;                     /* how many there are: the soonest are given */
};

/* The most of a feed: more is refused by some programs (shared calendars' limits,
 * read). */
enum { FEED_MOST_REMINDERS = 1000, FEED_MOST_BYTES = 1000000 };

/* Makes the feed with this secret; what changed is kept before it is given out. */
MUST_CHECK bool desk_feed(
    struct desk *desk, const char *secret, struct feed_body *out, struct fault *fault);

#endif
