/* Stands for book_load_part, by the linker's --wrap, in the program in which another one
 * writes meanwhile: before it loads a part of the book for the time that MEANWHILE_AT
 * names, counted from 1, it runs the command MEANWHILE. */
#include "book/contents.h"

#include <stdlib.h>

bool __wrap_book_load_part(struct book *book, const struct book_part *part,
    bool with_withdrawn, struct book_contents *out, bool *there_out, struct fault *fault);
bool __real_book_load_part(struct book *book, const struct book_part *part,
    bool with_withdrawn, struct book_contents *out, bool *there_out, struct fault *fault);

bool
__wrap_book_load_part(struct book *book, const struct book_part *part,
    bool with_withdrawn, struct book_contents *out, bool *there_out, struct fault *fault)
{
	static long loads;
	const char *at = getenv("MEANWHILE_AT");
	loads++;
	if (at != NULL && strtol(at, NULL, 10) == loads &&
	    system(getenv("MEANWHILE")) != 0) {
		return fault_set(fault, FAULT_BOOK, "the other program has failed");
	}
	return __real_book_load_part(book, part, with_withdrawn, out, there_out, fault);
}
