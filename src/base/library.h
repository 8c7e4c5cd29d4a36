/* Libraries that few commands need, loaded when first used. Linked in the usual way, each
 * of them would cost every command more than opening the book does, also those that never
 * call it. src/loaded.py writes the rest, from the calls it finds. */
#ifndef BECKET_BASE_LIBRARY_H
#define BECKET_BASE_LIBRARY_H

#include <stddef.h>

/* Loads the library of this name ("libcurl.so.4") and puts the addresses of its
 * functions, `count` of them in the order of `names`, into `functions`, an array of
 * pointers to functions. It stays loaded. Where the library or one of them is not there
 * the program ends as in memory_ended, with status 3: it is part of the program, only not
 * looked for until now. */
void library_load(
    const char *file, const char *const *names, size_t count, void **functions);

#endif
