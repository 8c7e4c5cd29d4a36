/* becket enter */
#include "cli/command.h"
#include "cli/item_options.h"
#include "cli/values.h"
#include "exchange/inventory_csv.h"
#include "report/money.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "KIND",
	.help = "what it is; \"becket help kinds\" lists them",
	.required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "whose it is", .required = true},
    {.name = "tag",
	.argument = "TAG",
	.help = "its short mark; a fresh one is made when not told"},
    ITEM_OPTIONS,
};

/* A vessel must be there already: a slip in her name would make another. */
static bool
check_vessel(const struct context *context, const char *name, struct fault *fault)
{
	const struct inventory *inventory = &context->contents.inventory;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (strcmp(inventory->vessels[i].name, name) == 0) {
			return true;
		}
	}
	return fault_set(fault, FAULT_INPUT,
	    "there is no vessel \"%s\"; \"becket vessel\" lists them, \"becket vessel NAME\" "
	    "enters one",
	    name);
}

/* Refuses an item that is in the book: by its tag, or by kind and serial. */
static bool
check_new(
    const struct context *context, const struct item_change *change, struct fault *fault)
{
	const struct inventory *inventory = &context->contents.inventory;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		bool same_tag =
		    change->tag != NULL && strcmp(item->tag, change->tag) == 0;
		bool same_serial = change->serial != NULL && change->serial[0] != '\0' &&
				   strcmp(item->serial, change->serial) == 0 &&
				   strcmp(item->kind, change->kind) == 0;
		if (same_tag || same_serial) {
			return fault_set(fault, FAULT_INPUT,
			    "%s is in the book already%s; \"becket amend %s\" changes it",
			    item->tag, same_tag ? "" : " with this kind and serial",
			    item->tag);
		}
	}
	return true;
}

static bool
make_tag(struct context *context, struct item_change *change, struct fault *fault)
{
	return change->tag != NULL ||
	       tag_fresh(change->kind, &context->contents.inventory, &context->arena,
		   &change->tag, fault);
}

static bool
write_item(struct context *context, const struct item_change *change,
    const struct record *record, struct fault *fault)
{
	return book_begin(context->book, fault) &&
	       book_put_items(context->book, change, 1, NULL, fault) &&
	       (record == NULL ||
		   book_add_record(context->book, change->tag, record, fault)) &&
	       book_commit(context->book, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	const struct kind *kind = NULL;
	struct item_change change = {.tag = options_value(context->given, "tag")};
	struct record record;
	bool has_record = false;
	if (change.tag != NULL && change.tag[0] == '\0') {
		return fault_set(fault, FAULT_INPUT, "--tag: a tag can't be blank");
	}
	if (!kind_from_words(context, options_word(context->given, 0), &kind, fault) ||
	    !item_options_read(context->given, &change, &record, &has_record, fault)) {
		return false;
	}
	change.kind = kind->id;
	change.set |= 1U << FIELD_KIND;
	if (!context_load(context, NULL, true, fault) ||
	    !check_vessel(context, change.vessel, fault) ||
	    !check_new(context, &change, fault) || !make_tag(context, &change, fault)) {
		return false;
	}
	if (!write_item(context, &change, has_record ? &record : NULL, fault)) {
		return fault_prefix(fault, "entering %s", change.tag);
	}
	if (!item_remarks(context, &change, has_record ? &record : NULL, fault)) {
		return false;
	}
	text_add_format(
	    &context->out, "%s entered: %s on %s", change.tag, kind->name, change.vessel);
	if (change.price_minor >= 0) {
		char money[MONEY_WORDS_SIZE];
		text_add_format(&context->out, ", a new one costs %s",
		    money_words(change.price_minor, context->contents.currency, money));
	}
	text_add(&context->out, "\n");
	return true;
}

const struct command COMMAND_ENTER = {
    .name = "enter",
    .summary = "enter a piece of gear",
    .details =
	"Every column of the inventory is an option. Dates may be as coarse as the label: "
	"2021-04-30, 2021-04 or 2021; a final ~ marks an estimate.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
