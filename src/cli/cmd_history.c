/* becket history */
#include "cli/command.h"
#include "exchange/answers_life.h"
#include "report/report_life.h"

static const struct word_spec WORDS[] = {
    {.name = "SERIAL",
	.help = "a serial number; a tag where none is known by it",
	.required = true},
};

/* The most lines that the journal shows of one entry here. */
enum { JOURNAL_LINES = 6 };

static bool
run(struct context *context, struct fault *fault)
{
	struct history_answer answer = {0};
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (!desk_history(
		&context->desk, options_word(context->given, 0), &answer, fault)) {
		return false;
	}
	if (context->json) {
		answer_history(
		    inventory, &answer.history, &answer.journal, &context->out);
		return true;
	}
	report_history(context_style(context), answer.kinds, inventory, &answer.history,
	    &context->out);
	if (answer.journal.count > 0) {
		text_add(&context->out, "\nWhat the journal says of it:\n");
		report_journal(&answer.journal, JOURNAL_LINES,
		    context_style(context)->currency, &context->out);
	}
	return true;
}

const struct command COMMAND_HISTORY = {
    .name = "history",
    .summary = "tell everything on record about one serial number, on any boat",
    .details =
	"Work, events and movements by day, also from before another thing took its place "
	"under the same tag; then what the journal says.",
    .table = {.words = WORDS, .word_count = COUNT_OF(WORDS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
