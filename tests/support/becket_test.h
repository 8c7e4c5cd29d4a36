/* cmocka wants its prelude first, whatever a formatter thinks of the order; every test
 * includes this instead. */
#ifndef BECKET_TEST_H
#define BECKET_TEST_H

/* clang-format off */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>
/* clang-format on */
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>

/* The text is to the letter what the format and its values make. */
#define assert_told(text, ...)                                                           \
	do {                                                                             \
		char wanted_[512];                                                       \
		(void)snprintf(wanted_, sizeof wanted_, __VA_ARGS__);                    \
		assert_string_equal(text, wanted_);                                      \
	} while (0)

#ifdef __SANITIZE_ADDRESS__
enum { WITH_SANITIZERS = 1 };
#else
enum { WITH_SANITIZERS = 0 };
#endif

/* How many random rounds to draw instead of `count`: times TESTS_SCALE, but never fewer, for
 * they take a second; with the sanitizers, which take several, a fifth of it, and at least one. */
static inline int
scaled(int count)
{
	const char *scale = getenv("TESTS_SCALE");
	double wanted = count * (scale == NULL ? 1 : strtod(scale, NULL));
	wanted = (wanted > count ? wanted : count) / (WITH_SANITIZERS ? 5 : 1);
	return wanted > INT_MAX ? INT_MAX : wanted > 1 ? (int)wanted : 1;
}

/* The tests of a file, each at the line it stands in: what has no name is none to cmocka. */
enum { LONGEST_TEST_FILE = 2000 };
__attribute__((unused)) static struct CMUnitTest unit_tests[LONGEST_TEST_FILE];

/* A test, with its body behind it; its name is a sentence. All tests of a file are run in the order
 * in which they stand there. */
#define TEST(name) TEST_BETWEEN(name, NULL, NULL)

/* The same between two functions of cmocka's setup and teardown; what the first left is
 * `*state`. */
#define TEST_BETWEEN(name, begin, end)                                                   \
	static void name(void **state);                                                  \
	__attribute__((constructor)) static void name##_is_one(void)                     \
	{                                                                                \
		unit_tests[__LINE__] =                                                   \
		    (struct CMUnitTest){#name, name, begin, end, NULL};                  \
	}                                                                                \
	static void name(__attribute__((unused)) void **state)

/* The same, with what the setup left as the variable `left`, a pointer to a `type`. */
#define TEST_OF(type, left, name, begin, end)                                            \
	static void name##_of(type *left);                                               \
	TEST_BETWEEN(name, begin, end)                                                   \
	{                                                                                \
		name##_of(*state);                                                       \
	}                                                                                \
	static void name##_of(__attribute__((unused)) type *left)

/* Stands at the end of a file of tests: runs them, between a setup and a teardown for them all. */
#define RUN_TESTS(begin, end)                                                            \
	int main(void)                                                                   \
	{                                                                                \
		return cmocka_run_group_tests(unit_tests, begin, end);                   \
	}

/* With CASE in the environment only the tests of that name are run; `*` and `?` stand for any
 * letters and one. */
__attribute__((constructor)) static void
choose_tests(void)
{
	cmocka_set_test_filter(getenv("CASE"));
}

#endif
