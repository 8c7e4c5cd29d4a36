/* Opening, making and migrating a book. */
#include "base/memory.h"
#include "base/text.h"
#include "book/check_inside.h"
#include "book/copy.h"
#include "book/database.h"
#include "book/journal_inside.h"
#include "book/rows.h"

#include <errno.h>
#include <fcntl.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum {
	APPLICATION_ID =
	    0x62636b74, /* "bckt": what PRAGMA application_id of a book says */
	FIRST_WITH_SUM =
	    35, /* the version from which on a book has a sum of its values */
};

/* What the file says about itself. */
struct stamps_of_file {
	int64_t application;
	int64_t version;
	int64_t tables;
	int64_t logs; /* 1 when it has a write-ahead log */
};

/* The version this program writes. */
static int
newest_version(void)
{
	return (int)MIGRATIONS_COUNT;
}

bool
book_data_version(struct book *book, int64_t *out, struct fault *fault)
{
	return database_numbers(book->database, "PRAGMA data_version", &out, 1, fault) ||
	       fault_prefix(fault, "asking whether the book has changed");
}

static bool
read_stamps(const struct book *book, struct stamps_of_file *out, struct fault *fault)
{
	int64_t *const stamps[] = {
	    &out->application, &out->version, &out->tables, &out->logs};
	return database_numbers(book->database,
	    "SELECT application_id, user_version, (SELECT COUNT(*) FROM sqlite_schema), "
	    "journal_mode = 'wal' "
	    "FROM pragma_application_id, pragma_user_version, pragma_journal_mode",
	    stamps, 4, fault);
}

/* Refuses what is no book of this program or an older one. */
static bool
check_stamps(
    const struct stamps_of_file *stamps, enum book_mode mode, struct fault *fault)
{
	bool empty = stamps->application == 0 && stamps->tables == 0;
	if (empty && mode == BOOK_CREATE) {
		return true;
	}
	if (empty) {
		return fault_set(fault, FAULT_BOOK, "the file is empty; it is no book");
	}
	if (stamps->application != APPLICATION_ID) {
		return fault_set(fault, FAULT_BOOK,
		    "the file is an SQLite database, but no book of this program");
	}
	if (stamps->version < 1) {
		return fault_set(fault, FAULT_BOOK,
		    "the book's header is damaged (it says version %lld, and the first "
		    "is 1); restore a backup (becket book restore)",
		    (long long)stamps->version);
	}
	if (stamps->version > newest_version()) {
		return fault_set(fault, FAULT_BOOK,
		    "the book is of a newer program (its version is %lld, the newest "
		    "known here is %d); use that program",
		    (long long)stamps->version, newest_version());
	}
	if (stamps->version < newest_version() &&
	    (mode == BOOK_READ || mode == BOOK_LOOK)) {
		return fault_set(fault, FAULT_BOOK,
		    "the book is of an older program (version %lld, expected %d) and has "
		    "to be opened for writing once to bring it up to date; \"becket book "
		    "upgrade\" does that",
		    (long long)stamps->version, newest_version());
	}
	return true;
}

static bool
first_row(struct book *book, struct fault *fault)
{
	unsigned char random[16];
	char identity[2 * sizeof random + 1];
	randombytes_buf(random, sizeof random);
	for (size_t i = 0; i < sizeof random; i++) {
		(void)snprintf(identity + 2 * i, 3, "%02x", random[i]);
	}
	SCOPED_CALL call = {0};
	if (!call_open(book, BOOK_FIRST, &call, fault)) {
		return false;
	}
	give_text(&call, identity);
	return call_run(&call, fault);
}

static bool
run_migration(struct book *book, int number, struct fault *fault)
{
	const struct embedded_file *migration = &MIGRATIONS[number - 1];
	struct stamps_of_file stamps = {0};
	if (!database_execute(book->database, migration->bytes, fault) ||
	    !read_stamps(book, &stamps, fault)) {
		return fault_prefix(fault, "migration %s", migration->name);
	}
	if (stamps.version != number || stamps.application != APPLICATION_ID) {
		return fault_set(fault, FAULT_BOOK,
		    "migration %s left version %lld, expected %d", migration->name,
		    (long long)stamps.version, number);
	}
	return true;
}

/* Runs what is missing, within an open transaction. The version is read again in it, because another
 * program may have been faster. */
static bool
migrate_within(struct book *book, enum book_mode mode, struct fault *fault)
{
	struct stamps_of_file stamps = {0};
	if (!read_stamps(book, &stamps, fault) || !check_stamps(&stamps, mode, fault)) {
		return false;
	}
	int64_t found = 0;
	int64_t carried = 0;
	if (stamps.version >= FIRST_WITH_SUM &&
	    !sums_find(book, &found, &carried, fault)) {
		return false;
	}
	for (int number = (int)stamps.version + 1; number <= newest_version(); number++) {
		if (!run_migration(book, number, fault)) {
			return false;
		}
	}
	shapes_clear(book); /* they are others now */
	bool older = stamps.version > 0;
	bool off = false;
	/* what the older program did not write stays told of */
	return (!older || journal_prepare(book, fault)) && first_row(book, fault) &&
	       numbers_renew(book, &off, fault) &&
	       sums_renew(book, (uint64_t)found - (uint64_t)carried, fault);
}

