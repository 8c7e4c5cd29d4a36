/* becket interval */
#include "cli/command.h"
#include "desk/acts.h"
#include "report/words.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LR-1..LR-8")};

/* What the options say. */
struct said_interval {
	struct interval of;
	int from; /* its place among the words from which an interval counts, or -1 */
	bool none;
};

static const struct option_spec OPTIONS[] = {
    OPTION("task", "service|inspect|weigh|test|renew|register", CHOICE,
	struct said_interval, of.task, "the task it is about", .required = true),
    OPTION("every", "MONTHS", COUNT, struct said_interval, of.months,
	"months from the last time", .needs = "paper", .not_with = "none", .least = 1,
	.most = 600),
    OPTION("first", "MONTHS", COUNT, struct said_interval, of.first_months,
	"months until it is first done", .needs = "every", .least = 1, .most = 600),
    OPTION("count-from", "made|packed|bought|fitted|last", CHOICE, struct said_interval,
	from,
	"what it counts from until then; from manufacture, or the earliest date "
	"known, when not told",
	.needs = "every"),
    OPTION("paper", "NAME", WORDS, struct said_interval, of.paper,
	"the paper it stands in: \"owner's manual, 2nd edition\"", .needs = "every"),
    OPTION("on", "DATE", DAY, struct said_interval, of.on,
	"a day on which the thing it is about was in place; today when not told",
	.needs = "every"),
    FLAG_OPTION("none", struct said_interval, none,
	"take it away: the rules alone hold again",
	.not_with = "every first count-from paper on"),
};

static bool
read_request(struct context *context, struct interval_request *out, struct fault *fault)
{
	struct said_interval said = {.of.on = context->desk.today, .from = -1};
	if (!options_into(context->given, &said, fault)) {
		return false;
	}
	if (said.from >= 0) {
		said.of.from = (enum anchor)(ANCHOR_MADE + said.from);
		said.of.from_said = true;
	}
	out->none = said.none;
	out->interval = said.of;
	if (!said.none && said.of.months == 0) {
		return usage_fault(fault, "becket interval", "--every is missing");
	}
	return said.none || said.of.paper[0] != '\0' ||
	       usage_fault(fault, "becket interval", "--paper is missing");
}

static bool
run(struct context *context, struct fault *fault)
{
	struct interval_request request = {.tags = context->given->words};
	struct gear_outcome done = {0};
	if (!read_request(context, &request, fault) ||
	    !desk_interval(&context->desk, &request, &done, fault)) {
		return false;
	}
	for (size_t i = 0; i < done.count; i++) {
		text_add_format(&context->out, "%s: ", done.tags[i]);
		if (request.none) {
			text_add_format(&context->out,
			    "the maker's interval of its %s is taken away",
			    task_noun(request.interval.task));
		} else {
			add_interval_words(&request.interval, &context->out);
		}
		text_add(&context->out, "\n");
	}
	return true;
}

const struct command COMMAND_INTERVAL = {
    .name = "interval",
    .summary = "enter the maker's interval of a task for a piece of gear",
    .details =
	"As its label, manual or certificate states it. It takes the place of common practice "
	"for that task; beside a law's the earlier day wins, and a rule that leaves its "
	"interval to the maker reads it from here. It is of the thing now in place: a renewal "
	"dated later ends it. A renewal by age (--task renew --count-from made) goes on counting from "
	"that date.",
    .examples = "interval LR-1 --task service --every 24 --paper \"owner's manual\"\n"
		"the maker wants the raft serviced every two years\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .quiet = true,
    .run = run,
};
