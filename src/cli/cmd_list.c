/* becket list */
#include "cli/command.h"
#include "cli/select.h"
#include "desk/stores.h"
#include "exchange/answers.h"

struct listing {
	struct selection selection;
	int state; /* an enum place_state; -1 for any */
	bool all;
};

static const struct option_spec OPTIONS[] = {
    SELECT_OPTIONS(struct listing),
    {.name = "state",
	.argument = "aboard|reserve|landed|stand-in|withdrawn",
	.help = "where it stands",
	.type = OPTION_CHOICE,
	.at = offsetof(struct listing, state)},
    {.name = "all",
	.help = "withdrawn items too, and those of vessels that left",
	.type = OPTION_FLAG,
	.at = offsetof(struct listing, all)},
};

static void
choose(struct context *context, const struct listing *listing, const size_t **items_out,
    size_t *count_out)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	size_t *items = arena_alloc(
	    &context->desk.arena, (inventory->item_count + 1) * sizeof *items);
	size_t count = 0;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		bool in_state = listing->state < 0 || (int)item->state == listing->state;
		if (in_state && selection_has(&listing->selection, inventory, item)) {
			items[count++] = i;
		}
	}
	*items_out = items;
	*count_out = count;
}

static bool
run(struct context *context, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	const size_t *items = NULL;
	size_t count = 0;
	struct listing listing = {.state = -1};
	if (!options_into(context->given, &listing, fault)) {
		return false;
	}
	const char *vessel = listing.selection.vessel;
	context->desk.left_gear = listing.all ? LEFT_ALL : LEFT_NONE;
	if (!desk_kinds(&context->desk, &kinds, fault) ||
	    !selection_settle(context, &listing.selection, fault) ||
	    !desk_load(
		&context->desk, vessel, listing.all || listing.state >= 0, fault) ||
	    (!listing.all && !left_check_named(&context->desk, vessel, fault))) {
		return false;
	}
	choose(context, &listing, &items, &count);
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
