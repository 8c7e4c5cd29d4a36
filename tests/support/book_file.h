/* The SQLite connection of an open book, for tests that look into the file or change it
 * beside the program. */
#ifndef BECKET_BOOK_FILE_H
#define BECKET_BOOK_FILE_H

#include "book/call.h"

#include <sqlite3.h>

static inline sqlite3 *
file_of(const struct book *book)
{
	return database_handle(book->database);
}

#endif
