/* What is served: the feeds that are kept, and where the page of a book is. */
#ifndef BECKET_CLI_SERVING_H
#define BECKET_CLI_SERVING_H

#include "base/text.h"
#include "cli/command.h"
#include "page/feed.h"

/* Says on standard error what went wrong while serving; `context` is not read. */
void serving_log(void *context, const char *words);

/* Feeds made from the book as it is now, and kept until the book or the day changes. */

/* A feed that was made, with its secret. */
struct kept_feed {
	char *secret;     /* owned */
	struct feed feed; /* its body is owned */
};

/* Makes feeds and keeps them. Starts with only `context` set, which it borrows; clear
 * with feeding_clear. */
struct feeding {
	const struct context *context;
	struct book
	    *watch; /* owned; reads whether the book has changed; NULL when closed */
	uint64_t file[2];        /* device and number of the file that it is open on */
	int64_t version;         /* of the book when the feeds were made */
	day_t today;             /* the day they were made for */
	struct kept_feed *items; /* owned */
	size_t count;
	size_t capacity;
};

/* Makes the feed with this secret: a struct feed_source's `make`, its context a struct
 * feeding. If neither the book nor the day has changed since the feed was made, the kept
 * one is given and nothing is computed. Otherwise the book is opened again, so that what
 * other programs wrote is seen; what has changed is stored before it is given out. A feed
 * has at most the 1,000 soonest reminders and 1,000,000 bytes, as some programs refuse
 * more (shared calendars' limits, read). */
bool feeding_make(void *context, const char *secret, struct feed *out, bool *found_out,
    struct fault *fault);

void feeding_clear(struct feeding *feeding);

/* The place where the page of a book is served. It is kept in a file that only its owner
 * can read, so that a book has one page however often it is opened. */

struct page_address {
	int descriptor; /* of the file, locked; 0 for none */
	char *path;     /* owned */
};

/* Takes the place for the page of the book at this path: in the folder for files of one
 * session (XDG_RUNTIME_DIR), or beside the book if there is no such folder. If another
 * program has the place, the address written there is added to `address_out`.
 * FAULT_FILE. */
MUST_CHECK bool page_address_take(const char *book_path, struct page_address *out,
    struct text *address_out, struct fault *fault);

/* Writes the address into a place that was taken. FAULT_FILE. */
MUST_CHECK bool page_address_write(
    const struct page_address *place, const char *address, struct fault *fault);

/* Gives up the place, if it was taken, and removes its file. */
void page_address_leave(struct page_address *place);

#endif
