/* becket history */
#include "book/journal.h"
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

static void
write_text(struct context *context, const struct kinds *kinds,
    const struct history *history, const struct journal *journal)
{
	report_history(context_style(context), kinds, &context->desk.contents.inventory,
	    history, &context->out);
	if (journal->count == 0) {
		return;
	}
	text_add(&context->out, "\nWhat the journal says of it:\n");
	report_journal(journal, JOURNAL_LINES, &context->out);
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *words = options_word(context->given, 0);
	const struct kinds *kinds = NULL;
	struct history history = {0};
	struct journal journal = {0};
	const struct journal_query query = {.about = words, .since = DAY_NONE};
	if (!desk_kinds(&context->desk, &kinds, fault) ||
	    !desk_load(&context->desk, NULL, true, fault)) {
		return false;
	}
	history_find(
	    &context->desk.contents.inventory, words, &context->desk.arena, &history);
	if (!book_journal(
		context->desk.book, &query, &context->desk.arena, &journal, fault)) {
		return false;
	}
	if (history.bearer_count == 0 && journal.count == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "nothing in the book has or had the serial number or tag \"%s\"; "
		    "\"becket where\" finds things by words",
		    words);
	}
	if (context->json) {
		answer_history(
		    &context->desk.contents.inventory, &history, &journal, &context->out);
		return true;
	}
	write_text(context, kinds, &history, &journal);
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
