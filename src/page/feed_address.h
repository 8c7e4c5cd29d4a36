/* Where the calendar feeds are served, and by which address each is fetched. */
#ifndef BECKET_PAGE_FEED_ADDRESS_H
#define BECKET_PAGE_FEED_ADDRESS_H

#include "base/text.h"
#include "desk/feeds.h"

/* Where they are served when nothing else is told. */
enum { FEED_USUAL_PORT = 7461 };

struct feed_host {
	const char *listen; /* the address listened at */
	const char *host;   /* the name by which others reach it; "" for that address */
	int port;
};

/* Where they were served last, borrowed; on this machine alone when they never were. */
struct feed_host feed_host_last(const struct book_feed_host *last);

/* Whether another machine can find it there: not by an address of this one alone, nor by one that
 * stands for all. */
bool feed_in_reach(const struct feed_host *place);

/* The same of the place of an origin, "https://becket.example:7462": its scheme and what
 * follows the name do not matter. */
bool origin_in_reach(const char *origin);

/* Adds "http://127.0.0.1:7461/feed/SECRET.ics", of the scheme given. An IPv6 address stands in
 * brackets (RFC 3986 section 3.2.2). */
void feed_address(const struct feed_host *place, const char *scheme, const char *secret,
    struct text *out);

#endif
