/* becket amend */
#include "cli/command.h"
#include "cli/item_options.h"
#include "cli/values.h"
#include "report/money.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "TAG", .help = "the item to change", .required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "whose it is now"},
    {.name = "kind", .argument = "KIND", .help = "what it is"},
    ITEM_OPTIONS,
};

static bool
read_change(struct context *context, struct item_change *change, struct record *record,
    bool *has_record, struct fault *fault)
{
	const char *words = options_value(context->given, "kind");
	if (!item_options_read(context->given, change, record, has_record, fault)) {
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

static bool
write_change(struct context *context, const struct item_change *change,
    const struct record *record, struct fault *fault)
{
	return book_begin(context->book, fault) &&
	       (change->set == 0 ||
		   book_put_items(context->book, change, 1, NULL, fault)) &&
	       (record == NULL ||
		   book_add_record(context->book, change->tag, record, fault)) &&
	       book_commit(context->book, fault);
}

static bool
check_vessel(const struct context *context, const char *name, struct fault *fault)
{
	const struct inventory *inventory = &context->contents.inventory;
	for (size_t i = 0; name != NULL && i < inventory->vessel_count; i++) {
		if (strcmp(inventory->vessels[i].name, name) == 0) {
			return true;
		}
	}
	return name == NULL ||
	       fault_set(fault, FAULT_INPUT,
		   "there is no vessel \"%s\"; \"becket vessel\" lists them", name);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct item_change change = {.tag = options_word(context->given, 0)};
	struct record record;
	bool has_record = false;
	size_t item = 0;
	if (!read_change(context, &change, &record, &has_record, fault) ||
	    !context_load(context, NULL, true, fault) ||
	    !context_find_tag(context, change.tag, &item, fault) ||
	    !check_vessel(context, change.vessel, fault)) {
		return false;
	}
	if (!write_change(context, &change, has_record ? &record : NULL, fault)) {
		return fault_prefix(fault, "amending %s", change.tag);
	}
	if (!item_remarks(context, &change, has_record ? &record : NULL, fault)) {
		return false;
	}
	text_add_format(&context->out, "%s amended", change.tag);
	if ((change.set & 1U << FIELD_PRICE) != 0 && change.price_minor >= 0) {
		char money[MONEY_WORDS_SIZE];
		text_add_format(&context->out, ", a new one costs %s",
		    money_words(change.price_minor, context->contents.currency, money));
	}
	text_add(&context->out, "\n");
	return true;
}

const struct command COMMAND_AMEND = {
    .name = "amend",
    .summary = "change what is known of a piece of gear",
    .details =
	"Only what is given is changed. An empty value (--made \"\") takes a date or a "
	"word away.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
