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

/* An answer that is made of some boats at a time. */
struct now_making {
	bool json;
	struct now_kept kept;
	struct first_word_report report;
	bool any; /* there are boats */
};

static void
take_some(const struct first_word *word, const struct known_gear *known,
    const struct first_word_part *part, const struct whereabouts_list *ashore, void *of)
{
	struct now_making *making = of;
	making->any = making->any || known->inventory->vessel_count > 0;
	if (making->json) {
		answer_first_word_keep(&making->kept, word, known, part, ashore);
	} else {
		report_first_word_some(&making->report, word, known, part, ashore);
	}
}

static bool
say_now(struct context *context, const char *vessel, struct now_making *making,
    struct fault *fault)
{
	struct first_word word = {0};
	if (!desk_now(&context->desk, vessel, take_some, making, &word, fault)) {
		return false;
	}
	if (context->json) {
		context_write_as_made(context);
		return answer_first_word_kept(&making->kept, &word, &context->out, fault);
	}
	if (making->any || !context_is_empty(context)) {
		report_first_word_end(
		    context_style(context), &making->report, &word, &context->out);
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct now_said said = {0};
	struct now_making making = {.json = context->json};
	if (!context->json && !desk_has_book(&context->desk)) {
		return say_how_to_begin(context);
	}
	if (!options_into(context->given, &said, fault)) {
		return false;
	}
	bool done = say_now(context, said.vessel, &making, fault);
	now_kept_clear(&making.kept);
	first_word_report_clear(&making.report);
	return done;
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
