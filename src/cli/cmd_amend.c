/* becket amend */
#include "cli/command.h"
#include "cli/gear_words.h"
#include "cli/item_options.h"
#include "cli/waiting.h"
#include "desk/acts.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel",
	.argument = "NAME",
	.help = "whose it is now",
	.type = OPTION_VESSEL,
	.at = offsetof(struct amend_request, change.vessel)},
    {.name = "kind",
	.argument = "KIND",
	.help = "what it is",
	.type = OPTION_KIND,
	.at = offsetof(struct amend_request, change.kind)},
    ITEM_OPTIONS SERIAL_OPTIONS(struct amend_request, said),
};

static bool
read_change(struct context *context, struct amend_request *request, struct record *record,
    bool *has_record, struct fault *fault)
{
	struct item_change *change = &request->change;
	if (!item_options_read(context, change, record, has_record, fault)) {
		return false;
	}
	change->kind = NULL;
	if (!options_into(context->given, request, fault)) {
		return false;
	}
	change->set |= change->vessel != NULL ? 1U << FIELD_VESSEL : 0U;
	change->set |= change->kind != NULL ? 1U << FIELD_KIND : 0U;
	change->kind = change->kind != NULL ? change->kind : "";
	if (change->set == 0 && !*has_record) {
		return usage_fault(
		    fault, "becket amend", "nothing to change: an option is missing");
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct amend_request request = {.tags = context->given->words};
	struct item_change *change = &request.change;
	struct record record;
	bool has_record = false;
	struct gear_outcome done = {0};
	bool amended = false;
	if (!read_change(context, &request, &record, &has_record, fault)) {
		return false;
	}
	request.record = has_record ? &record : NULL;
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
		    &context->desk.contents.inventory.items[done.items[i]],
		    request.record);
	}
	add_tags(&context->out, &done);
	text_add(&context->out, " amended");
	item_say_understood(context, change, request.record);
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
