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
	if (strspn(rest, CHARACTERS) != 6) {
		return false;
	}
	for (size_t i = 0; i < ENDING_COUNT; i++) {
		if (strcmp(rest + 6, ENDINGS[i]) == 0) {
			return true;
		}
	}
	return false;
}

static bool
is_stale(int folder, const char *name)
{
	struct stat status;
	return fstatat(folder, name, &status, AT_SYMLINK_NOFOLLOW) == 0 &&
	       S_ISREG(status.st_mode) && status.st_uid == geteuid() &&
	       status.st_mtime < time(NULL) - STALE_SECONDS;
}

void
leftovers_remove(const char *path)
{
	SCOPED_TEXT folder = {0};
	SCOPED_TEXT begins = {0};
	const char *slash = strrchr(path, '/');
	size_t length = slash == NULL ? 0 : (size_t)(slash - path) + 1;
	text_add_bytes(&folder, path, length);
	text_add(&folder, ".");
	text_add_format(&begins, ".%s%.*s", path + length,
	    (int)(sizeof LEFTOVER_ENDING - sizeof "XXXXXX"), LEFTOVER_ENDING);
	DIR *listing = opendir(text_string(&folder));
	if (listing == NULL) {
		return;
	}
	for (struct dirent *entry = readdir(listing); entry != NULL;
	     entry = readdir(listing)) {
		if (strncmp(entry->d_name, text_string(&begins), begins.length) == 0 &&
		    is_chosen(entry->d_name + begins.length) &&
		    is_stale(dirfd(listing), entry->d_name)) {
			(void)unlinkat(dirfd(listing), entry->d_name, 0);
		}
	}
	(void)closedir(listing);
}
