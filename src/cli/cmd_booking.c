/* becket booking */
#include "cli/command.h"
#include "cli/list_options.h"
#include "cli/values.h"
#include "desk/bookings.h"
#include "desk/files.h"
#include "exchange/answers.h"
#include "exchange/bookings_csv.h"

#include <string.h>

static const char WHO[] = "becket booking";

static const struct word_spec WORDS[] = {
    {.name = "VESSEL", .help = "whose; those of all boats are listed when none is named"},
};

static const struct option_spec OPTIONS[] = {
    {.name = "from", .argument = "DATE", .help = "the day the party comes aboard"},
    {.name = "to", .argument = "DATE", .help = "the day it leaves"},
    {.name = "persons",
	.argument = "N",
	.help = "everyone aboard; as many as she is entered for when not told"},
    {.name = "children", .argument = "N", .help = "how many of them are children"},
    {.name = "note", .argument = "WORDS", .help = "whose it is, or anything else"},
    {.name = "change",
	.argument = "DATE",
	.help = "change her booking that has this day; what is not told stays"},
    {.name = "remove",
	.argument = "DATE",
	.help = "take out her booking that has this day"},
    {.name = "from-csv",
	.argument = "FILE",
	.help = "enter those of a .csv, .xlsx or .ods file, a row each; - for standard "
		"input"},
    {.name = "dates",
	.argument = "day-first|month-first",
	.help = "with --from-csv: how 03/04/2027 is to be read"},
    LIST_OPTIONS,
    {.name = "all", .help = "list those that are past too"},
};

/* True when something of a booking was said. */
static bool
says_booking(const struct given_options *given)
{
	return options_has(given, "from") || options_has(given, "to") ||
	       options_has(given, "persons") || options_has(given, "children") ||
	       options_has(given, "note");
}

static bool
check_forms(const struct given_options *given, struct fault *fault)
{
	bool change = options_has(given, "change");
	bool remove = options_has(given, "remove");
	bool file = options_has(given, "from-csv");
	bool all = options_has(given, "all");
	bool vessel = options_word(given, 0) != NULL;
	bool says = says_booking(given);
	if (change + remove + file + all > 1 || (says && (remove || file || all))) {
		return usage_fault(fault, WHO,
		    "found options that do not go together; expected a booking, or one "
		    "of --change with what changes, --remove, --from-csv, --all");
	}
	if (file ? vessel : !vessel && (says || change || remove)) {
		return usage_fault(fault, WHO,
		    file ? "found a vessel with --from-csv; each row of the file names "
			   "its own"
			 : "VESSEL is missing");
	}
	if (!file && (options_has(given, "dates") || options_has(given, "worksheet") ||
			 options_has(given, "encoding"))) {
		return usage_fault(fault, WHO,
		    "--dates, --worksheet and --encoding are for --from-csv; it is not "
		    "there");
	}
	if (says && !change &&
	    !(options_has(given, "from") && options_has(given, "to"))) {
		return usage_fault(fault, WHO, "%s is missing",
		    options_has(given, "from") ? "--to" : "--from");
	}
	if (change && !says) {
		return usage_fault(fault, WHO,
		    "nothing to change was told; expected --from, --to, "
		    "--persons, --children or --note");
	}
	return true;
}

/* Puts what was said in place of what stands in a booking. */
static bool
read_booking(
    const struct given_options *given, struct booking *booking, struct fault *fault)
{
	static const struct range PERSONS = {1, BOOKING_PERSONS_MOST};
	static const struct range CHILDREN = {0, BOOKING_PERSONS_MOST};
	const char *note = options_value(given, "note");
	booking->note = note == NULL ? booking->note : note;
	return value_day(given, "from", &booking->days.first, NULL, fault) &&
	       value_day(given, "to", &booking->days.last, NULL, fault) &&
	       value_number(given, "persons", PERSONS, &booking->persons, NULL, fault) &&
	       value_number(given, "children", CHILDREN, &booking->children, NULL, fault);
}

/* "Kestrel: 12 Jun 2027 to 19 Jun 2027, 6 persons, 2 of them children". */
static void
add_words(const char *vessel, const struct booking *booking, struct text *out)
{
	char first[DAY_WORDS_SIZE];
	char last[DAY_WORDS_SIZE];
	text_add_format(out, "%s: %s to %s", vessel,
	    day_words(booking->days.first, first), day_words(booking->days.last, last));
	if (booking->persons > 0) {
		text_add_format(out, ", %d person%s", booking->persons,
		    booking->persons == 1 ? "" : "s");
	}
	if (booking->children > 0) {
		text_add_format(out, ", %d child%s among them", booking->children,
		    booking->children == 1 ? "" : "ren");
	}
	text_add_byte(out, '\n');
}

