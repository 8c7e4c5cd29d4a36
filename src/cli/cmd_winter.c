/* becket winter */
#include "cli/command.h"
#include "cli/plans.h"
#include "cli/values.h"
#include "exchange/answers.h"
#include "exchange/winter_csv.h"

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "this vessel only"},
    {.name = "year",
	.argument = "YEAR",
	.help =
	    "the winter that starts in this year; else the one she is in, or the next"},
    {.name = "csv", .help = "answer as CSV, for a spreadsheet"},
};

static bool
write_reports(struct context *context, const struct shore_list *lists, size_t count,
    struct fault *fault)
{
	for (size_t i = 0; i < count; i++) {
		if (i > 0) {
			text_add(&context->out, "\n");
		}
		if (!report_winter(&context->style, context->engine.kinds,
			&context->contents.inventory, &lists[i], &context->out, fault)) {
			return false;
		}
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	int year = 0;
	struct shore_list *lists = NULL;
	size_t count = 0;
	bool csv = options_has(context->given, "csv");
	if (csv && context->json) {
		return usage_fault(
		    fault, "becket winter", "--csv and --json exclude each other");
	}
	if (!value_number(
		context->given, "year", (struct range){1901, 2190}, &year, NULL, fault) ||
	    !context_engine(
		context, options_value(context->given, "vessel"), false, fault) ||
	    !plans_make(context, year, &lists, &count, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->contents.inventory;
	if (csv) {
		return csv_write_winter(inventory, lists, count, &context->out, fault);
	}
	if (context->json) {
		return answer_winter(inventory, lists, count, context->contents.currency,
		    &context->out, fault);
	}
	return context_is_empty(context) || write_reports(context, lists, count, fault);
}

const struct command COMMAND_WINTER = {
    .name = "winter",
    .summary = "say what comes ashore this winter, to whom, by when, and what can wait",
    .details =
	"Hand in by station and day, do it yourself, buy and renew, paperwork, dispose of, "
	"and what can wait. All vessels when none is named.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
