/* becket withdraw */
#include "cli/command.h"
#include "cli/life_plan.h"
#include "cli/ranges.h"
#include "cli/values.h"
#include "cli/withdrawing.h"

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
	struct withdrawing how = {
	    .certificate = options_value(context->given, "certificate"),
	    .note = life_note(context),
	    .price_minor = -1,
	};
	struct life_plan plan = {0};
	size_t *items = NULL;
	size_t count = 0;
	bool *kept = NULL;
	char on[DAY_WORDS_SIZE];
	if (!because_parse(
		options_value(context->given, "because"), &how.because, fault) ||
	    !value_price(context, "price", &how.price_minor, NULL, fault) ||
	    !life_day(context, &how.on, fault) || !life_begin(context, fault) ||
	    !range_items(context, 0, &items, &count, fault) ||
	    !life_parts(context, "keep", items, count, &kept, fault)) {
		return false;
	}
	how.kept = kept;
	for (size_t i = 0; i < count; i++) {
		if (!withdraw(context, &how, items[i], &plan, fault)) {
			return false;
		}
	}
	if (!life_write(context, &plan, fault)) {
		return fault_prefix(fault, "withdrawing");
	}
	life_add_tags(context, items, count, &plan, &context->out);
	text_add_format(&context->out, " withdrawn on %s: %s\n", day_words(how.on, on),
	    because_word(how.because));
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
