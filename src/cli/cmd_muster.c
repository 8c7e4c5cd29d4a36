/* becket muster */
#include "cli/command.h"
#include "cli/survey.h"
#include "desk/bookings.h"
#include "desk/stores.h"
#include "exchange/answers.h"
#include "winter/winter.h"

#include <string.h>

/* What is asked, and of whom. */
struct asked {
	struct muster_question question;
	day_t on;
	day_t from; /* DAY_NONE where no period is told */
	day_t to;
	int year; /* of the season; 0 for the one at hand */
	const char *vessel;
	const char *base;
	const char *folder; /* for survey files; NULL for none */
	bool over;
	bool bookings;
	bool remarks;
	bool csv;
};

static const struct option_spec OPTIONS[] = {
    {.name = "on",
	.argument = "DATE",
	.help = "count on this day; today if left out",
	.not_with = "from to season",
	.type = OPTION_DAY,
	.at = offsetof(struct asked, on)},
    {.name = "from",
	.argument = "DATE",
	.help = "count on every day from this one",
	.needs = "to",
	.not_with = "season",
	.type = OPTION_DAY,
	.at = offsetof(struct asked, from)},
    {.name = "to",
	.argument = "DATE",
	.help = "with --from: up to this one",
	.needs = "from",
	.type = OPTION_DAY,
	.at = offsetof(struct asked, to)},
    {.name = "season",
	.help = "each vessel over her season: what is left of it, or else the next",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, question.season)},
    {.name = "year",
	.argument = "YEAR",
	.help = "with --season: the one that starts in this year",
	.needs = "season",
	.type = OPTION_COUNT,
	.at = offsetof(struct asked, year),
	.least = 1950,
	.most = 2150},
    {.name = "bookings",
	.help =
	    "each booking on its own days, for its persons; with --from and --to those "
	    "that have a day among these",
	.not_with = "on season survey",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, bookings)},
    {.name = "vessel",
	.argument = "NAME",
	.help = "this vessel only",
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, vessel)},
    {.name = "base",
	.argument = "PLACE",
	.help = "vessels of this base only",
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, base)},
    {.name = "remarks",
	.help = "name what is counted though common practice, or a part, has lapsed",
	.not_with = "bookings csv",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, remarks)},
    {.name = "csv",
	.help = "answer as CSV, a row a carriage line",
	.not_with = "survey",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, csv)},
    {.name = "survey",
	.argument = "DIR",
	.help = "write a survey file for each vessel into this folder, to print",
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, folder)},
    {.name = "over",
	.help = "with --survey: over files that are there",
	.needs = "survey",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, over)},
};

static bool
read_asked(const struct context *context, struct asked *asked, struct fault *fault)
{
	asked->on = context->desk.today;
	asked->from = DAY_NONE;
	if (!options_into(context->given, asked, fault)) {
		return false;
	}
	bool period = asked->from != DAY_NONE;
	asked->question.days = period ? (struct span){asked->from, asked->to}
				      : (struct span){asked->on, asked->on};
	return !period || asked->to >= asked->from ||
	       usage_fault(fault, "becket muster",
		   "found a --to before its --from; expected it on that day or later");
}

/* The days a vessel is asked about. What is past of a season is not: what was recorded since
 * would not count. */
static bool
days_of(const struct context *context, const struct asked *asked,
    const struct vessel *vessel, struct span *out, struct fault *fault)
{
	struct span days = asked->question.days;
	if (asked->question.season) {
		bool found = asked->year != 0
				 ? season_of_year(vessel, asked->year, &days)
				 : season_at(vessel, context->desk.today, &days);
		if (!found) {
			return fault_set(fault, FAULT_INPUT,
			    "%s has no season%s: one winter follows the other",
			    vessel->name,
			    asked->year != 0 ? " that starts in that year" : "");
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
	if (asked->folder != NULL && count > 0 &&
	    !survey_write(context, asked->folder, asked->over, musters, count, fault)) {
		return false;
	}
	if (context->json) {
		answer_muster(inventory, &asked->question, musters, count, &context->out);
		return true;
	}
	if (asked->csv) {
		csv_write_muster(inventory, musters, count, &context->out);
		return true;
	}
	if (!context_is_empty(context)) {
		report_muster(context_style(context), context->desk.engine.kinds,
		    inventory, &asked->question, musters, count, asked->remarks,
		    &context->out);
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
	if (asked->from == DAY_NONE) {
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
	if (asked->csv) {
		csv_write_booked(inventory, booked, count, &context->out);
		return true;
	}
	report_booked(context_style(context), context->desk.engine.kinds, inventory,
	    booked, count, &context->out);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct asked asked = {0};
	/* A boat's spares are in another's name, and she may be asked about on a day before
	 * she left. */
	if (!read_asked(context, &asked, fault)) {
		return false;
	}
	context->desk.about = vessel_part(&context->desk, asked.vessel, REACH_STORES);
	if (asked.bookings) {
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
	"common practice alone is counted; --remarks names it. What can't be told, because her "
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
    .examples = "muster\n"
		"what each boat is short of today, and how long she is good\n"
		"muster --vessel Quillfish --from 2027-06-05 --to 2027-06-19\n"
		"one boat on every day of a booking\n",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
