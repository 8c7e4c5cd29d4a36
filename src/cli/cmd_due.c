/* becket due */
#include "cli/command.h"
#include "cli/parts.h"
#include "cli/values.h"
#include "exchange/answers.h"

struct asked {
	struct due_asked due;
	struct suppose_said suppose;
	bool strict;
};

static const struct option_spec OPTIONS[] = {
    SELECT_OPTIONS(struct asked, due.gear),
    OPTION("within", "DAYS", COUNT, struct asked, due.within_days,
	"due within so many days; what is lapsed or not known stays", .most = 36500),
    OPTION("state", "in-date|overdue|expired|life-expired|date-unknown", CHOICE,
	struct asked, due.state, "in this state only"),
    FLAG_OPTION("all", struct asked, due.all, "what is not due within twelve months, too",
	.not_with = "within"),
    FLAG_OPTION("routine", struct asked, due.routine,
	"routines too: what comes round within the year"),
    SUPPOSE_OPTIONS(struct asked, suppose),
    FLAG_OPTION("strict", struct asked, strict,
	"end with status 1 when something shown is not in date or does not work"),
};

/* An answer that is made of some boats at a time. */
struct due_making {
	struct context *context;
	struct due_report report; /* in words */
	struct runs *kept;        /* as JSON */
};

static void
take_some(const struct due_answer *some, void *of)
{
	struct due_making *making = of;
	struct context *context = making->context;
	const struct agenda *agenda = &some->agenda;
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (context->json) {
		answer_due_keep(inventory, agenda->items, agenda->count, making->kept);
	} else if (inventory->vessel_count > 0) {
		making->report.style = context_style(context);
		making->report.kinds = context->desk.engine.kinds;
		report_due_some(&making->report, inventory, agenda->items, agenda->count);
	}
}

/* Says what is due, once all boats have been asked about. */
static bool
say(struct context *context, const struct asked *asked, struct fault *fault)
{
	SCOPED_RUNS kept = {0};
	struct due_making making = {.context = context,
	    .report = {.routine = asked->due.routine, .out = &context->out},
	    .kept = &kept};
	struct due_answer all = {0};
	if (!context->json) {
		context_hold(context);
	}
	if (!desk_due_by_boats(
		&context->desk, &asked->due, take_some, &making, &all, fault)) {
		return false;
	}
	context->status = asked->strict && all.wrong ? 1 : 0;
	if (context->json) {
		context_write_as_made(context);
		return answer_kept(&kept, &context->out, fault);
	}
	if (!context_is_empty(context)) {
		report_due_end(&making.report, &(struct due_shown){all.later, all.until});
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct asked asked = {
	    .due = {.state = -1, .within_days = -1}, .suppose.from = DAY_NONE};
	if (!options_into(context->given, &asked, fault)) {
		return false;
	}
	if (asked.suppose.what.count > 0) {
		return suppose_run(
		    context, &asked.suppose, &asked.due.gear, asked.due.routine, fault);
	}
	asked.due.all = asked.due.all || context->json;
	return say(context, &asked, fault);
}

static const struct told_answer ANSWERS[] = {
    {"", KEYS_OF_DUE}, {"--if", KEYS_OF_SUPPOSE}, {0}};

const struct command COMMAND_DUE = {
    .name = "due",
    .summary = "say what is due, and when",
    .details =
	"What is lapsed and what has no known date comes first, then by day what is due within "
	"twelve months; how much more there is is said, and --all shows it. --within and --state "
	"choose otherwise, and --json has all. With "
	"--strict the exit status is 1 when anything shown is overdue, expired, life-expired "
	"or of unknown date, or does not work for want of a part; gear in reserve is left out of "
	"that. What does not work is shown whenever it is due, unless --state leaves it out. "
	"With --if it says what would change if something else held of a vessel from a day on "
	"(--if-from; today if left out), and changes nothing: for each task the due day now "
	"and then, and the days between which it must be done so that it is in date on the "
	"day of the switch. What is supposed is use=private|commercial, area=AREA, persons=N, "
	"or sheet=NAME; sheets replace those she follows, and hold at once.",
    .examples = "due --within 90\n"
		"what comes due in the next 90 days, and what is not in date\n"
		"due --vessel Quillfish --kind lifejacket-auto\n"
		"one boat's automatic lifejackets\n",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .answers = ANSWERS,
    .run = run,
};
