/* What a person answered about lists that were imported. */
#include "book/call.h"
#include "book/contents.h"

static const char HEADER[] = "header";
static const char WORDS[] = "words";

static void
take_answer(struct call *call, struct arena *arena, void *out)
{
	struct import_answer *answer = out;
	answer->of_words = take_int(call) != 0;
	answer->theirs = take_text(call, arena);
	answer->ours = take_text(call, arena);
}

bool
book_load_import_answers(struct book *book, struct arena *arena,
    const struct import_answer **out, size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return (call_open(book, LOAD_IMPORT_ANSWERS, &call, fault) &&
		   call_rows(
		       &call, arena, take_answer, sizeof **out, out, count_out, fault)) ||
	       fault_prefix(fault, "reading what was answered about earlier lists");
}

bool
book_put_import_answer(
    struct book *book, const struct import_answer *answer, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, IMPORT_ANSWER_PUT, &call, fault)) {
		return false;
	}
	give_text(&call, answer->of_words ? WORDS : HEADER);
	give_text(&call, answer->theirs);
	give_text(&call, answer->ours);
	return call_run(&call, fault);
}
