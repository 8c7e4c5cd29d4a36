/* becket withdraw */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "desk/acts.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static const struct option_spec OPTIONS[] = {
    OPTION("because", "condemned|lost|used|expired|sold|given-back", CHOICE,
	struct withdraw_request, because, "why; given-back is for what was hired",
	.required = true, .least = BECAUSE_CONDEMNED),
    OPTION(
	"on", "DATE", DAY, struct withdraw_request, on, "the day; today when not told"),
    OPTION("keep", "TAG", TAG, struct withdraw_request, keep,
	"a part that stays, and is no part after that", .repeatable = true),
    OPTION("certificate", "NO", WORDS, struct withdraw_request, certificate,
	"the paper that says so"),
    OPTION("price", "PRICE", PRICE, struct withdraw_request, price_minor,
	"what that cost, as 45.00"),
    OPTION("note", "WORDS", WORDS, struct withdraw_request, note, "anything else"),
};

static bool
run(struct context *context, struct fault *fault)
{
	struct withdraw_request request = {.tags = context->given->words,
	    .on = context->desk.today,
	    .note = "",
	    .price_minor = -1};
	struct gear_outcome done = {0};
	char on[DAY_WORDS_SIZE];
	if (!options_into(context->given, &request, fault) ||
	    !desk_withdraw(&context->desk, &request, &done, fault)) {
		return false;
	}
	add_gear(&context->out, &done);
	text_add_format(&context->out, " withdrawn on %s: %s\n",
	    day_words(request.on, on), because_word(request.because));
	return true;
}

const struct command COMMAND_WITHDRAW = {
    .name = "withdraw",
    .summary = "record that gear is gone for good",
    .details =
	"Its parts go with it, but for those named with --keep. What was condemned can't be "
	"entered again under its serial number without --again.",
    .examples = "withdraw FL-3 --because expired --on today\n"
		"rockets handed in for disposal\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .quiet = true,
    .run = run,
};
