/* becket rota */
#include "cli/command.h"
#include "cli/values.h"
#include "desk/giving_out.h"
#include "desk/settling.h"
#include "exchange/answers.h"
#include "exchange/rota_csv.h"
#include "rota/rota.h"

#include <string.h>

/* What is asked; the days it is about are in `days` of the rota's own question. */
struct asked {
	struct rota_ask ask;
	day_t from;
	day_t to; /* DAY_NONE for twelve months on */
	const char *base;
	const char *kinds;
	bool keep;
	bool csv;
};

enum { MONTHS = 12, TOGETHER_DAYS = 7, NUMBER_MOST = 10000 };

static const struct option_spec OPTIONS[] = {
    {.name = "base",
	.argument = "PLACE",
	.help = "boats of this base only",
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, base)},
    {.name = "vessel",
	.argument = "NAME",
	.help = "this boat only; several are planned together",
	.repeatable = true},
    {.name = "kind",
	.argument = "KIND,KIND,...",
	.help = "gear of these kinds only; every kind if left out",
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, kinds)},
    {.name = "from",
	.argument = "DATE",
	.help = "nothing is handed in before this day; today if left out",
	.type = OPTION_DAY,
	.at = offsetof(struct asked, from)},
    {.name = "to",
	.argument = "DATE",
	.help = "every day up to this one is to hold; twelve months on if left out",
	.type = OPTION_DAY,
	.at = offsetof(struct asked, to)},
    {.name = "stand-ins",
	.argument = "N",
	.help = "if so many pieces of each sort could be hired besides the spares",
	.type = OPTION_COUNT,
	.at = offsetof(struct asked, ask.stand_ins),
	.most = NUMBER_MOST},
    {.name = "away",
	.argument = "N",
	.help = "at most so many pieces of a sort ashore at once",
	.type = OPTION_COUNT,
	.at = offsetof(struct asked, ask.most_away),
	.least = 1,
	.most = NUMBER_MOST},
    {.name = "together",
	.argument = "DAYS",
	.help = "go along with a trip up to so many days earlier; 7 if left out",
	.type = OPTION_COUNT,
	.at = offsetof(struct asked, ask.together_days),
	.most = 366},
    {.name = "keep",
	.help = "give its hand-ins out: list, papers and calendar have them from now on",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, keep)},
    {.name = "csv",
	.help = "answer as CSV, a row a piece",
	.not_with = "json",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, csv)},
};

static const char WHO[] = "becket rota";

static bool
settle_days(const struct context *context, struct asked *asked, struct fault *fault)
{
	struct span days = {asked->from, asked->to};
	if (days.first < context->desk.today) {
		return usage_fault(fault, WHO,
		    "found a --from before today; expected a day on which gear can still "
		    "be handed in");
	}
	if (days.last == DAY_NONE) {
		days.last = day_add_months(days.first, MONTHS) - 1;
	}
	if (days.last < days.first ||
	    days.last > day_add_months(days.first, 10 * MONTHS)) {
		return usage_fault(fault, WHO,
		    "found a --to that is %s; expected a day from --from to ten years on",
		    days.last < days.first ? "before --from" : "too far off");
	}
	asked->ask.days = days;
	return true;
}

static bool
read_kinds(
    struct context *context, const char *list, struct rota_ask *ask, struct fault *fault)
{
	if (list == NULL) {
		return true;
	}
	if (!value_list(&context->desk.arena, "kind", list, &ask->kinds, &ask->kind_count,
		fault)) {
		return false;
	}
	for (size_t i = 0; i < ask->kind_count; i++) {
		if (kinds_find(context->desk.engine.kinds, ask->kinds[i]) == NULL) {
			return fault_set(fault, FAULT_INPUT,
			    "--kind: found \"%.60s\", expected a kind as \"becket list\" "
			    "shows them",
			    ask->kinds[i]);
		}
	}
	return true;
}

/* ---- whose ---- */

static bool
is_named(const struct given_options *given, const struct vessel *vessel)
{
	size_t cursor = 0;
	bool any = false;
	for (const char *name = options_next(given, "vessel", &cursor); name != NULL;
	     name = options_next(given, "vessel", &cursor)) {
		if (strcmp(name, vessel->name) == 0) {
			return true;
		}
		any = true;
	}
	return !any;
}

/* A boat named that has a winter, or is none, must not be left out without a word. */
static bool
check_named(struct context *context, struct fault *fault)
{
	size_t cursor = 0;
	for (const char *name = options_next(context->given, "vessel", &cursor);
	     name != NULL; name = options_next(context->given, "vessel", &cursor)) {
		size_t at = 0;
		if (!desk_find_vessel(&context->desk, name, &at, fault)) {
			return false;
		}
		const struct vessel *vessel =
		    &context->desk.contents.inventory.vessels[at];
		if (vessel->store || vessel->laid_up) {
			return fault_set(fault, FAULT_INPUT,
			    vessel->store
				? "--vessel: \"%.60s\" is a store; a rota is of boats"
				: "--vessel: %.60s is laid up every winter; see \"becket "
				  "winter\", or enter --lay-up none",
			    name);
		}
	}
	return true;
}

