/* Making a copy of a book. */
#include "book/backup.h"

#include "book/check.h"
#include "book/copy.h"

#include <sys/stat.h>

/* True when something waits in a log beside a file: a program has it open, or crashed. */
static bool
has_log(const char *path)
{
	static const char *const ENDINGS[] = {"-wal", "-journal"};
	for (size_t i = 0; i < sizeof ENDINGS / sizeof ENDINGS[0]; i++) {
		SCOPED_TEXT name = {0};
		struct stat status;
		text_add_format(&name, "%s%s", path, ENDINGS[i]);
		if (stat(text_string(&name), &status) == 0 && status.st_size > 0) {
			return true;
		}
	}
	return false;
}

static bool
check_place(struct book *book, const char *path, bool over, struct fault *fault)
{
	struct stat status;
	if (lstat(path, &status) != 0) {
		return true;
	}
	if (same_file(database_path(book->database), path)) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is the book itself; expected another file", path);
	}
	if (!S_ISREG(status.st_mode)) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is no ordinary file; expected one, or none", path);
	}
	if (!over) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is there already; choose another name, or write over it with --over",
		    path);
	}
	if (has_log(path)) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is a book that is in use: it has a log beside it", path);
	}
	return true;
}

/* Copies the book as it is at this moment: within one transaction, what is read does not
 * change. */
static bool
copy_moment(struct book *book, const char *path, const struct progress *progress,
    struct fault *fault)
{
	if (!book_begin(book, fault)) {
		return false;
	}
	bool copied = identity_read(book, fault) &&
		      copy_to_file(book->database, path, progress, fault);
	book_rollback(book);
	return copied;
}

static bool
check_copy(const char *path, struct fault *fault)
{
	struct book *copy = NULL;
	bool sound =
	    book_open(path, BOOK_READ, &copy, fault) && book_check_file(copy, fault);
	book_close(copy);
	return sound || fault_prefix(fault, "checking the copy");
}

bool
book_backup_is_as_written(const char *path)
{
	struct fault ignored = {0};
	struct book *copy = NULL;
	bool damaged = false;
	bool as_written = true;
	bool told = file_open(path, BOOK_READ, &copy, &damaged, &ignored) &&
		    book_is_as_written(copy, &as_written, &ignored);
	book_close(copy);
	return !told || as_written;
}

bool
book_backup(struct book *book, const char *path, bool over,
    const struct own_sheet *sheets, size_t sheet_count, const struct progress *progress,
    struct fault *fault)
{
	SCOPED_BESIDE beside = {0};
	bool taken = false;
	if (!check_place(book, path, over, fault)) {
		return false;
	}
	bool done =
	    beside_make(path, NULL, &beside, fault) &&
	    copy_moment(book, text_string(&beside.path), progress, fault) &&
	    own_sheets_put(text_string(&beside.path), sheets, sheet_count, fault) &&
	    check_copy(text_string(&beside.path), fault) &&
	    beside_place(&beside, path, over, &taken, fault);
	return done || fault_prefix(fault, "copying the book to %s", path);
}
