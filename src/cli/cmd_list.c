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

/* An answer that is made of some boats at a time. */
struct list_making {
	const struct desk *desk;
	bool json;
	struct answer answer;
	struct list_report report;
};

static void
take_some(const struct list_answer *some, void *of)
{
	struct list_making *making = of;
	const struct inventory *inventory = &making->desk->contents.inventory;
	if (making->json) {
		answer_list_some(&making->answer, inventory, some->items, some->count);
	} else {
		report_list_some(
		    &making->report, some->kinds, inventory, some->items, some->count);
	}
}

static bool
make(struct context *context, struct list_making *making, struct fault *fault)
{
	struct list_asked asked = {.state = -1};
	if (!options_into(context->given, &asked, fault)) {
		return false;
	}
	context_hold(context);
	if (!desk_list_by_boats(&context->desk, &asked, take_some, making, fault)) {
		return false;
	}
	if (context->json) {
		answer_end(&making->answer);
		return true;
	}
	return context_is_empty(context) ||
	       report_list_end(
		   &making->report, context_style(context), &context->out, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct list_making making = {.desk = &context->desk,
	    .json = context->json,
	    .answer = {.out = &context->out}};
	bool done = make(context, &making, fault);
	list_report_clear(&making.report);
	return done;
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
