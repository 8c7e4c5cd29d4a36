/* becket vessel */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "cli/parts.h"
#include "cli/terminal.h"
#include "dates/weekdays.h"
#include "desk/acts_fleet.h"
#include "exchange/answers.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "NAME", .help = "the vessel; all are listed when none is named"},
};

/* What the options say. */
struct vessel_said {
	struct vessel_request request;
	bool correction;
	const char *lay_up; /* NULL for nothing, as the next */
	struct word_list winters;
	struct word_list sheets;
	const char *goes;
	struct word_list away;
	struct leave_request leave; /* its day is DAY_NONE when not told */
	const char *because;
	bool back;
};

/* What holds from a day on. */
#define TIMED_OPTIONS                                                                    \
	"use area persons season-months above-freezing dry-storage base lay-up sheet"

#define SAID(type_, member) .type = (type_), .at = offsetof(struct vessel_said, member)
#define SAID_FROM                                                                        \
	.needs = TIMED_OPTIONS, .not_with = "correction",                                \
	SAID(OPTION_DAY, request.change.from)
#define SAID_CORRECTION .needs = TIMED_OPTIONS, SAID(OPTION_FLAG, correction)
#define SAID_LEFT .not_with = "back", SAID(OPTION_DAY, leave.left)
#define SAID_BECAUSE .needs = "left", SAID(OPTION_WORDS, because)
#define SAID_GEAR .needs = "left", .least = FATE_WITH_HER, SAID(OPTION_CHOICE, leave.gear)
#define SAID_BACK SAID(OPTION_FLAG, back)
#define SAID_LAY_UP SAID(OPTION_WORDS, lay_up)
#define SAID_WINTERS SAID(OPTION_WORDS, winters)
#define SAID_SHEETS SAID(OPTION_WORDS, sheets)
#define SAID_BASE SAID(OPTION_WORDS, request.change.base)
#define SAID_GOES SAID(OPTION_WORDS, goes)
#define SAID_AWAY SAID(OPTION_WORDS, away)

#define VESSEL_GOES(id)                                                                  \
	FIELD_GOES(VESSEL_FIELDS[VESSEL_##id], struct vessel_said, request.change,       \
	    request.change.set, VESSEL_##id)
#define OPTION_OF_ROW(id, member, type, column, option, ...)                             \
	FIELD_ENTRY(VESSEL_GOES(id), option)
#define OPTION_OF_PART(id, option)                                                       \
	{option, SAID_##id,                                                              \
	    FIELD_MARKS(struct vessel_said, request.change.set, VESSEL_##id)},
#define OPTION_OF_ASIDE(id, option) {option, SAID_##id},
static const struct option_spec OPTIONS[] = {
    VESSEL_ROWS(OPTION_OF_ROW, OPTION_OF_ROW, OPTION_OF_PART, OPTION_OF_ASIDE)};

/* Since when it holds, and what is done where the book has it otherwise. */
static void
settle_from(struct vessel_said *said)
{
	struct vessel_request *request = &said->request;
	request->from_given = request->change.from != DAY_NONE;
	request->otherwise = said->correction    ? OTHERWISE_WRONG
			     : ask_is_possible() ? OTHERWISE_ASK
						 : OTHERWISE_SAY;
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
read_winters(struct arena *arena, const struct vessel_said *said,
    struct vessel_change *change, struct fault *fault)
{
	struct odd_winter *winters =
	    arena_alloc(arena, (said->winters.count + 1) * sizeof *winters);
	for (size_t i = 0; i < said->winters.count; i++) {
		if (!read_winter(said->winters.items[i], &winters[i], fault)) {
			return false;
		}
	}
	change->odd_winters = winters;
	change->odd_winter_count = said->winters.count;
	change->laid_up =
	    said->lay_up != NULL && !text_same_letters(said->lay_up, "none");
	return !change->laid_up || yearly_parse(said->lay_up, &change->lay_up, fault) ||
	       fault_prefix(fault, "--lay-up");
}

/* Reads the days on which her gear is taken to a station, and those on which it is not. */
static bool
read_goes(struct arena *arena, const struct vessel_said *said,
    struct vessel_change *change, struct fault *fault)
{
	struct span *away = arena_alloc(arena, (said->away.count + 1) * sizeof *away);
	bool none = false;
	if (said->goes != NULL && !weekdays_parse(said->goes, &change->goes, fault)) {
		return fault_prefix(fault, "--goes");
	}
	change->goes = change->goes == WEEKDAYS_ALL ? 0 : change->goes;
	for (size_t i = 0; i < said->away.count; i++) {
		const char *value = said->away.items[i];
		bool nothing = text_same_letters(value, "none");
		none = none || nothing;
		if (!nothing && !span_parse(value, &away[change->away_count++], fault)) {
			return fault_prefix(fault, "--not");
		}
	}
	change->away = away;
	return !none || change->away_count == 0 ||
	       usage_fault(fault, "becket vessel",
		   "found --not none with other days; expected it alone");
}

/* The vessels except those that have left, which are named in a line. */
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

/* Asks a person whether what the book has was wrong, or which name was meant, where the desk
 * wants to know. */
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
put(struct context *context, struct vessel_said *said, struct fault *fault)
{
	struct arena *arena = &context->desk.arena;
	struct vessel_request *request = &said->request;
	struct vessel_change *change = &request->change;
	bool done = false;
	settle_from(said);
	if (!read_winters(arena, said, change, fault) ||
	    !read_goes(arena, said, change, fault)) {
		return false;
	}
	change->sheets = said->sheets.items;
	change->sheet_count = said->sheets.count;
	do {
		done = desk_vessel(&context->desk, request, fault);
	} while (!done && ask_again(context, request, fault));
	if (done) {
		show(context);
	}
	return done;
}

/* Leaving, or being back, stands alone. */
static bool
leave(struct context *context, struct vessel_said *said, struct fault *fault)
{
	const struct vessel_change *change = &said->request.change;
	bool others = (change->set & ~(1U << VESSEL_LEFT)) != 0 ||
		      change->from != DAY_NONE || said->correction;
	if (others) {
		return usage_fault(fault, "becket vessel",
		    "expected --left DATE with --because and --gear, or --back, and nothing "
		    "else with them");
	}
	said->leave.name = change->name;
	return (said->because == NULL ||
		   because_parse(said->because, &said->leave.because, fault)) &&
	       vessel_leave(context, &said->leave, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *name = options_word(context->given, 0);
	struct vessel_said said = {
	    .request.change = {.name = name, .from = DAY_NONE}, .leave.left = DAY_NONE};
	struct vessel_change *change = &said.request.change;
	if (!options_into(context->given, &said, fault)) {
		return false;
	}
	bool leaves = said.back || said.leave.left != DAY_NONE;
	bool changes = leaves || change->set != 0;
	if (name == NULL && changes) {
		return usage_fault(fault, "becket vessel", "NAME is missing");
	}
	if (leaves) {
		return leave(context, &said, fault);
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
	return put(context, &said, fault);
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
    .examples = "vessel Quillfish --lay-up 11-01..03-31 --persons 6\n"
		"her winters, and how many sail in her\n"
		"vessel Quillfish --use commercial --from 2027-06-01\n"
		"she is let from June on\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_CREATE,
    .answers = ONE_ANSWER(KEYS_OF_VESSELS),
    .run = run,
};
