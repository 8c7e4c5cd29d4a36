/* becket amend */
#include "cli/command.h"
#include "cli/item_options.h"
#include "cli/serial_check.h"
#include "cli/stores.h"
#include "cli/values.h"
#include "gear/money.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "TAG", .help = "the item to change", .required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "whose it is now"},
    {.name = "kind", .argument = "KIND", .help = "what it is"},
    ITEM_OPTIONS SERIAL_OPTIONS,
};

static bool
read_change(struct context *context, struct item_change *change, struct record *record,
    bool *has_record, struct fault *fault)
{
	const char *words = options_value(context->given, "kind");
	if (!item_options_read(context, change, record, has_record, fault)) {
		return false;
	}
	if (words != NULL) {
		const struct kind *kind = NULL;
		if (!kind_from_words(context, words, &kind, fault)) {
			return false;
		}
		change->kind = kind->id;
		change->set |= 1U << FIELD_KIND;
	}
	if (change->set == 0 && !*has_record) {
		return usage_fault(
		    fault, "becket amend", "nothing to change: an option is missing");
	}
	return true;
}

/* A number is asked about when it changes, or the kind it is one of. */
static bool
check_serial(struct context *context, const struct item_change *change, size_t index,
    struct fault *fault)
{
	const struct item *item = &context->desk.contents.inventory.items[index];
	bool serial = (change->set & 1U << FIELD_SERIAL) != 0;
	bool kind = (change->set & 1U << FIELD_KIND) != 0;
	struct serial_entry entry = {
	    .kind = kind ? change->kind : item->kind,
	    .serial = serial ? change->serial : item->serial,
	    .item = index,
	};
	bool back = item->because == BECAUSE_CONDEMNED &&
		    (change->set & 1U << FIELD_STATE) != 0 &&
		    change->state != PLACE_WITHDRAWN;
	entry.fresh = (serial && strcmp(entry.serial, item->serial) != 0) ||
		      (kind && strcmp(entry.kind, item->kind) != 0) || back;
	return serials_check(context, &entry, 1, fault);
}

/* The vessel the item is on after the change. */
static const char *
vessel_then(const struct context *context, const struct item_change *change, size_t index)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	return (change->set & 1U << FIELD_VESSEL) != 0
		   ? change->vessel
		   : inventory->vessels[inventory->items[index].vessel].name;
}

/* What the item is part of after the change; ITEM_NO_PARENT for nothing. */
static bool
find_whole(struct context *context, const struct item_change *change, size_t index,
    size_t *out, struct fault *fault)
{
	*out = context->desk.contents.inventory.items[index].parent;
	if ((change->set & 1U << FIELD_PART_OF) == 0) {
		return true;
	}
	*out = ITEM_NO_PARENT;
	return change->part_of[0] == '\0' ||
	       desk_find_tag(&context->desk, change->part_of, out, fault) ||
	       fault_prefix(fault, "--part-of");
}

/* A part that is put inside something, or comes back to it, is put where that is. */
static bool
check_whole(struct context *context, const struct item_change *change, size_t index,
    size_t whole, struct fault *fault)
{
	const struct item *item = &context->desk.contents.inventory.items[index];
	bool told = (change->set & 1U << FIELD_STATE) != 0;
	bool gone = (told ? change->state : item->state) == PLACE_WITHDRAWN;
	bool put =
	    (change->set & 1U << FIELD_PART_OF) != 0 || item->state == PLACE_WITHDRAWN;
	return whole == ITEM_NO_PARENT || gone || !put ||
	       whole_check(context, item->tag, vessel_then(context, change, index),
		   &context->desk.contents.inventory.items[whole], fault);
}

/* Parts go where their whole goes. */
static bool
plan_vessel(struct context *context, const struct item_change *change, size_t index,
    size_t whole, struct life_plan *plan, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const struct item *item = &inventory->items[index];
	const char *to = vessel_then(context, change, index);
	const struct carrying carrying = {
	    .to = to,
	    .on = context->desk.today,
	    .place = item->place,
	    .note = "",
	    .alone = (change->set & 1U << FIELD_PART_OF) != 0,
	    .say = "--part-of \"\"",
	    .with_whole =
		whole != ITEM_NO_PARENT &&
		strcmp(inventory->vessels[inventory->items[whole].vessel].name, to) == 0,
	};
	if (strcmp(inventory->vessels[item->vessel].name, to) == 0 ||
	    item->state == PLACE_WITHDRAWN) {
		return true;
	}
	return vessel_check(context, to, fault) &&
	       carry(context, &carrying, index, plan, fault);
}

static bool
plan_change(struct context *context, const struct item_change *change, size_t index,
    const struct record *record, struct life_plan *plan, struct fault *fault)
{
	const struct item *item = &context->desk.contents.inventory.items[index];
	struct life_step step = {.item = index, .change = *change};
	enum move move = MOVE_ABOARD;
	size_t whole = ITEM_NO_PARENT;
	if (life_state_move(item, change, &move)) {
		step.moves = true;
		step.movement = life_movement(move, context->desk.today, "");
		step.movement.station = item->landed_to;
		life_settle_state(&step.change);
	}
	step.records = record;
	step.record_count = record == NULL ? 0 : 1;
	if (!find_whole(context, change, index, &whole, fault) ||
	    !check_whole(context, change, index, whole, fault) ||
	    !plan_vessel(context, change, index, whole, plan, fault)) {
		return false;
	}
	life_add(context, plan, &step);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct item_change change = {.tag = options_word(context->given, 0)};
	struct record record;
	bool has_record = false;
	struct life_plan plan = {0};
	size_t item = 0;
	if (!read_change(context, &change, &record, &has_record, fault) ||
	    !desk_load(&context->desk, NULL, true, fault) ||
	    !desk_find_tag(&context->desk, change.tag, &item, fault) ||
	    !check_serial(context, &change, item, fault) ||
	    !life_begin_again(context, fault) ||
	    !desk_find_tag(&context->desk, change.tag, &item, fault) ||
	    !plan_change(
		context, &change, item, has_record ? &record : NULL, &plan, fault)) {
		return false;
	}
	const struct item known = context->desk.contents.inventory.items[item];
	if (!life_write(context, &plan, fault)) {
		return fault_prefix(fault, "amending %s", change.tag);
	}
	item_remarks(context, &change, &known, has_record ? &record : NULL);
	text_add_format(&context->out, "%s amended", change.tag);
	if ((change.set & 1U << FIELD_PRICE) != 0 && change.price_minor >= 0) {
		char money[MONEY_WORDS_SIZE];
		text_add_format(&context->out, ", a new one costs %s",
		    money_words(change.price_minor,
			context->desk.contents.inventory.currency, money));
	}
	text_add(&context->out, "\n");
	return true;
}

const struct command COMMAND_AMEND = {
    .name = "amend",
    .summary = "change what is known of a piece of gear",
    .details =
	"Only what is given is changed. An empty value (--made \"\") takes a date or a "
	"word away. With --vessel its parts go along, and a part is on the vessel of what "
	"it is part of.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
