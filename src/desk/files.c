/* realpath is of the X/Open part of POSIX */
// NOLINTNEXTLINE(bugprone-reserved-identifier,readability-identifier-naming)
#define _XOPEN_SOURCE 700

#include "desk/files.h"

#include "base/leftovers.h"
#include "base/memory.h"
#include "base/numbers.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum {
	ONE_MIB = 1024 * 1024,
	LARGEST_FILE = 64 * ONE_MIB,
	LARGEST_LIST = 512 * ONE_MIB,
};

/* Where what is read goes: a spool, or a text where that is NULL. */
struct read_into {
	struct text *text;
	struct spool *spool;
};

static bool
read_all(int descriptor, const char *path, size_t most, struct read_into into,
    struct fault *fault)
{
	char piece[16384];
	size_t length = into.spool != NULL ? into.spool->length : into.text->length;
	for (;;) {
		ssize_t got = read(descriptor, piece, sizeof piece);
		if (got == 0) {
			return true;
		}
		if (got < 0 && errno == EINTR) {
			continue;
		}
		if (got < 0) {
			return fault_file(fault, "reading", path);
		}
		length += (size_t)got;
		if (length > most) {
			return fault_set(fault, FAULT_INPUT,
			    "reading %s: larger than %zu MiB, the most that is taken",
			    path, most / ONE_MIB);
		}
		if (into.spool != NULL) {
			spool_add(into.spool, piece, (size_t)got);
		} else {
			text_add_bytes(into.text, piece, (size_t)got);
		}
	}
}

bool
file_whole_path(const char *path, struct text *out, struct fault *fault)
{
	char *whole = realpath(path, NULL);
	if (whole == NULL) {
		return fault_file(fault, "finding", path);
	}
	text_add(out, whole);
	free(whole);
	return true;
}

static bool
read_named(const char *path, size_t most, struct read_into into, struct fault *fault)
{
	int descriptor = open(path, O_RDONLY | O_CLOEXEC);
	if (descriptor < 0) {
		return fault_file(fault, "reading", path);
	}
	bool done = read_all(descriptor, path, most, into, fault);
	(void)close(descriptor);
	return done;
}

/* A file, or standard input for "-". */
static bool
read_either(const char *path, size_t most, struct read_into into, struct fault *fault)
{
	return strcmp(path, "-") == 0
		   ? read_all(STDIN_FILENO, "standard input", most, into, fault)
		   : read_named(path, most, into, fault);
}

bool
file_read(const char *path, struct text *out, struct fault *fault)
{
	return read_either(path, LARGEST_FILE, (struct read_into){.text = out}, fault);
}

bool
file_read_list(const char *path, struct spool *out, struct fault *fault)
{
	return read_either(path, LARGEST_LIST, (struct read_into){.spool = out}, fault);
}

bool
file_read_most(const char *path, size_t most, struct text *out, struct fault *fault)
{
	return read_named(path, most, (struct read_into){.text = out}, fault);
}

bool
file_is_plain(const char *path)
{
	struct stat status;
	return stat(path, &status) == 0 && S_ISREG(status.st_mode);
}

unsigned
file_rights(const char *path)
{
	struct stat status;
	return stat(path, &status) == 0 ? status.st_mode & 0777 : 0;
}

bool
bytes_write(int descriptor, const char *bytes, size_t length)
{
	while (length > 0) {
		ssize_t put = write(descriptor, bytes, length);
		if (put < 0 && errno == EINTR) {
			continue;
		}
		if (put < 0) {
			return false;
		}
		bytes += put;
		length -= (size_t)put;
	}
	return true;
}

/* "folder/.name" and the ending, for "folder/name". */
static char *
temporary_name(const char *path)
{
	const char *slash = strrchr(path, '/');
	size_t folder = slash == NULL ? 0 : (size_t)(slash - path) + 1;
	size_t size = strlen(path) + sizeof "." LEFTOVER_ENDING;
	char *name = memory_zeroed(1, size);
	(void)snprintf(
	    name, size, "%.*s.%s%s", (int)folder, path, path + folder, LEFTOVER_ENDING);
	return name;
}

/* Gives a new file the rights of the one it takes the place of, or those an ordinary one
 * would have: mkstemp makes it private. */
static bool
usual_rights(int descriptor, const char *path)
{
	struct stat status;
	if (stat(path, &status) == 0) {
		return fchmod(descriptor, status.st_mode & 0777) == 0;
	}
	mode_t mask = umask(0);
	(void)umask(mask);
	return fchmod(descriptor, 0666 & ~mask) == 0;
}

