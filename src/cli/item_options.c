#include "cli/item_options.h"

#include "cli/command.h"
#include "cli/values.h"
#include "gear/money.h"

/* The columns that belong to the last record, which need the day it was done. */
static bool
read_record(struct context *context, struct record *record, bool *has_record_out,
    struct fault *fault)
{
	bool given = false;
	*record = (struct record){0};
	for (size_t i = 0; i < RECORD_FIELD_COUNT; i++) {
		const struct field *field = &RECORD_FIELDS[i];
		bool dated = record->on.precision != STAMP_NONE;
		field_empty(field, record);
		if (i != RECORD_SERVED && !dated &&
		    options_has(context->given, field->option)) {
			return fault_set(fault, FAULT_USAGE,
			    "--%s belongs to a task that was done: --served DATE is missing",
			    field->option);
		}
		if (!field_option_read(context, field, record, &given, fault)) {
			return false;
		}
	}
	*has_record_out = record->on.precision != STAMP_NONE;
	return record_check(record, fault);
}

bool
record_check(const struct record *record, struct fault *fault)
{
	char next[STAMP_TEXT_SIZE];
	char on[STAMP_TEXT_SIZE];
	if (record->next.precision == STAMP_NONE ||
	    stamp_good_through(record->next) >= stamp_first(record->on)) {
		return true;
	}
	return fault_set(fault, FAULT_INPUT,
	    "--next: expected a day after the task was done, found %s, which is before %s",
	    stamp_words(record->next, next), stamp_words(record->on, on));
}

bool
item_options_read(struct context *context, struct item_change *change,
    struct record *record, bool *has_record_out, struct fault *fault)
{
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (!ITEM_FIELDS[i].link) {
			field_empty(&ITEM_FIELDS[i], change);
		}
	}
	return field_options_read(
		   context, ITEM_FIELDS, FIELD_COUNT, change, &change->set, fault) &&
	       read_record(context, record, has_record_out, fault);
}

/* ", service 5 May 2026, next 5 May 2027, EUR 45.00" */
static void
say_record(struct context *context, const struct record *record, const char *currency)
{
	char stamp[STAMP_TEXT_SIZE];
	char money[MONEY_WORDS_SIZE];
	text_add_format(&context->out, ", %s %s", task_word(record->task),
	    stamp_words(record->on, stamp));
	if (record->next.precision != STAMP_NONE) {
		text_add_format(
		    &context->out, ", next %s", stamp_words(record->next, stamp));
	}
	if (record->price_minor >= 0) {
		text_add_format(&context->out, " for %s",
		    money_words(record->price_minor, currency, money));
	}
}

void
item_say_understood(struct context *context, const struct item_change *change,
    const struct record *record)
{
	const char *currency = context->desk.contents.inventory.currency;
	char money[MONEY_WORDS_SIZE];
	fields_add_understood(
	    change, change->set & ~(1U << FIELD_PRICE), currency, &context->out);
	if ((change->set & 1U << FIELD_PRICE) != 0 && change->price_minor >= 0) {
		text_add_format(&context->out, ", a new one costs %s",
		    money_words(change->price_minor, currency, money));
	}
	if (record != NULL) {
		say_record(context, record, currency);
	}
}
