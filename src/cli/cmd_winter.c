/* becket winter */
#include "cli/command.h"
#include "desk/questions.h"
#include "exchange/answers.h"

struct asked {
	struct plans_wish wish;
	bool csv;
};

static const struct option_spec OPTIONS[] = {
    OPTION("vessel", "NAME", WORDS, struct asked, wish.vessel, "this vessel only",
	.not_with = "base"),
    OPTION("base", "PLACE", WORDS, struct asked, wish.base, "vessels of this base only"),
    OPTION("year", "YEAR", COUNT, struct asked, wish.year,
	"the winter that starts in this year; else the one she is in, or the next",
	.least = 1901, .most = 2190),
    OPTION("without-station", "STATION", WORDS, struct asked, wish.without_station,
	"what if it were not there: send nothing to it", .not_with = "only-station"),
    OPTION("only-station", "STATION", WORDS, struct asked, wish.only_station,
	"what if it were the only one: send nothing elsewhere"),
    OPTION("trips", "N", COUNT, struct asked, wish.most_trips,
	"what if there were at most so many trips, whatever the vessels say", .least = 1,
	.most = TRIPS_MOST),
    FLAG_OPTION(
	"csv", struct asked, csv, "answer as CSV, for a spreadsheet", .not_with = "json"),
};

/* An answer as JSON that is made of some boats at a time. */
struct winter_making {
	struct context *context;
	struct runs kept;
};

static void
take_some(const struct winter_answer *some, const size_t *places, void *of)
{
	struct winter_making *making = of;
	if (some == NULL) {
		runs_clear(&making->kept);
	} else {
		answer_winter_keep(&making->context->desk.contents.inventory, places,
		    some->lists, some->count, &making->kept);
	}
}

static bool
say_json(struct context *context, const struct asked *asked, struct fault *fault)
{
	struct winter_making making = {.context = context};
	bool done =
	    desk_winter_by_bases(&context->desk, &asked->wish, take_some, &making, fault);
	if (done) {
		context_write_as_made(context);
		done = answer_kept(&making.kept, &context->out, fault);
	}
	runs_clear(&making.kept);
	return done;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct asked asked = {0};
	struct winter_answer answer = {0};
	if (!options_into(context->given, &asked, fault)) {
		return false;
	}
	if (context->json) {
		return say_json(context, &asked, fault);
	}
	if (!desk_winter(&context->desk, &asked.wish, &answer, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (asked.csv) {
		report_winters_csv(inventory, answer.lists, answer.count, &context->out);
		return true;
	}
	if (!context_is_empty(context)) {
		report_winters(context_style(context), context->desk.engine.kinds,
		    inventory, answer.lists, answer.count, &context->out);
	}
	return true;
}

const struct command COMMAND_WINTER = {
    .name = "winter",
    .summary = "say what comes ashore this winter, to whom, by when, and what can wait",
    .details =
	"Hand in by station and day, do it yourself, buy and renew, what you put on the list "
	"to buy (becket amend TAG --to-buy WORDS), paperwork, dispose of, and what can wait. "
	"All vessels when none is named.\n\n"
	"Each thing goes to the station, and on the day, for which work, carriage and trips "
	"cost least; of equals with the fewest trips, then the earliest. The vessels of one "
	"base share trips, whichever of them is asked about. With at most so many trips (--trips, "
	"or becket vessel --trips) what stays behind is told: as little as can be, of what law "
	"or maker bind first. That nothing is better is "
	"proven; where the search was cut short, the answer says so.",
    .examples = "winter\n"
		"the shore list of the winter she is in, or of the next\n"
		"winter --vessel Quillfish --year 2027\n"
		"one boat's, of the winter that starts in 2027\n",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_WINTER),
    .run = run,
};
