#include "cli/parts.h"

#include <errno.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

bool
folder_begin(const char *path, bool over, struct folder *out, struct fault *fault)
{
	struct stat status;
	bool made = mkdir(path, 0777) == 0;
	if (!made && errno != EEXIST) {
		return fault_file(fault, "making the folder", path);
	}
	if (!made && (stat(path, &status) != 0 || !S_ISDIR(status.st_mode))) {
		return fault_set(fault, FAULT_FILE,
		    "%s is no folder; expected one to write into", path);
	}
	*out = (struct folder){.path = path, .over = over, .made = made};
	return true;
}

/* The path of a file that is to be in the folder, where it may be written; there is room for it. */
static bool
path_of(struct folder *folder, const char *name, struct text *out, struct fault *fault)
{
	struct stat status;
	text_add_format(out, "%s/%s", folder->path, name);
	ARRAY_ROOM(folder);
	if (!folder->over && lstat(text_string(out), &status) == 0) {
		return fault_set(fault, FAULT_FILE,
		    "%s is there already and is not written over; name another folder",
		    text_string(out));
	}
	return true;
}

bool
folder_add(struct folder *folder, const char *name, const struct text *bytes,
    struct fault *fault)
{
	SCOPED_TEXT path = {0};
	bool added = path_of(folder, name, &path, fault) &&
		     new_file_write(text_string(&path), text_string(bytes), bytes->length,
			 &folder->items[folder->count], fault);
	folder->count += added ? 1 : 0;
	return added;
}

bool
folder_add_kept(struct folder *folder, const char *name, const struct spool *bytes,
    struct fault *fault)
{
	SCOPED_TEXT path = {0};
	bool added = path_of(folder, name, &path, fault) &&
		     new_file_write_kept(
			 text_string(&path), bytes, &folder->items[folder->count], fault);
	folder->count += added ? 1 : 0;
	return added;
}

bool
folder_keep(struct folder *folder, struct fault *fault)
{
	for (size_t i = 0; i < folder->count; i++) {
		if (new_file_keep(&folder->items[i], fault)) {
			continue;
		}
		while (i > 0) {
			(void)unlink(folder->items[--i].path);
		}
		return false;
	}
	folder->made = false;
	return true;
}

void
folder_clear(struct folder *folder)
{
	for (size_t i = 0; i < folder->count; i++) {
		new_file_clear(&folder->items[i]);
	}
	free(folder->items);
	if (folder->made) {
		(void)rmdir(folder->path);
	}
	*folder = (struct folder){0};
}
