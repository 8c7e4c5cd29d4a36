/* becket now, and becket alone */
#include "cli/command.h"
#include "desk/reminding.h"
#include "exchange/answers_life.h"
#include "report/report_life.h"

#include <string.h>

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "this vessel only"},
};

/* How to begin where there is no book. */
static bool
say_how_to_begin(struct context *context)
{
	text_add_format(&context->out,
	    "There is no book at %s yet. To begin one:\n"
	    "  becket vessel NAME --lay-up 11-01..03-31\n"
	    "  becket enter KIND --vessel NAME --made DATE\n"
	    "or, from a list that you have (.xlsx, .ods or CSV):\n"
	    "  becket import FILE\n"
	    "\"becket --help\" lists the commands.\n",
	    context->desk.book_path);
	return true;
}

/* Of which boat alone to speak: the one named, or the only one there is. */
static bool
settle_vessel(struct context *context, struct first_word *word, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const char *named = options_value(context->given, "vessel");
	size_t vessel = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *one = &inventory->vessels[i];
		if (!one->store && vessel_is_here(one, context->desk.today)) {
			word->boats++;
		}
	}
	if (named != NULL && !desk_find_vessel(&context->desk, named, &vessel, fault)) {
		return false;
	}
	if (named != NULL || inventory->vessel_count == 1) {
		word->vessel = inventory->vessels[vessel].name;
	}
	return true;
}

/* What the calendar would say, of that boat or of all. */
static bool
find_coming(struct context *context, struct first_word *word, struct fault *fault)
{
	struct reminders reminders = {0};
	if (!reminding_seen(&context->desk, &reminders, fault)) {
		return false;
	}
	if (word->vessel != NULL) {
		const struct scope scope = {SCOPE_VESSEL, word->vessel};
		reminders_narrow(&reminders, &context->desk.contents.inventory, &scope);
	}
	struct coming *coming =
	    arena_alloc(&context->desk.arena, (reminders.count + 1) * sizeof *coming);
	for (size_t i = 0; i < reminders.count; i++) {
		const struct reminder *reminder = &reminders.items[i];
		coming[i] = (struct coming){reminder->day, reminder->summary,
		    reminder->station, reminder->vessels, reminder->vessel_count};
	}
	first_word_divide(coming, reminders.count, word);
	return true;
}

static void
find_ashore(struct context *context, const struct lookout *lookout,
    const struct first_word *word, struct whereabouts_list *out)
{
	const struct inventory *inventory = lookout->inventory;
	size_t kept = 0;
	whereabouts_ashore(lookout, NULL, &context->desk.arena, out);
	for (size_t i = 0; i < out->count; i++) {
		size_t vessel = inventory->items[out->items[i].item].vessel;
		if (word->vessel == NULL ||
		    strcmp(inventory->vessels[vessel].name, word->vessel) == 0) {
			out->items[kept++] = out->items[i];
		}
	}
	out->count = kept;
}

/* Puts it together from a book with a vessel in it. */
static bool
say(struct context *context, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct first_word word = {.today = context->desk.today};
	struct whereabouts_list ashore = {0};
	struct agenda agenda = {0};
	const struct lookout lookout = {.inventory = inventory,
	    .kinds = context->desk.engine.kinds,
	    .stations = context->desk.contents.stations,
	    .station_count = context->desk.contents.station_count};
	if (!settle_vessel(context, &word, fault) ||
	    !find_coming(context, &word, fault) ||
	    !agenda_make(&context->desk.engine, word.today, &context->desk.arena, &agenda,
		fault)) {
		return false;
	}
	first_word_not_in_date(inventory, &agenda, &context->desk.arena, &word);
	find_ashore(context, &lookout, &word, &ashore);
	if (context->json) {
		answer_first_word(&lookout, &word, &ashore, &context->out);
	} else {
		report_first_word(
		    context_style(context), &lookout, &word, &ashore, &context->out);
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	if (!context->json && !desk_has_book(&context->desk)) {
		return say_how_to_begin(context);
	}
	if (!desk_engine(&context->desk, NULL, fault)) {
		return false;
	}
	if (!context->json && context_is_empty(context)) {
		return true;
	}
	return say(context, fault);
}

const struct command COMMAND_NOW = {
    .name = "now",
    .summary = "say in a screen what is not in date, and what comes next",
    .details =
	"The same as becket alone. Of a single boat each task that is not in date, of a fleet "
	"by boat, the worst first. What is to be done, and on which day, is what the calendar "
	"says (becket remind); looking gives nothing out. Without a book it says how to begin.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
