/* becket history */
#include "cli/command.h"
#include "desk/ranges.h"
#include "exchange/answers_life.h"
#include "report/report_life.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "SERIAL",
	.help = "a serial number; a tag, or a range of them, where none is known by it",
	.required = true},
};

/* The most lines that the journal shows of one entry here. */
enum { JOURNAL_LINES = 6 };

static bool
tell(struct context *context, const char *word, struct fault *fault)
{
	struct history_answer answer = {0};
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (!desk_history(&context->desk, word, &answer, fault)) {
		return false;
	}
	context->status = answer.journal.damaged_count > 0 ? 1 : context->status;
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

/* A serial number may look like a range of tags: what is known by it goes first. */
static bool
run(struct context *context, struct fault *fault)
{
	const char *word = options_word(context->given, 0);
	struct word_list range = {0};
	struct history_answer known = {0};
	struct fault unknown = {0};
	if (strstr(word, "..") == NULL ||
	    desk_history(&context->desk, word, &known, &unknown)) {
		return tell(context, word, fault);
	}
	if (!range_words(&context->desk.arena, "SERIAL", word, &range, fault)) {
		return false;
	}
	bool array = context->json && range.count > 1;
	for (size_t i = 0; i < range.count; i++) {
		text_add(&context->out, array ? i == 0 ? "[" : "," : i == 0 ? "" : "\n");
		if (!tell(context, range.items[i], fault)) {
			return fault_prefix(fault, "%s", word);
		}
	}
	text_add(&context->out, array ? "]\n" : "");
	return true;
}

const struct command COMMAND_HISTORY = {
    .name = "history",
    .summary = "tell everything on record about one serial number, on any boat",
    .details =
	"Work, events and movements by day, also from before another thing took its place "
	"under the same tag; then what the journal says. Of a range --json gives an array. The exit "
	"status is 1 when lines of the journal are damaged, so that some may be missing.",
    .examples = "history J20-8812\n"
		"all that happened to the thing with this serial number\n",
    .table = {.words = WORDS, .word_count = COUNT_OF(WORDS)},
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_HISTORY),
    .run = run,
};
