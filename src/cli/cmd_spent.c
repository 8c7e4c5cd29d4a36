/* becket spent */
#include "cli/command.h"
#include "exchange/answers_life.h"
#include "report/report_life.h"

struct asked {
	int year;
	const char *vessel;
	bool csv;
};

static const struct option_spec OPTIONS[] = {
    OPTION("year", "YEAR", COUNT, struct asked, year, "this year only; else every year",
	.least = 1901, .most = 2190),
    OPTION("vessel", "NAME", WORDS, struct asked, vessel, "this vessel only"),
    FLAG_OPTION(
	"csv", struct asked, csv, "answer as CSV, for a spreadsheet", .not_with = "json"),
};

static bool
run(struct context *context, struct fault *fault)
{
	struct asked asked = {0};
	const struct kinds *kinds = NULL;
	struct spending spending = {0};
	if (!options_into(context->given, &asked, fault) ||
	    !desk_kinds(&context->desk, &kinds, fault) ||
	    !desk_spent(&context->desk, asked.year, asked.vessel, &spending, fault)) {
		return false;
	}
	context->style.csv = asked.csv;
	if (context->json) {
		answer_spent(
		    &spending, context->desk.contents.inventory.currency, &context->out);
	} else {
		report_spent(context_style(context), kinds, &spending, &context->out);
	}
	return true;
}

const struct command COMMAND_SPENT = {
    .name = "spent",
    .summary = "sum up what gear has cost, by kind, by station and by year",
    .details =
	"Work is what records, returns and withdrawals cost. Bought is the price of what has "
	"a day of purchase. Hired gear is not bought, and work without a price is counted, "
	"not guessed.",
    .examples = "spent --year 2026\n"
		"what gear has cost in 2026\n",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_SPENT),
    .run = run,
};
