/* Opening a book, and making a new one. */
#include "base/memory.h"
#include "base/text.h"
#include "book/copy.h"
#include "book/database.h"
#include "book/journal_inside.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

bool
book_data_version(struct book *book, int64_t *out, struct fault *fault)
{
	return database_numbers(book->database, "PRAGMA data_version", &out, 1, fault) ||
	       fault_prefix(fault, "asking whether the book has changed");
}

/* True when changes wait in a write-ahead log beside the file. */
static bool
log_waits(const char *path)
{
	SCOPED_TEXT log = {0};
	struct stat status;
	text_add_format(&log, "%s-wal", path);
	return stat(text_string(&log), &status) == 0 && status.st_size > 0;
}

/* Opens the file, in place of what is open. */
static bool
connect(struct book *book, const char *path, enum database_way way, struct fault *fault)
{
	database_close(book->database);
	book->database = NULL;
	if (!database_open(path, way, &book->database, fault)) {
		return false;
	}
	collect_begin(book);
	return true;
}

/* Reads with the index of the write-ahead log in memory, which nobody else can share: the
 * file is locked as if for writing while it is read. Nothing is written, not even at the
 * end. */
static bool
read_alone(struct book *book, const char *path, struct file_header *header_out,
    struct fault *fault)
{
	book->alone = true;
	return connect(book, path, DATABASE_READS_ALONE, fault) &&
	       header_read(book, header_out, fault);
}

/* Reading a book with a write-ahead log needs a small file beside it. Where that can't be
 * made (a read-only directory or medium, a full disk) and no changes wait in a log, the
 * file is read as it stands: who can't write there relies on nobody else writing in that
 * moment. Where changes wait, the log is read alone, if the file may be locked. */
static bool
read_as_it_stands(struct book *book, const char *path, struct file_header *header_out,
    struct fault *fault)
{
	struct fault ignored = {0};
	if (log_waits(path) && read_alone(book, path, header_out, &ignored)) {
		return true;
	}
	if (log_waits(path)) {
		return fault_set(fault, FAULT_BOOK,
		    "changes wait in %s-wal, and its directory can't be written; copy "
		    "both files to a place that can",
		    path);
	}
	return connect(book, path, DATABASE_READS_FIXED, fault) &&
	       header_read(book, header_out, fault);
}

static bool
open_file(struct book *book, const char *path, enum book_mode mode,
    struct file_header *header_out, struct fault *fault)
{
	enum database_way way = mode == BOOK_READ     ? DATABASE_READS
				: mode == BOOK_CREATE ? DATABASE_MAKES
						      : DATABASE_WRITES;
	struct fault first = {0};
	if (!connect(book, path, way, fault)) {
		return false;
	}
	if (header_read(book, header_out, &first)) {
		return true;
	}
	if (mode == BOOK_READ &&
	    database_trouble(book->database) == DATABASE_NO_FILE_BESIDE) {
		return read_as_it_stands(book, path, header_out, fault);
	}
	*fault = first;
	return false;
}

/* Says in plain words what SQLite calls "unable to open database file". `*exists_out` is
 * set in any case: what was there before is never taken away. */
static bool
check_path(const char *path, enum book_mode mode, bool *exists_out, struct fault *fault)
{
	struct stat status;
	bool exists = stat(path, &status) == 0;
	*exists_out = exists;
	bool may_begin = mode == BOOK_CREATE || mode == BOOK_TRIAL;
	if (!exists && !(may_begin && errno == ENOENT)) {
		return errno == ENOENT
			   ? fault_set(fault, FAULT_BOOK, "there is no such book")
			   : fault_set(fault, FAULT_BOOK, "%s", strerror(errno));
	}
	if (exists && !S_ISREG(status.st_mode)) {
		return fault_set(fault, FAULT_BOOK, "it is no ordinary file");
	}
	bool reads = mode == BOOK_READ || mode == BOOK_TRIAL;
	if (exists && access(path, reads ? R_OK : R_OK | W_OK) != 0) {
		return fault_set(fault, FAULT_BOOK, "%s", strerror(errno));
	}
	return true;
}

/* Makes the empty file of a book for its owner alone; what SQLite keeps beside it gets
 * the same rights. Where another program was faster, its file is taken. */
