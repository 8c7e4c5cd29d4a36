#include "cli/terminal.h"

#include "desk/files.h"
#include "report/table.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <unistd.h>

/* The exit status with which a shell says that it does not know a command or can't run
 * it. */
enum { NOT_FOUND = 127, NOT_RUN = 126 };

static struct winsize
window(void)
{
	struct winsize size = {0};
	if (isatty(STDOUT_FILENO) == 0 || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0) {
		return (struct winsize){0};
	}
	return size;
}

size_t
terminal_columns(void)
{
	size_t columns = window().ws_col;
	if (columns == 0) {
		return 0;
	}
	columns = columns < PAGE_COLUMNS_LEAST ? PAGE_COLUMNS_LEAST : columns;
	return columns > PAGE_COLUMNS_MOST ? PAGE_COLUMNS_MOST : columns;
}

static bool
stays_whole(const char *line, size_t columns)
{
	size_t indent = strspn(line, " ");
	return utf8_columns(line) <= columns || strchr(line, '\033') != NULL ||
	       (indent > 1 && strncmp(line + indent, "becket ", 7) == 0);
}

void
terminal_fold(const struct text *answer, struct text *out)
{
	SCOPED_TEXT line = {0};
	const char *at = text_string(answer);
	while (*at != '\0') {
		size_t length = strcspn(at, "\n");
		text_reset(&line);
		text_add_bytes(&line, at, length);
		const char *words = text_string(&line);
		size_t indent = strspn(words, " ");
		if (stays_whole(words, out->columns)) {
			text_add_format(
			    out, "%s%s", words, at[length] == '\n' ? "\n" : "");
		} else {
			paragraph(words + indent, indent, indent + 2, out);
		}
		at += length + (at[length] == '\n');
	}
}

static size_t
lines_of(const struct text *answer)
{
	size_t lines = 0;
	for (const char *at = text_string(answer); (at = strchr(at, '\n')) != NULL;
	     at++) {
		lines++;
	}
	return lines;
}

/* The pager's command line; NULL for none. */
static const char *
pager(void)
{
	const char *named = getenv("PAGER"); // NOLINT(concurrency-mt-unsafe)
	if (named == NULL) {
		return "less -FRX";
	}
	return *named == '\0' || strcmp(named, "cat") == 0 ? NULL : named;
}

/* In the child: becomes the pager, which reads from `in`. */
static void
become_pager(const char *command, int in)
{
	if (dup2(in, STDIN_FILENO) >= 0) {
		(void)close(in);
		(void)execl("/bin/sh", "sh", "-c", command, (char *)NULL);
	}
	_exit(NOT_FOUND);
}

/* False when the pager could not be started, so that nothing was shown. */
static bool
show_in(const char *command, const struct text *answer)
{
	int ends[2];
	int status = 0;
	if (pipe(ends) != 0) {
		return false;
	}
	pid_t child = fork();
	if (child == 0) {
		(void)close(ends[1]);
		become_pager(command, ends[0]);
	}
	(void)close(ends[0]);
	/* it is no failure when the reader leaves the pager early */
	bool written =
	    child > 0 && bytes_write(ends[1], text_string(answer), answer->length);
	(void)written;
	(void)close(ends[1]);
	while (child > 0 && waitpid(child, &status, 0) < 0 && errno == EINTR) {
	}
	int ended = WIFEXITED(status) ? WEXITSTATUS(status) : 0;
	return child > 0 && ended != NOT_FOUND && ended != NOT_RUN;
}

bool
terminal_write(const struct text *answer, struct fault *fault)
{
	size_t rows = window().ws_row;
	const char *command = rows > 0 && lines_of(answer) >= rows ? pager() : NULL;
	return (command != NULL && show_in(command, answer)) ||
	       output_write(text_string(answer), answer->length, fault);
}
