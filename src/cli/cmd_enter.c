/* becket enter */
#include "cli/batch.h"
#include "cli/command.h"
#include "cli/item_options.h"
#include "cli/serial_check.h"
#include "cli/stores.h"
#include "gear/money.h"
#include "life/names.h"
#include "report/tags.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "KIND",
	.help = "what it is; \"becket help kinds\" lists them",
	.required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "whose it is", .required = true},
    BATCH_OPTIONS,
    ITEM_OPTIONS SERIAL_OPTIONS,
};

/* "LJ-1 to LJ-10 entered: automatic inflatable lifejacket on Quillfish" */
static void
say(struct context *context, const struct batch *batch, const struct kind *kind)
{
	const struct item_change *change = &batch->items[0];
	struct tag_list list = {.out = &context->out};
	for (size_t i = 0; i < batch->count; i++) {
		tag_list_add(&list, batch->items[i].tag);
	}
	tag_list_end(&list);
	text_add_format(&context->out, " entered: %s on %s", kind->name, change->vessel);
	if (change->price_minor >= 0) {
		char money[MONEY_WORDS_SIZE];
		text_add_format(&context->out, ", a new one costs %s",
		    money_words(change->price_minor,
			context->desk.contents.inventory.currency, money));
	}
	text_add(&context->out, "\n");
}

static bool
run(struct context *context, struct fault *fault)
{
	const struct kind *kind = NULL;
	struct item_change change = {0};
	struct record record;
	bool has_record = false;
	struct batch batch = {0};
	if (!kind_from_words(context, options_word(context->given, 0), &kind, fault) ||
	    !item_options_read(context, &change, &record, &has_record, fault)) {
		return false;
	}
	change.kind = kind->id;
	change.set |= 1U << FIELD_KIND;
	if (!desk_load(&context->desk, NULL, true, fault) ||
	    !vessel_check(context, change.vessel, fault) ||
	    !batch_make(context, &change, &batch, fault) ||
	    !batch_check_serials(context, &batch, fault)) {
		return false;
	}
	if (!batch_write(context, &batch, has_record ? &record : NULL, NULL, fault)) {
		return fault_prefix(fault, "entering %s%s", batch.items[0].tag,
		    batch.count > 1 ? " and those after it" : "");
	}
	for (size_t i = 0; i < batch.count; i++) {
		const char *tag = batch.items[i].tag;
		desk_note_near(&context->desk, "tag", tag,
		    tag_near(&context->desk.contents.inventory, tag, kind->id));
	}
	item_remarks(context, &change, NULL, has_record ? &record : NULL);
	say(context, &batch, kind);
	return true;
}

const struct command COMMAND_ENTER = {
    .name = "enter",
    .summary = "enter a piece of gear, or ten of them alike",
    .details =
	"Every column of the inventory is an option. Dates may be as coarse as the label: "
	"2021-04-30, 2021-04 or 2021; a final ~ marks an estimate.\n\n"
	"Ten jackets with the same dates are one command: --tag LJ-1..LJ-10 --serials "
	"C-101..C-110, or a list by comma, or @FILE with a serial a line; --count 10 makes ten "
	"with fresh tags. All of them are entered, or none. A part each: --part-of "
	"LJ-1..LJ-10.\n\n"
	"A serial number that another of the kind has, or that is one character from it, and "
	"one that was condemned are asked about: --serials-are-right and --again answer "
	"beforehand.",
    .examples = "enter lifejacket-auto --vessel Quillfish --made 2024-03 --serial C-101\n"
		"a jacket; it gets a fresh tag\n"
		"enter flare-red-hand --vessel Quillfish --quantity 4 --expires 06/2030\n"
		"four flares of one date\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
