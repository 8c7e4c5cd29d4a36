/* Libraries loaded when first used. `labs` of the C library is known from ISO C, 7.22.6.1. */
#include "base/library.h"

#include "becket_test.h"

#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* What a child says on standard error when it loads, and how it ends. */
static int
ending(const char *file, const char *name, char *said, size_t size)
{
	int pipes[2];
	assert_int_equal(pipe(pipes), 0);
	pid_t child = fork();
	if (child == 0) {
		void *function = NULL;
		(void)dup2(pipes[1], STDERR_FILENO);
		library_load(file, &name, 1, &function);
		_exit(0);
	}
	(void)close(pipes[1]);
	size_t length = 0;
	for (ssize_t got = 1; got > 0 && length < size - 1; length += (size_t)got) {
		got = read(pipes[0], said + length, size - 1 - length);
		got = got < 0 ? 0 : got;
	}
	said[length] = '\0';
	(void)close(pipes[0]);
	int status = 0;
	assert_int_equal(waitpid(child, &status, 0), child);
	assert_true(WIFEXITED(status));
	return WEXITSTATUS(status);
}

TEST(a_function_of_a_library_is_called_once_it_is_loaded)
{
	static const char *const NAMES[] = {"labs", "strlen"};

	struct calls {
		long (*labs)(long);
		size_t (*strlen)(const char *);
	} calls = {0};

	library_load("libc.so.6", NAMES, 2, (void **)&calls);
	assert_int_equal(calls.labs(-7), 7);
	assert_int_equal(calls.strlen("becket"), 6);
}

TEST(a_library_that_is_not_there_ends_the_program_with_words_and_status_3)
{
	char said[1024];
	assert_int_equal(ending("libnothing.so.7", "labs", said, sizeof said), 3);
	assert_non_null(
	    strstr(said, "libnothing.so.7, which this needs, can't be loaded"));
	assert_non_null(strstr(said, "Nothing was changed in the book."));
}

TEST(a_library_without_a_function_that_is_called_ends_the_program_too)
{
	char said[1024];
	assert_int_equal(ending("libc.so.6", "no_such_function", said, sizeof said), 3);
	assert_non_null(strstr(said, "libc.so.6, which this needs, can't be loaded"));
}

RUN_TESTS(NULL, NULL)
