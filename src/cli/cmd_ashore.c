/* becket ashore */
#include "cli/command.h"
#include "cli/values.h"
#include "exchange/answers_life.h"
#include "report/report_life.h"

#include <string.h>

static const struct option_spec OPTIONS[] = {
    {.name = "station", .argument = "STATION", .help = "at this station only"},
    {.name = "came-back", .help = "what came back, where it did not just pass"},
    {.name = "since",
	.argument = "DATE",
	.help = "came back on that day or later",
	.needs = "came-back"},
    {.name = "all",
	.help = "with --came-back: what just passed, too",
	.needs = "came-back"},
    {.name = "csv", .help = "answer as CSV, for a spreadsheet", .not_with = "json"},
};

static bool
write_back(struct context *context, const struct lookout *lookout, struct fault *fault)
{
	struct came_back_list list = {0};
	bool all = options_has(context->given, "all");
	day_t since = DAY_NONE;
	if (!value_day(context->given, "since", &since, NULL, fault)) {
		return false;
	}
	came_back_since(lookout->inventory, options_value(context->given, "station"),
	    since, &context->desk.arena, &list);
	if (options_has(context->given, "csv")) {
		csv_write_came_back(lookout, &list, all, &context->out);
		return true;
	}
	if (context->json) {
		answer_came_back(lookout, &list, all, &context->out);
		return true;
	}
	report_came_back(context_style(context), lookout, &list, all, &context->out);
	return true;
}

static void
write_ashore(struct context *context, const struct lookout *lookout)
{
	struct whereabouts_list list = {0};
	whereabouts_ashore(lookout, options_value(context->given, "station"),
	    &context->desk.arena, &list);
	if (options_has(context->given, "csv")) {
		csv_write_ashore(lookout, &list, &context->out);
		return;
	}
	if (context->json) {
		answer_where(lookout, &list, &context->out);
		return;
	}
	report_ashore(context_style(context), lookout, &list, &context->out);
}

/* A station's name that is nearly one of the book's is a slip. */
static bool
check_station(const struct context *context, struct fault *fault)
{
	const char *name = options_value(context->given, "station");
	const char *nearest = NULL;
	for (size_t i = 0; name != NULL && i < context->desk.contents.station_count;
	     i++) {
		const char *known = context->desk.contents.stations[i].name;
		if (strcmp(known, name) == 0) {
			return true;
		}
		nearest = nearest == NULL ? nearest_word(name, &known, 1) : nearest;
	}
	return nearest == NULL ||
	       fault_set(fault, FAULT_INPUT,
		   "--station: there is no station \"%s\"; did you mean %s?", name,
		   nearest);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct lookout lookout = {0};
	if (!desk_kinds(&context->desk, &lookout.kinds, fault) ||
	    !desk_load(&context->desk, NULL, true, fault) ||
	    !check_station(context, fault)) {
		return false;
	}
	lookout.inventory = &context->desk.contents.inventory;
	lookout.stations = context->desk.contents.stations;
	lookout.station_count = context->desk.contents.station_count;
	if (options_has(context->given, "came-back")) {
		return write_back(context, &lookout, fault);
	}
	write_ashore(context, &lookout);
	return true;
}

const struct command COMMAND_ASHORE = {
    .name = "ashore",
    .summary = "list what is ashore, with whom, since when, and when it is expected back",
    .details =
	"It is expected back after the station's turn-round; of a station that is not in the "
	"book that is assumed, and said to be. --came-back lists what came back and did not "
	"just pass: a shorter time, condemned, nothing done, a part put in new, or a note.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
