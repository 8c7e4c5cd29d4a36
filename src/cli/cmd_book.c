/* becket book */
#include "cli/command.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "new|currency",
	.help = "begin a new book, or set the currency of its prices",
	.required = true},
    {.name = "CUR", .help = "for currency: three capital letters, as EUR"},
};

static const struct option_spec OPTIONS[] = {
    {.name = "identity",
	.argument = "HEX",
	.help = "new: 32 hexadecimal digits, so that a book can be made again the same"},
    {.name = "currency", .argument = "CUR", .help = "new: the currency of its prices"},
};

static bool
set_up(struct context *context, struct fault *fault)
{
	const char *identity = options_value(context->given, "identity");
	const char *currency = options_value(context->given, "currency");
	return book_begin(context->book, fault) &&
	       (identity == NULL || book_set_identity(context->book, identity, fault)) &&
	       (currency == NULL || book_set_currency(context->book, currency, fault)) &&
	       book_commit(context->book, fault);
}

static bool
begin_new(struct context *context, struct fault *fault)
{
	if (context_has_book(context)) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is there already, and no book is written over",
		    context->book_path);
	}
	if (!context_open(context, BOOK_CREATE, fault) || !set_up(context, fault)) {
		return false;
	}
	text_add_format(&context->out, "A new book is begun at %s\n", context->book_path);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *act = options_word(context->given, 0);
	const char *currency = options_word(context->given, 1);
	if (strcmp(act, "new") == 0) {
		if (currency != NULL) {
			return usage_fault(fault, "becket book",
			    "\"%s\" is a word too many after new", currency);
		}
		return begin_new(context, fault);
	}
	if (currency == NULL) {
		return usage_fault(fault, "becket book", "CUR is missing after currency");
	}
	if (!context_open(context, BOOK_WRITE, fault) ||
	    !book_set_currency(context->book, currency, fault)) {
		return false;
	}
	text_add_format(&context->out, "Prices are in %s\n", currency);
	return true;
}

const struct command COMMAND_BOOK = {
    .name = "book",
    .summary = "begin a new book, or set its currency",
    .details =
	"Other commands that write begin a book by themselves where there is none.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_CREATE,
    .run = run,
};
