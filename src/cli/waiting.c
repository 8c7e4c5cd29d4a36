#include "cli/terminal.h"

#include <errno.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

static void *
count_seconds(void *of)
{
	struct waiting_word *waiting = of;
	struct timespec until = {0};
	(void)clock_gettime(CLOCK_REALTIME, &until);
	(void)pthread_mutex_lock(&waiting->lock);
	for (int seconds = 1; !waiting->done; seconds++) {
		until.tv_sec++;
		int woken = 0;
		while (!waiting->done && woken != ETIMEDOUT) {
			woken = pthread_cond_timedwait(
			    &waiting->changed, &waiting->lock, &until);
		}
		if (!waiting->done) {
			waiting->told = true;
			(void)fprintf(stderr, "\rworking it out, %d s ", seconds);
		}
	}
	(void)pthread_mutex_unlock(&waiting->lock);
	return NULL;
}

void
waiting_begin(struct waiting_word *waiting, bool wanted)
{
	*waiting = (struct waiting_word){0};
	if (!wanted || isatty(STDERR_FILENO) == 0) {
		return;
	}
	(void)pthread_mutex_init(&waiting->lock, NULL);
	(void)pthread_cond_init(&waiting->changed, NULL);
	waiting->begun =
	    pthread_create(&waiting->thread, NULL, count_seconds, waiting) == 0;
}

void
waiting_end(struct waiting_word *waiting)
{
	if (!waiting->begun) {
		return;
	}
	(void)pthread_mutex_lock(&waiting->lock);
	waiting->done = true;
	(void)pthread_cond_signal(&waiting->changed);
	(void)pthread_mutex_unlock(&waiting->lock);
	(void)pthread_join(waiting->thread, NULL);
	(void)pthread_cond_destroy(&waiting->changed);
	(void)pthread_mutex_destroy(&waiting->lock);
	if (waiting->told) {
		/* overwritten with blanks, which works on the simplest terminals, too */
		(void)fprintf(stderr, "\r%30s\r", "");
	}
	waiting->begun = false;
}
