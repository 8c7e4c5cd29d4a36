/* A file system of SQLite's in which one kind of call fails, the n-th of them or all from
 * the n-th on: what a disk does that is full, torn out or broken. */
#ifndef BECKET_TEST_FAILING_DISK_H
#define BECKET_TEST_FAILING_DISK_H

#include <stdbool.h>

enum disk_call {
	DISK_OPEN,
	DISK_READ,
	DISK_WRITE,
	DISK_SYNC,
	DISK_TRUNCATE,
	DISK_LOCK,
	DISK_INDEX, /* the index of the write-ahead log, shared in memory */
	DISK_DELETE,
	DISK_CALLS
};

/* Takes the place of the usual file system for every book opened from now on. */
void disk_begin(void);

/* Fails the n-th call of this kind from now on, and with `broken` all after it. */
void disk_fail(enum disk_call call, int n, bool broken);

/* Nothing fails any more; true when something has failed since disk_fail. */
bool disk_mend(void);

const char *disk_word(enum disk_call call);

#endif
