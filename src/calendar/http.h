/* HTTP to one server, through libcurl. The only file that opens sockets is http.c.
 *
 * Credentials go to one origin (scheme, host and port) and nowhere else: a request to any
 * other is refused, and so is a redirect to one. */
#ifndef BECKET_CALENDAR_HTTP_H
#define BECKET_CALENDAR_HTTP_H

#include "base/text.h"

struct http; /* a session with one server; close with http_close */

/* How to talk to the server. Strings are borrowed until http_open returns. */
struct http_settings {
	const char *url;      /* any address on the server */
	const char *user;     /* "" when none is asked for */
	const char *password; /* "" for none */
	const char *ca_file;  /* certificates to trust, PEM; "" for the system's */
	int timeout_seconds;  /* for one request, 1 to 3600 */
	bool allow_plain;     /* http without TLS to hosts other than this machine */
};

/* Checks the address alone, as http_open does first. */
MUST_CHECK bool http_check(const struct http_settings *settings, struct fault *fault);

/* Checks the address and readies a session; nothing is sent yet. FAULT_INPUT: an address
 * that is not http or https, or has a user, a password, a question mark or a "#" part; http
 * to another machine without allow_plain. */
MUST_CHECK bool http_open(
    const struct http_settings *settings, struct http **http_out, struct fault *fault);
void http_close(struct http *http);

struct http_request {
	const char *method; /* "PROPFIND" */
	const char *url;
	const char *depth;        /* "0" or "1"; NULL for none */
	const char *content_type; /* NULL when there is no body */
	const char *if_match;     /* an ETag as the server gave it; NULL for none */
	bool if_none_match;       /* only where there is nothing yet */
	const char *body;         /* NULL for none */
	size_t length;
};

/* Starts as `{ 0 }`; free with http_answer_clear. */
struct http_answer {
	int status;
	struct text url;          /* where the answer came from, after redirects */
	struct text etag;         /* empty when none was sent */
	struct text content_type; /* empty when none was sent */
	struct text location;
	struct text body; /* at most 32 MiB */
};

void http_answer_clear(struct http_answer *answer);

#define SCOPED_ANSWER __attribute__((cleanup(http_answer_clear))) struct http_answer

/* Sends a request and waits for its answer. Redirects are followed with the same method, at
 * most five and within the origin; `answer` is emptied first. The answer may have any status
 * but 401: that is FAULT_INPUT, the user or the password being wrong. FAULT_FILE: no
 * connection, a certificate that can't be verified, no answer in time, an answer that is too
 * long, a redirect that is not followed. Nobody knows then whether a change was made. */
MUST_CHECK bool http_ask(struct http *http, const struct http_request *request,
    struct http_answer *answer, struct fault *fault);

/* Adds "https://host:443": scheme, host and port of an address, the port always. FAULT_INPUT
 * when it is none. */
MUST_CHECK bool http_origin(const char *address, struct text *out, struct fault *fault);

/* Adds the address that `reference` means on a page at `base`, spelt in one way whatever
 * way the server escaped it. FAULT_INPUT when it is none. */
MUST_CHECK bool http_resolve(
    const char *base, const char *reference, struct text *out, struct fault *fault);

/* Adds one part of an address, every byte but letters, digits and "-._~" escaped. */
void http_escape(const char *part, struct text *out);

#endif
