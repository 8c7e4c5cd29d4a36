/* becket move */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "desk/acts.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static const struct option_spec OPTIONS[] = {
    OPTION("vessel", "NAME", VESSEL, struct move_request, vessel,
	"whose they are from then on", .not_with = "spares"),
    OPTION("spares", "BASE", WORDS, struct move_request, spares,
	"to the spares kept at that base"),
    OPTION("quantity", "N", COUNT, struct move_request, quantity,
	"only so many of a lot, which get a tag of their own", .least = 1,
	.most = 100000),
    OPTION("on", "DATE", DAY, struct move_request, on, "the day; today when not told"),
    OPTION("place", "WORDS", WORDS, struct move_request, place,
	"where aboard they are kept there"),
    FLAG_OPTION("alone", struct move_request, alone,
	"a part goes without what it is part of, and is no part of it after that"),
    OPTION("note", "WORDS", WORDS, struct move_request, note, "anything else"),
};

static bool
run(struct context *context, struct fault *fault)
{
	struct move_request request = {
	    .tags = context->given->words, .on = context->desk.today, .note = ""};
	struct move_outcome done = {0};
	char on[DAY_WORDS_SIZE];
	if (!options_into(context->given, &request, fault)) {
		return false;
	}
	if (request.vessel == NULL && request.spares == NULL) {
		return usage_fault(fault, "becket move",
		    "expected either --vessel NAME or --spares BASE");
	}
	if (!desk_move(&context->desk, &request, &done, fault)) {
		return context_usage(context, fault);
	}
	if (done.piece != NULL) {
		text_add_format(&context->out, "%d of %s %s %s now\n", request.quantity,
		    done.lot, request.quantity == 1 ? "is" : "are", done.piece);
	}
	add_gear(&context->out, &done.gear);
	text_add_format(
	    &context->out, " moved to %s on %s\n", done.to, day_words(request.on, on));
	return true;
}

const struct command COMMAND_MOVE = {
    .name = "move",
    .summary = "move gear to another vessel, or to and from the spares at a base",
    .details =
	"Its parts go with it. The spares at a base are a vessel of their own that is never "
	"mustered, \"Spares at BASE\", made when the first thing is moved there. Where "
	"aboard a thing was kept is forgotten unless --place tells the new place.\n\n"
	"With --quantity so many of a lot go, under a tag of their own, with the lot's dates, "
	"serial number, records and papers.",
    .examples = "move TE-3 --spares \"Holm Quay\"\n"
		"a tether goes to the spares kept at that base\n"
		"move TE-3 --vessel Quillfish --place \"wet locker\"\n"
		"and back aboard\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .quiet = true,
    .run = run,
};
