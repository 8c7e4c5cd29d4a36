/* becket ashore */
#include "cli/command.h"
#include "exchange/answers_life.h"
#include "report/report_life.h"

struct asked {
	struct back_asked back;
	bool came_back;
	bool all;
	bool csv;
};

static const struct option_spec OPTIONS[] = {
    OPTION(
	"station", "STATION", WORDS, struct asked, back.station, "at this station only"),
    FLAG_OPTION("came-back", struct asked, came_back,
	"what came back, where it did not just pass"),
    OPTION("since", "DATE", DAY, struct asked, back.since,
	"came back on that day or later", .needs = "came-back"),
    FLAG_OPTION("all", struct asked, all, "with --came-back: what just passed, too",
	.needs = "came-back"),
    FLAG_OPTION(
	"csv", struct asked, csv, "answer as CSV, for a spreadsheet", .not_with = "json"),
};

static bool
say_back(struct context *context, const struct asked *asked, struct fault *fault)
{
	struct back_answer answer = {0};
	if (!desk_came_back(&context->desk, &asked->back, &answer, fault)) {
		return false;
	}
	if (context->json) {
		answer_came_back(&answer.known, &answer.list, asked->all, &context->out);
	} else {
		report_came_back(context_style(context), &answer.known, &answer.list,
		    asked->all, &context->out);
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct asked asked = {.back.since = DAY_NONE};
	struct where_answer answer = {0};
	if (!options_into(context->given, &asked, fault)) {
		return false;
	}
	context->style.csv = asked.csv;
	if (asked.came_back) {
		return say_back(context, &asked, fault);
	}
	if (!desk_gear_ashore(&context->desk, asked.back.station, &answer, fault)) {
		return false;
	}
	if (context->json) {
		answer_where(&answer.known, &answer.list, &context->out);
	} else {
		report_ashore(
		    context_style(context), &answer.known, &answer.list, &context->out);
	}
	return true;
}

static const struct told_answer ANSWERS[] = {
    {"", KEYS_OF_WHERE}, {"--came-back", KEYS_OF_CAME_BACK}, {0}};

const struct command COMMAND_ASHORE = {
    .name = "ashore",
    .summary = "list what is ashore, with whom, since when, and when it is expected back",
    .details =
	"It is expected back after the station's turn-round; of a station that is not in the "
	"book that is assumed, and said to be. --came-back lists what came back and did not "
	"just pass: a shorter time, condemned, nothing done, a part put in new, or a note.",
    .examples = "ashore\n"
		"what is at which station, and when it can be fetched\n"
		"ashore --came-back --since 2026-09-01\n"
		"what has come back since September\n",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .answers = ANSWERS,
    .run = run,
};
