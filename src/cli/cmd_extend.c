/* becket extend */
#include "cli/command.h"
#include "cli/values.h"
#include "report/words.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "TAG", .help = "the item", .required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "task",
	.argument = "service|inspect|weigh|test|renew|register",
	.help = "the task that may wait",
	.required = true},
    {.name = "until", .argument = "DATE", .help = "its last day", .required = true},
    {.name = "on",
	.argument = "DATE",
	.help = "the day it was given; today when left out"},
    {.name = "paper",
	.argument = "NO",
	.help = "the number of the authority's paper",
	.required = true},
};

/* How the task stands: the obligations of it, a routine one too. */
struct stand {
	const struct obligation *items[2];
	size_t count;
};

static bool
read_standing(struct context *context, const char *tag, enum task task, struct stand *out,
    struct fault *fault)
{
	struct obligation *obligations = NULL;
	size_t count = 0;
	size_t item = 0;
	*out = (struct stand){.count = 0};
	desk_forget(&context->desk);
	if (!desk_engine(&context->desk, NULL, fault) ||
	    !desk_find_tag(&context->desk, tag, &item, fault) ||
	    !due_of_item(&context->desk.engine, item, context->desk.today,
		&context->desk.arena, &obligations, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (obligations[i].task == task) {
			out->items[out->count++] = &obligations[i];
		}
	}
	return true;
}

/* The reading that this extension moved; NULL when there is none. */
static const struct reading *
moved_reading(const struct stand *standing, const struct extension *extension)
{
	for (size_t i = 0; i < standing->count; i++) {
		const struct obligation *obligation = standing->items[i];
		for (size_t j = 0; j < obligation->reading_count; j++) {
			const struct extension *found = obligation->readings[j].extension;
			if (found != NULL && found->until == extension->until &&
			    found->task == extension->task &&
			    strcmp(found->paper, extension->paper) == 0) {
				return &obligation->readings[j];
			}
		}
	}
	return NULL;
}

/* An extension that moves nothing is refused: someone who has a paper in hand would think the
 * gear in date. */
static bool
refuse(const struct stand *before, const struct extension *extension, const char *tag,
    struct fault *fault)
{
	const char *task = task_word(extension->task);
	char day[DAY_WORDS_SIZE];
	if (before->count == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "nothing asks for a %s of %s, so there is nothing that may wait",
		    task_noun(extension->task), tag);
	}
	const struct obligation *now = before->items[0];
	if (now->state == STATE_DATE_UNKNOWN) {
		return fault_set(fault, FAULT_INPUT,
		    "the day by which %s needs its %s is not known, so there is nothing to "
		    "extend; \"becket why %s\" says what is missing",
		    tag, task_noun(extension->task), tag);
	}
	if (now->good_through >= extension->until) {
		return fault_set(fault, FAULT_INPUT,
		    "%s of %s is good through %s without it", task, tag,
		    now->good_through == DAY_NEVER ? "every day"
						   : day_words(now->good_through, day));
	}
	return fault_set(fault, FAULT_INPUT,
	    "it would change nothing: an extension moves no printed date, no age limit and "
	    "no use, and one given on %s ends with a %s after that day; \"becket why %s\" "
	    "says what binds",
	    day_words(extension->given, day), task_noun(extension->task), tag);
}

/* Says what the paper brought: how long the task may wait now, and why no longer. */
static void
say(struct context *context, const char *tag, const struct extension *extension,
    const struct reading *moved, const struct stand *after)
{
	const struct obligation *now = after->items[0];
	const char *task = task_word(extension->task);
	char day[DAY_WORDS_SIZE];
	char until[DAY_WORDS_SIZE];
	(void)day_words(extension->until, until);
	if (now->good_through >= extension->until) {
		text_add_format(&context->out, "%s of %s may wait until %s, paper %s\n",
		    task, tag, until, extension->paper);
		return;
	}
	text_add_format(&context->out,
	    "paper %s recorded for %s, until %s; %s of it may wait until %s\n",
	    extension->paper, tag, until, task, day_words(now->good_through, day));
	if (moved->good_through < extension->until) {
		desk_note(&context->desk,
		    "rule %s lets an extension add no more than %d %s", moved->rule_id,
		    moved->rule->extension_months,
		    moved->rule->extension_months == 1 ? "month" : "months");
	}
	if (now->good_through < moved->good_through && now->binding != NULL) {
		desk_note(&context->desk, "%s binds, and no extension moves that",
		    now->binding->rule_id);
	}
}

static bool
read_extension(struct context *context, struct extension *out, struct fault *fault)
{
	char day[DAY_WORDS_SIZE];
	*out = (struct extension){.paper = options_value(context->given, "paper"),
	    .given = context->desk.today};
	if (out->paper[0] == '\0') {
		return fault_set(fault, FAULT_INPUT,
		    "--paper: expected the number of the authority's paper, found nothing");
	}
	if (!task_parse(options_value(context->given, "task"), &out->task, fault) ||
	    !value_day(context->given, "until", &out->until, NULL, fault) ||
	    !value_day(context->given, "on", &out->given, NULL, fault)) {
		return false;
	}
	if (out->given > context->desk.today) {
		return fault_set(fault, FAULT_INPUT,
		    "--on: %s is after today; expected the day it was given",
		    day_words(out->given, day));
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *tag = options_word(context->given, 0);
	struct extension extension;
	struct stand before;
	struct stand after;
	if (!read_extension(context, &extension, fault)) {
		return false;
	}
	if (!read_standing(context, tag, extension.task, &before, fault) ||
	    !book_begin(context->desk.book, fault) ||
	    !book_add_extension(context->desk.book, tag, &extension, fault)) {
		return fault_prefix(fault, "extending %s", tag);
	}
	if (!read_standing(context, tag, extension.task, &after, fault)) {
		return false;
	}
	const struct reading *moved = moved_reading(&after, &extension);
	if (moved == NULL) {
		return refuse(&before, &extension, tag, fault) ||
		       fault_prefix(fault, "extending %s", tag);
	}
	say(context, tag, &extension, moved, &after);
	return book_commit(context->desk.book, fault);
}

const struct command COMMAND_EXTEND = {
    .name = "extend",
    .summary = "record more time that an authority has given for a task",
    .details =
	"It is never assumed: without the authority's paper there is no more time. It moves what "
	"is counted from a date, never a printed date, an age limit or what a use calls for; it "
	"ends with the next time the task is done. A rule may say how much it can add. One that "
	"would change nothing is refused.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
