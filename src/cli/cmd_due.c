/* becket due */
#include "cli/command.h"
#include "cli/select.h"
#include "cli/suppose.h"
#include "cli/values.h"
#include "exchange/answers.h"
#include "winter/agenda.h"

static const struct option_spec OPTIONS[] = {
    SELECT_OPTIONS,
    {.name = "within",
	.argument = "DAYS",
	.help = "due within so many days; what is lapsed or not known stays"},
    {.name = "state",
	.argument = "in-date|overdue|expired|life-expired|date-unknown",
	.help = "in this state only"},
    {.name = "routine", .help = "routines too: what comes round within the year"},
    SUPPOSE_OPTIONS,
    {.name = "strict", .help = "end with status 1 when something shown is not in date"},
};

struct filter {
	struct selection selection;
	bool has_state;
	enum state state;
	bool has_within;
	int within_days;
	bool routine;
};

static bool
read_filter(struct context *context, struct filter *filter, struct fault *fault)
{
	const char *state = options_value(context->given, "state");
	filter->has_state = state != NULL;
	filter->routine = options_has(context->given, "routine");
	return selection_read(context, &filter->selection, fault) &&
	       (state == NULL || state_parse(state, &filter->state, fault)) &&
	       value_number(context->given, "within", (struct range){0, 36500},
		   &filter->within_days, &filter->has_within, fault);
}

static bool
passes(const struct context *context, const struct filter *filter,
    const struct agenda_row *row)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (row->routine && !filter->routine) {
		return false;
	}
	if (filter->has_state && row->state != filter->state) {
		return false;
	}
	if (filter->has_within && row->state == STATE_IN_DATE &&
	    (row->due == DAY_NONE ||
		row->due - context->desk.today > filter->within_days)) {
		return false;
	}
	return selection_has(&filter->selection, inventory, &inventory->items[row->item]);
}

/* Drops the rows that don't pass. The date not known is not in date. Gear in reserve
 * counts for nothing, so it can't be missing. */
static void
keep_passing(struct context *context, const struct filter *filter, struct agenda *agenda)
{
	bool strict = options_has(context->given, "strict");
	size_t kept = 0;
	for (size_t i = 0; i < agenda->count; i++) {
		if (!passes(context, filter, &agenda->items[i])) {
			continue;
		}
		agenda->items[kept] = agenda->items[i];
		const struct agenda_row *row = &agenda->items[kept++];
		const struct item *item =
		    &context->desk.contents.inventory.items[row->item];
		if (strict && row->state != STATE_IN_DATE &&
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
		    agenda->items, agenda->count, filter->routine, &context->out);
	}
}

static bool
run(struct context *context, struct fault *fault)
{
	struct filter filter = {0};
	struct agenda agenda = {0};
	if (options_has(context->given, "if") || options_has(context->given, "if-from")) {
		return suppose_run(context, fault);
	}
	if (!read_filter(context, &filter, fault) ||
	    !desk_engine(
		&context->desk, options_value(context->given, "vessel"), fault)) {
		return false;
	}
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
	"What is lapsed and what has no known date comes first, then the rest by day. With "
	"--strict the exit status is 1 when anything shown is overdue, expired, life-expired "
	"or of unknown date; gear in reserve is left out of that. "
	"With --if it says what would change if something else held of a vessel from a day on "
	"(--if-from; today if left out), and changes nothing: for each task the due day now "
	"and then, and the days between which it must be done so that it is in date on the "
	"day of the switch. What is supposed is use=private|commercial, area=AREA, persons=N, "
	"or sheet=NAME; sheets replace those she follows, and hold at once.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
