/* becket spent */
#include "cli/command.h"
#include "cli/values.h"
#include "exchange/answers_life.h"
#include "report/report_life.h"

static const struct option_spec OPTIONS[] = {
    {.name = "year", .argument = "YEAR", .help = "this year only; else every year"},
    {.name = "vessel", .argument = "NAME", .help = "this vessel only"},
    {.name = "csv", .help = "answer as CSV, for a spreadsheet"},
};

static bool
run(struct context *context, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	struct spending spending = {0};
	int year = 0;
	bool csv = options_has(context->given, "csv");
	if (csv && context->json) {
		return usage_fault(
		    fault, "becket spent", "--csv and --json exclude each other");
	}
	if (!value_number(
		context->given, "year", (struct range){1901, 2190}, &year, NULL, fault) ||
	    !desk_kinds(&context->desk, &kinds, fault) ||
	    !desk_load(
		&context->desk, options_value(context->given, "vessel"), true, fault)) {
		return false;
	}
	spending_sum(
	    &context->desk.contents.inventory, year, &context->desk.arena, &spending);
	if (csv) {
		csv_write_spent(
		    &spending, context->desk.contents.inventory.currency, &context->out);
		return true;
	}
	if (context->json) {
		answer_spent(
		    &spending, context->desk.contents.inventory.currency, &context->out);
		return true;
	}
	report_spent(context_style(context), kinds, &spending, &context->out);
	return true;
}

const struct command COMMAND_SPENT = {
    .name = "spent",
    .summary = "sum up what gear has cost, by kind, by station and by year",
    .details =
	"Work is what records, returns and withdrawals cost. Bought is the price of what has "
	"a day of purchase. Hired gear is not bought, and work without a price is counted, "
	"not guessed.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
