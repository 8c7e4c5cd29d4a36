/* One request over HTTP and its answer, as plain values. The sockets are in serve*.c. */
#ifndef BECKET_PAGE_WEB_H
#define BECKET_PAGE_WEB_H

#include "base/text.h"

#include <stdint.h>

enum { WEB_ETAG_SIZE = 48, HTTP_DATE_SIZE = 32 };

/* A request. Strings are borrowed; NULL for a header that is missing. */
struct web_request {
	const char *method;
	const char *path;  /* as sent, without the query */
	const char *query; /* after the question mark; "" for none */
	const char *host;
	const char *origin;
	const char *cookie;
	const char *content_type;
	const char *if_none_match;
	const char *if_modified_since;
	const char *accept_encoding;
	/* where it comes from, as an address; of IPv6 the network, of which a client has
	 * all (RFC 6177); NULL where it is not known */
	const char *client;
	bool https; /* it came by https to the proxy that forwards it, which is trusted */
	int64_t seconds; /* of a monotonic clock */
	const struct text *body;
};

/* An answer. Starts as `{ 0 }`; free with web_answer_clear. What is "", NULL or empty is
 * not sent. */
struct web_answer {
	int status;
	const char *content_type; /* static */
	/* owned; what a GET is sent. For a HEAD and a 304 only its length is sent (RFC
	 * 9110 section 8.6) */
	struct text body;
	/* owned: an open file that is sent instead of the body, in pieces, from its
	 * beginning; 0 for none */
	int file;
	char etag[WEB_ETAG_SIZE];           /* with its quotes */
	char last_modified[HTTP_DATE_SIZE]; /* RFC 9110 section 5.6.7, IMF-fixdate */
	bool gzip;                          /* the body is compressed */
	const char *allow;                  /* the methods there are; static */
	/* a page of the book: not cached, not framed, nothing fetched from elsewhere */
	bool is_page;
	/* the digest of a style contained in the page, as the policy names it; "" for
	 * none */
	char own_style[64];
	struct text location;   /* owned: where to go on (with status 303) */
	struct text set_cookie; /* owned */
	const char
	    *file_name; /* what the client is to call a file that it saves; static */
};

void web_answer_clear(struct web_answer *answer);

/* Answers requests, one after the other. A fault goes to the log; the answer says what
 * the client is told. */
struct web_source {
	bool (*answer)(void *context, const struct web_request *request,
	    struct web_answer *out, struct fault *fault);
	void *context;
	/* asked before the body of a request is taken: whether it may be longer than the
	 * form that lets somebody in. NULL for always */
	bool (*may_send)(void *context, const struct web_request *request);
};

/* Makes the answer these words only. */
void web_say(struct web_answer *answer, int status, const char *words);

/* Makes the answer a file of the book, of that media type, whose bytes the caller adds;
 * `name` is what the client is to call it, NULL for nothing. Both are static. */
void web_file(struct web_answer *answer, const char *type, const char *name);

/* True when one of the ETags of an If-None-Match is this one (without quotes), compressed
 * or not (RFC 9110 section 13.1.2). */
bool web_has_etag(const char *list, const char *etag);

/* Adds the bytes as one gzip member (RFC 1952) without time and name, so that the same
 * bytes give the same member. */
void gzip_add(const char *bytes, size_t length, struct text *out);

#endif
