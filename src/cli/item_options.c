#include "cli/command.h"
#include "cli/gear_options.h"
#include "gear/money.h"
#include "report/tags.h"

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
item_options_into(struct context *context, struct item_said *said,
    const struct record **record_out, struct fault *fault)
{
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (!ITEM_FIELDS[i].link) {
			field_empty(&ITEM_FIELDS[i], &said->change);
		}
	}
	for (size_t i = 0; i < RECORD_FIELD_COUNT; i++) {
		field_empty(&RECORD_FIELDS[i], &said->record);
	}
	if (!options_into(context->given, said, fault)) {
		return false;
	}
	bool dated = said->record.on.precision != STAMP_NONE;
	if (said->recorded != 0 && !dated) {
		return fault_set(
		    fault, FAULT_INPUT, "--served: expected a date, found nothing");
	}
	*record_out = dated ? &said->record : NULL;
	return record_check(&said->record, fault);
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

void
add_tags(struct text *out, const struct gear_outcome *done)
{
	struct tag_list list = {.out = out};
	for (size_t i = 0; i < done->count; i++) {
		tag_list_add(&list, done->tags[i]);
	}
	tag_list_end(&list);
}

void
add_gear(struct text *out, const struct gear_outcome *done)
{
	size_t others = done->plan.count;
	add_tags(out, done);
	for (size_t i = 0; i < done->plan.count; i++) {
		for (size_t j = 0; j < done->count; j++) {
			others -= done->plan.items[i].item == done->items[j] ? 1 : 0;
		}
	}
	if (others > 0) {
		text_add_format(out, " and %zu part%s", others, others == 1 ? "" : "s");
	}
}
