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
	if (!desk_kinds(&context->desk, &kinds, fault) ||
	    !desk_load(&context->desk, NULL, true, fault) ||
	    !desk_find_tag(
		&context->desk, options_word(context->given, 0), &item, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	const struct paper *papers = NULL;
	size_t count = 0;
	if (!book_load_papers(context->desk.book, inventory->items[item].tag,
		&context->desk.arena, &papers, &count, fault)) {
		return false;
	}
	if (context->json) {
		answer_show(inventory, item, papers, count, &context->out);
		return true;
	}
	report_show(
	    context_style(context), kinds, inventory, item, papers, count, &context->out);
	return true;
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
