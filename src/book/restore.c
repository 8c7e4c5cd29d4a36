/* Putting a copy of a book in the place of the present one. */
#include "book/backup.h"
#include "book/check.h"
#include "book/copy.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* What is being restored. */
struct restoring {
	const char *path; /* of the book */
	const char *from;
	const struct signature *signature;
	const struct progress *progress;
	struct arena *arena;
	const char *kept; /* where what was there is kept; "" nowhere */
};

/* Brings the copy up to date, checks it, and writes down that it was restored. */
static bool
ready_copy(const struct restoring *restoring, const char *path, struct fault *fault)
{
	struct book *copy = NULL;
	bool ready = book_open(path, BOOK_WRITE, &copy, fault) &&
		     book_check_file(copy, fault) &&
		     book_sign(copy, restoring->signature, fault) &&
		     journal_note(copy, fault) && one_file(copy->database, fault);
	book_close(copy);
	return ready && own_sheets_put(path, NULL, 0, fault);
}

static bool
copy_source(const struct restoring *restoring, const char *path, struct fault *fault)
{
	struct book *source = NULL;
	bool damaged = false;
	bool copied = file_open(restoring->from, BOOK_READ, &source, &damaged, fault) &&
		      book_begin(source, fault) && book_check_file(source, fault) &&
		      copy_to_file(source->database, path, restoring->progress, fault);
	book_close(source);
	return copied && ready_copy(restoring, path, fault);
}

/* "NAME.before-restore", "NAME.before-restore-2" and so on. */
static const char *
kept_name(const struct restoring *restoring, int number)
{
	SCOPED_TEXT name = {0};
	text_add_format(&name, "%s.before-restore", restoring->path);
	if (number > 1) {
		text_add_format(&name, "-%d", number);
	}
	return arena_string(restoring->arena, text_string(&name));
}

enum { MOST_KEPT = 1000 };

/* Copies the present book to the first name that is free. */
static bool
keep_copy(struct restoring *restoring, struct book *present, struct fault *fault)
{
	SCOPED_BESIDE beside = {0};
	bool taken = true;
	if (!beside_make(restoring->path, NULL, &beside, fault) ||
	    !copy_to_file(present->database, text_string(&beside.path),
		restoring->progress, fault)) {
		return false;
	}
	for (int number = 1; taken && number <= MOST_KEPT; number++) {
		const char *name = kept_name(restoring, number);
		if (beside_place(&beside, name, false, &taken, fault)) {
			restoring->kept = name;
			return true;
		}
	}
	return false;
}

/* Writes the copy into the present book, as one transaction of it. The lock is taken before the
 * present book is copied aside, so that nothing is written between; a book without a write-ahead
 * log (on some file systems) can't be read then, and is copied before. */
static bool
write_into(struct restoring *restoring, struct book *copy, struct book *present,
    struct book *reader, struct fault *fault)
{
	SCOPED_COPYING copying = {0};
	bool first = !has_write_ahead_log(present->database);
	if (first && !keep_copy(restoring, reader, fault)) {
		return false;
	}
	return copying_begin(copy->database, present->database, restoring->progress,
		   &copying, fault) &&
	       copying_lock(&copying, fault) &&
	       (first || keep_copy(restoring, reader, fault)) &&
	       copying_finish(&copying, fault);
}

/* Moves a file that SQLite can't read aside, with its log. It keeps its place until the new
 * one takes it. */
static bool
move_aside(struct restoring *restoring, struct fault *fault)
{
	for (int number = 1; number <= MOST_KEPT; number++) {
		const char *name = kept_name(restoring, number);
		if (link(restoring->path, name) == 0) {
			SCOPED_TEXT log = {0};
			SCOPED_TEXT kept_log = {0};
			text_add_format(&log, "%s-wal", restoring->path);
			text_add_format(&kept_log, "%s-wal", name);
			restoring->kept = name;
			return (rename(text_string(&log), text_string(&kept_log)) == 0 ||
				errno == ENOENT ||
				fault_set(fault, FAULT_FILE, "moving %s aside: %s",
				    text_string(&log), strerror(errno)));
		}
		if (errno != EEXIST) {
			break;
		}
	}
	return fault_set(
	    fault, FAULT_FILE, "moving %s aside: %s", restoring->path, strerror(errno));
}

static bool
install(struct restoring *restoring, struct beside *beside, struct fault *fault)
{
	struct book *present = NULL;
	struct book *reader = NULL;
	struct book *copy = NULL;
	struct stat status;
	bool taken = false;
	bool damaged = false;
	if (lstat(restoring->path, &status) != 0 && errno == ENOENT) {
		return beside_place(beside, restoring->path, false, &taken, fault);
	}
	bool done = file_open(restoring->path, BOOK_WRITE, &present, &damaged, fault);
	if (!done && damaged) {
		return move_aside(restoring, fault) &&
		       beside_place(beside, restoring->path, true, &taken, fault);
	}
	done = done && file_open(restoring->path, BOOK_READ, &reader, &damaged, fault) &&
	       file_open(text_string(&beside->path), BOOK_READ, &copy, &damaged, fault) &&
	       write_into(restoring, copy, present, reader, fault);
	book_close(copy);
	book_close(reader);
	book_close(present);
	return done;
}

bool
book_restore(const char *path, const char *from, const struct signature *signature,
    const struct progress *progress, struct arena *arena, const char **kept_out,
    struct fault *fault)
{
	SCOPED_BESIDE beside = {0};
	struct restoring restoring = {path, from, signature, progress, arena, ""};
	if (same_file(path, from)) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is the book itself; expected a copy of it", from);
	}
	if (!beside_make(path, path, &beside, fault) ||
	    !copy_source(&restoring, text_string(&beside.path), fault)) {
		return fault_prefix(fault, "restoring from %s", from);
	}
	if (!install(&restoring, &beside, fault)) {
		return fault_prefix(fault, "restoring to %s", path);
	}
	*kept_out = restoring.kept;
	return true;
}
