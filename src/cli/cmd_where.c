/* becket where */
#include "cli/command.h"
#include "exchange/answers_life.h"
#include "report/report_life.h"

static const struct word_spec WORDS[] = {
    {.name = "WORDS",
	.help = "tags or ranges of them, a serial number, or words of what it is",
	.required = true,
	.repeatable = true},
};

static bool
run(struct context *context, struct fault *fault)
{
	struct where_answer answer = {0};
	if (!desk_where(&context->desk, &context->given->words, &answer, fault)) {
		return false;
	}
	context->status = answer.list.count == 0 ? 1 : 0;
	if (context->json) {
		answer_where(&answer.known, &answer.list, &context->out);
		return true;
	}
	if (answer.list.count == 0) {
		text_add_format(&context->out,
		    "Nothing in the book is called \"%s\", by tag, serial or words%s%s%s\n",
		    answer.words, answer.near == NULL ? "." : "; did you mean ",
		    answer.near == NULL ? "" : answer.near,
		    answer.near == NULL ? "" : "?");
		return true;
	}
	report_where(context_style(context), &answer.known, &answer.list, &context->out);
	return true;
}

const struct command COMMAND_WHERE = {
    .name = "where",
    .summary = "say where a piece of gear is: aboard, ashore, in another, or gone",
    .details =
	"By its tag, else its serial number, else by words that all stand in its tag, kind, "
	"description, make, place or serial; LJ-1..LJ-3 is a range of tags. The status is 1 "
	"when there is nothing.",
    .examples = "where raft\n"
		"whatever has this word in its kind, description or place\n"
		"where LJ-1..LJ-3\n"
		"three jackets, by their tags\n",
    .table = {.words = WORDS, .word_count = COUNT_OF(WORDS)},
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_WHERE),
    .run = run,
};
