/* becket now, and becket alone */
#include "cli/command.h"
#include "exchange/answers_life.h"
#include "report/report_life.h"

struct now_said {
	const char *vessel; /* NULL for all */
};

static const struct option_spec OPTIONS[] = {
    OPTION("vessel", "NAME", VESSEL, struct now_said, vessel, "this vessel only"),
};

/* How to begin where there is no book. */
static bool
say_how_to_begin(struct context *context)
{
	text_add_format(&context->out,
	    "There is no book at %s yet. To begin one:\n"
	    "  becket vessel NAME --lay-up 11-01..03-31\n"
	    "  becket enter KIND --vessel NAME --made DATE\n"
	    "or, from a list that you have (.xlsx, .ods or CSV):\n"
	    "  becket import FILE\n"
	    "\"becket --help\" lists the commands.\n",
	    context->desk.book_path);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct now_said said = {0};
	struct now_answer answer = {0};
	if (!context->json && !desk_has_book(&context->desk)) {
		return say_how_to_begin(context);
	}
	if (!options_into(context->given, &said, fault) ||
	    !desk_now(&context->desk, said.vessel, &answer, fault)) {
		return false;
	}
	if (context->json) {
		answer_first_word(
		    &answer.known, &answer.word, &answer.ashore, &context->out);
	} else if (!context_is_empty(context)) {
		report_first_word(context_style(context), &answer.known, &answer.word,
		    &answer.ashore, &context->out);
	}
	return true;
}

const struct command COMMAND_NOW = {
    .name = "now",
    .summary = "say in a screen what is not in date, and what comes next",
    .details =
	"The same as becket alone. Of a single boat each task that is not in date, of a fleet "
	"by boat, the worst first. What is to be done, and on which day, is what the calendar "
	"says (becket remind); looking gives nothing out. Without a book it says how to begin.",
    .examples = "now\n"
		"the same as becket alone: what matters today\n",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_FIRST_WORD),
    .run = run,
};
