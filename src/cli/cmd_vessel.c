/* becket vessel */
#include "cli/ask.h"
#include "cli/command.h"
#include "cli/field_option.h"
#include "cli/leaving.h"
#include "cli/values.h"
#include "dates/weekdays.h"
#include "desk/acts_fleet.h"
#include "exchange/answers.h"

#include <stdio.h>
#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "NAME", .help = "the vessel; all are listed when none is named"},
};

#define OPTION_OF_ROW(id, member, type, column, option, ...) option
#define OPTION_OF_PART(id, option) option
#define OPTION_ASIDE(option) option
static const struct option_spec OPTIONS[] = {
    VESSEL_ROWS(OPTION_OF_ROW, OPTION_OF_ROW, OPTION_OF_PART, OPTION_ASIDE)};

/* Reads what is one value, her own or timed, and her base. */
static bool
read_values(struct context *context, struct vessel_change *change, struct fault *fault)
{
	for (size_t i = 0; i < VESSEL_FIELD_COUNT; i++) {
		const struct field *field = &VESSEL_FIELDS[i];
		bool given = options_has(context->given, field->option);
		change->set |= given ? 1U << i : 0U;
		if (!field->part &&
		    !field_option_read(context, field, change, &given, fault)) {
			return false;
		}
	}
	change->base = options_value(context->given, "base");
	return true;
}

/* Reads since when it holds. */
static bool
read_from(const struct given_options *given, struct vessel_request *request,
    struct fault *fault)
{
	bool timed = (request->change.set & SAYS_ANYTHING) != 0;
	bool correction = options_has(given, "correction");
	request->otherwise = correction          ? OTHERWISE_WRONG
			     : ask_is_possible() ? OTHERWISE_ASK
						 : OTHERWISE_SAY;
	if (!value_day(
		given, "from", &request->change.from, &request->from_given, fault)) {
		return false;
	}
	if ((request->from_given || correction) && !timed) {
		return usage_fault(fault, "becket vessel",
		    "--from and --correction say since when --use, --area, --persons, "
		    "--season-months, --above-freezing, --dry-storage, --base, --lay-up and "
		    "--sheet hold; none of them is there");
	}
	return !(request->from_given && correction) ||
	       usage_fault(fault, "becket vessel",
		   "found --from with --correction; expected one");
}

/* Reads "2027=2027-12-05..2028-03-20". */
static bool
read_winter(const char *value, struct odd_winter *out, struct fault *fault)
{
	char year[8];
	size_t length = strcspn(value, "=");
	long number = 0;
	bool shaped = value[length] == '=' && length < sizeof year;
	if (shaped) {
		memcpy(year, value, length);
		year[length] = '\0';
		shaped = number_read(year, 1900, 2199, &number);
	}
	if (!shaped) {
		return fault_set(fault, FAULT_INPUT,
		    "--winter: expected YEAR=DATE..DATE, as 2027=2027-12-05..2028-03-20, "
		    "found \"%s\"",
		    value);
	}
	out->year = (int)number;
	if (!span_parse(value + length + 1, &out->span, fault)) {
		return fault_prefix(fault, "--winter %s", year);
	}
	if (out->span.last - out->span.first >= 366) {
		return fault_set(fault, FAULT_INPUT,
		    "--winter: expected a winter of at most a year, found \"%s\"",
		    value + length + 1);
	}
	if (day_to_civil(out->span.first).year != out->year) {
		return fault_set(fault, FAULT_INPUT,
		    "--winter: winter %d is named by the year it starts in, but \"%s\" "
		    "starts in another",
		    out->year, value + length + 1);
	}
	return true;
}

static bool
read_winters(struct context *context, struct vessel_change *change, struct fault *fault)
{
	struct odd_winter *winters = arena_alloc(
	    &context->desk.arena, (context->given->count + 1) * sizeof *winters);
	size_t cursor = 0;
	size_t count = 0;
	for (const char *value = options_next(context->given, "winter", &cursor);
	     value != NULL; value = options_next(context->given, "winter", &cursor)) {
		if (!read_winter(value, &winters[count], fault)) {
			return false;
		}
		count++;
	}
	change->odd_winters = winters;
	change->odd_winter_count = count;
	const char *lay_up = options_value(context->given, "lay-up");
	change->laid_up = lay_up != NULL && !text_same_letters(lay_up, "none");
	if (change->laid_up && !yearly_parse(lay_up, &change->lay_up, fault)) {
		return fault_prefix(fault, "--lay-up");
	}
	return true;
}

/* Reads the days on which her gear is taken to a station, and those on which it is not. */
static bool
read_goes(struct context *context, struct vessel_change *change, struct fault *fault)
{
	const char *days = options_value(context->given, "goes");
	struct span *away =
	    arena_alloc(&context->desk.arena, (context->given->count + 1) * sizeof *away);
	size_t cursor = 0;
	bool none = false;
	if (days != NULL && !weekdays_parse(days, &change->goes, fault)) {
		return fault_prefix(fault, "--goes");
	}
	change->goes = change->goes == WEEKDAYS_ALL ? 0 : change->goes;
	for (const char *value = options_next(context->given, "not", &cursor);
	     value != NULL; value = options_next(context->given, "not", &cursor)) {
		none = none || text_same_letters(value, "none");
		if (!text_same_letters(value, "none") &&
		    !span_parse(value, &away[change->away_count++], fault)) {
			return fault_prefix(fault, "--not");
		}
	}
	change->away = away;
	return !none || change->away_count == 0 ||
	       usage_fault(fault, "becket vessel",
		   "found --not none with other days; expected it alone");
}

