/* A word to whoever waits: work that takes longer than a second says so on the terminal. */
#ifndef BECKET_CLI_WAITING_H
#define BECKET_CLI_WAITING_H

#include <pthread.h>
#include <stdbool.h>

struct waiting_word {
	pthread_t thread;
	pthread_mutex_t lock;
	pthread_cond_t changed;
	bool done; /* under the lock */
	bool told; /* a word stands on the terminal; of the thread until it has ended */
	bool begun;
};

/* From here on standard error counts the seconds, from the first on, where it is a terminal and
 * `wanted`. Nothing else may be written to it, nor anybody asked, until waiting_end, which takes
 * the word away again. `waiting` must stay where it is until then. */
void waiting_begin(struct waiting_word *waiting, bool wanted);
void waiting_end(struct waiting_word *waiting);

#endif
