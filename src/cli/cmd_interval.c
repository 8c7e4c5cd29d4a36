/* becket interval */
#include "cli/command.h"
#include "cli/values.h"
#include "desk/ranges.h"
#include "report/words.h"

#include <string.h>

static const struct word_spec WORDS[] = {ITEMS_WORD("LR-1..LR-8")};

static const struct option_spec OPTIONS[] = {
    {.name = "task",
	.argument = "service|inspect|weigh|test|renew|register",
	.help = "the task it is about",
	.required = true},
    {.name = "every", .argument = "MONTHS", .help = "months from the last time"},
    {.name = "first", .argument = "MONTHS", .help = "months until it is first done"},
    {.name = "from",
	.argument = "made|packed|bought|fitted|last",
	.help = "what it counts from until then; from manufacture, or the earliest date "
		"known, when not told"},
    {.name = "paper",
	.argument = "NAME",
	.help = "the paper it stands in: \"owner's manual, 2nd edition\""},
    {.name = "on",
	.argument = "DATE",
	.help = "a day on which the thing it is about was in place; today when not told"},
    {.name = "none", .help = "take it away: the rules alone hold again"},
};

/* Fills anchor and whether it was said. */
static void
read_from(const struct given_options *given, struct interval *interval)
{
	const char *from = options_value(given, "from");
	for (int i = ANCHOR_MADE; from != NULL && i <= ANCHOR_LAST; i++) {
		if (strcmp(from, anchor_word((enum anchor)i)) == 0) {
			interval->from = (enum anchor)i;
			interval->from_said = true;
		}
	}
}

static bool
read_interval(struct context *context, struct interval *interval, struct fault *fault)
{
	static const struct range MONTHS = {1, 600};
	const struct given_options *given = context->given;
	bool every = false;
	interval->paper = options_value(given, "paper");
	interval->on = context->desk.today;
	read_from(given, interval);
	if (!value_number(given, "every", MONTHS, &interval->months, &every, fault) ||
	    !value_number(given, "first", MONTHS, &interval->first_months, NULL, fault) ||
	    !value_day(given, "on", &interval->on, NULL, fault)) {
		return false;
	}
	if (!every || interval->paper == NULL || interval->paper[0] == '\0') {
		return usage_fault(fault, "becket interval", "--%s is missing",
		    every ? "paper" : "every");
	}
	return true;
}

/* With --none nothing else is said. */
static bool
check_none(const struct context *context, struct fault *fault)
{
	static const char *const NOT_WITH[] = {"every", "first", "from", "paper", "on"};
	for (size_t i = 0; i < COUNT_OF(NOT_WITH); i++) {
		if (options_has(context->given, NOT_WITH[i])) {
			return usage_fault(fault, "becket interval",
			    "--%s does not go with --none", NOT_WITH[i]);
		}
	}
	return true;
}

/* The day of the last renewal of the thing in place; DAY_NONE when none is on record. */
static day_t
renewed_on(const struct item *item)
{
	day_t on = DAY_NONE;
	for (size_t i = 0; i < item->record_count; i++) {
		if (item->records[i].task == TASK_RENEW) {
			on = day_max(on, stamp_first(item->records[i].on));
		}
	}
	return on;
}

static bool
put(struct context *context, const struct item *item, const struct interval *interval,
    struct fault *fault)
{
	day_t renewed = renewed_on(item);
	if (interval->on < renewed) {
		char on[DAY_WORDS_SIZE];
		return fault_set(fault, FAULT_INPUT,
		    "--on: %s was renewed on %s; an interval of before is about the thing "
		    "that was there then and would move nothing. Expected that day or later",
		    item->tag, day_words(renewed, on));
	}
	return book_put_interval(context->desk.book, item->tag, interval, fault);
}

static bool
drop(
    struct context *context, const struct item *item, enum task task, struct fault *fault)
{
	if (item_interval(item, task) == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "%s has no maker's interval of its %s", item->tag, task_noun(task));
	}
	return book_drop_interval(context->desk.book, item->tag, task, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	bool none = options_has(context->given, "none");
	struct interval interval = {0};
	size_t *items = NULL;
	size_t count = 0;
	if (!task_parse(options_value(context->given, "task"), &interval.task, fault) ||
	    !(none ? check_none(context, fault)
		   : read_interval(context, &interval, fault)) ||
	    !desk_load(&context->desk, NULL, true, fault) ||
	    !range_items(&context->desk, &context->given->words, &items, &count, fault) ||
	    !book_begin(context->desk.book, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		const struct item *item =
		    &context->desk.contents.inventory.items[items[i]];
		if (!(none ? drop(context, item, interval.task, fault)
			   : put(context, item, &interval, fault))) {
			return false;
		}
		text_add_format(&context->out, "%s: ", item->tag);
		if (none) {
			text_add_format(&context->out,
			    "the maker's interval of its %s is taken away\n",
			    task_noun(interval.task));
		} else {
			add_interval_words(&interval, &context->out);
			text_add(&context->out, "\n");
		}
	}
	return book_commit(context->desk.book, fault);
}

const struct command COMMAND_INTERVAL = {
    .name = "interval",
    .summary = "enter the maker's interval of a task for a piece of gear",
    .details =
	"As its label, manual or certificate states it. It takes the place of common practice "
	"for that task; beside a law's the earlier day wins, and a rule that leaves its "
	"interval to the maker reads it from here. It is of the thing now in place: a renewal "
	"dated later ends it. A renewal by age (--task renew --from made) goes on counting from "
	"that date.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
