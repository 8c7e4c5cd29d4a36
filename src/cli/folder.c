#include "cli/parts.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

bool
folder_begin(const char *path, bool over, struct folder *out, struct fault *fault)
{
	struct stat status;
	bool made = mkdir(path, 0777) == 0;
	if (!made && errno != EEXIST) {
		return fault_set(
		    fault, FAULT_FILE, "making the folder %s: %s", path, strerror(errno));
	}
	if (!made && (stat(path, &status) != 0 || !S_ISDIR(status.st_mode))) {
		return fault_set(fault, FAULT_FILE,
		    "%s is no folder; expected one to write into", path);
	}
	*out = (struct folder){.path = path, .over = over, .made = made};
	return true;
}

bool
folder_add(struct folder *folder, const char *name, const struct text *bytes,
    struct fault *fault)
{
	SCOPED_SPOOL kept = {0};
	spool_add(&kept, text_string(bytes), bytes->length);
	return folder_add_kept(folder, name, &kept, fault);
}

bool
folder_add_kept(struct folder *folder, const char *name, const struct spool *bytes,
    struct fault *fault)
{
	SCOPED_TEXT path = {0};
	struct stat status;
	text_add_format(&path, "%s/%s", folder->path, name);
	ARRAY_ROOM(folder);
	if (!folder->over && lstat(text_string(&path), &status) == 0) {
		return fault_set(fault, FAULT_FILE,
		    "%s is there already and is not written over; name another folder",
		    text_string(&path));
	}
	if (!new_file_write_kept(
		text_string(&path), bytes, &folder->items[folder->count], fault)) {
		return false;
	}
	folder->count++;
	return true;
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
