/* becket muster */
#include "cli/command.h"
#include "cli/values.h"
#include "exchange/answers.h"

#include <string.h>

static const struct option_spec OPTIONS[] = {
    {.name = "on", .argument = "DATE", .help = "count on this day; today if left out"},
    {.name = "from", .argument = "DATE", .help = "count on every day from this one"},
    {.name = "to", .argument = "DATE", .help = "... to this one"},
    {.name = "vessel", .argument = "NAME", .help = "this vessel only"},
    {.name = "base", .argument = "PLACE", .help = "vessels of this base only"},
};

static bool
read_days(const struct context *context, struct span *out, struct fault *fault)
{
	struct span days = {context->today, context->today};
	bool on = false;
	bool from = false;
	bool to = false;
	if (!value_day(context->given, "on", &days.first, &on, fault) ||
	    !value_day(context->given, "from", &days.first, &from, fault) ||
	    !value_day(context->given, "to", &days.last, &to, fault)) {
		return false;
	}
	if (from != to || (on && from)) {
		return usage_fault(fault, "becket muster",
		    "found %s; expected --on, or --from and --to, or none of them",
		    !from ? "--to without --from"
		    : !to ? "--from without --to"
			  : "--on with --from and --to");
	}
	if (!to) {
		days.last = days.first;
	}
	if (days.last < days.first) {
		return usage_fault(fault, "becket muster",
		    "found a --to before its --from; expected it on that day or later");
	}
	*out = days;
	return true;
}

/* Musters the vessels that are asked about; the status is 1 when one is not all right. */
static bool
muster_all(struct context *context, struct span days, struct muster *musters,
    size_t *count_out, struct fault *fault)
{
	const struct inventory *inventory = &context->contents.inventory;
	const char *base = options_value(context->given, "base");
	size_t count = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (base != NULL && strcmp(inventory->vessels[i].base, base) != 0) {
			continue;
		}
		struct muster *muster = &musters[count];
		if (!muster_vessel(
			&context->engine, i, days, &context->arena, muster, fault)) {
			return false;
		}
		context->status = muster->ok ? context->status : 1;
		count++;
	}
	/* A slip in the name must not read as "all is right". */
	if (count == 0 && base != NULL && inventory->vessel_count > 0) {
		return fault_set(fault, FAULT_INPUT,
		    "--base: found \"%.60s\", expected the base of a vessel in the book",
		    base);
	}
	*count_out = count;
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct span days = {0};
	if (!read_days(context, &days, fault) ||
	    !context_engine(
		context, options_value(context->given, "vessel"), false, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->contents.inventory;
	struct muster *musters =
	    arena_alloc(&context->arena, (inventory->vessel_count + 1) * sizeof *musters);
	size_t count = 0;
	if (musters == NULL) {
		return fault_memory(fault);
	}
	if (!muster_all(context, days, musters, &count, fault)) {
		return false;
	}
	if (context->json) {
		return answer_muster(
		    inventory, days, musters, count, &context->out, fault);
	}
	return context_is_empty(context) ||
	       report_muster(&context->style, inventory, days, musters, count,
		   &context->out, fault);
}

const struct command COMMAND_MUSTER = {
    .name = "muster",
    .summary = "count what is aboard against what must be carried",
    .details =
	"Counts what is aboard or standing in, of known date, and not lapsed by law, label "
	"or maker, against the carriage lines of each vessel's sheets. What has lapsed by "
	"common practice alone is counted and named. What can't be told, because her "
	"length, area, year or persons are not in the book, is asked for and never assumed. Over "
	"a period the first day that is short is shown. The exit status is 1 when a vessel "
	"is short, not told, or has no carriage lines to count against.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
