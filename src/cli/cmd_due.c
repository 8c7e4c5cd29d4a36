/* becket due */
#include "cli/command.h"
#include "cli/select.h"
#include "cli/suppose.h"
#include "desk/stores.h"
#include "exchange/answers.h"
#include "winter/agenda.h"

/* How far ahead is shown when nothing else is asked. */
enum { MONTHS_SHOWN = 12 };

struct filter {
	struct selection selection;
	int state;       /* an enum state; -1 for any */
	int within_days; /* -1 for any */
	bool all;
	bool year_only; /* what is in date and not due by `until` is counted, not shown */
	day_t until;
	size_t later; /* of these */
	bool routine;
	bool strict;
};

static const struct option_spec OPTIONS[] = {
    SELECT_OPTIONS(struct filter),
    {.name = "within",
	.argument = "DAYS",
	.help = "due within so many days; what is lapsed or not known stays",
	.type = OPTION_COUNT,
	.at = offsetof(struct filter, within_days),
	.most = 36500},
    {.name = "state",
	.argument = "in-date|overdue|expired|life-expired|date-unknown",
	.help = "in this state only",
	.type = OPTION_CHOICE,
	.at = offsetof(struct filter, state)},
    {.name = "all",
	.help = "what is not due within twelve months, too",
	.not_with = "within",
	.type = OPTION_FLAG,
	.at = offsetof(struct filter, all)},
    {.name = "routine",
	.help = "routines too: what comes round within the year",
	.type = OPTION_FLAG,
	.at = offsetof(struct filter, routine)},
    SUPPOSE_OPTIONS,
    {.name = "strict",
	.help = "end with status 1 when something shown is not in date",
	.type = OPTION_FLAG,
	.at = offsetof(struct filter, strict)},
};

static bool
passes(const struct context *context, const struct filter *filter,
    const struct agenda_row *row)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (row->routine && !filter->routine) {
		return false;
	}
	if (filter->state >= 0 && (int)row->state != filter->state) {
		return false;
	}
	if (filter->within_days >= 0 && row->state == STATE_IN_DATE &&
	    (row->due == DAY_NONE ||
		row->due - context->desk.today > filter->within_days)) {
		return false;
	}
	return selection_has(&filter->selection, inventory, &inventory->items[row->item]);
}

/* True for what a year does not see the end of: in date, all known, and not due in it. */
static bool
is_later(const struct filter *filter, const struct agenda_row *row)
{
	return filter->year_only && row->state == STATE_IN_DATE &&
	       row->missing[0] == '\0' &&
	       (row->due == DAY_NONE || row->due > filter->until);
}

/* Drops the rows that don't pass. The date not known is not in date. Gear in reserve
 * counts for nothing, so it can't be missing. */
static void
keep_passing(struct context *context, struct filter *filter, struct agenda *agenda)
{
	size_t kept = 0;
	for (size_t i = 0; i < agenda->count; i++) {
		if (!passes(context, filter, &agenda->items[i])) {
			continue;
		}
		if (is_later(filter, &agenda->items[i])) {
			filter->later++;
			continue;
		}
		agenda->items[kept] = agenda->items[i];
		const struct agenda_row *row = &agenda->items[kept++];
		const struct item *item =
		    &context->desk.contents.inventory.items[row->item];
		if (filter->strict && row->state != STATE_IN_DATE &&
		    item->state != PLACE_RESERVE) {
			context->status = 1;
		}
	}
	agenda->count = kept;
}

static void
write_answer(
    struct context *context, const struct filter *filter, const struct agenda *agenda)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (context->json) {
		answer_due(inventory, agenda->items, agenda->count, &context->out);
		return;
	}
	if (!context_is_empty(context)) {
		report_due(context_style(context), context->desk.engine.kinds, inventory,
		    agenda->items, agenda->count,
		    &(struct due_shown){filter->routine, filter->later, filter->until},
		    &context->out);
	}
}

static bool
run(struct context *context, struct fault *fault)
{
	struct filter filter = {.state = -1, .within_days = -1};
	struct agenda agenda = {0};
	context->desk.left_gear = LEFT_NONE;
	if (options_has(context->given, "if")) {
		return suppose_run(context, fault);
	}
	if (!options_into(context->given, &filter, fault) ||
	    !selection_settle(context, &filter.selection, fault) ||
	    !desk_engine(&context->desk, filter.selection.vessel, fault) ||
	    !left_check_named(&context->desk, filter.selection.vessel, fault)) {
		return false;
	}
	filter.year_only =
	    !context->json && !filter.all && filter.within_days < 0 && filter.state < 0;
	filter.until = day_add_months(context->desk.today, MONTHS_SHOWN);
	bool done = agenda_make(
	    &context->desk.engine, context->desk.today, NULL, NULL, &agenda, fault);
	if (done) {
		keep_passing(context, &filter, &agenda);
		write_answer(context, &filter, &agenda);
	}
	agenda_clear(&agenda);
	return done;
}

const struct command COMMAND_DUE = {
    .name = "due",
    .summary = "say what is due, and when",
    .details =
	"What is lapsed and what has no known date comes first, then by day what is due within "
	"twelve months; how much more there is is said, and --all shows it. --within and --state "
	"choose otherwise, and --json has all. With "
	"--strict the exit status is 1 when anything shown is overdue, expired, life-expired "
	"or of unknown date; gear in reserve is left out of that. "
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
    .json = true,
    .run = run,
};
