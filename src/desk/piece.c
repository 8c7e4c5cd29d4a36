#include "desk/piece.h"

bool
desk_papers_of(struct desk *desk, const char *tag, const struct paper **out,
    size_t *count_out, struct fault *fault)
{
	return desk_book(desk, fault) &&
	       book_load_papers(desk->book, tag, &desk->arena, out, count_out, fault);
}
