/* becket station */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "desk/acts_fleet.h"
#include "exchange/answers.h"

static const struct word_spec WORDS[] = {
    {.name = "NAME", .help = "the station; all are listed when none is named"},
};

static const struct option_spec OPTIONS[] = {STATION_OPTIONS};

/* Shows one station, or all when `name` is NULL. */
static void
show(struct context *context, const char *name)
{
	const struct station *stations = context->desk.contents.stations;
	size_t count = context->desk.contents.station_count;
	const struct station *named =
	    name == NULL ? NULL : station_named(stations, count, name);
	if (named != NULL) {
		stations = named;
		count = 1;
	}
	if (context->json) {
		answer_stations(stations, count, &context->out);
		return;
	}
	report_stations(context_style(context), stations, count, &context->out);
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *name = options_word(context->given, 0);
	struct station_change change = {.name = name};
	if (!station_options_read(context, &change, fault)) {
		return false;
	}
	if (name == NULL && change.set != 0) {
		return usage_fault(fault, "becket station", "NAME is missing");
	}
	bool done = name != NULL ? desk_station(&context->desk, &change, fault)
				 : desk_open(&context->desk, BOOK_READ, fault) &&
				       desk_load(&context->desk, NULL, false, fault);
	if (done) {
		show(context, name);
	}
	return done;
}

const struct command COMMAND_STATION = {
    .name = "station",
    .summary = "enter a station or change what is known of it; list the stations",
    .details =
	"A station is where gear is handed in. Its turn-round counts days from the hand-in on, "
	"those in closed periods left out; its days of the week (--open) only say when gear is "
	"taken in and given out: Monday to Friday where nobody said. A new one needs 14 days, is "
	"never closed, and takes every kind and make from every base unless told otherwise.\n\n"
	"Approval is by make for some gear: where a station lists makes of a kind, gear of "
	"another make, or of a make that is not known, does not go there.\n\n"
	"Prices are for one piece. One may hold from an age on: --price "
	"liferaft-canister:service=450.00 --price liferaft-canister:service@10y=620.00 is "
	"620.00 from the tenth birthday. A price for a task goes before one for every task as "
	"soon as it holds. Age counts from when a thing was made, or packed, a coarse date "
	"from its first day; where neither is known the dearest price is taken. With none in "
	"place of the price it is forgotten, one from new with all that hold later.\n\n"
	"The winter sends each thing where everything together "
	"costs least: work, trips and carriage.",
    .examples = "station \"Raft Loft\" --turn-round 35 --closed 12-20..01-31\n"
		"five weeks, and closed over the new year\n"
		"station \"Raft Loft\" --kinds liferafts --price liferaft-valise=249.00\n"
		"what it services, and for what price\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_CREATE,
    .answers = ONE_ANSWER(KEYS_OF_STATIONS),
    .quiet = true,
    .run = run,
};
