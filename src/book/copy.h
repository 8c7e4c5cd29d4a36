/* The files of a book: what a file says of itself, bringing it up to date, copying it
 * page by page, and putting files in their places. Only for files of this room. */
#ifndef BECKET_BOOK_COPY_H
#define BECKET_BOOK_COPY_H

#include "base/text.h"
#include "book/backup.h"
#include "book/call.h"

/* What PRAGMA application_id of a book says: "bckt". */
enum { APPLICATION_ID = 0x62636b74 };

/* What a file says of itself. */
struct file_header {
	int64_t application; /* 0 in an empty file */
	int64_t version;     /* the number of its last migration */
	int64_t tables;      /* how many it has, with their indexes */
	int64_t logs;        /* 1 when it has a write-ahead log */
};

/* The version that this program writes. */
int version_newest(void);

/* Reads the header of the open file. */
MUST_CHECK bool header_read(
    const struct book *book, struct file_header *out, struct fault *fault);

/* FAULT_BOOK for what is no book of this program or an older one, and for an older one
 * that would have to be written before it can be opened in this mode. */
MUST_CHECK bool header_check(
    const struct file_header *header, enum book_mode mode, struct fault *fault);

/* Runs the migrations that the open file lacks, all of them for an empty one, in a
 * transaction of which the journal does not tell. */
MUST_CHECK bool migrate(struct book *book, enum book_mode mode, struct fault *fault);

/* Has the open file, which has this header, keep a write-ahead log where that is
 * possible, and brings it up to date; an older one is copied first (keep_older). */
MUST_CHECK bool make_writable(struct book *book, const char *path, enum book_mode mode,
    const struct file_header *header, struct fault *fault);

/* A file being made beside the place where it will be. Removed, with what SQLite keeps
 * beside it, unless it was put there. Starts as `{ 0 }`. */
struct beside {
	struct text path;
};

void beside_clear(struct beside *beside);

#define SCOPED_BESIDE __attribute__((cleanup(beside_clear))) struct beside

/* Makes an empty file beside `path`, with the rights of the file `like` where that is
 * there, else for the owner alone; NULL for the owner alone in any case. */
MUST_CHECK bool beside_make(
    const char *path, const char *like, struct beside *out, struct fault *fault);

/* Puts it at `path`. With `over` it takes the place of what is there; otherwise a file
 * that is there is left alone, and `*taken_out` is true. */
MUST_CHECK bool beside_place(struct beside *beside, const char *path, bool over,
    bool *taken_out, struct fault *fault);

/* Copying goes on after a wait of up to 5 s for a program that holds a lock. */
struct copying {
	void *backup; /* SQLite's; NULL: nothing is being copied */
	struct database *to;
	const struct progress *progress;
};

void copying_end(struct copying *copying);

#define SCOPED_COPYING __attribute__((cleanup(copying_end))) struct copying

MUST_CHECK bool copying_begin(struct database *from, struct database *to,
    const struct progress *progress, struct copying *out, struct fault *fault);

/* Takes the lock for writing to the copy, and copies nothing yet. */
MUST_CHECK bool copying_lock(struct copying *copying, struct fault *fault);

/* Copies all pages and ends the transaction in the copy. */
MUST_CHECK bool copying_finish(struct copying *copying, struct fault *fault);

/* Copies all of a database to the empty file at `path`, as one file without a log beside
 * it, flushed to the disk. */
MUST_CHECK bool copy_to_file(struct database *from, const char *path,
    const struct progress *progress, struct fault *fault);

/* Copies all of a database into one that nobody else uses, as its schema `as`. */
MUST_CHECK bool copy_at_once(
    struct database *from, struct database *to, const char *as, struct fault *fault);

/* Copies a book of an older version, as it is, to a file of its own beside it, which is
 * named in book->older. What is there already is left alone. */
MUST_CHECK bool keep_older(
    struct book *book, const char *path, int64_t version, struct fault *fault);

/* Makes these the sheets that the copy at `path` carries. */
MUST_CHECK bool own_sheets_put(
    const char *path, const struct own_sheet *sheets, size_t count, struct fault *fault);

/* True when the two paths lead to the same file. */
bool same_file(const char *a, const char *b);

#endif
