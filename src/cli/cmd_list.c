/* becket list */
#include "cli/command.h"
#include "cli/select.h"
#include "exchange/answers.h"

static const struct option_spec OPTIONS[] = {
    SELECT_OPTIONS,
    {.name = "state",
	.argument = "aboard|reserve|landed|stand-in|withdrawn",
	.help = "where it stands"},
    {.name = "all", .help = "withdrawn items too"},
};

static bool
choose(struct context *context, const size_t **items_out, size_t *count_out,
    struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const char *word = options_value(context->given, "state");
	enum place_state state = PLACE_ABOARD;
	struct selection selection;
	if (!selection_read(context, &selection, fault) ||
	    (word != NULL && !place_parse(word, &state, fault))) {
		return false;
	}
	size_t *items = arena_alloc(
	    &context->desk.arena, (inventory->item_count + 1) * sizeof *items);
	size_t count = 0;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		bool in_state = word == NULL || item->state == state;
		if (in_state && selection_has(&selection, inventory, item)) {
			items[count++] = i;
		}
	}
	*items_out = items;
	*count_out = count;
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	const size_t *items = NULL;
	size_t count = 0;
	bool with_withdrawn =
	    options_has(context->given, "all") || options_has(context->given, "state");
	if (!desk_kinds(&context->desk, &kinds, fault) ||
	    !desk_load(&context->desk, options_value(context->given, "vessel"),
		with_withdrawn, fault) ||
	    !choose(context, &items, &count, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (context->json) {
		answer_list(inventory, items, count, &context->out);
		return true;
	}
	if (!context_is_empty(context)) {
		report_list(context_style(context), kinds, inventory, items, count,
		    &context->out);
	}
	return true;
}

const struct command COMMAND_LIST = {
    .name = "list",
    .summary = "list the gear",
    .details = "",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_READ,
    .json = true,
    .run = run,
};
