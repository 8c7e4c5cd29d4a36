/* becket list */
#include "cli/command.h"
#include "cli/values.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

static const struct option_spec OPTIONS[] = {
    SELECT_OPTIONS(struct list_asked, gear),
    OPTION("state", "aboard|reserve|landed|stand-in|withdrawn", CHOICE, struct list_asked,
	state, "where it stands"),
    FLAG_OPTION("all", struct list_asked, all,
	"withdrawn items too, and those of vessels that left"),
};

/* An array that is made of some boats at a time. */
struct list_making {
	const struct desk *desk;
	struct answer answer;
};

static void
take_some(const struct list_answer *some, void *of)
{
	struct list_making *making = of;
	answer_list_some(
	    &making->answer, &making->desk->contents.inventory, some->items, some->count);
}

static bool
say_json(struct context *context, const struct list_asked *asked, struct fault *fault)
{
	struct list_making making = {&context->desk, {.out = &context->out}};
	context_hold(context);
	if (!desk_list_by_boats(&context->desk, asked, take_some, &making, fault)) {
		return false;
	}
	answer_end(&making.answer);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct list_asked asked = {.state = -1};
	struct list_answer answer = {0};
	if (!options_into(context->given, &asked, fault)) {
		return false;
	}
	if (context->json) {
		return say_json(context, &asked, fault);
	}
	if (!desk_list(&context->desk, &asked, &answer, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (!context_is_empty(context)) {
		report_list(context_style(context), answer.kinds, inventory, answer.items,
		    answer.count, &context->out);
	}
	return true;
}

const struct command COMMAND_LIST = {
    .name = "list",
    .summary = "list the gear",
    .details = "",
    .examples = "list --kind flares\n"
		"all flares, and where they are kept\n"
		"list --state reserve\n"
		"old gear aboard that is not counted\n",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_LIST),
    .run = run,
};
