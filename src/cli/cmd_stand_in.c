/* becket stand-in */
#include "base/memory.h"
#include "cli/batch.h"
#include "cli/command.h"
#include "cli/item_options.h"
#include "cli/ranges.h"
#include "cli/serial_check.h"
#include "cli/stores.h"
#include "cli/values.h"
#include "report/tags.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "TAG|KIND",
	.help = "items in the book, or what kind of thing was hired",
	.required = true,
	.repeatable = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "for",
	.argument = "TAG",
	.help = "the own item in whose place it stands in"},
    {.name = "until", .argument = "DATE", .help = "the last day of its hire"},
    {.name = "vessel",
	.argument = "NAME",
	.help = "where it stands in; that of --for when not told"},
    {.name = "on", .argument = "DATE", .help = "from when; today when not told"},
    {.name = "note", .argument = "WORDS", .help = "anything else"},
    BATCH_OPTIONS,
    ITEM_OPTIONS SERIAL_OPTIONS,
};

/* What stands in, where, and for what. */
struct standing_in {
	const char *vessel;
	const char *stands_for; /* the own item's tag; "" when not told */
	day_t on;
	bool has_until;
	day_t until;
};

/* Remarks on the own item: a place that is not empty is filled twice. */
static void
note_own(struct context *context, const struct item *own, const char *kind)
{
	if (own->state == PLACE_ABOARD || own->state == PLACE_STAND_IN) {
		desk_note(&context->desk,
		    "%s is aboard, so both count; \"becket land %s\" "
		    "says that it went ashore",
		    own->tag, own->tag);
	}
	if (kind != NULL && strcmp(kind, own->kind) != 0) {
		desk_note(&context->desk, "%s is a %s, and what stands in is a %s",
		    own->tag, own->kind, kind);
	}
}

/* The vessel and the own item, from the options. */
static bool
read_place(struct context *context, const char *kind, struct standing_in *standing,
    struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const char *own = options_value(context->given, "for");
	size_t item = 0;
	standing->vessel = options_value(context->given, "vessel");
	standing->stands_for = "";
	if (own != NULL) {
		if (!desk_find_tag(&context->desk, own, &item, fault)) {
			return fault_prefix(fault, "--for");
		}
		const struct item *it = &inventory->items[item];
		const char *hers = inventory->vessels[it->vessel].name;
		standing->stands_for = own;
		if (standing->vessel == NULL) {
			standing->vessel = hers;
		}
		if (strcmp(standing->vessel, hers) != 0) {
			return fault_set(fault, FAULT_INPUT,
			    "%s is on %s, so nothing on %s can stand in for it", own,
			    hers, standing->vessel);
		}
		note_own(context, it, kind);
	}
	if (standing->vessel == NULL) {
		return usage_fault(
		    fault, "becket stand-in", "--for TAG or --vessel NAME is missing");
	}
	/* A copy: the book is read again before it is written. */
	standing->vessel = arena_string(&context->desk.arena, standing->vessel);
	if (standing->vessel == NULL) {
		memory_ended();
	}
	return vessel_check(context, standing->vessel, fault);
}

static bool
read_days(struct context *context, struct standing_in *standing, struct fault *fault)
{
	standing->until = DAY_NONE;
	if (!life_day(context, &standing->on, fault) ||
	    !value_day(
		context->given, "until", &standing->until, &standing->has_until, fault)) {
		return false;
	}
	if (standing->has_until && standing->until < standing->on) {
		return fault_set(fault, FAULT_INPUT,
		    "--until: expected a day after it began to stand in, found one before");
	}
	return true;
}

/* ---- something hired that is new to the book ---- */

static bool
enter_hired(struct context *context, const struct kind *kind, struct fault *fault)
{
	struct standing_in standing = {0};
	struct item_change change = {0};
	struct record record;
	struct batch batch = {0};
	bool has_record = false;
	if (!item_options_read(context, &change, &record, &has_record, fault) ||
	    !read_days(context, &standing, fault) ||
	    !desk_load(&context->desk, NULL, true, fault) ||
	    !read_place(context, kind->id, &standing, fault)) {
		return false;
	}
	if (options_has(context->given, "state") ||
	    options_has(context->given, "hired-until")) {
		return usage_fault(fault, "becket stand-in",
		    "its state is stand-in, and --until is the last day of its hire");
	}
	change.kind = kind->id;
	change.vessel = standing.vessel;
	change.state = PLACE_STAND_IN;
	change.stands_for = standing.stands_for;
	change.hired_until = standing.until;
	change.set |= 1U << FIELD_KIND | 1U << FIELD_VESSEL | 1U << FIELD_STATE |
		      1U << FIELD_STANDS_FOR | 1U << FIELD_HIRED_UNTIL;
	struct movement movement =
	    life_movement(MOVE_STOOD_IN, standing.on, life_note(context));
	movement.stands_for = standing.stands_for;
	if (!batch_make(context, &change, &batch, fault) ||
	    !batch_check_serials(context, &batch, fault) ||
	    !batch_write(
		context, &batch, has_record ? &record : NULL, &movement, fault)) {
		return false;
	}
	struct tag_list list = {.out = &context->out};
	for (size_t i = 0; i < batch.count; i++) {
		tag_list_add(&list, batch.items[i].tag);
	}
	tag_list_end(&list);
	text_add_format(&context->out, " entered: %s, standing in on %s", kind->name,
	    standing.vessel);
	return true;
}

