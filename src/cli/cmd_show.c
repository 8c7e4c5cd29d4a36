/* becket show */
#include "cli/command.h"
#include "desk/ranges.h"
#include "exchange/answers.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static bool
show(struct context *context, size_t item, const void *kinds, struct fault *fault)
{
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

static bool
run(struct context *context, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	size_t *items = NULL;
	size_t count = 0;
	return desk_kinds(&context->desk, &kinds, fault) &&
	       desk_load(&context->desk, NULL, true, fault) &&
	       range_items(
		   &context->desk, &context->given->words, &items, &count, fault) &&
	       answer_each(context, items, count, show, kinds, fault);
}

const struct command COMMAND_SHOW = {
    .name = "show",
    .summary = "show everything known about a piece of gear",
    .details = "Of several, --json gives an array.",
    .table = {.words = WORDS, .word_count = COUNT_OF(WORDS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
