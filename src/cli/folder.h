/* Several files written into one folder: all of them or none. */
#ifndef BECKET_CLI_FOLDER_H
#define BECKET_CLI_FOLDER_H

#include "base/memory.h"
#include "desk/files.h"

/* Files on their way into a folder. */
struct folder {
	const char *path;       /* borrowed */
	bool over;              /* files that are there may be written over */
	bool made;              /* the folder was not there */
	struct new_file *items; /* owned */
	size_t count;
	size_t capacity;
};

/* Begins to fill a folder; makes it where it is not there (its parent must be). FAULT_FILE. */
MUST_CHECK bool folder_begin(
    const char *path, bool over, struct folder *out, struct fault *fault);

/* Writes a file beside its place. A file of that name that is there already is FAULT_FILE,
 * unless `over`. The names of one folder must differ. */
MUST_CHECK bool folder_add(struct folder *folder, const char *name,
    const struct text *bytes, struct fault *fault);

/* Puts all files in their places. Where one fails, those put before it are taken away again
 * (with `over` what they took the place of is lost). */
MUST_CHECK bool folder_keep(struct folder *folder, struct fault *fault);

/* Removes what was not kept, and the folder when it was made and is empty. Accepts a zeroed
 * one. */
void folder_clear(struct folder *folder);

#define SCOPED_FOLDER __attribute__((cleanup(folder_clear))) struct folder

#endif
