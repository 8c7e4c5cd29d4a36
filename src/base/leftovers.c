#include "base/leftovers.h"

#include "base/text.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdbool.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { STALE_SECONDS = 60 * 60 };

/* What SQLite adds to a database's name for the files beside it; the first is the database. */
static const char *const ENDINGS[] = {"", "-journal", "-wal", "-shm"};

enum { ENDING_COUNT = sizeof ENDINGS / sizeof ENDINGS[0] };

void
database_remove(const char *path)
{
	for (size_t i = 0; i < ENDING_COUNT; i++) {
		SCOPED_TEXT name = {0};
		text_add_format(&name, "%s%s", path, ENDINGS[i]);
		(void)unlink(text_string(&name));
	}
}

/* The six characters that mkstemp chose, and an ending of SQLite's or none. */
static bool
is_chosen(const char *rest)
{
	static const char CHARACTERS[] =
	    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789";
	return strspn(rest, CHARACTERS) == 6 &&
	       words_have(ENDINGS, ENDING_COUNT, rest + 6);
}

/* Of one's own, of that sort, and not written to for an hour. */
static bool
is_stale(int folder, const char *name, mode_t sort)
{
	struct stat status;
	return fstatat(folder, name, &status, AT_SYMLINK_NOFOLLOW) == 0 &&
	       (status.st_mode & S_IFMT) == sort && status.st_uid == geteuid() &&
	       status.st_mtime < time(NULL) - STALE_SECONDS;
}

/* Calls `remove` for each entry beside `path` whose name begins as the template `ending` has it,
 * behind `before` and the name of `path`. */
static void
each_beside(const char *path, const char *before, const char *ending,
    void (*remove)(int folder, const char *name, const char *rest))
{
	SCOPED_TEXT folder = {0};
	SCOPED_TEXT begins = {0};
	const char *slash = strrchr(path, '/');
	size_t length = slash == NULL ? 0 : (size_t)(slash - path) + 1;
	text_add_bytes(&folder, path, length);
	text_add(&folder, ".");
	text_add_format(&begins, "%s%s%.*s", before, path + length,
	    (int)(strlen(ending) - strlen("XXXXXX")), ending);
	DIR *listing = opendir(text_string(&folder));
	if (listing == NULL) {
		return;
	}
	for (struct dirent *entry = readdir(listing); entry != NULL;
	     entry = readdir(listing)) {
		if (strncmp(entry->d_name, text_string(&begins), begins.length) == 0 &&
		    is_chosen(entry->d_name + begins.length)) {
			remove(
			    dirfd(listing), entry->d_name, entry->d_name + begins.length);
		}
	}
	(void)closedir(listing);
}

static void
remove_file(int folder, const char *name, const char *rest)
{
	(void)rest;
	if (is_stale(folder, name, S_IFREG)) {
		(void)unlinkat(folder, name, 0);
	}
}

void
leftovers_remove(const char *path)
{
	each_beside(path, ".", LEFTOVER_ENDING, remove_file);
}

/* A folder with anything in it that is not stale stays: only an empty one goes. */
static void
remove_folder(int folder, const char *name, const char *rest)
{
	int inside = -1;
	if (rest[6] != '\0' || !is_stale(folder, name, S_IFDIR)) {
		return;
	}
	inside = openat(folder, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
	DIR *listing = inside < 0 ? NULL : fdopendir(inside);
	if (listing == NULL) {
		return;
	}
	for (struct dirent *entry = readdir(listing); entry != NULL;
	     entry = readdir(listing)) {
		remove_file(inside, entry->d_name, "");
	}
	(void)closedir(listing);
	(void)unlinkat(folder, name, AT_REMOVEDIR);
}

void
leftover_folders_remove(const char *path)
{
	each_beside(path, "", LEFTOVER_FOLDER, remove_folder);
}
