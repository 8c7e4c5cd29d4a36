/* becket booking */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "desk/bookings.h"
#include "desk/files.h"
#include "exchange/answers.h"
#include "exchange/bookings_csv.h"

#include <string.h>

static const char WHO[] = "becket booking";

/* One of which nothing is said. */
static const struct booking NO_BOOKING = {.note = ""};

static const struct word_spec WORDS[] = {
    {.name = "VESSEL", .help = "whose; those of all boats are listed when none is named"},
};

/* What the options say. */
struct booking_said {
	struct booking booking;
	day_t
	    change; /* a day of the booking that is meant; DAY_NONE when not told, as the next */
	day_t remove;
	const char *from_csv;
	struct list_how how;
	enum date_order order;
	bool all;
};

static const struct option_spec OPTIONS[] = {
    OPTION("from", "DATE", DAY, struct booking_said, booking.days.first,
	"the day the party comes aboard", .needs = "to change",
	.not_with = "remove from-csv all"),
    OPTION("to", "DATE", DAY, struct booking_said, booking.days.last, "the day it leaves",
	.needs = "from change", .not_with = "remove from-csv all"),
    OPTION("persons", "N", COUNT, struct booking_said, booking.persons,
	"everyone aboard; as many as she is entered for when not told",
	.needs = "from change", .not_with = "remove from-csv all", .least = 1,
	.most = BOOKING_PERSONS_MOST),
    OPTION("children", "N", COUNT, struct booking_said, booking.children,
	"how many of them are children", .needs = "from change",
	.not_with = "remove from-csv all", .most = BOOKING_PERSONS_MOST),
    OPTION("note", "WORDS", WORDS, struct booking_said, booking.note,
	"whose it is, or anything else", .needs = "from change",
	.not_with = "remove from-csv all"),
    OPTION("change", "DATE", DAY, struct booking_said, change,
	"change her booking that has this day; what is not told stays",
	.needs = "from to persons children note", .not_with = "remove from-csv all"),
    OPTION("remove", "DATE", DAY, struct booking_said, remove,
	"take out her booking that has this day", .not_with = "from-csv all"),
    OPTION("from-csv", "FILE", WORDS, struct booking_said, from_csv,
	"enter those of a .csv, .xlsx or .ods file, a row each; - for standard "
	"input",
	.not_with = "all"),
    LIST_OPTIONS(struct booking_said, how, order, "from-csv",
	"with --from-csv: how 03/04/2027 is to be read"),
    FLAG_OPTION("all", struct booking_said, all, "list those that are past too"),
};

/* True when something of a booking was said. */
static bool
says_booking(const struct booking_said *said)
{
	const struct booking *booking = &said->booking;
	return booking->days.first != DAY_NONE || booking->days.last != DAY_NONE ||
	       booking->persons > 0 || booking->children >= 0 || booking->note != NULL;
}

/* Whether the vessel is there, or not, as it must be. */
static bool
check_vessel(const struct booking_said *said, const char *vessel, struct fault *fault)
{
	if (said->from_csv != NULL && vessel != NULL) {
		return usage_fault(fault, WHO,
		    "found a vessel with --from-csv; each row of the file names its own");
	}
	bool one = says_booking(said) || said->remove != DAY_NONE;
	return vessel != NULL || !one || usage_fault(fault, WHO, "VESSEL is missing");
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
put(struct context *context, const char *vessel, struct booking_said *said,
    struct fault *fault)
{
	struct booking_request request = {.vessel = vessel, .was = DAY_NONE};
	const struct booking *old = &NO_BOOKING;
	if (said->change != DAY_NONE) {
		if (!bookings_find(&context->desk, vessel, said->change, &old, fault)) {
			return false;
		}
		request.was = old->days.first;
	}
	/* what is said goes over what stands there */
	said->booking = *old;
	if (!options_into(context->given, said, fault)) {
		return false;
	}
	request.booking = said->booking;
	if (!bookings_put(&context->desk, &request, 1, fault)) {
		return false;
	}
	add_words(vessel, &request.booking, &context->out);
	return true;
}

static bool
drop(struct context *context, const char *vessel, day_t day, struct fault *fault)
{
	const struct booking *old = NULL;
	if (!bookings_find(&context->desk, vessel, day, &old, fault) ||
	    !bookings_drop(&context->desk, vessel, old->days.first, fault)) {
		return false;
	}
	text_add(&context->out, "taken out: ");
	add_words(vessel, old, &context->out);
	return true;
}

static bool
put_file(struct context *context, const struct booking_said *said, struct fault *fault)
{
	const char *path = said->from_csv;
	SCOPED_TEXT bytes = {0};
	struct booking_request *requests = NULL;
	size_t count = 0;
	if (!desk_load(&context->desk, NULL, false, fault) ||
	    !file_read(path, &bytes, fault)) {
		return false;
	}
	const struct csv_source file = {
	    .name = strcmp(path, "-") == 0 ? "standard input" : path,
	    .bytes = text_string(&bytes),
	    .length = bytes.length};
	const struct list_source source = {.file = &file,
	    .how = said->how,
	    .order = said->order,
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
list(struct context *context, const char *vessel, bool all, struct fault *fault)
{
	const struct bookings_asked asked = {
	    .days = {all ? DAY_NONE : context->desk.today, DAY_NEVER}, .vessel = vessel};
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
	const char *vessel = options_word(context->given, 0);
	struct booking_said said = {
	    .booking = {.days = {DAY_NONE, DAY_NONE}, .children = -1},
	    .change = DAY_NONE,
	    .remove = DAY_NONE};
	if (!options_into(context->given, &said, fault) ||
	    !check_vessel(&said, vessel, fault)) {
		return false;
	}
	if (said.from_csv != NULL) {
		return put_file(context, &said, fault);
	}
	if (said.remove != DAY_NONE) {
		return drop(context, vessel, said.remove, fault);
	}
	return says_booking(&said) ? put(context, vessel, &said, fault)
				   : list(context, vessel, said.all, fault);
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
    .examples = "booking Quillfish --from 2027-07-03 --to 2027-07-17 --persons 6\n"
		"a party of six, two weeks in July\n"
		"booking\n"
		"all bookings to come\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .answers = ONE_ANSWER(KEYS_OF_BOOKINGS),
    .quiet = true,
    .run = run,
};
