/* becket extend */
#include "cli/command.h"
#include "desk/acts.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LR-1..LR-8")};

static const struct option_spec OPTIONS[] = {
    OPTION("task", "service|inspect|weigh|test|renew|register", CHOICE, struct extension,
	task, "the task that may wait", .required = true),
    OPTION(
	"until", "DATE", DAY, struct extension, until, "its last day", .required = true),
    OPTION("on", "DATE", DAY, struct extension, given,
	"the day it was given; today when left out"),
    OPTION("paper", "NO", WORDS, struct extension, paper,
	"the number of the authority's paper", .required = true),
};

/* Says what the paper brought: how long the task may wait now. */
static void
say(struct context *context, const struct extension *extension, const char *tag,
    day_t through)
{
	const char *task = task_word(extension->task);
	char day[DAY_WORDS_SIZE];
	char until[DAY_WORDS_SIZE];
	(void)day_words(extension->until, until);
	if (through >= extension->until) {
		text_add_format(&context->out, "%s of %s may wait until %s, paper %s\n",
		    task, tag, until, extension->paper);
		return;
	}
	text_add_format(&context->out,
	    "paper %s recorded for %s, until %s; %s of it may wait until %s\n",
	    extension->paper, tag, until, task, day_words(through, day));
}

static bool
run(struct context *context, struct fault *fault)
{
	struct extend_request request = {
	    .tags = context->given->words, .extension = {.given = context->desk.today}};
	struct extend_outcome done = {0};
	if (!options_into(context->given, &request.extension, fault) ||
	    !desk_extend(&context->desk, &request, &done, fault)) {
		return false;
	}
	for (size_t i = 0; i < done.count; i++) {
		say(context, &request.extension, done.tags[i], done.through[i]);
	}
	return true;
}

const struct command COMMAND_EXTEND = {
    .name = "extend",
    .summary = "record more time that an authority has given for a task",
    .details =
	"It is never assumed: without the authority's paper there is no more time. It moves what "
	"is counted from a date, never a printed date, an age limit or what a use calls for; it "
	"ends with the next time the task is done. A rule may say how much it can add. One that "
	"would change nothing is refused.",
    .examples = "extend LR-1 --task service --until 2027-05-31 --paper A-7\n"
		"the authority's paper A-7 gives the raft till the end of May\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .quiet = true,
    .run = run,
};
