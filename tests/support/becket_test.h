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

/* How many random rounds to draw instead of `count`: times TESTS_SCALE, but never fewer, for
 * they take a second. */
static inline int
scaled(int count)
{
	const char *scale = getenv("TESTS_SCALE");
	double wanted = count * (scale == NULL ? 1 : strtod(scale, NULL));
	return !(wanted > count) ? count : wanted > INT_MAX ? INT_MAX : (int)wanted;
}

/* With CASE in the environment only the tests of that name are run; `*` and `?` stand for any
 * letters and one. */
__attribute__((constructor)) static void
choose_tests(void)
{
	cmocka_set_test_filter(getenv("CASE"));
}

#endif
