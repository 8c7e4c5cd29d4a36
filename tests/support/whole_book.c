/* Stands for book_load_part and book_ties, by the linker's --wrap, in the program that
 * always reads all of the book: a peer to hold the answers of what is narrowed to. */
#include "book/contents.h"

bool __wrap_book_load_part(struct book *book, const struct book_part *part,
    bool with_withdrawn, struct book_contents *out, bool *there_out, struct fault *fault);
bool __real_book_load_part(struct book *book, const struct book_part *part,
    bool with_withdrawn, struct book_contents *out, bool *there_out, struct fault *fault);

bool __wrap_book_ties(struct book *book, struct arena *arena, const struct book_tie **out,
    size_t *count_out, struct fault *fault);
bool __real_book_ties(struct book *book, struct arena *arena, const struct book_tie **out,
    size_t *count_out, struct fault *fault);

bool
__wrap_book_load_part(struct book *book, const struct book_part *part,
    bool with_withdrawn, struct book_contents *out, bool *there_out, struct fault *fault)
{
	(void)part;
	return __real_book_load_part(book, NULL, with_withdrawn, out, there_out, fault);
}

/* All boats have to do with each other. */
bool
__wrap_book_ties(struct book *book, struct arena *arena, const struct book_tie **out,
    size_t *count_out, struct fault *fault)
{
	if (!__real_book_ties(book, arena, out, count_out, fault)) {
		return false;
	}
	struct book_tie *ties = ARENA_MANY(arena, struct book_tie, *count_out);
	for (size_t i = 0; i < *count_out; i++) {
		ties[i] = (struct book_tie){(*out)[i].vessel, "one base", false};
	}
	*out = ties;
	return true;
}
