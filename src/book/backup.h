/* Copies of a book, made and put back while other programs use it. */
#ifndef BECKET_BOOK_BACKUP_H
#define BECKET_BOOK_BACKUP_H

#include "base/memory.h"
#include "book/journal.h"

#include <stdint.h>

/* Called from time to time with how far long work is, in pages of the file. The struct,
 * and `tell`, may be NULL. */
struct progress {
	void (*tell)(void *context, int64_t done, int64_t whole);
	void *context;
};

/* A person's own rule sheet, as a backup carries it. */
struct own_sheet {
	const char *name;  /* without folder and suffix */
	const char *bytes; /* of its file */
	size_t length;
};

/* Copies the book, as it is at this moment, to a file of its own, while others may go on
 * writing. The copy is made beside its place, checked, flushed to the disk and only then
 * put there, so that a file of that name is always whole; only its owner can read it. A
 * file that is there already is FAULT_INPUT unless `over`; the book itself always is, and
 * a book that is in use (it has a log beside it). The book must be open for reading,
 * outside a transaction. The copy carries the sheets, each of another name. */
MUST_CHECK bool book_backup(struct book *book, const char *path, bool over,
    const struct own_sheet *sheets, size_t sheet_count, const struct progress *progress,
    struct fault *fault);

/* The sheets that the backup in the file `path` carries, by name, all in the arena; none
 * from an older program's. The names are as they stand there: whoever makes files of them
 * checks them first. */
MUST_CHECK bool book_backup_sheets(const char *path, struct arena *arena,
    const struct own_sheet **out, size_t *count_out, struct fault *fault);

/* Whether every value in the copy is as this program wrote it; so it is where an older
 * program made it, which kept no sum, and where it can't be read, which restoring it
 * tells. */
bool book_backup_is_as_written(const char *path);

/* Puts the book in the file `from` in place of the one at `path`. It must be a sound book
 * of this program or an older one; an older one is brought up to date. Its journal gets
 * an entry under the signature, which changes nothing. `from` itself is only read; the
 * sheets that it carries are not put into the book.
 *
 * What was at `path` is kept as it was in the file "NAME.before-restore", or
 * "NAME.before-restore-2" and so on where that is taken; `*kept_out`, in the arena, is
 * its path, "" when there was none; only its owner can read it. The change is one
 * transaction of the book's: other programs that have it open see the old one or the new
 * one, nothing between. Only a file so damaged that SQLite can't read it is moved aside
 * as a file. A file that is another kind of database, or a newer program's book, is
 * FAULT_BOOK and left alone. */
MUST_CHECK bool book_restore(const char *path, const char *from,
    const struct signature *signature, const struct progress *progress,
    struct arena *arena, const char **kept_out, struct fault *fault);

#endif