/* ---- something in the book ---- */

static bool
check_item(const struct item *item, struct fault *fault)
{
	switch (item->state) {
	case PLACE_ABOARD:
	case PLACE_RESERVE:
	case PLACE_STAND_IN:
		return true;
	case PLACE_LANDED:
		return fault_set(fault, FAULT_INPUT,
		    "%s is ashore; \"becket return\" brings it back first", item->tag);
	case PLACE_WITHDRAWN:
		return fault_set(fault, FAULT_INPUT, "%s is withdrawn%s%s", item->tag,
		    item->because == BECAUSE_NOT_SAID ? "" : ": ",
		    because_word(item->because));
	}
	return false;
}

static bool
plan_one(struct context *context, const struct standing_in *standing, size_t index,
    struct life_plan *plan, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const struct item *item = &inventory->items[index];
	struct life_step step = {.item = index, .moves = true};
	const struct carrying carrying = {
	    .to = standing->vessel, .on = standing->on, .note = life_note(context)};
	bool there = strcmp(inventory->vessels[item->vessel].name, standing->vessel) == 0;
	if (strcmp(item->tag, standing->stands_for) == 0) {
		return fault_set(
		    fault, FAULT_INPUT, "%s can't stand in for itself", item->tag);
	}
	if (!check_item(item, fault) ||
	    (!there && !carry(context, &carrying, index, plan, fault))) {
		return false;
	}
	step.movement = life_movement(MOVE_STOOD_IN, standing->on, life_note(context));
	step.movement.stands_for = standing->stands_for;
	step.change = (struct item_change){
	    .set = 1U << FIELD_STATE | 1U << FIELD_STANDS_FOR |
		   (standing->has_until ? 1U << FIELD_HIRED_UNTIL : 0U),
	    .state = PLACE_STAND_IN,
	    .stands_for = standing->stands_for,
	    .hired_until = standing->until,
	};
	life_add(context, plan, &step);
	return true;
}

static bool
put_in_place(struct context *context, struct fault *fault)
{
	struct standing_in standing = {0};
	struct item_change none = {0};
	struct record record;
	bool has_record = false;
	struct life_plan plan = {0};
	size_t *items = NULL;
	size_t count = 0;
	if (!item_options_read(context, &none, &record, &has_record, fault) ||
	    !read_days(context, &standing, fault) || !life_begin_again(context, fault) ||
	    !range_items(context, 0, &items, &count, fault)) {
		return false;
	}
	bool enters = (none.set & ~(1U << FIELD_VESSEL)) != 0 || has_record ||
		      options_has(context->given, "tag") ||
		      options_has(context->given, "serials") ||
		      options_has(context->given, "count");
	if (enters) {
		return usage_fault(fault, "becket stand-in",
		    "what is in the book is changed with \"becket amend\"; expected --for, "
		    "--until, --vessel, --on and --note alone");
	}
	if (!read_place(context, context->desk.contents.inventory.items[items[0]].kind,
		&standing, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (!plan_one(context, &standing, items[i], &plan, fault)) {
			return false;
		}
	}
	if (!life_write(context, &plan, fault)) {
		return false;
	}
	struct tag_list list = {.out = &context->out};
	for (size_t i = 0; i < count; i++) {
		tag_list_add(&list, context->desk.contents.inventory.items[items[i]].tag);
	}
	tag_list_end(&list);
	text_add_format(&context->out, " standing in on %s", standing.vessel);
	return true;
}

static bool
is_tag(const struct context *context, const char *word)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (strcmp(inventory->items[i].tag, word) == 0) {
			return true;
		}
	}
	return strstr(word, "..") != NULL;
}

/* Ends the line with what was said of it. */
static void
say_rest(struct context *context)
{
	char until[DAY_WORDS_SIZE];
	const char *own = options_value(context->given, "for");
	day_t last = DAY_NONE;
	struct fault none = {0};
	if (own != NULL) {
		text_add_format(&context->out, " for %s", own);
	}
	if (value_day(context->given, "until", &last, NULL, &none) && last != DAY_NONE) {
		text_add_format(
		    &context->out, ", hired until %s", day_words(last, until));
	}
	text_add(&context->out, "\n");
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *word = options_word(context->given, 0);
	const struct kind *kind = NULL;
	if (!desk_load(&context->desk, NULL, true, fault)) {
		return false;
	}
	if (is_tag(context, word)) {
		if (!put_in_place(context, fault)) {
			return false;
		}
	} else if (context->given->words.count > 1) {
		return usage_fault(fault, "becket stand-in",
		    "\"%s\" is no tag in the book; expected tags, or one kind", word);
	} else if (!kind_from_words(context, word, &kind, fault) ||
		   !enter_hired(context, kind, fault)) {
		return false;
	}
	say_rest(context);
	return true;
}

const struct command COMMAND_STAND_IN = {
    .name = "stand-in",
    .summary = "put hired or lent gear in the place of gear that is away",
    .details =
	"It counts in the muster by its own dates, up to the last day of its hire; \"becket "
	"due\" shows that day as one to give it back by. A kind enters what was hired, with "
	"the options of \"becket enter\"; tags take gear that is in the book, as from the "
	"spares at a base. When its own item returns, that is said. \"becket withdraw "
	"--because given-back\" ends it.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
