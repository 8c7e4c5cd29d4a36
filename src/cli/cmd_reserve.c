/* becket reserve */
#include "cli/command.h"
#include "cli/life_plan.h"
#include "cli/ranges.h"
#include "cli/serial_check.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("FL-1..FL-8")};

static const struct option_spec OPTIONS[] = {
    {.name = "aboard",
	.help = "the way back: counted again, also what was withdrawn by mistake"},
    {.name = "on", .argument = "DATE", .help = "the day; today when not told"},
    {.name = "note", .argument = "WORDS", .help = "anything else"},
    AGAIN_OPTION,
};

static bool
check_state(const struct context *context, const struct item *item, bool back,
    struct fault *fault)
{
	switch (item->state) {
	case PLACE_ABOARD:
		return !back ||
		       fault_set(fault, FAULT_INPUT, "%s is aboard already", item->tag);
	case PLACE_RESERVE:
		return back || fault_set(fault, FAULT_INPUT, "%s is in reserve already",
				   item->tag);
	case PLACE_LANDED:
		return fault_set(fault, FAULT_INPUT,
		    "%s is ashore; \"becket return\" brings it back first", item->tag);
	case PLACE_STAND_IN:
		return back ||
		       fault_set(fault, FAULT_INPUT,
			   "%s stands in for another and is no extra; \"becket "
			   "reserve --aboard\" makes it one of the boat's own first",
			   item->tag);
	case PLACE_WITHDRAWN:
		break;
	}
	if (!back) {
		return fault_set(fault, FAULT_INPUT, "%s is withdrawn%s%s", item->tag,
		    item->because == BECAUSE_NOT_SAID ? "" : ": ",
		    because_word(item->because));
	}
	if (item->because == BECAUSE_CONDEMNED && !options_has(context->given, "again")) {
		return fault_set(fault, FAULT_INPUT,
		    "%s was condemned, and what is condemned does not go back aboard; "
		    "--again says that it does all the same",
		    item->tag);
	}
	return true;
}

static bool
plan_one(struct context *context, size_t index, bool back, day_t on,
    struct life_plan *plan, struct fault *fault)
{
	struct life_step step = {.item = index, .moves = true};
	const struct item *item = &context->desk.contents.inventory.items[index];
	step.movement =
	    life_movement(back ? MOVE_ABOARD : MOVE_RESERVED, on, life_note(context));
	step.change = (struct item_change){
	    .set = 1U << FIELD_STATE | 1U << FIELD_BECAUSE | 1U << FIELD_STANDS_FOR,
	    .state = back ? PLACE_ABOARD : PLACE_RESERVE,
	    .because = BECAUSE_NOT_SAID,
	    .stands_for = "",
	};
	if (!check_state(context, item, back, fault)) {
		return false;
	}
	life_add(context, plan, &step);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	bool back = options_has(context->given, "aboard");
	struct life_plan plan = {0};
	size_t *items = NULL;
	size_t count = 0;
	day_t on = DAY_NONE;
	if (!life_day(context, &on, fault) || !life_begin(context, fault) ||
	    !range_items(context, 0, &items, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (!plan_one(context, items[i], back, on, &plan, fault)) {
			return false;
		}
	}
	if (!life_write(context, &plan, fault)) {
		return fault_prefix(fault, "setting aside");
	}
	life_add_tags(context, items, count, &plan, &context->out);
	text_add(&context->out, back ? " aboard, and counted\n"
				     : " in reserve: aboard, but counted no longer\n");
	return true;
}

const struct command COMMAND_RESERVE = {
    .name = "reserve",
    .summary = "keep gear as an extra that is never counted, or count it again",
    .details =
	"Old flares kept beside the new ones are in reserve: aboard, never counted, and "
	"never on the list of what to buy.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
