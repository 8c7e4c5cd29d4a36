/* becket rota */
#include "cli/command.h"
#include "desk/giving_out.h"
#include "exchange/answers.h"

struct asked {
	struct rota_asked rota;
	struct word_list boats;
	const char *kinds;
	bool keep;
	bool csv;
};

enum { NUMBER_MOST = 10000 };

static const struct option_spec OPTIONS[] = {
    OPTION("base", "PLACE", WORDS, struct asked, rota.base, "boats of this base only"),
    OPTION("vessel", "NAME", WORDS, struct asked, boats,
	"this boat only; several are planned together", .repeatable = true),
    OPTION("kind", "KIND,KIND,...", WORDS, struct asked, kinds,
	"gear of these kinds only; every kind if left out"),
    OPTION("from", "DATE", DAY, struct asked, rota.from,
	"nothing is handed in before this day; today if left out"),
    OPTION("to", "DATE", DAY, struct asked, rota.to,
	"every day up to this one is to hold; twelve months on if left out"),
    OPTION("stand-ins", "N", COUNT, struct asked, rota.stand_ins,
	"if so many pieces of each sort could be hired besides the spares",
	.most = NUMBER_MOST),
    OPTION("away", "N", COUNT, struct asked, rota.most_away,
	"at most so many pieces of a sort ashore at once", .least = 1,
	.most = NUMBER_MOST),
    OPTION("together", "DAYS", COUNT, struct asked, rota.together_days,
	"go along with a trip up to so many days earlier; 7 if left out", .most = 366),
    FLAG_OPTION("keep", struct asked, keep,
	"give its hand-ins out: list, papers and calendar have them from now on"),
    FLAG_OPTION(
	"csv", struct asked, csv, "answer as CSV, a row a piece", .not_with = "json"),
};

static void
write_answer(struct context *context, const struct rota_view *view, bool csv)
{
	if (context->json) {
		answer_rota(view, &context->out);
	} else if (csv) {
		report_rota_csv(view, &context->out);
	} else if (!context_is_empty(context)) {
		report_rota(context_style(context), view, &context->out);
	}
}

/* Gives the rota's hand-ins out. */
static bool
keep(struct context *context, const struct rota_answer *answer, struct fault *fault)
{
	size_t count = 0;
	if (!desk_give_rota(&context->desk, answer, &count, fault)) {
		return false;
	}
	desk_note(&context->desk, "%zu new hand-in%s given out; see \"becket winter\"",
	    count, count == 1 ? " was" : "s were");
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct asked asked = {.rota = {.from = context->desk.today,
				  .to = DAY_NONE,
				  .together_days = ROTA_TOGETHER_DAYS}};
	struct rota_answer answer = {0};
	struct rota_asked *rota = &asked.rota;
	if (!options_into(context->given, &asked, fault)) {
		return false;
	}
	rota->boats = &asked.boats;
	if (asked.kinds != NULL &&
	    !words_cut(&context->desk.arena, asked.kinds, &rota->kinds, fault)) {
		return fault_prefix(fault, "--kind");
	}
	if (asked.keep) {
		context->desk.mode = BOOK_WRITE;
	}
	if (!desk_rota(&context->desk, rota, &answer, fault)) {
		return context_usage(context, fault);
	}
	context->status = answer.rota.holds ? 0 : 1;
	if (asked.keep && !keep(context, &answer, fault)) {
		return false;
	}
	write_answer(context, &answer.view, asked.csv);
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
    .examples = "rota --to 2027-12-31\n"
		"every boat in use all year, to the end of 2027\n",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_ROTA),
    .run = run,
};
