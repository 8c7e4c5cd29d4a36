/* The server: libmicrohttpd in one thread of its own, so that only one request at a time
 * uses the book. Only its files (serve*.c) have sockets, except for the calendar room's
 * client. */
#ifndef BECKET_PAGE_SERVE_H
#define BECKET_PAGE_SERVE_H

#include "page/web.h"

struct server; /* a running server; end with server_stop */

struct server_options {
	const char *listen; /* an IPv4 or IPv6 address: "127.0.0.1" */
	int port;           /* 0 for any free port */
	int each;           /* most connections at once from one address; 1 or more */
	size_t most;        /* most bytes of a body; 0: bodies are not kept */
	const char *
	    too_much; /* the words of the answer to a longer one; NULL for none. Static */
	/* the address of a proxy, as address_usual has it, that is believed when it names
	 * the client (the last of X-Forwarded-For) and the scheme (X-Forwarded-Proto) of
	 * what it sends on; NULL for none. Borrowed as long as the server runs */
	const char *proxy;
	void (*log)(void *context, const char *words); /* a fault; may be NULL */
	void *log_context;
};

/* Starts to serve. An idle connection is closed after 15 s, and one whose request has not
 * been answered in full 20 s after it began is closed, too, however busy it is: slow
 * clients hold no place. The source is called from the server's thread, once at a time,
 * until the stop. A body longer than allowed is answered 413. FAULT_INPUT when the
 * address is no address, FAULT_FILE when the server can't listen there. */
MUST_CHECK bool server_start(const struct server_options *options,
    const struct web_source *source, struct server **server_out, struct fault *fault);

/* The port it listens at. */
int server_port(const struct server *server);

/* Stops, after the present request is answered. Accepts NULL. */
void server_stop(struct server *server);

/* Writes an address in its one canonical form (RFC 5952); false when it is no address. */
enum { ADDRESS_SIZE = 46 };

bool address_usual(const char *address, char out[ADDRESS_SIZE]);

/* True when only programs on this machine can reach the address: 127.0.0.0/8 or ::1. */
bool address_is_loopback(const char *address);

#endif
