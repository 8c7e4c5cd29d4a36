/* becket why */
#include "cli/command.h"
#include "cli/values.h"
#include "exchange/answers.h"

static const struct word_spec WORDS[] = {
    {.name = "TAG", .help = "the item; left out with --line"},
};

static const struct option_spec OPTIONS[] = {
    {.name = "task",
	.argument = "service|inspect|weigh|test|renew|register",
	.help = "this task only"},
    {.name = "line",
	.argument = "LINE",
	.help = "explain a carriage line instead, by the name muster --json has for it"},
    {.name = "vessel", .argument = "NAME", .help = "with --line: of this vessel"},
    {.name = "on",
	.argument = "DATE",
	.help = "with --line: on this day; today if left out"},
};

/* Why a line of the muster is met or not. */
static bool
explain_line(struct context *context, struct fault *fault)
{
	const char *name = options_value(context->given, "vessel");
	const char *line = options_value(context->given, "line");
	struct line_why why = {0};
	day_t on = context->desk.today;
	if (name == NULL || options_word(context->given, 0) != NULL ||
	    options_has(context->given, "task")) {
		return usage_fault(fault, "becket why",
		    "--line is about a vessel: expected --vessel, and neither a TAG nor "
		    "--task");
	}
	if (!value_day(context->given, "on", &on, NULL, fault) ||
	    !desk_engine(&context->desk, name, fault) ||
	    !muster_why(
		&context->desk.engine, 0, line, on, &context->desk.arena, &why, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (context->json) {
		answer_line(inventory, &why, &context->out);
		return true;
	}
	report_line(context_style(context), context->desk.engine.kinds, inventory, &why,
	    &context->out);
	return true;
}

static bool
explain_item(struct context *context, struct fault *fault)
{
	const char *word = options_value(context->given, "task");
	enum task task = TASK_SERVICE;
	size_t item = 0;
	struct obligation *obligations = NULL;
	size_t count = 0;
	if ((word != NULL && !task_parse(word, &task, fault)) ||
	    !desk_engine(&context->desk, NULL, fault) ||
	    !desk_find_tag(
		&context->desk, options_word(context->given, 0), &item, fault) ||
	    !due_of_item(&context->desk.engine, item, context->desk.today,
		&context->desk.arena, &obligations, &count, fault)) {
		return false;
	}
	size_t kept = 0;
	for (size_t i = 0; i < count; i++) {
		if (word == NULL || obligations[i].task == task) {
			obligations[kept++] = obligations[i];
		}
	}
	if (context->json) {
		return answer_why(&context->desk.engine, context->desk.today, item,
		    obligations, kept, &context->out, fault);
	}
	return report_why(context_style(context), &context->desk.engine, item,
	    obligations, kept, &context->out, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	if (options_has(context->given, "line")) {
		return explain_line(context, fault);
	}
	if (options_has(context->given, "vessel") || options_has(context->given, "on")) {
		return usage_fault(fault, "becket why",
		    "--vessel and --on go with --line; it is not there");
	}
	if (options_word(context->given, 0) == NULL) {
		return usage_fault(fault, "becket why", "TAG is missing, or --line");
	}
	return explain_item(context, fault);
}

const struct command COMMAND_WHY = {
    .name = "why",
    .summary = "say why an item is due when it is: every clock, rule and source",
    .details =
	"With --line and --vessel it explains a line of the muster instead: what is needed "
	"and how the number comes about, who says so, and of each piece whether it counts "
	"and why not.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
