/* Put before the program's libraries (LD_PRELOAD), writes the text of every SQL statement that it
 * executes, a line each, to the file that STATEMENTS names: by SQLite's own trace. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int sqlite3_open_v2(const char *path, sqlite3 **out, int flags, const char *vfs);

static int
note(unsigned what, void *file, void *statement, void *text)
{
	const char *sql = text;
	(void)what;
	(void)statement;
	/* triggers are told as comments */
	if (strncmp(sql, "--", 2) != 0) {
		(void)fprintf(file, "%s\n", sql);
		(void)fflush(file);
	}
	return 0;
}

int
sqlite3_open_v2(const char *path, sqlite3 **out, int flags, const char *vfs)
{
	int (*opens)(const char *, sqlite3 **, int, const char *) = NULL;
	void *found = dlsym(RTLD_NEXT, "sqlite3_open_v2");
	const char *name = getenv("STATEMENTS");
	memcpy(&opens, &found, sizeof opens);
	int result = opens(path, out, flags, vfs);
	FILE *file = name == NULL ? NULL : fopen(name, "a");
	if (result == SQLITE_OK && file != NULL) {
		(void)sqlite3_trace_v2(*out, SQLITE_TRACE_STMT, note, file);
	}
	return result;
}
