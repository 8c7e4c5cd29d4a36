/* Files: read whole, written whole or not at all. */
#ifndef BECKET_DESK_FILES_H
#define BECKET_DESK_FILES_H

#include "base/spool.h"

/* Adds the path from the root of a file that is there. FAULT_FILE when it is not. */
MUST_CHECK bool file_whole_path(const char *path, struct text *out, struct fault *fault);

/* Reads a file, or standard input for "-", into `out`. FAULT_FILE, and
 * FAULT_INPUT for more than 64 MiB. */
MUST_CHECK bool file_read(const char *path, struct text *out, struct fault *fault);

/* The same for a list of gear, of at most 512 MiB: three million rows of all columns,
 * whose entry in the journal has still room in one value of SQLite's. */
MUST_CHECK bool file_read_list(const char *path, struct spool *out, struct fault *fault);

/* The same for a file of at most so many bytes, a whole number of MiB; "-" is a file
 * here. */
MUST_CHECK bool file_read_most(
    const char *path, size_t most, struct text *out, struct fault *fault);

/* True for a file that is there and is no folder, pipe or device; a link counts as what
 * it leads to. */
bool file_is_plain(const char *path);

/* The rights of a file as chmod writes them, 0644; 0 when it is not there. */
unsigned file_rights(const char *path);

/* Writes all bytes to an open file; false with errno set. */
MUST_CHECK bool bytes_write(int descriptor, const char *bytes, size_t length);

/* A file on its way: written beside its place under a name of its own and flushed to the
 * disk; it takes its place when it is kept. */
struct new_file {
	char *path;      /* owned: where it goes */
	char *temporary; /* owned: where it is; NULL when it is in its place */
};

/* Writes the bytes; when this fails nothing is left behind. What stands in its place
 * lends it its rights. A pipe or a device is written to at once, and stays what it is.
 * FAULT_FILE. */
MUST_CHECK bool new_file_write(const char *path, const char *bytes, size_t length,
    struct new_file *out, struct fault *fault);

/* The same of bytes that were kept out of memory. */
MUST_CHECK bool new_file_write_kept(const char *path, const struct spool *from,
    struct new_file *out, struct fault *fault);

/* Puts it in its place, at once and whole. */
MUST_CHECK bool new_file_keep(struct new_file *file, struct fault *fault);

/* Removes it unless it was kept; frees the names. Accepts a zeroed one. */
void new_file_clear(struct new_file *file);

/* Makes the folders above a path, those that are missing, for the owner alone. */
MUST_CHECK bool folders_make(const char *path, struct fault *fault);

#define SCOPED_NEW_FILE __attribute__((cleanup(new_file_clear))) struct new_file

#endif
