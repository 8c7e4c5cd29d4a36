#include "desk/piece.h"

bool
desk_papers_of(struct desk *desk, const char *tag, const struct paper **out,
    size_t *count_out, struct fault *fault)
{
	return desk_book(desk, fault) &&
	       book_load_papers(desk->book, tag, &desk->arena, out, count_out, fault);
}

bool
desk_paper(struct desk *desk, int64_t number, const struct paper **out,
    struct text *bytes, struct fault *fault)
{
	const struct paper *papers = NULL;
	size_t count = 0;
	if (!desk_papers_of(desk, NULL, &papers, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (papers[i].number == number) {
			*out = &papers[i];
			return book_read_paper(desk->book, &papers[i], bytes, fault);
		}
	}
	return fault_set(fault, FAULT_INPUT, "the book has no paper of that number");
}

bool
desk_journal(
    struct desk *desk, const char *about, struct journal *out, struct fault *fault)
{
	const struct journal_query query = {.about = about, .since = DAY_NONE};
	return desk_book(desk, fault) &&
	       book_journal(desk->book, &query, &desk->arena, out, fault);
}