static bool
find_vessels(
    struct context *context, const char *base, struct rota_ask *ask, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	size_t *vessels = arena_alloc(
	    &context->desk.arena, (inventory->vessel_count + 1) * sizeof *vessels);
	bool found = base == NULL;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		bool here = base == NULL || strcmp(vessel->base, base) == 0;
		found = found || here;
		if (here && !vessel->store && !vessel->laid_up &&
		    vessel_is_here(vessel, ask->days.first) &&
		    is_named(context->given, vessel)) {
			vessels[ask->vessel_count++] = i;
		}
	}
	ask->vessels = vessels;
	if (!found) {
		return fault_set(fault, FAULT_INPUT,
		    "--base: found \"%.60s\", expected the base of a vessel in the book",
		    base);
	}
	return check_named(context, fault);
}

static void
write_answer(struct context *context, const struct rota *rota, bool csv)
{
	const struct rota_view view = {&context->desk.contents.inventory,
	    context->desk.contents.stations, context->desk.engine.kinds, rota};
	if (context->json) {
		answer_rota(&view, &context->out);
		return;
	}
	if (csv) {
		csv_write_rota(&view, &context->out);
		return;
	}
	report_rota(context_style(context), &view, &context->out);
}

/* Gives the rota's hand-ins out. */
static bool
keep(struct context *context, const struct rota_ask *ask, const struct rota *rota,
    struct fault *fault)
{
	struct settled_hand_in *given = NULL;
	size_t count = 0;
	rota_hand_ins(ask, rota, &context->desk.arena, &given, &count);
	if (!desk_give_rota(&context->desk, given, count, fault)) {
		return false;
	}
	desk_note(&context->desk, "%zu hand-in%s given out; see \"becket winter\"", count,
	    count == 1 ? " was" : "s were");
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct settled_hand_in *settled = NULL;
	struct asked asked = {.ask = {.today = context->desk.today,
				  .most_looks = SLOT_LOOKS,
				  .together_days = TOGETHER_DAYS},
	    .from = context->desk.today,
	    .to = DAY_NONE};
	struct rota_ask *ask = &asked.ask;
	struct rota rota = {0};
	if (!options_into(context->given, &asked, fault)) {
		return false;
	}
	if (asked.keep) {
		context->desk.mode = BOOK_WRITE;
	}
	context->desk.left_gear = LEFT_NONE;
	/* All of the book is read, for a boat's spares are in another's name. */
	if (!settle_days(context, &asked, fault) ||
	    !desk_engine(&context->desk, NULL, fault)) {
		return false;
	}
	desk_see_day(&context->desk, ask->days.first);
	if (!read_kinds(context, asked.kinds, ask, fault) ||
	    !find_vessels(context, asked.base, ask, fault)) {
		return false;
	}
	if (!settling_load(&context->desk, &settled, &ask->settled_count, fault)) {
		return false;
	}
	ask->settled = settled;
	ask->engine = &context->desk.engine;
	ask->stations = context->desk.contents.stations;
	ask->station_count = context->desk.contents.station_count;
	if (!rota_make(ask, &context->desk.arena, &rota, fault)) {
		return false;
	}
	context->status = rota.holds ? 0 : 1;
	if (asked.keep && !keep(context, ask, &rota, fault)) {
		return false;
	}
	if (!(!context->json && context_is_empty(context))) {
		write_answer(context, &rota, asked.csv);
	}
	return true;
}

const struct command COMMAND_ROTA = {
    .name = "rota",
    .summary = "stagger the services of boats in use all year, with the fewest spares",
    .details =
	"For boats in use all year (--lay-up none) there is no winter. Every piece that a "
	"station must see within the days asked about is given a day to be handed in, within "
	"the stations' turn-round, closed days and weekly limits, so that on every day each "
	"boat's muster holds while gear is away. Where she would be short without a piece, a "
	"spare of the same kind from a store of her base stands in, if it is for as many "
	"persons and in date; with --stand-ins, a hired one. The fewest spares that do are "
	"found, and said to be proven or not; then each piece goes as late as does, or along "
	"with another a few days before. In the end every boat is mustered on every day of "
	"the plan. Where it can't be done, the first boat and day that fails is named, with "
	"what would help, each tried out. What must be renewed rather than serviced is not in "
	"it: see \"becket due\". With --keep its hand-ins are given out: each keeps its day and "
	"station, here too, until it is past or no longer serves, and \"becket winter\", "
	"\"becket shore-papers\" and the reminders have them. The exit status is 1 when some day does not hold.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
