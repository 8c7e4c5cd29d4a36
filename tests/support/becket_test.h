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

#endif
