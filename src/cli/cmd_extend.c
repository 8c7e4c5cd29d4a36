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

static void
say(struct context *context, const char *tag, const struct extension *extension)
{
	char day[DAY_WORDS_SIZE];
	text_add_format(&context->out, "%s of %s may wait until %s, paper %s\n",
	    task_word(extension->task), tag, day_words(extension->until, day),
	    extension->paper);
}

/* True when some clock of the obligation was moved by an extension. */
static bool
is_extended(const struct obligation *obligation)
{
	for (size_t i = 0; i < obligation->reading_count; i++) {
		if (obligation->readings[i].extension != NULL) {
			return true;
		}
	}
	return false;
}

/* Reads the book anew and says so when no rule takes the extension: someone who has a paper
 * in hand would think the gear in date. */
static bool
check_effect(struct context *context, const char *tag, const struct extension *extension,
    struct fault *fault)
{
	struct obligation *obligations = NULL;
	size_t count = 0;
	size_t item = 0;
	context_forget(context);
	if (!context_engine(context, NULL, true, fault) ||
	    !context_find_tag(context, tag, &item, fault) ||
	    !due_of_item(&context->engine, item, context->today, &context->arena,
		&obligations, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (obligations[i].task == extension->task &&
		    is_extended(&obligations[i])) {
			return true;
		}
	}
	context_note(context,
	    "no rule that holds for %s takes an extension of its %s, so its due day stays "
	    "as it was; \"becket why %s\" says why",
	    tag, task_word(extension->task), tag);
	return true;
}

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
	say(context, tag, &extension);
	return check_effect(context, tag, &extension, fault);
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
