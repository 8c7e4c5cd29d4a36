/* becket extend */
#include "cli/command.h"
#include "cli/values.h"

static const struct word_spec WORDS[] = {
    {.name = "TAG", .help = "the item", .required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "task",
	.argument = "service|inspect|weigh|test|renew|register",
	.help = "the task that may wait",
	.required = true},
    {.name = "until", .argument = "DATE", .help = "its last day", .required = true},
    {.name = "paper",
	.argument = "NO",
	.help = "the number of the authority's paper",
	.required = true},
};

static bool
run(struct context *context, struct fault *fault)
{
	const char *tag = options_word(context->given, 0);
	struct extension extension = {.paper = options_value(context->given, "paper")};
	size_t item = 0;
	if (extension.paper[0] == '\0') {
		return fault_set(fault, FAULT_INPUT,
		    "--paper: expected the number of the authority's paper, found nothing");
	}
	if (!task_parse(options_value(context->given, "task"), &extension.task, fault) ||
	    !value_day(context->given, "until", &extension.until, NULL, fault) ||
	    !context_load(context, NULL, true, fault) ||
	    !context_find_tag(context, tag, &item, fault)) {
		return false;
	}
	if (!book_add_extension(context->book, tag, &extension, fault)) {
		return fault_prefix(fault, "extending %s", tag);
	}
	char day[DAY_WORDS_SIZE];
	text_add_format(&context->out, "%s of %s may wait until %s, paper %s\n",
	    task_word(extension.task), tag, day_words(extension.until, day),
	    extension.paper);
	return true;
}

const struct command COMMAND_EXTEND = {
    .name = "extend",
    .summary = "record more time that an authority has given for a task",
    .details =
	"It is never assumed: without the authority's paper there is no more time.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
