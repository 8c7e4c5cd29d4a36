/* becket where */
#include "cli/command.h"
#include "exchange/answers_life.h"
#include "exchange/json_object.h"
#include "report/report_life.h"

static const struct word_spec WORDS[] = {
    {.name = "WORDS",
	.help = "tags or ranges of them, a serial number, or words of what it is",
	.required = true,
	.repeatable = true},
};

/* An answer that is made of some boats at a time. */
struct where_making {
	bool json;
	struct answer answer;       /* as JSON */
	struct where_report report; /* in words */
};

static void
take_some(const struct where_answer *some, void *of)
{
	struct where_making *making = of;
	if (making->json) {
		answer_where_some(&making->answer, &some->known, &some->list);
	} else {
		report_where_some(&making->report, &some->known, &some->list);
	}
}

static void
write_end(struct where_making *making, const struct where_answer *answer,
    struct context *context)
{
	if (making->json) {
		answer_end(&making->answer);
	} else if (answer->list.count == 0) {
		text_add_format(&context->out,
		    "Nothing in the book is called \"%s\", by tag, serial or words%s%s%s\n",
		    answer->words, answer->near == NULL ? "." : "; did you mean ",
		    answer->near == NULL ? "" : answer->near,
		    answer->near == NULL ? "" : "?");
	} else {
		report_where_end(&making->report, &context->out);
	}
}

static bool
run(struct context *context, struct fault *fault)
{
	struct where_answer answer = {0};
	struct where_making making = {.json = context->json,
	    .answer = {.out = &context->out},
	    .report = {.style = &context->style}};
	context_hold(context);
	bool done = desk_where(
	    &context->desk, &context->given->words, take_some, &making, &answer, fault);
	if (done) {
		context->status = answer.list.count == 0 ? 1 : 0;
		write_end(&making, &answer, context);
	}
	where_report_clear(&making.report);
	return done;
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
