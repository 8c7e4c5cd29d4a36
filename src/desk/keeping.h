/* Keeping a book: copies of it, with a person's own rule sheets beside it, and putting
 * them back. */
#ifndef BECKET_DESK_KEEPING_H
#define BECKET_DESK_KEEPING_H

#include "book/backup.h"
#include "desk/desk.h"

/* What became of the sheets that a copy carries; words in the desk's arena. */
struct keeping {
	const char *kept; /* where the book that was there is kept; "" for none */

	struct kept_sheet {
		const char *name;
		const char *kept; /* where what stood there is kept; "" for nothing */
	} * sheets;

	size_t sheet_count;
};

/* Copies the book and all of a person's own sheets to the file `path` (book_backup), and
 * notes when (desk/copied.h). Of a book with values that becket did not write a copy is
 * made with a remark, and not noted; it takes the place of no file: FAULT_BOOK. */
MUST_CHECK bool desk_backup(struct desk *desk, const char *path, bool over,
    const struct progress *progress, struct keeping *out, struct fault *fault);

/* The same copy as an open file that no longer has a name, for callers without a path;
 * `*file_out`, above 0, is the caller's to close. */
MUST_CHECK bool desk_backup_file(struct desk *desk, int *file_out, struct fault *fault);

/* Puts the copy at `from` in the place of the book (book_restore), and the sheets it
 * carries beside it. A sheet that is there and differs is kept beside the new one, under
 * its name with ".before-restore" after it (and "-2" and so on), where no sheet is looked
 * for; other sheets stay as they are. No sheet moves unless the book was restored. */
MUST_CHECK bool desk_restore(struct desk *desk, const char *from,
    const struct progress *progress, struct keeping *out, struct fault *fault);

/* A copy that came as bytes, written for the time of a call to a file beside the book
 * that its owner alone can read. Starts as `{ 0 }`; end with brought_clear, whether it
 * was written or not. */
struct brought {
	struct text folder;
	struct text path; /* of the copy in it */
};

/* Writes the copy, and makes the folder of a book that there is not yet. FAULT_FILE. */
MUST_CHECK bool brought_write(struct desk *desk, const char *bytes, size_t length,
    struct brought *out, struct fault *fault);
void brought_clear(struct brought *brought);

/* Begins a book where there is none yet: its identity, 32 hexadecimal digits, and the
 * currency of its prices where they are not NULL. FAULT_INPUT where there is one. */
MUST_CHECK bool desk_begin_book(
    struct desk *desk, const char *identity, const char *currency, struct fault *fault);

/* Sets the currency of the book's prices, an ISO 4217 code. Prices that are there keep
 * their figures, which is remarked on; FAULT_INPUT where the new one has other decimals,
 * in which they would mean something else. */
MUST_CHECK bool desk_set_currency(
    struct desk *desk, const char *currency, struct fault *fault);

/* Accepts the book as it is as what becket wrote (book_accept). */
MUST_CHECK bool desk_accept(struct desk *desk, bool *differed_out, struct fault *fault);

/* Takes back the journal's entry of a number, 0 for the last that can be (book_undo).
 * `*undone_out` is the entry taken back, `*entry_out` that which tells of it. */
MUST_CHECK bool desk_undo(struct desk *desk, int64_t wanted, int64_t *undone_out,
    int64_t *entry_out, struct fault *fault);

#endif
