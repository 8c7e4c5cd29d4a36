#include "book/copy.h"

#include "base/leftovers.h"

#include <errno.h>
#include <fcntl.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum {
	PAGES_A_STEP = 256,
	WAIT_MS = 50,
	LONGEST_WAIT_MS = 5000,
};

void
beside_clear(struct beside *beside)
{
	if (beside->path.length > 0) {
		database_remove(text_string(&beside->path));
	}
	text_clear(&beside->path);
}

bool
beside_make(const char *path, const char *like, struct beside *out, struct fault *fault)
{
	struct stat status;
	struct beside made = {0};
	const char *slash = strrchr(path, '/');
	size_t folder = slash == NULL ? 0 : (size_t)(slash - path) + 1;
	text_add_bytes(&made.path, path, folder);
	text_add_format(&made.path, ".%s%s", path + folder, LEFTOVER_ENDING);
	leftovers_remove(path);
	int descriptor = mkstemp(made.path.bytes);
	if (descriptor < 0) {
		text_clear(&made.path);
		return fault_file(fault, "writing beside", path);
	}
	bool allowed = like == NULL || stat(like, &status) != 0 ||
		       fchmod(descriptor, status.st_mode & 0777) == 0;
	if (!allowed) {
		(void)fault_file(fault, "writing", text_string(&made.path));
	}
	(void)close(descriptor);
	if (!allowed) {
		beside_clear(&made);
		return false;
	}
	*out = made;
	return true;
}

/* Writes what is in a directory's entries to the disk, as far as the system lets that be
 * asked for. */
static void
flush_folder(const char *path)
{
	SCOPED_TEXT folder = {0};
	const char *slash = strrchr(path, '/');
	text_add_bytes(&folder, path, slash == NULL ? 0 : (size_t)(slash - path) + 1);
	text_add(&folder, ".");
	int descriptor = open(text_string(&folder), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (descriptor >= 0) {
		(void)fsync(descriptor);
		(void)close(descriptor);
	}
}

/* Puts a file where there is none; EEXIST when there is one. A second name for it does that
 * in one step; where a file system has no second names, it is looked for first. */
static int
move_to_free(const char *from, const char *to)
{
	struct stat status;
	if (link(from, to) == 0) {
		(void)unlink(from);
		return 0;
	}
	if (errno == EEXIST) {
		return EEXIST;
	}
	if (lstat(to, &status) == 0) {
		return EEXIST;
	}
	return rename(from, to) == 0 ? 0 : errno;
}

bool
beside_place(struct beside *beside, const char *path, bool over, bool *taken_out,
    struct fault *fault)
{
	const char *from = text_string(&beside->path);
	int error = 0;
	if (over) {
		error = rename(from, path) == 0 ? 0 : errno;
	} else {
		error = move_to_free(from, path);
	}
	*taken_out = error == EEXIST;
	if (error != 0) {
		errno = error;
		return fault_file(fault, "writing", path);
	}
	text_clear(&beside->path);
	flush_folder(path);
	return true;
}

void
copying_end(struct copying *copying)
{
	if (copying->backup != NULL) {
		(void)sqlite3_backup_finish(copying->backup);
	}
	*copying = (struct copying){0};
}

bool
copying_begin(struct database *from, struct database *to, const struct progress *progress,
    struct copying *out, struct fault *fault)
{
	sqlite3_backup *backup = sqlite3_backup_init(
	    database_handle(to), "main", database_handle(from), "main");
	if (backup == NULL) {
		return database_fault(to, fault);
	}
	*out = (struct copying){backup, to, progress};
	return true;
}

/* Takes one step, waiting for a lock that another program holds. */
static int
step_patiently(struct copying *copying, int pages)
{
	int result = SQLITE_BUSY;
	for (int waited = 0; waited <= LONGEST_WAIT_MS; waited += WAIT_MS) {
		result = sqlite3_backup_step(copying->backup, pages);
		if (result != SQLITE_BUSY && result != SQLITE_LOCKED) {
			break;
		}
		(void)sqlite3_sleep(WAIT_MS);
	}
	return result;
}

/* Ends the copy, and says what went wrong, if anything did. */
static bool
told(struct copying *copying, int result, struct fault *fault)
{
	int ended = sqlite3_backup_finish(copying->backup);
	copying->backup = NULL;
	if (result == SQLITE_DONE && ended == SQLITE_OK) {
		return true;
	}
	if (result == SQLITE_BUSY || result == SQLITE_LOCKED) {
		return fault_set(fault, FAULT_BOOK,
		    "another program is using it and did not finish within 5 seconds");
	}
	return database_fault(copying->to, fault);
}

bool
copying_lock(struct copying *copying, struct fault *fault)
{
	int result = step_patiently(copying, 0);
	return result == SQLITE_OK || result == SQLITE_DONE ||
	       told(copying, result, fault);
}

bool
copying_finish(struct copying *copying, struct fault *fault)
{
	const struct progress *progress = copying->progress;
	int result = SQLITE_OK;
	while (result == SQLITE_OK) {
		result = step_patiently(copying, PAGES_A_STEP);
		int64_t whole = sqlite3_backup_pagecount(copying->backup);
		if (progress != NULL && progress->tell != NULL) {
			int64_t left = sqlite3_backup_remaining(copying->backup);
			progress->tell(progress->context, whole - left, whole);
		}
	}
	return told(copying, result, fault);
}

static bool
flush_file(const char *path, struct fault *fault)
{
	int descriptor = open(path, O_RDONLY | O_CLOEXEC);
	if (descriptor < 0) {
		return fault_file(fault, "writing", path);
	}
	bool flushed = fsync(descriptor) == 0 || fault_file(fault, "writing", path);
	(void)close(descriptor);
	return flushed;
}

bool
copy_at_once(
    struct database *from, struct database *to, const char *as, struct fault *fault)
{
	sqlite3_backup *copy =
	    sqlite3_backup_init(database_handle(to), as, database_handle(from), "main");
	bool all = sqlite3_backup_step(copy, -1) == SQLITE_DONE;
	return (sqlite3_backup_finish(copy) == SQLITE_OK && all) ||
	       database_fault(to, fault);
}

bool
copy_to_file(struct database *from, const char *path, const struct progress *progress,
    struct fault *fault)
{
	struct database *to = NULL;
	SCOPED_COPYING copying = {0};
	bool copied = database_open(path, DATABASE_WRITES, &to, fault);
	copied = copied && copying_begin(from, to, progress, &copying, fault) &&
		 copying_finish(&copying, fault) && one_file(to, fault);
	copying_end(&copying);
	database_close(to);
	return copied && flush_file(path, fault);
}

bool
same_file(const char *a, const char *b)
{
	struct stat one;
	struct stat other;
	return stat(a, &one) == 0 && stat(b, &other) == 0 && one.st_dev == other.st_dev &&
	       one.st_ino == other.st_ino;
}
