/* Connections that take too long, ended. */
#include "base/memory.h"
#include "page/serve_inside.h"

#include <stdlib.h>
#include <sys/socket.h>

/* Seconds within which a request must be answered in full. */
enum { DEADLINE_SECONDS = 20 };

time_t
monotonic_now(void)
{
	struct timespec now = {0};
	(void)clock_gettime(CLOCK_MONOTONIC, &now);
	return now.tv_sec;
}

void
reaper_note(void *context, struct MHD_Connection *connection, void **unused,
    enum MHD_ConnectionNotificationCode code)
{
	struct reaper *reaper = context;
	const union MHD_ConnectionInfo *info =
	    MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
	(void)unused;
	if (info == NULL) {
		return;
	}
	(void)pthread_mutex_lock(&reaper->lock);
	for (size_t i = 0; i < reaper->count; i++) {
		if (reaper->items[i].socket == info->connect_fd) {
			reaper->items[i] = reaper->items[--reaper->count];
			break;
		}
	}
	if (code == MHD_CONNECTION_NOTIFY_STARTED && reaper->count < reaper->most) {
		reaper->items[reaper->count++] =
		    (struct waiting){info->connect_fd, monotonic_now()};
	}
	(void)pthread_mutex_unlock(&reaper->lock);
}

void
reaper_note_answered(void *context, struct MHD_Connection *connection, void **upload_at,
    enum MHD_RequestTerminationCode code)
{
	struct upload *upload = *upload_at;
	(void)code;
	if (upload != NULL) {
		text_clear(&upload->body);
		free(upload);
		*upload_at = NULL;
	}
	reaper_note(context, connection, upload_at, MHD_CONNECTION_NOTIFY_STARTED);
}

/* Shuts down late connections; the library then closes them. A socket in the list is
 * still open, as it is taken out of the list under the lock before it is closed. */
static void *
reap(void *context)
{
	struct reaper *reaper = context;
	(void)pthread_mutex_lock(&reaper->lock);
	while (!reaper->stop) {
		struct timespec until = {0};
		time_t now = monotonic_now();
		for (size_t i = 0; i < reaper->count; i++) {
			if (now - reaper->items[i].since >= DEADLINE_SECONDS) {
				(void)shutdown(reaper->items[i].socket, SHUT_RDWR);
			}
		}
		(void)clock_gettime(CLOCK_MONOTONIC, &until);
		until.tv_sec += 1;
		(void)pthread_cond_timedwait(&reaper->wake, &reaper->lock, &until);
	}
	(void)pthread_mutex_unlock(&reaper->lock);
	return NULL;
}

bool
reaper_start(struct reaper *reaper, size_t most, struct fault *fault)
{
	pthread_condattr_t monotonic;
	reaper->items = memory_zeroed(most, sizeof *reaper->items);
	reaper->most = most;
	(void)pthread_mutex_init(&reaper->lock, NULL);
	(void)pthread_condattr_init(&monotonic);
	(void)pthread_condattr_setclock(&monotonic, CLOCK_MONOTONIC);
	(void)pthread_cond_init(&reaper->wake, &monotonic);
	(void)pthread_condattr_destroy(&monotonic);
	if (pthread_create(&reaper->thread, NULL, reap, reaper) != 0) {
		free(reaper->items);
		return fault_set(fault, FAULT_FILE, "the machine gives no thread");
	}
	return true;
}

void
reaper_stop(struct reaper *reaper)
{
	(void)pthread_mutex_lock(&reaper->lock);
	reaper->stop = true;
	(void)pthread_cond_signal(&reaper->wake);
	(void)pthread_mutex_unlock(&reaper->lock);
	(void)pthread_join(reaper->thread, NULL);
	(void)pthread_cond_destroy(&reaper->wake);
	(void)pthread_mutex_destroy(&reaper->lock);
	free(reaper->items);
}
