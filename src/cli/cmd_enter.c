/* becket enter */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "cli/terminal.h"
#include "report/tags.h"

static const struct word_spec WORDS[] = {
    {.name = "KIND",
	.help = "what it is; \"becket help kinds\" lists them",
	.required = true},
};

/* What the options say. */
struct enter_said {
	struct item_said item;
	const char *vessel; /* NULL when not told */
	struct batch_said batch;
	struct serial_said serials;
};

static const struct option_spec OPTIONS[] = {
    OPTION("vessel", "NAME", VESSEL, struct enter_said, vessel,
	"whose it is; the only boat's if left out"),
    BATCH_OPTIONS(struct enter_said, batch),
    ITEM_OPTIONS SERIAL_OPTIONS(struct enter_said, serials),
};

/* "LJ-1 to LJ-10 entered: automatic inflatable lifejacket on Quillfish" */
static void
say(struct context *context, const struct enter_outcome *batch, const struct kind *kind,
    const struct record *record)
{
	const struct item_change *change = &batch->items[0];
	struct tag_list list = {.out = &context->out};
	for (size_t i = 0; i < batch->count; i++) {
		tag_list_add(&list, batch->items[i].tag);
	}
	tag_list_end(&list);
	text_add_format(&context->out, " entered: %s on %s", kind->name, change->vessel);
	item_say_understood(context, change, record);
	text_add(&context->out, "\n");
}

/* Of a book with one boat nobody needs to name her. */
static bool
settle_vessel(struct context *context, const char *vessel, struct item_change *change,
    struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	change->vessel = vessel;
	change->set |= 1U << FIELD_VESSEL;
	if (vessel != NULL) {
		return true;
	}
	if (!desk_load(&context->desk, NULL, true, fault)) {
		return false;
	}
	if (inventory->vessel_count != 1) {
		return usage_fault(fault, "becket enter",
		    "--vessel is missing: there are %zu vessels in the book",
		    inventory->vessel_count);
	}
	/* A copy: the book is read again before it is written. */
	change->vessel = arena_string(&context->desk.arena, inventory->vessels[0].name);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const struct kind *kind = NULL;
	struct enter_said said = {0};
	struct enter_request request = {0};
	struct enter_outcome done = {0};
	bool entered = false;
	if (!desk_kind(&context->desk, options_word(context->given, 0), &kind, fault) ||
	    !item_options_into(context, &said.item, &request.record, fault)) {
		return false;
	}
	request.said = said.serials;
	request.like = said.item.change;
	request.like.kind = kind->id;
	request.like.set |= 1U << FIELD_KIND;
	if (!batch_read(context, &said.batch, &request, fault) ||
	    !settle_vessel(context, said.vessel, &request.like, fault)) {
		return false;
	}
	do {
		struct waiting_word waiting;
		waiting_begin(&waiting, true);
		entered = desk_enter(&context->desk, &request, &done, fault);
		waiting_end(&waiting);
	} while (!entered && context_asked(context, fault));
	if (!entered) {
		return false;
	}
	desk_note_item(&context->desk, &request.like, NULL, request.record);
	say(context, &done, kind, request.record);
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