/* The vessels but for those that have left, which are named in a line. */
static void
drop_left(struct context *context)
{
	struct inventory *inventory = &context->desk.contents.inventory;
	struct vessel *kept = arena_alloc(
	    &context->desk.contents.arena, (inventory->vessel_count + 1) * sizeof *kept);
	size_t count = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		char day[DAY_WORDS_SIZE];
		if (vessel_is_here(vessel, context->desk.today)) {
			kept[count++] = *vessel;
		} else {
			desk_note(&context->desk, "not shown: %s, who left on %s",
			    vessel->name, day_words(vessel->left, day));
		}
	}
	inventory->vessels = kept;
	inventory->vessel_count = count;
}

static void
show(struct context *context)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (options_word(context->given, 0) == NULL) {
		drop_left(context);
	}
	if (context->json) {
		answer_vessels(inventory, &context->out);
		return;
	}
	if (!context_is_empty(context)) {
		report_vessels(context_style(context), inventory, &context->out);
	}
}

/* True when the book knows the vessel. Opens the book for reading, so that looking at one
 * that is not there changes nothing. */
static bool
is_known(struct context *context, const char *name)
{
	struct fault ignored = {0};
	return desk_has_book(&context->desk) &&
	       desk_load(&context->desk, name, false, &ignored);
}

/* Has a person say whether what the book has was wrong, or which name was meant, where the desk
 * asks it. */
static bool
ask_again(struct context *context, struct vessel_request *request, struct fault *fault)
{
	int choice = 0;
	if (context->desk.question.choices == NULL) {
		return context_asked(context, fault);
	}
	if (!context_chosen(context, "wt", &choice, fault)) {
		return false;
	}
	request->otherwise = choice == 0 ? OTHERWISE_WRONG : OTHERWISE_TODAY;
	return true;
}

static bool
put(struct context *context, const char *name, struct fault *fault)
{
	struct vessel_request request = {.change = {.name = name}};
	struct vessel_change *change = &request.change;
	struct word_list sheets = {0};
	bool done = false;
	if (!read_values(context, change, fault) ||
	    !read_winters(context, change, fault) || !read_goes(context, change, fault) ||
	    !read_from(context->given, &request, fault)) {
		return false;
	}
	context_list(context, "sheet", &sheets);
	change->sheets = sheets.items;
	change->sheet_count = sheets.count;
	do {
		done = desk_vessel(&context->desk, &request, fault);
	} while (!done && ask_again(context, &request, fault));
	if (done) {
		show(context);
	}
	return done;
}

/* --left, or --back, stands alone. */
static bool
check_leaving(const struct given_options *given, struct fault *fault)
{
	bool left = options_has(given, "left");
	size_t others = 0;
	for (size_t i = 0; i < COUNT_OF(OPTIONS); i++) {
		const char *name = OPTIONS[i].name;
		bool of_it = strcmp(name, "left") == 0 || strcmp(name, "back") == 0 ||
			     strcmp(name, "because") == 0 || strcmp(name, "gear") == 0;
		others += !of_it && options_has(given, name) ? 1 : 0;
	}
	if (left == options_has(given, "back") || others > 0) {
		return usage_fault(fault, "becket vessel",
		    "expected --left DATE with --because and --gear, or --back, and nothing "
		    "else with them");
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *name = options_word(context->given, 0);
	bool changes = false;
	for (size_t i = 0; i < COUNT_OF(OPTIONS); i++) {
		changes = changes || options_has(context->given, OPTIONS[i].name);
	}
	if (name == NULL && changes) {
		return usage_fault(fault, "becket vessel", "NAME is missing");
	}
	if (options_has(context->given, "left") || options_has(context->given, "back") ||
	    options_has(context->given, "because") ||
	    options_has(context->given, "gear")) {
		return check_leaving(context->given, fault) &&
		       vessel_leave(context, name, fault);
	}
	if (name == NULL) {
		if (!desk_open(&context->desk, BOOK_READ, fault) ||
		    !desk_load(&context->desk, NULL, false, fault)) {
			return false;
		}
		show(context);
		return true;
	}
	if (!changes && is_known(context, name)) {
		show(context);
		return true;
	}
	return put(context, name, fault);
}

const struct command COMMAND_VESSEL = {
    .name = "vessel",
    .summary = "enter a vessel or change what is known of her; list the vessels",
    .details =
	"A new vessel is in private use, follows the sheet \"practice\" and is laid up "
	"from 1 November to 31 March unless told otherwise.\n\n"
	"Use, area, persons, season, base, lay-up and sheets hold from a day on, until the "
	"next day from which something else was said: --from tells the day, so that a change "
	"can be entered before it happens. Without it, what was never told is told since ever; "
	"what changes is asked about at a terminal, and else changes from today. The past stays "
	"as it was, unless --correction says that it was wrong. A winter keeps the lay-up in "
	"force on the day it starts.\n\n"
	"Her people's days, --goes and --not, say nothing of the station's: gear is handed in "
	"and fetched on a day on which the station is open and they go. Where the station's "
	"weekdays are not known theirs count, and the list says to ask; where the two share none, "
	"the station's do. The boats of one base go on the days they share. --trips is how often they "
	"go in one winter: what can't be met is told; of boats that share trips the least holds.\n\n"
	"With --left she is in no list, muster, plan or cure from that day on. Her "
	"history stays, what of hers is at a station stays to be collected, and --back takes "
	"it back.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_CREATE,
    .json = true,
    .run = run,
};
