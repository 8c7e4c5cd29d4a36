/* becket show */
#include "cli/command.h"
#include "exchange/answers.h"

static const struct word_spec WORDS[] = {
    {.name = "TAG", .help = "the item", .required = true},
};

static bool
run(struct context *context, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	size_t item = 0;
	if (!context_kinds(context, &kinds, fault) ||
	    !context_load(context, NULL, true, fault) ||
	    !context_find_tag(context, options_word(context->given, 0), &item, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->contents.inventory;
	const struct paper *papers = NULL;
	size_t count = 0;
	if (!book_load_papers(context->book, inventory->items[item].tag, &context->arena,
		&papers, &count, fault)) {
		return false;
	}
	if (context->json) {
		return answer_show(inventory, item, papers, count, &context->out, fault);
	}
	return report_show(
	    &context->style, kinds, inventory, item, papers, count, &context->out, fault);
}

const struct command COMMAND_SHOW = {
    .name = "show",
    .summary = "show everything known about one piece of gear",
    .details = "",
    .table = {.words = WORDS, .word_count = COUNT_OF(WORDS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
