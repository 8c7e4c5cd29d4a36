/* Keeping a book: copies of it, with a person's own rule sheets beside it, and putting them back. */
#ifndef BECKET_DESK_KEEPING_H
#define BECKET_DESK_KEEPING_H

#include "book/backup.h"
#include "desk/desk.h"

/* What became of the sheets that a copy carries; words in the desk's arena. */
struct keeping {
	const char *kept; /* where the book that was there is kept; "" for none */

	struct kept_sheet {
		const char *name;
		bool same;        /* it stood beside the book already, to the byte */
		const char *kept; /* where what stood there is kept; "" for nothing */
	} * sheets;

	size_t sheet_count;
};

/* Copies the book and all of a person's own sheets to the file `path` (book_backup). */
MUST_CHECK bool desk_backup(struct desk *desk, const char *path, bool over,
    const struct progress *progress, struct keeping *out, struct fault *fault);

/* Puts the copy at `from` in the place of the book (book_restore), and the sheets it carries
 * beside it. A sheet that is there and differs is kept beside the new one, under its name with
 * ".before-restore" behind (and "-2" and so on), where no sheet is looked for; other sheets stay
 * as they are. No sheet moves unless the book was restored. */
MUST_CHECK bool desk_restore(struct desk *desk, const char *from,
    const struct progress *progress, struct keeping *out, struct fault *fault);

#endif
