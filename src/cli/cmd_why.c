/* becket why */
#include "cli/command.h"
#include "exchange/answers.h"

static const struct word_spec WORDS[] = {
    {.name = "TAG",
	.help = "the items; LJ-1..LJ-8 is eight of them; left out with --line",
	.repeatable = true},
};

struct asked {
	int task; /* an enum task; -1 for all */
	struct line_asked line;
};

static const struct option_spec OPTIONS[] = {
    OPTION("task", "service|inspect|weigh|test|renew|register", CHOICE, struct asked,
	task, "this task only"),
    OPTION("line", "LINE", WORDS, struct asked, line.line,
	"explain a carriage line instead, by the name muster --json has for it",
	.needs = "vessel", .not_with = "task"),
    OPTION("vessel", "NAME", WORDS, struct asked, line.vessel,
	"with --line: of this vessel", .needs = "line"),
    OPTION("on", "DATE", DAY, struct asked, line.on,
	"with --line: on this day; today if left out", .needs = "line"),
};

static bool
explain_line(struct context *context, const struct asked *asked, struct fault *fault)
{
	struct line_why why = {0};
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (!desk_line(&context->desk, &asked->line, &why, fault)) {
		return false;
	}
	if (context->json) {
		answer_line(inventory, &why, &context->out);
	} else {
		report_line(context_style(context), context->desk.engine.kinds, inventory,
		    &why, &context->out);
	}
	return true;
}

static bool
explain(struct context *context, const struct pieces_answer *answer,
    const struct known_piece *piece, struct fault *fault)
{
	const struct due_engine *engine = &context->desk.engine;
	(void)answer;
	(void)fault;
	if (context->json) {
		answer_why(engine, context->desk.today, piece->item, piece->obligations,
		    piece->obligation_count, &context->out);
	} else {
		report_why(context_style(context), engine, piece->item,
		    piece->obligations, piece->obligation_count, &context->out);
	}
	return true;
}

static bool
explain_items(struct context *context, const struct asked *asked, struct fault *fault)
{
	const struct pieces_asked pieces = {
	    .tags = &context->given->words, .wants = PIECE_WHY, .task = asked->task};
	struct pieces_answer answer = {0};
	return desk_pieces(&context->desk, &pieces, &answer, fault) &&
	       answer_each(context, &answer, explain, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct asked asked = {.task = -1, .line.on = context->desk.today};
	bool tag = options_word(context->given, 0) != NULL;
	if (!options_into(context->given, &asked, fault)) {
		return false;
	}
	if (tag == (asked.line.line != NULL)) {
		return usage_fault(fault, "becket why",
		    tag ? "--line is about a vessel, and goes with no TAG"
			: "TAG is missing, or --line");
	}
	return tag ? explain_items(context, &asked, fault)
		   : explain_line(context, &asked, fault);
}

static const struct told_answer ANSWERS[] = {
    {"", KEYS_OF_WHY}, {"--line", KEYS_OF_LINE}, {0}};

const struct command COMMAND_WHY = {
    .name = "why",
    .summary = "say why an item is due when it is: every clock, rule and source",
    .details =
	"With --line and --vessel it explains a line of the muster instead: what is needed "
	"and how the number comes about, who says so, and of each piece whether it counts "
	"and why not. Of several items --json gives an array.",
    .examples = "why LR-1\n"
		"every clock of the raft, and which one decides\n"
		"why LJ-1..LJ-3\n"
		"the same of three jackets\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_READ,
    .answers = ANSWERS,
    .run = run,
};