static bool
put(struct context *context, const char *vessel, struct fault *fault)
{
	const struct given_options *given = context->given;
	struct booking_request request = {
	    .vessel = vessel, .was = DAY_NONE, .booking.note = ""};
	day_t day = DAY_NONE;
	bool change = false;
	if (!value_day(given, "change", &day, &change, fault)) {
		return false;
	}
	if (change) {
		const struct booking *old = NULL;
		if (!bookings_find(&context->desk, vessel, day, &old, fault)) {
			return false;
		}
		request.was = old->days.first;
		request.booking = *old;
	}
	if (!read_booking(given, &request.booking, fault) ||
	    !bookings_put(&context->desk, &request, 1, fault)) {
		return false;
	}
	add_words(vessel, &request.booking, &context->out);
	return true;
}

static bool
drop(struct context *context, const char *vessel, struct fault *fault)
{
	day_t day = DAY_NONE;
	const struct booking *old = NULL;
	if (!value_day(context->given, "remove", &day, NULL, fault) ||
	    !bookings_find(&context->desk, vessel, day, &old, fault) ||
	    !bookings_drop(&context->desk, vessel, old->days.first, fault)) {
		return false;
	}
	text_add(&context->out, "taken out: ");
	add_words(vessel, old, &context->out);
	return true;
}

static bool
put_file(struct context *context, struct fault *fault)
{
	const char *path = options_value(context->given, "from-csv");
	SCOPED_TEXT bytes = {0};
	struct booking_request *requests = NULL;
	size_t count = 0;
	if (!desk_load(&context->desk, NULL, false, fault) ||
	    !file_read(path, &bytes, fault)) {
		return false;
	}
	const struct csv_source file = {strcmp(path, "-") == 0 ? "standard input" : path,
	    text_string(&bytes), bytes.length};
	const struct list_source source = {.file = &file,
	    .how = list_how_given(context->given),
	    .order = list_order_given(context->given),
	    .inventory = &context->desk.contents.inventory,
	    .arena = &context->desk.arena,
	    .notes = &context->desk.notes};
	if (!csv_read_bookings(&source, &requests, &count, fault) ||
	    !bookings_put(&context->desk, requests, count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		add_words(requests[i].vessel, &requests[i].booking, &context->out);
	}
	return true;
}

static bool
list(struct context *context, const char *vessel, struct fault *fault)
{
	const struct bookings_asked asked = {
	    .days = {options_has(context->given, "all") ? DAY_NONE : context->desk.today,
		DAY_NEVER},
	    .vessel = vessel};
	struct booked *bookings = NULL;
	size_t count = 0;
	if (!desk_open(&context->desk, BOOK_READ, fault) ||
	    !bookings_list(&context->desk, &asked, &bookings, &count, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (context->json) {
		answer_bookings(inventory, bookings, count, &context->out);
	} else {
		report_bookings(
		    context_style(context), inventory, bookings, count, &context->out);
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const struct given_options *given = context->given;
	const char *vessel = options_word(given, 0);
	if (!check_forms(given, fault)) {
		return false;
	}
	if (options_has(given, "from-csv")) {
		return put_file(context, fault);
	}
	if (options_has(given, "remove")) {
		return drop(context, vessel, fault);
	}
	return says_booking(given) ? put(context, vessel, fault)
				   : list(context, vessel, fault);
}

const struct command COMMAND_BOOKING = {
    .name = "booking",
    .summary = "enter, change or take out the days a boat is let; list them",
    .details =
	"A booking is for one boat, from the day the party comes aboard to the day it leaves, "
	"both too. The day on which one party leaves may be the day on which the next comes; "
	"bookings that share more are refused, and so is one that goes on when she has left. "
	"Persons are everyone aboard, children too. One that touches her lay-up is remarked "
	"on.\n\n"
	"\"becket muster --bookings\" counts what is aboard on the days of each, for its "
	"persons. A rota sends no gear ashore in them, and spares go first to the boat that "
	"is booked soonest.\n\n"
	"A file has the columns vessel, from, to, persons, children and note, in any order; "
	"the first three must be there. All rows or none; a booking of hers that begins on "
	"the same day is replaced, so that a list can be read again.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .json = true,
    .run = run,
};
