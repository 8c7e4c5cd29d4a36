/* becket move */
#include "cli/command.h"
#include "cli/life_plan.h"
#include "cli/ranges.h"
#include "cli/stores.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "whose they are from then on"},
    {.name = "spares", .argument = "BASE", .help = "to the spares kept at that base"},
    {.name = "on", .argument = "DATE", .help = "the day; today when not told"},
    {.name = "place", .argument = "WORDS", .help = "where aboard they are kept there"},
    {.name = "alone",
	.help =
	    "a part goes without what it is part of, and is no part of it after that"},
    {.name = "note", .argument = "WORDS", .help = "anything else"},
};

static bool
contains(const size_t *items, size_t count, size_t item)
{
	for (size_t i = 0; i < count; i++) {
		if (items[i] == item) {
			return true;
		}
	}
	return false;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct carrying carrying = {
	    .place = options_value(context->given, "place"),
	    .alone = options_has(context->given, "alone"),
	    .say = "--alone",
	    .note = life_note(context),
	};
	const char *vessel = options_value(context->given, "vessel");
	const char *spares = options_value(context->given, "spares");
	struct life_plan plan = {0};
	size_t *items = NULL;
	size_t count = 0;
	char on[DAY_WORDS_SIZE];
	if ((vessel == NULL) == (spares == NULL)) {
		return usage_fault(fault, "becket move",
		    "expected either --vessel NAME or --spares BASE");
	}
	if (!life_day(context, &carrying.on, fault) || !life_begin(context, fault) ||
	    !range_items(context, 0, &items, &count, fault) ||
	    !(vessel != NULL ? vessel_check(context, vessel, fault)
			     : store_need(context, spares, &vessel, fault))) {
		return false;
	}
	carrying.to = vessel;
	for (size_t i = 0; i < count; i++) {
		const struct item *item = &context->contents.inventory.items[items[i]];
		carrying.with_whole = item->parent != ITEM_NO_PARENT &&
				      contains(items, count, item->parent);
		if (!carry(context, &carrying, items[i], &plan, fault)) {
			return false;
		}
	}
	if (!life_write(context, &plan, fault)) {
		return fault_prefix(fault, "moving");
	}
	life_add_tags(context, items, count, &plan, &context->out);
	text_add_format(&context->out, " moved to %s on %s\n", carrying.to,
	    day_words(carrying.on, on));
	return true;
}

const struct command COMMAND_MOVE = {
    .name = "move",
    .summary = "move gear to another vessel, or to and from the spares at a base",
    .details =
	"Its parts go with it. The spares at a base are a vessel of their own that is never "
	"mustered, \"Spares at BASE\", made when the first thing is moved there. Where "
	"aboard a thing was kept is forgotten unless --place tells the new place.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
