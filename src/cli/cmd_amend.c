/* becket amend */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "cli/terminal.h"
#include "desk/acts.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

/* What the options say. */
struct amend_said {
	struct item_said item;
	struct serial_said serials;
};

static const struct option_spec OPTIONS[] = {
    OPTION("vessel", "NAME", VESSEL, struct amend_said, item.change.vessel,
	"whose it is now", FIELD_MARKS(struct amend_said, item.change.set, FIELD_VESSEL)),
    OPTION("kind", "KIND", KIND, struct amend_said, item.change.kind, "what it is",
	FIELD_MARKS(struct amend_said, item.change.set, FIELD_KIND)),
    ITEM_OPTIONS SERIAL_OPTIONS(struct amend_said, serials),
};

static bool
run(struct context *context, struct fault *fault)
{
	struct amend_said said = {0};
	const struct item_change *change = &said.item.change;
	const struct record *record = NULL;
	struct gear_outcome done = {0};
	bool amended = false;
	if (!item_options_into(context, &said.item, &record, fault)) {
		return false;
	}
	if (change->set == 0 && record == NULL) {
		return usage_fault(
		    fault, "becket amend", "nothing to change: an option is missing");
	}
	const struct amend_request request = {.tags = context->given->words,
	    .change = *change,
	    .record = record,
	    .said = said.serials};
	do {
		struct waiting_word waiting;
		waiting_begin(&waiting, true);
		amended = desk_amend(&context->desk, &request, &done, fault);
		waiting_end(&waiting);
	} while (!amended && context_asked(context, fault));
	if (!amended) {
		return false;
	}
	for (size_t i = 0; i < done.count; i++) {
		desk_note_item(&context->desk, change,
		    &context->desk.contents.inventory.items[done.items[i]], record);
	}
	add_tags(&context->out, &done);
	text_add(&context->out, " amended");
	item_say_understood(context, change, record);
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
    .examples = "amend LJ-2 --place \"stern locker\" --notes \"new crotch straps\"\n"
		"what is not told stays as it is\n"
		"amend FL-1..FL-2 --expires \"EXP 06/2028\"\n"
		"two lots, by the date on the label: good through 30 Jun 2028\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
