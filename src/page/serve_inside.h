/* Inside the page room: what the files of the server share. The only header with types of
 * libmicrohttpd and of threads; only for serve*.c. */
#ifndef BECKET_PAGE_SERVE_INSIDE_H
#define BECKET_PAGE_SERVE_INSIDE_H

#include "page/http_calls.h"
#include "page/serve.h"

#include <pthread.h>
#include <time.h>

/* A connection, and when its present request began. */
struct waiting {
	int socket;
	time_t since; /* of a monotonic clock */
};

/* Ends connections that take too long. The library's own limit starts again with every
 * byte. */
struct reaper {
	pthread_t thread;
	pthread_mutex_t lock; /* protects all members below */
	pthread_cond_t wake;
	bool stop;
	struct waiting *items; /* owned; room for every connection there may be */
	size_t count;
	size_t most;
};

/* What was sent of a request so far. */
struct upload {
	struct text body;
	size_t most; /* bytes that are taken; 0: the body is not kept */
	bool too_long;
};

/* Seconds of a monotonic clock. */
time_t monotonic_now(void);

/* Starts the thread that ends late connections, with room for `most` connections.
 * FAULT_FILE. */
MUST_CHECK bool reaper_start(struct reaper *reaper, size_t most, struct fault *fault);

/* Ends it, after the library has stopped: no connection is left. */
void reaper_stop(struct reaper *reaper);

/* Called by the library when a connection begins, and before its socket is closed;
 * `context` is the reaper. */
void reaper_note(void *context, struct MHD_Connection *connection, void **unused,
    enum MHD_ConnectionNotificationCode code);

/* Called by the library when a request was answered, as the time limit starts again for
 * the next one. Frees the upload. */
void reaper_note_answered(void *context, struct MHD_Connection *connection,
    void **upload_at, enum MHD_RequestTerminationCode code);

/* The answer as the library sends it, which owns its bytes; NULL when memory ran out. For
 * a HEAD and with a 304 the library sends the length without the body. */
struct MHD_Response *response_of(struct web_answer *answer);

#endif
