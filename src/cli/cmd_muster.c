/* becket muster */
#include "cli/command.h"
#include "cli/leaving.h"
#include "cli/survey.h"
#include "cli/values.h"
#include "desk/bookings.h"
#include "exchange/answers.h"
#include "winter/winter.h"

#include <string.h>

static const struct option_spec OPTIONS[] = {
    {.name = "on", .argument = "DATE", .help = "count on this day; today if left out"},
    {.name = "from", .argument = "DATE", .help = "count on every day from this one"},
    {.name = "to", .argument = "DATE", .help = "with --from: up to this one"},
    {.name = "season",
	.help = "each vessel over her season: what is left of it, or else the next"},
    {.name = "year",
	.argument = "YEAR",
	.help = "with --season: the one that starts in this year"},
    {.name = "bookings",
	.help =
	    "each booking on its own days, for its persons; with --from and --to those "
	    "that have a day among these"},
    {.name = "vessel", .argument = "NAME", .help = "this vessel only"},
    {.name = "base", .argument = "PLACE", .help = "vessels of this base only"},
    {.name = "csv", .help = "answer as CSV, a row a carriage line"},
    {.name = "survey",
	.argument = "DIR",
	.help = "write a survey file for each vessel into this folder, to print"},
    {.name = "over", .help = "with --survey: over files that are there"},
};

/* What is asked, and of whom. */
struct asked {
	struct muster_question question;
	bool has_year;
	int year; /* of the season */
	const char *vessel;
	const char *base;
};

static bool
count_forms(const struct given_options *given, struct fault *fault)
{
	bool on = options_has(given, "on");
	bool period = options_has(given, "from") || options_has(given, "to");
	bool season = options_has(given, "season");
	if (on + period + season > 1) {
		return usage_fault(fault, "becket muster",
		    "found %s; expected --on, or --from and --to, or --season, or none of "
		    "them",
		    !season ? "--on with --from and --to"
		    : on    ? "--on with --season"
			    : "--season with --from and --to");
	}
	static const char *const NOT_BOOKED[] = {"on", "season", "survey"};
	for (size_t i = 0; i < COUNT_OF(NOT_BOOKED); i++) {
		if (options_has(given, "bookings") && options_has(given, NOT_BOOKED[i])) {
			return usage_fault(fault, "becket muster",
			    "found --bookings with --%s; expected one", NOT_BOOKED[i]);
		}
	}
	if (options_has(given, "year") && !season) {
		return usage_fault(
		    fault, "becket muster", "--year names a season; --season is missing");
	}
	if (options_has(given, "over") && !options_has(given, "survey")) {
		return usage_fault(
		    fault, "becket muster", "--over is for --survey; it is not there");
	}
	if (options_has(given, "csv") && options_has(given, "survey")) {
		return usage_fault(
		    fault, "becket muster", "found --csv with --survey; expected one");
	}
	return true;
}

static bool
read_days(const struct context *context, struct asked *asked, struct fault *fault)
{
	struct span days = {context->desk.today, context->desk.today};
	bool from = false;
	bool to = false;
	if (!value_day(context->given, "on", &days.first, NULL, fault) ||
	    !value_day(context->given, "from", &days.first, &from, fault) ||
	    !value_day(context->given, "to", &days.last, &to, fault)) {
		return false;
	}
	if (from != to) {
		return usage_fault(fault, "becket muster", "found %s; expected both",
		    from ? "--from without --to" : "--to without --from");
	}
	if (!to) {
		days.last = days.first;
	}
	if (days.last < days.first) {
		return usage_fault(fault, "becket muster",
		    "found a --to before its --from; expected it on that day or later");
	}
	asked->question.days = days;
	return true;
}

static bool
read_asked(const struct context *context, struct asked *asked, struct fault *fault)
{
	const struct given_options *given = context->given;
	asked->question.season = options_has(given, "season");
	asked->vessel = options_value(given, "vessel");
	asked->base = options_value(given, "base");
	return count_forms(given, fault) && read_days(context, asked, fault) &&
	       value_number(given, "year", (struct range){1950, 2150}, &asked->year,
		   &asked->has_year, fault);
}

/* The days a vessel is asked about. What is past of a season is not: what was recorded since
 * would not count. */
static bool
days_of(const struct context *context, const struct asked *asked,
    const struct vessel *vessel, struct span *out, struct fault *fault)
{
	struct span days = asked->question.days;
	if (asked->question.season) {
		bool found = asked->has_year
				 ? season_of_year(vessel, asked->year, &days)
				 : season_at(vessel, context->desk.today, &days);
		if (!found) {
			return fault_set(fault, FAULT_INPUT,
			    "%s has no season%s: one winter follows the other",
			    vessel->name,
			    asked->has_year ? " that starts in that year" : "");
		}
		if (span_has(days, context->desk.today)) {
			days.first = context->desk.today;
		}
	}
	if (!vessel_is_here(vessel, days.last)) {
		days.last = day_max(days.first, vessel->left - 1);
	}
	*out = days;
	return true;
}

static bool
is_asked(const struct asked *asked, const struct vessel *vessel)
{
	day_t day = asked->question.days.first;
	return !vessel->store && vessel_is_here(vessel, day) &&
	       (asked->vessel == NULL || strcmp(vessel->name, asked->vessel) == 0) &&
	       (asked->base == NULL ||
		   strcmp(vessel_base_on(vessel, day), asked->base) == 0);
}

