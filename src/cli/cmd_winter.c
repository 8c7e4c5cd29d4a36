/* becket winter */
#include "cli/command.h"
#include "cli/plans.h"
#include "cli/values.h"
#include "cli/years.h"
#include "exchange/answers.h"
#include "exchange/winter_csv.h"

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "this vessel only"},
    {.name = "base", .argument = "PLACE", .help = "vessels of this base only"},
    {.name = "year",
	.argument = "YEAR",
	.help =
	    "the winter that starts in this year; else the one she is in, or the next"},
    {.name = "without-station",
	.argument = "STATION",
	.help = "what if it were not there: send nothing to it"},
    {.name = "only-station",
	.argument = "STATION",
	.help = "what if it were the only one: send nothing elsewhere"},
    {.name = "trips",
	.argument = "N",
	.help = "what if there were at most so many trips, whatever the vessels say"},
    {.name = "csv", .help = "answer as CSV, for a spreadsheet"},
};

/* Reads what is wished for. */
static bool
read_wish(struct context *context, struct plans_wish *wish, struct fault *fault)
{
	static const char WHO[] = "becket winter";
	const struct given_options *given = context->given;
	wish->vessel = options_value(given, "vessel");
	wish->base = options_value(given, "base");
	wish->without_station = options_value(given, "without-station");
	wish->only_station = options_value(given, "only-station");
	if (options_has(given, "csv") && context->json) {
		return usage_fault(fault, WHO, "--csv and --json exclude each other");
	}
	if (wish->vessel != NULL && wish->base != NULL) {
		return usage_fault(fault, WHO, "--vessel and --base exclude each other");
	}
	if (wish->without_station != NULL && wish->only_station != NULL) {
		return usage_fault(fault, WHO,
		    "--without-station and --only-station exclude each other");
	}
	return value_number(
		   given, "year", (struct range){1901, 2190}, &wish->year, NULL, fault) &&
	       value_number(given, "trips", (struct range){1, TRIPS_MOST},
		   &wish->most_trips, NULL, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct plans_wish wish = {0};
	struct shore_list *lists = NULL;
	size_t count = 0;
	if (!read_wish(context, &wish, fault) ||
	    !plans_make(context, &wish, &lists, &count, fault)) {
		return false;
	}
	bool what_if = wish.without_station != NULL || wish.only_station != NULL ||
		       wish.most_trips != 0 || wish.year != 0;
	if (count == 1 && lists[0].has_winter && !what_if &&
	    !years_beside_list(context, &lists[0], fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (options_has(context->given, "csv")) {
		csv_write_winter(inventory, lists, count, &context->out);
		return true;
	}
	if (context->json) {
		answer_winter(inventory, lists, count,
		    context->desk.contents.inventory.currency, &context->out);
		return true;
	}
	if (!context_is_empty(context)) {
		report_winters(context_style(context), context->desk.engine.kinds,
		    inventory, lists, count, &context->out);
	}
	return true;
}

const struct command COMMAND_WINTER = {
    .name = "winter",
    .summary = "say what comes ashore this winter, to whom, by when, and what can wait",
    .details =
	"Hand in by station and day, do it yourself, buy and renew, paperwork, dispose of, "
	"and what can wait. All vessels when none is named.\n\n"
	"Each thing goes to the station, and on the day, for which work, carriage and trips "
	"cost least; of equals with the fewest trips, then the earliest. The vessels of one "
	"base share trips, whichever of them is asked about. With at most so many trips (--trips, "
	"or becket vessel --trips) what stays behind is told: as little as can be, of what law "
	"or maker bind first. That nothing is better is "
	"proven; where the search was cut short, the answer says so.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
