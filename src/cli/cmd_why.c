/* becket why */
#include "cli/command.h"
#include "exchange/answers.h"

static const struct word_spec WORDS[] = {
    {.name = "TAG", .help = "the item", .required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "task",
	.argument = "service|inspect|weigh|test|renew|register",
	.help = "this task only"},
};

static bool
run(struct context *context, struct fault *fault)
{
	const char *word = options_value(context->given, "task");
	enum task task = TASK_SERVICE;
	size_t item = 0;
	struct obligation *obligations = NULL;
	size_t count = 0;
	if ((word != NULL && !task_parse(word, &task, fault)) ||
	    !context_engine(context, NULL, true, fault) ||
	    !context_find_tag(context, options_word(context->given, 0), &item, fault) ||
	    !due_of_item(&context->engine, item, context->today, &context->arena,
		&obligations, &count, fault)) {
		return false;
	}
	size_t kept = 0;
	for (size_t i = 0; i < count; i++) {
		if (word == NULL || obligations[i].task == task) {
			obligations[kept++] = obligations[i];
		}
	}
	if (context->json) {
		return answer_why(&context->engine, context->today, item, obligations,
		    kept, &context->out, fault);
	}
	return report_why(&context->style, &context->engine, item, obligations, kept,
	    &context->out, fault);
}

const struct command COMMAND_WHY = {
    .name = "why",
    .summary = "say why an item is due when it is: every clock, rule and source",
    .details = "",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