/* A slip in a name must not read as "all is right". */
static bool
none_found(struct context *context, const struct asked *asked, struct fault *fault)
{
	size_t vessel = 0;
	if (asked->vessel != NULL &&
	    !desk_find_vessel(&context->desk, asked->vessel, &vessel, fault)) {
		return false;
	}
	if (asked->vessel != NULL &&
	    context->desk.contents.inventory.vessels[vessel].store) {
		return fault_set(fault, FAULT_INPUT,
		    "--vessel: \"%.60s\" is a store; only boats are mustered",
		    asked->vessel);
	}
	const struct vessel *named = &context->desk.contents.inventory.vessels[vessel];
	if (asked->vessel != NULL && !vessel_is_here(named, asked->question.days.first)) {
		return left_check_on(named, asked->question.days.first, fault);
	}
	if (asked->base != NULL && context->desk.contents.inventory.vessel_count > 0) {
		return fault_set(fault, FAULT_INPUT,
		    "--base: found \"%.60s\", expected the base of a vessel in the book",
		    asked->base);
	}
	return true;
}

/* Musters the vessels that are asked about; the status is 1 when one is not all right. */
static bool
muster_all(struct context *context, struct asked *asked, struct muster *musters,
    size_t *count_out, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	size_t count = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		struct muster *muster = &musters[count];
		struct span days = {0};
		if (!is_asked(asked, &inventory->vessels[i])) {
			continue;
		}
		if (!days_of(context, asked, &inventory->vessels[i], &days, fault) ||
		    !muster_vessel(&context->desk.engine, i, days, &context->desk.arena,
			muster, fault)) {
			return false;
		}
		struct span *all = &asked->question.days;
		all->first = count == 0 ? days.first : day_min(all->first, days.first);
		all->last = count == 0 ? days.last : day_max(all->last, days.last);
		context->status = muster->ok ? context->status : 1;
		count++;
	}
	*count_out = count;
	return count > 0 ? muster_cure(&context->desk.engine, musters, count,
			       &context->desk.arena, fault)
			 : none_found(context, asked, fault);
}

static bool
write_answer(struct context *context, const struct asked *asked,
    const struct muster *musters, size_t count, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const char *folder = options_value(context->given, "survey");
	if (folder != NULL && count > 0 &&
	    !survey_write(context, folder, options_has(context->given, "over"), musters,
		count, fault)) {
		return false;
	}
	if (context->json) {
		answer_muster(inventory, &asked->question, musters, count, &context->out);
		return true;
	}
	if (options_has(context->given, "csv")) {
		csv_write_muster(inventory, musters, count, &context->out);
		return true;
	}
	if (!context_is_empty(context)) {
		report_muster(context_style(context), context->desk.engine.kinds,
		    inventory, &asked->question, musters, count, &context->out);
	}
	return true;
}

/* Musters bookings, those that have not ended where no days were told. */
static bool
run_bookings(struct context *context, const struct asked *asked, struct fault *fault)
{
	struct bookings_asked bookings = {
	    .days = asked->question.days, .vessel = asked->vessel, .base = asked->base};
	struct booked *booked = NULL;
	size_t count = 0;
	if (!options_has(context->given, "to")) {
		bookings.days.last = DAY_NEVER;
	}
	if (!bookings_muster(&context->desk, &bookings, &booked, &count, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < count; i++) {
		context->status = booked[i].muster.ok ? context->status : 1;
	}
	if (context->json) {
		answer_booked(inventory, booked, count, &context->out);
		return true;
	}
	if (options_has(context->given, "csv")) {
		csv_write_booked(inventory, booked, count, &context->out);
		return true;
	}
	return report_booked(context_style(context), context->desk.engine.kinds,
	    inventory, booked, count, &context->out);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct asked asked = {0};
	/* All of the book is read, for a boat's spares are in another's name, and she may
	 * be asked about on a day before she left. */
	context->desk.with_left = true;
	if (!read_asked(context, &asked, fault)) {
		return false;
	}
	if (options_has(context->given, "bookings")) {
		return run_bookings(context, &asked, fault);
	}
	if (!desk_engine(&context->desk, NULL, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct muster *musters = arena_alloc(
	    &context->desk.arena, (inventory->vessel_count + 1) * sizeof *musters);
	size_t count = 0;
	return muster_all(context, &asked, musters, &count, fault) &&
	       write_answer(context, &asked, musters, count, fault);
}

const struct command COMMAND_MUSTER = {
    .name = "muster",
    .summary = "count what is aboard against what must be carried",
    .details =
	"Counts what is aboard or standing in, of known date, and not lapsed by law, label "
	"or maker, against the carriage lines of each vessel's sheets. What has lapsed by "
	"common practice alone is counted and named. What can't be told, because her "
	"length, area, year or persons are not in the book, is asked for and never assumed. Over "
	"a period the first day that is short is shown, then what falls short later. A season "
	"lies between two winters and is named by the year it starts in; a vessel in use all "
	"year has the calendar year. Where she is short, the fewest spares in the stores of her "
	"base that would cure it are named, with the words that move them; of a lot so many "
	"pieces. None is promised twice: who has a booking soonest is served first, then who is first "
	"short, and those that can be made whole before the others. With --bookings each "
	"booking is counted by itself, on its days and for its persons, the worst first, "
	"and spares go to the one that begins first. Stores are not mustered. A survey file is one page of HTML a "
	"vessel, to print and to sign. The exit status is 1 when a vessel "
	"is short, not told, or has no carriage lines to count against.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
