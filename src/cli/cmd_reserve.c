/* becket reserve */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "desk/acts.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("FL-1..FL-8")};

static const struct option_spec OPTIONS[] = {
    FLAG_OPTION("aboard", struct reserve_request, aboard,
	"the way back: counted again, also what was withdrawn by mistake"),
    OPTION("on", "DATE", DAY, struct reserve_request, on, "the day; today when not told"),
    OPTION("note", "WORDS", WORDS, struct reserve_request, note, "anything else"),
    FLAG_OPTION("again", struct reserve_request, again,
	"it goes back aboard although it was condemned"),
};

static bool
run(struct context *context, struct fault *fault)
{
	struct reserve_request request = {
	    .tags = context->given->words, .on = context->desk.today, .note = ""};
	struct gear_outcome done = {0};
	if (!options_into(context->given, &request, fault) ||
	    !desk_reserve(&context->desk, &request, &done, fault)) {
		return false;
	}
	add_gear(&context->out, &done);
	text_add(&context->out, request.aboard
				    ? " aboard, and counted\n"
				    : " in reserve: aboard, but counted no longer\n");
	return true;
}

const struct command COMMAND_RESERVE = {
    .name = "reserve",
    .summary = "keep gear as an extra that is never counted, or count it again",
    .details =
	"Old flares kept beside the new ones are in reserve: aboard, never counted, and "
	"never on the list of what to buy.",
    .examples = "reserve FL-2 --note \"kept beside the new ones\"\n"
		"flares stay aboard and are counted no more\n"
		"reserve FL-2 --aboard\n"
		"they are counted again\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .quiet = true,
    .run = run,
};
