/* The schema, as the bytes of migrations/NNNN_name.sql, put in the program at build. */
#ifndef BECKET_BOOK_MIGRATIONS_H
#define BECKET_BOOK_MIGRATIONS_H

#include "base/embedded.h"

/* In the order of their numbers: the first makes version 1. */
extern const struct embedded_file MIGRATIONS[];
extern const size_t MIGRATIONS_COUNT;

#endif
