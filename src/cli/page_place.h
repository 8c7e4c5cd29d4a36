/* Where the page of a book is served, kept in a file that its owner alone can read, so that there
 * is one page for a book however often it is opened. */
#ifndef BECKET_CLI_PAGE_PLACE_H
#define BECKET_CLI_PAGE_PLACE_H

#include "base/text.h"

struct page_place {
	int descriptor; /* of the file, locked; 0 for none */
	char *path;     /* owned */
};

/* Takes the place for the page of the book at this path: in the folder for what lasts as long as a
 * session (XDG_RUNTIME_DIR), or beside the book where there is none. Where another program has it,
 * the address that stands there is added to `address_out`. FAULT_FILE. */
MUST_CHECK bool page_place_take(const char *book_path, struct page_place *out,
    struct text *address_out, struct fault *fault);

/* Writes the address into a place that was taken. FAULT_FILE. */
MUST_CHECK bool page_place_write(
    const struct page_place *place, const char *address, struct fault *fault);

/* Gives the place up, where it was taken, and takes its file away. */
void page_place_leave(struct page_place *place);

#endif
