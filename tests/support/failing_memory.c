/* Loaded before a program (LD_PRELOAD), lets the allocation of a number and all after it
 * fail, as when memory has run out; with FAILING_ONCE that one alone. FAILING_AT is its
 * number, from 1; without it nothing fails and, at the end, the file FAILING_COUNT gets
 * how many there were. A program that falls over then tells, on standard error, in which
 * library and function: "fell:", and a line a call, FILE(FUNCTION+PLACE), the innermost
 * first. */
#include <errno.h>
#include <execinfo.h>
#include <fcntl.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_realloc(void *was, size_t size);
void *malloc(size_t size);
void *calloc(size_t count, size_t size);
void *realloc(void *was, size_t size);

static long made;
static long failing_at = -1;
static bool once;

static bool
fails(void)
{
	if (failing_at < 0) {
		const char *at = getenv("FAILING_AT");
		failing_at = at == NULL ? 0 : strtol(at, NULL, 10);
		once = getenv("FAILING_ONCE") != NULL;
	}
	long number = __atomic_add_fetch(&made, 1, __ATOMIC_RELAXED);
	bool now = failing_at > 0 && (once ? number == failing_at : number >= failing_at);
	if (now) {
		errno = ENOMEM;
	}
	return now;
}

void *
malloc(size_t size)
{
	return fails() ? NULL : __libc_malloc(size);
}

void *
calloc(size_t count, size_t size)
{
	return fails() ? NULL : __libc_calloc(count, size);
}

void *
realloc(void *was, size_t size)
{
	return fails() ? NULL : __libc_realloc(was, size);
}

/* Tells where it fell, and falls as it would have. */
static void
fell(int number)
{
	static const char BEGIN[] = "fell:\n";
	void *calls[64];
	failing_at = 0;
	int count = backtrace(calls, sizeof calls / sizeof calls[0]);
	ssize_t written = write(STDERR_FILENO, BEGIN, sizeof BEGIN - 1);
	(void)written;
	backtrace_symbols_fd(calls, count, STDERR_FILENO);
	(void)signal(number, SIG_DFL);
	(void)raise(number);
}

__attribute__((constructor)) static void
watch(void)
{
	void *call;
	(void)backtrace(&call, 1); /* which loads what it needs, while there is memory */
	(void)signal(SIGSEGV, fell);
	(void)signal(SIGABRT, fell);
	made = 0;
}

__attribute__((destructor)) static void
tell(void)
{
	const char *path = getenv("FAILING_COUNT");
	int file = path == NULL ? -1 : open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
	if (file >= 0) {
		char words[32];
		int length = snprintf(words, sizeof words, "%ld\n", made);
		ssize_t written = write(file, words, (size_t)length);
		(void)written;
		(void)close(file);
	}
}
