/* becket muster */
#include "cli/command.h"
#include "cli/parts.h"
#include "exchange/answers.h"

struct asked {
	struct muster_asked muster;
	const char *folder; /* for survey files; NULL for none */
	bool over;
	bool bookings;
	bool remarks;
	bool csv;
};

static const struct option_spec OPTIONS[] = {
    OPTION("on", "DATE", DAY, struct asked, muster.on,
	"count on this day; today if left out", .not_with = "from to season"),
    OPTION("from", "DATE", DAY, struct asked, muster.from,
	"count on every day from this one", .needs = "to", .not_with = "season"),
    OPTION("to", "DATE", DAY, struct asked, muster.to, "with --from: up to this one",
	.needs = "from"),
    FLAG_OPTION("season", struct asked, muster.season,
	"each vessel over her season: what is left of it, or else the next"),
    OPTION("year", "YEAR", COUNT, struct asked, muster.year,
	"with --season: the one that starts in this year", .needs = "season",
	.least = 1950, .most = 2150),
    FLAG_OPTION("bookings", struct asked, bookings,
	"each booking on its own days, for its persons; with --from and --to those "
	"that have a day among these",
	.not_with = "on season survey"),
    OPTION("vessel", "NAME", WORDS, struct asked, muster.vessel, "this vessel only"),
    OPTION(
	"base", "PLACE", WORDS, struct asked, muster.base, "vessels of this base only"),
    FLAG_OPTION("remarks", struct asked, remarks,
	"name what is counted though common practice, or a part, has lapsed",
	.not_with = "bookings csv"),
    FLAG_OPTION("csv", struct asked, csv, "answer as CSV, a row a carriage line",
	.not_with = "survey"),
    OPTION("survey", "DIR", WORDS, struct asked, folder,
	"write a survey file for each vessel into this folder, to print"),
    FLAG_OPTION("over", struct asked, over, "with --survey: over files that are there",
	.needs = "survey"),
};

/* An answer that is made of some boats at a time. */
struct muster_making {
	struct context *context;
	struct muster_report report; /* in words or as CSV */
	struct runs kept;            /* as JSON */
	bool any;                    /* there are boats */
};

static void
take_some(const struct muster_answer *some, const size_t *places, void *of)
{
	struct muster_making *making = of;
	struct context *context = making->context;
	const struct inventory *inventory = &context->desk.contents.inventory;
	making->any = making->any || inventory->vessel_count > 0;
	if (context->json) {
		answer_muster_keep(
		    inventory, places, some->musters, some->count, &making->kept);
		return;
	}
	report_muster_some(
	    &making->report, &(struct muster_view){.kinds = context->desk.engine.kinds,
				 .inventory = inventory,
				 .places = places,
				 .musters = some->musters,
				 .count = some->count,
				 .season = some->question.season});
}

/* All boats at once where they are wanted for survey files. */
static bool
find_musters(struct muster_making *making, const struct asked *asked,
    struct muster_answer *out, struct fault *fault)
{
	struct context *context = making->context;
	if (asked->folder == NULL) {
		return desk_muster_by_bases(
		    &context->desk, &asked->muster, take_some, making, out, fault);
	}
	if (!desk_muster(&context->desk, &asked->muster, out, fault)) {
		return false;
	}
	take_some(out, NULL, making);
	return true;
}

static bool
make_muster(struct muster_making *making, const struct asked *asked, struct fault *fault)
{
	struct context *context = making->context;
	struct muster_answer answer = {0};
	context_hold(context);
	if (!find_musters(making, asked, &answer, fault)) {
		return context_usage(context, fault);
	}
	context->status = answer.ok ? 0 : 1;
	if (asked->folder != NULL && answer.count > 0 &&
	    !survey_write(context, asked->folder, asked->over, answer.musters,
		answer.count, fault)) {
		return false;
	}
	if (context->json) {
		context_write_as_made(context);
		return answer_muster_kept(
		    &answer.question, &making->kept, &context->out, fault);
	}
	return (!asked->csv && !making->any && context_is_empty(context)) ||
	       report_muster_end(&making->report, &answer.question, &context->out, fault);
}

static bool
say_muster(struct context *context, const struct asked *asked, struct fault *fault)
{
	struct muster_making making = {.context = context,
	    .report = {.style = &context->style, .remarks = asked->remarks}};
	bool done = make_muster(&making, asked, fault);
	runs_clear(&making.kept);
	muster_report_clear(&making.report);
	return done;
}

/* Musters bookings, those that have not ended where no days were told. */
static bool
say_bookings(struct context *context, const struct asked *asked, struct fault *fault)
{
	const struct muster_asked *muster = &asked->muster;
	bool period = muster->from != DAY_NONE;
	const struct bookings_asked wanted = {
	    .days = {period ? muster->from : context->desk.today,
		period ? muster->to : DAY_NEVER},
	    .vessel = muster->vessel,
	    .base = muster->base};
	struct booked *booked = NULL;
	size_t count = 0;
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (!bookings_muster(&context->desk, &wanted, &booked, &count, fault)) {
		return context_usage(context, fault);
	}
	for (size_t i = 0; i < count; i++) {
		context->status = booked[i].muster.ok ? context->status : 1;
	}
	if (context->json) {
		answer_booked(inventory, booked, count, &context->out);
	} else {
		report_booked(context_style(context), context->desk.engine.kinds,
		    inventory, booked, count, &context->out);
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct asked asked = {
	    .muster = {.on = context->desk.today, .from = DAY_NONE, .to = DAY_NONE}};
	if (!options_into(context->given, &asked, fault)) {
		return false;
	}
	context->style.csv = asked.csv;
	return asked.bookings ? say_bookings(context, &asked, fault)
			      : say_muster(context, &asked, fault);
}

static const struct told_answer ANSWERS[] = {
    {"", KEYS_OF_MUSTER}, {"--bookings", KEYS_OF_BOOKED}, {0}};

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
    .answers = ANSWERS,
    .run = run,
};
