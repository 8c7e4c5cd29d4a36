/* becket withdraw */
#include "cli/command.h"
#include "cli/gear_words.h"
#include "cli/values.h"
#include "desk/acts.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static const struct option_spec OPTIONS[] = {
    {.name = "because",
	.argument = "condemned|lost|used|expired|sold|given-back",
	.help = "why; given-back is for what was hired",
	.required = true},
    {.name = "on", .argument = "DATE", .help = "the day; today when not told"},
    {.name = "keep",
	.argument = "TAG",
	.help = "a part that stays, and is no part after that",
	.repeatable = true},
    {.name = "certificate", .argument = "NO", .help = "the paper that says so"},
    {.name = "price", .argument = "PRICE", .help = "what that cost, as 45.00"},
    {.name = "note", .argument = "WORDS", .help = "anything else"},
};

static bool
run(struct context *context, struct fault *fault)
{
	struct withdraw_request request = {
	    .tags = context->given->words,
	    .certificate = options_value(context->given, "certificate"),
	    .note = context_note_given(context),
	    .price_minor = -1,
	};
	struct gear_outcome done = {0};
	char on[DAY_WORDS_SIZE];
	if (!because_parse(
		options_value(context->given, "because"), &request.because, fault) ||
	    !value_price(context, "price", &request.price_minor, NULL, fault) ||
	    !context_day(context, &request.on, fault)) {
		return false;
	}
	context_list(context, "keep", &request.keep);
	if (!desk_withdraw(&context->desk, &request, &done, fault)) {
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
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