/* What a new program needs is no one's change: it is a transaction that the journal does not tell of. */
static bool
migrate(struct book *book, enum book_mode mode, struct fault *fault)
{
	struct fault ignored = {0};
	if (!call_plain(book, BEGIN_WRITING, fault)) {
		return false;
	}
	bool migrated = database_guard_schema(book->database, false, fault) &&
			migrate_within(book, mode, fault);
	if (database_guard_schema(book->database, true, migrated ? fault : &ignored) &&
	    migrated && revision_raise(book, fault) && call_plain(book, COMMIT, fault)) {
		return true;
	}
	(void)!call_plain(book, ROLLBACK, &ignored);
	return false;
}

static bool
prepare_writing(struct book *book, const char *path, enum book_mode mode,
    const struct stamps_of_file *stamps, struct fault *fault)
{
	/* On a file system without shared memory SQLite stays with the mode it has. */
	if (stamps->logs == 0 &&
	    !database_execute(book->database, "PRAGMA journal_mode = WAL", fault)) {
		return false;
	}
	if (stamps->version == newest_version()) {
		return true;
	}
	if (stamps->version > 0 && !keep_older(book, path, stamps->version, fault)) {
		return false;
	}
	if (migrate(book, mode, fault)) {
		return true;
	}
	/* nothing has changed: the book itself is what would have been kept */
	if (book_older_kept(book) != NULL) {
		(void)unlink(book_older_kept(book));
	}
	return false;
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

/* Reads with the index of the write-ahead log in memory, which nobody else can share: the file is
 * locked as if for writing while it is read. Nothing is written, not even at the end. */
static bool
read_alone(struct book *book, const char *path, struct stamps_of_file *stamps_out,
    struct fault *fault)
{
	book->alone = true;
	return connect(book, path, DATABASE_READS_ALONE, fault) &&
	       read_stamps(book, stamps_out, fault);
}

/* Reading a book with a write-ahead log needs a small file beside it. Where that can't be
 * made (a read-only directory or medium, a full disk) and no changes wait in a log, the file is
 * read as it stands: who can't write there relies on nobody else writing in that moment. Where
 * changes wait, the log is read alone, if the file may be locked. */
static bool
read_as_it_stands(struct book *book, const char *path, struct stamps_of_file *stamps_out,
    struct fault *fault)
{
	struct fault ignored = {0};
	if (log_waits(path) && read_alone(book, path, stamps_out, &ignored)) {
		return true;
	}
	if (log_waits(path)) {
		return fault_set(fault, FAULT_BOOK,
		    "changes wait in %s-wal, and its directory can't be written; copy "
		    "both files to a place that can",
		    path);
	}
	return connect(book, path, DATABASE_READS_FIXED, fault) &&
	       read_stamps(book, stamps_out, fault);
}

static bool
open_file(struct book *book, const char *path, enum book_mode mode,
    struct stamps_of_file *stamps_out, struct fault *fault)
{
	enum database_way way = mode == BOOK_READ     ? DATABASE_READS
				: mode == BOOK_CREATE ? DATABASE_MAKES
						      : DATABASE_WRITES;
	struct fault first = {0};
	if (!connect(book, path, way, fault)) {
		return false;
	}
	if (read_stamps(book, stamps_out, &first)) {
		return true;
	}
	if (mode == BOOK_READ &&
	    database_trouble(book->database) == DATABASE_NO_FILE_BESIDE) {
		return read_as_it_stands(book, path, stamps_out, fault);
	}
	*fault = first;
	return false;
}

/* Says in plain words what SQLite calls "unable to open database file". `*exists_out` is set
 * in any case: what was there before is never taken away. */
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

/* Makes the empty file of a book for its owner alone; what SQLite keeps beside it gets the same
 * rights. Where another program was faster, its file is taken. */
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

/* The book of a trial: its stamps are those of the file, if there is one. */
static bool
open_trial(struct book *book, const char *path, bool exists, struct fault *fault)
{
	struct stamps_of_file stamps = {0};
	return (!exists || open_file(book, path, BOOK_READ, &stamps, fault)) &&
	       go_on_in_memory(book, fault) && read_stamps(book, &stamps, fault) &&
	       check_stamps(&stamps, exists ? BOOK_WRITE : BOOK_CREATE, fault) &&
	       (stamps.version == newest_version() ||
		   migrate(book, BOOK_CREATE, fault)) &&
	       identity_read(book, fault);
}

static bool
open_checked(
    struct book *book, const char *path, enum book_mode mode, struct fault *fault)
{
	struct stamps_of_file stamps = {0};
	if (!open_file(book, path, mode, &stamps, fault) ||
	    !check_stamps(&stamps, mode, fault)) {
		return false;
	}
	book->may_write =
	    mode == BOOK_LOOK && stamps.logs == 1 && !database_only_reads(book->database);
	if (mode != BOOK_READ && mode != BOOK_LOOK &&
	    !prepare_writing(book, path, mode, &stamps, fault)) {
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
	struct stamps_of_file stamps = {0};
	*damaged_out = false;
	if (!check_path(path, mode, &exists, fault)) {
		return fault_prefix(fault, "opening the book %s", path);
	}
	struct book *book = memory_zeroed(1, sizeof *book);
	book->aside = true;
	bool opened = open_file(book, path, mode, &stamps, fault);
	if (opened) {
		*damaged_out =
		    (stamps.application == 0 && stamps.tables == 0) ||
		    (stamps.application == APPLICATION_ID && stamps.version < 1);
		opened = check_stamps(&stamps, BOOK_WRITE, fault);
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

/* Alone with the file no other program can have written to it. One that is about to open it finds that
 * it is no book, and does not write into what is gone. */
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
	journal_forget(book);
	shapes_clear(book);
	arena_clear(&book->signing);
	text_clear(&book->older);
	/* Closing rolls back what is open. */
	database_close(book->database);
	free(book);
}