/* True for a pipe or a device: it is written to, never replaced by a file. */
static bool
is_special(const char *path)
{
	struct stat status;
	return stat(path, &status) == 0 && !S_ISREG(status.st_mode) &&
	       !S_ISDIR(status.st_mode);
}

/* Writes what was kept, a part at a time; false with errno set. */
static bool
spool_write(int descriptor, const struct spool *from)
{
	enum { WRITTEN_AT_ONCE = 64 * 1024 };

	char *part = memory_zeroed(1, WRITTEN_AT_ONCE);
	bool done = true;
	for (size_t at = 0; at < from->length && done; at += WRITTEN_AT_ONCE) {
		struct fault unread = {0};
		size_t length = LESSER(from->length - at, (size_t)WRITTEN_AT_ONCE);
		errno = EIO;
		done = spool_read(from, at, part, length, &unread) &&
		       bytes_write(descriptor, part, length);
	}
	free(part);
	return done;
}

/* What is written: a spool, or bytes in memory where that is NULL. */
struct write_from {
	const struct spool *spool;
	const char *bytes;
	size_t length; /* of these */
};

static bool
write_all(int descriptor, struct write_from from)
{
	return from.spool != NULL ? spool_write(descriptor, from.spool)
				  : bytes_write(descriptor, from.bytes, from.length);
}

static bool
special_write(const char *path, struct write_from from, struct fault *fault)
{
	int descriptor = open(path, O_WRONLY | O_CLOEXEC);
	if (descriptor < 0) {
		return fault_file(fault, "writing", path);
	}
	bool done = write_all(descriptor, from) || fault_file(fault, "writing", path);
	if (close(descriptor) != 0 && done) {
		done = fault_file(fault, "writing", path);
	}
	return done;
}

static bool
new_file_make(
    const char *path, struct write_from from, struct new_file *out, struct fault *fault)
{
	if (is_special(path)) {
		return special_write(path, from, fault);
	}
	/* what a link points to is replaced, not the link */
	char *kept_path = realpath(path, NULL);
	if (kept_path == NULL) {
		kept_path = memory_string(path);
	}
	char *temporary = temporary_name(kept_path);
	leftovers_remove(kept_path);
	int descriptor = mkstemp(temporary);
	bool done = descriptor >= 0 && usual_rights(descriptor, kept_path) &&
		    write_all(descriptor, from) && fsync(descriptor) == 0;
	if (!done) {
		(void)fault_file(fault, "writing", path);
	}
	if (descriptor >= 0 && close(descriptor) != 0 && done) {
		done = fault_file(fault, "writing", path);
	}
	if (!done) {
		if (descriptor >= 0) {
			(void)unlink(temporary);
		}
		free(temporary);
		free(kept_path);
		return false;
	}
	*out = (struct new_file){kept_path, temporary};
	return true;
}

bool
new_file_write(const char *path, const char *bytes, size_t length, struct new_file *out,
    struct fault *fault)
{
	return new_file_make(
	    path, (struct write_from){.bytes = bytes, .length = length}, out, fault);
}

bool
new_file_write_kept(
    const char *path, const struct spool *from, struct new_file *out, struct fault *fault)
{
	return new_file_make(path, (struct write_from){.spool = from}, out, fault);
}

bool
new_file_keep(struct new_file *file, struct fault *fault)
{
	if (file->temporary == NULL) {
		return true;
	}
	if (rename(file->temporary, file->path) != 0) {
		return fault_file(fault, "writing", file->path);
	}
	free(file->temporary);
	file->temporary = NULL;
	return true;
}

void
new_file_clear(struct new_file *file)
{
	if (file->temporary != NULL) {
		(void)unlink(file->temporary);
	}
	free(file->temporary);
	free(file->path);
	*file = (struct new_file){0};
}

bool
folders_make(const char *path, struct fault *fault)
{
	SCOPED_TEXT folder = {0};
	for (const char *at = path; *at != '\0'; at++) {
		if (*at == '/' && at != path) {
			bool there =
			    mkdir(text_string(&folder), 0700) == 0 || errno == EEXIST;
			if (!there) {
				return fault_file(
				    fault, "making the folder", text_string(&folder));
			}
		}
		text_add_byte(&folder, *at);
	}
	return true;
}