static bool
make_private(const char *path, struct fault *fault)
{
	int descriptor = open(path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
	if (descriptor >= 0) {
		(void)close(descriptor);
		return true;
	}
	return errno == EEXIST || fault_set(fault, FAULT_BOOK, "%s", strerror(errno));
}

/* Goes on with a copy in memory, or with an empty book there. */
static bool
go_on_in_memory(struct book *book, struct fault *fault)
{
	struct database *source = book->database;
	book->database = NULL;
	bool made =
	    connect(book, "", DATABASE_IN_MEMORY, fault) &&
	    (source == NULL || copy_at_once(source, book->database, "main", fault));
	database_close(source);
	return made;
}

/* Opens the book of a trial: a copy of the file in memory, or an empty one where there is
 * no file. */
static bool
open_trial(struct book *book, const char *path, bool exists, struct fault *fault)
{
	struct file_header header = {0};
	return (!exists || open_file(book, path, BOOK_READ, &header, fault)) &&
	       go_on_in_memory(book, fault) && header_read(book, &header, fault) &&
	       header_check(&header, exists ? BOOK_WRITE : BOOK_CREATE, fault) &&
	       (header.version == version_newest() ||
		   migrate(book, BOOK_CREATE, fault)) &&
	       identity_read(book, fault);
}

static bool
open_checked(
    struct book *book, const char *path, enum book_mode mode, struct fault *fault)
{
	struct file_header header = {0};
	if (!open_file(book, path, mode, &header, fault) ||
	    !header_check(&header, mode, fault)) {
		return false;
	}
	book->may_write =
	    mode == BOOK_LOOK && header.logs == 1 && !database_only_reads(book->database);
	if (mode != BOOK_READ && mode != BOOK_LOOK &&
	    !make_writable(book, path, mode, &header, fault)) {
		return false;
	}
	return identity_read(book, fault);
}

bool
book_may_write(const struct book *book)
{
	return book->may_write;
}

bool
file_open(const char *path, enum book_mode mode, struct book **book_out,
    bool *damaged_out, struct fault *fault)
{
	bool exists = false;
	struct file_header header = {0};
	*damaged_out = false;
	if (!check_path(path, mode, &exists, fault)) {
		return fault_prefix(fault, "opening the book %s", path);
	}
	struct book *book = memory_zeroed(1, sizeof *book);
	book->aside = true;
	bool opened = open_file(book, path, mode, &header, fault);
	if (opened) {
		*damaged_out =
		    (header.application == 0 && header.tables == 0) ||
		    (header.application == APPLICATION_ID && header.version < 1);
		opened = header_check(&header, BOOK_WRITE, fault);
	} else if (book->database != NULL) {
		*damaged_out = database_trouble(book->database) == DATABASE_NO_SENSE;
	}
	if (!opened) {
		book_close(book);
		return fault_prefix(fault, "opening the book %s", path);
	}
	*book_out = book;
	return true;
}

/* Takes away the empty file that a failed creation leaves. */
static void
remove_empty(const char *path)
{
	struct stat status;
	/* a device has no size either, and is not ours */
	if (lstat(path, &status) == 0 && S_ISREG(status.st_mode) && status.st_size == 0) {
		(void)unlink(path);
	}
}

bool
book_open(
    const char *path, enum book_mode mode, struct book **book_out, struct fault *fault)
{
	bool exists = false;
	struct book *book = NULL;
	bool trial = mode == BOOK_TRIAL;
	if (!check_path(path, mode, &exists, fault)) {
		goto fail;
	}
	if (!exists && !trial && !make_private(path, fault)) {
		goto fail;
	}
	book = memory_zeroed(1, sizeof *book);
	if (trial ? !open_trial(book, path, exists, fault)
		  : !open_checked(book, path, mode, fault)) {
		goto fail;
	}
	book->fresh = !exists;
	*book_out = book;
	return true;
fail:
	book_close(book);
	if (!exists && mode == BOOK_CREATE) {
		remove_empty(path);
	}
	return fault_prefix(fault, "opening the book %s", path);
}

/* Alone with the file no other program can have written to it. One that is about to open
 * it finds that it is no book, and does not write into what is gone. */
void
book_drop_fresh(struct book *book)
{
	struct fault ignored = {0};
	int64_t entries = 0;
	if (book == NULL || !book->fresh) {
		return;
	}
	bool alone = database_execute(book->database,
	    "PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = DELETE", &ignored);
	if (alone && !has_write_ahead_log(book->database) &&
	    call_number(book, JOURNAL_LAST, &entries, &ignored) && entries == 0 &&
	    database_execute(book->database,
		"PRAGMA application_id = 0; PRAGMA user_version = 0", &ignored)) {
		(void)unlink(database_path(book->database));
	}
}

void
book_close(struct book *book)
{
	if (book == NULL) {
		return;
	}
	for (int i = 0; i < STATEMENT_COUNT; i++) {
		prepared_drop(book->statements[i]);
	}
	prepared_drop(book->kept_one);
	text_clear(&book->kept_text);
	prepared_drop(book->many);
	journal_forget(book);
	arena_clear(&book->signing);
	text_clear(&book->older);
	/* Closing rolls back what is open. */
	database_close(book->database);
	free(book);
}
