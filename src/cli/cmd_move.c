/* becket move */
#include "cli/command.h"
#include "cli/life_plan.h"
#include "cli/ranges.h"
#include "cli/stores.h"
#include "cli/values.h"
#include "exchange/inventory_csv.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "whose they are from then on"},
    {.name = "spares", .argument = "BASE", .help = "to the spares kept at that base"},
    {.name = "quantity",
	.argument = "N",
	.help = "only so many of a lot, which get a tag of their own"},
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
has_parts(const struct inventory *inventory, size_t item)
{
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (inventory->items[i].parent == item &&
		    inventory->items[i].state != PLACE_WITHDRAWN) {
			return true;
		}
	}
	return false;
}

/* Splits so many off the lot that is named, and takes that piece in its place. */
static bool
split(struct context *context, int quantity, size_t *items, size_t count,
    struct carrying *carrying, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const struct item *lot = &inventory->items[items[0]];
	const char *tag = arena_string(&context->desk.arena, lot->tag);
	const char *to = arena_string(&context->desk.arena, carrying->to);
	const char **fresh = NULL;
	SCOPED_TEXT note = {0};
	if (count != 1) {
		return usage_fault(fault, "becket move", "--quantity is of one lot");
	}
	if (quantity > lot->quantity) {
		return fault_set(fault, FAULT_INPUT,
		    "--quantity: found %d, but %s has %d", quantity, tag, lot->quantity);
	}
	if (quantity == lot->quantity) {
		return true;
	}
	if (has_parts(inventory, items[0])) {
		return fault_set(fault, FAULT_INPUT,
		    "%s has parts, and which of them go along can't be told; enter its "
		    "pieces one by one",
		    tag);
	}
	if (!tags_fresh(lot->kind, inventory, 1, &context->desk.arena, &fresh) ||
	    !book_split_item(context->desk.book, tag, fresh[0], quantity, fault)) {
		return false;
	}
	desk_forget(&context->desk);
	text_add_format(&note, "split from the lot %s%s%s", tag,
	    carrying->note[0] == '\0' ? "" : "; ", carrying->note);
	carrying->note = arena_string(&context->desk.arena, text_string(&note));
	carrying->to = to;
	text_add_format(&context->out, "%d of %s %s %s now\n", quantity, tag,
	    quantity == 1 ? "is" : "are", fresh[0]);
	return carrying->note != NULL && desk_load(&context->desk, NULL, true, fault) &&
	       desk_find_tag(&context->desk, fresh[0], &items[0], fault);
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
	int quantity = 0;
	char on[DAY_WORDS_SIZE];
	if ((vessel == NULL) == (spares == NULL)) {
		return usage_fault(fault, "becket move",
		    "expected either --vessel NAME or --spares BASE");
	}
	if (!value_number(context->given, "quantity", (struct range){1, 100000},
		&quantity, NULL, fault) ||
	    !life_day(context, &carrying.on, fault) || !life_begin(context, fault) ||
	    !range_items(context, 0, &items, &count, fault) ||
	    !(vessel != NULL ? vessel_check(context, vessel, fault)
			     : store_need(context, spares, &vessel, fault))) {
		return false;
	}
	carrying.to = vessel;
	if (quantity > 0 && !split(context, quantity, items, count, &carrying, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		const struct item *item =
		    &context->desk.contents.inventory.items[items[i]];
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
	"aboard a thing was kept is forgotten unless --place tells the new place.\n\n"
	"With --quantity so many of a lot go, under a tag of their own, with the lot's dates, "
	"serial number, records and papers.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
