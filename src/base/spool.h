/* Bytes kept out of memory until they are wanted, and sorted runs of pieces of text kept
 * so: for an answer about many boats, of which nothing may be shown before all of it is
 * known.
 *
 * They are in a file without a name, in $TMPDIR or else /tmp, once they are many; what
 * that does not take (a full disk, no folder that can be written) stays in memory, so
 * that adding never fails. */
#ifndef BECKET_BASE_SPOOL_H
#define BECKET_BASE_SPOOL_H

#include "base/text.h"

#include <stdint.h>

/* Starts as `{ 0 }`; free with spool_clear, which takes the file away. */
struct spool {
	size_t length; /* of all bytes */
	/* the rest is the spool's own */
	size_t in_file;   /* so many of them are in the file, the others in `rest` */
	int file;         /* its descriptor and one; 0 for none */
	bool in_memory;   /* the file takes no more */
	struct text rest; /* owned */
};

void spool_clear(struct spool *spool);
void spool_add(struct spool *spool, const char *bytes, size_t length);

/* Reads so many bytes from `at` on, all of which are there. FAULT_FILE. */
MUST_CHECK bool spool_read(
    const struct spool *spool, size_t at, char *out, size_t length, struct fault *fault);

/* Adds all of it to a text. FAULT_FILE, and nothing is added. */
MUST_CHECK bool spool_read_all(
    const struct spool *spool, struct text *out, struct fault *fault);

/* A piece of text and what it is sorted by. */
struct run_piece {
	int64_t key;
	const char *bytes;
	size_t length;
	const char *word; /* those of one key, byte by byte; NULL for "" */
};

/* Sorted runs. Starts as `{ 0 }`; free with runs_clear. */
struct runs {
	struct spool spool;
	size_t *items; /* owned; where each run ends in the spool */
	size_t count;
	size_t capacity;
};

void runs_clear(struct runs *runs);

/* Adds a piece to the run that is being added; its key and word are no less than those of the piece
 * before. Its bytes and word are copied. */
void runs_add(struct runs *runs, const struct run_piece *piece);

/* The same for bytes that may be many: several pieces of some kilobytes, so that little
 * of them is held where the runs are read. */
void runs_add_long(struct runs *runs, const struct run_piece *piece);

/* Ends the run. */
void runs_end(struct runs *runs);

/* Hands out all pieces of runs that were ended by their keys and words, those with the
 * same by their runs, then as they were added. It needs some kilobytes a run. FAULT_FILE,
 * then behind some pieces. */
MUST_CHECK bool runs_merge(const struct runs *runs,
    void (*take)(const struct run_piece *piece, void *context), void *context,
    struct fault *fault);

#define SCOPED_SPOOL __attribute__((cleanup(spool_clear))) struct spool
#define SCOPED_RUNS __attribute__((cleanup(runs_clear))) struct runs

#endif
