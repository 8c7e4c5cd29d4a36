/* becket record */
#include "cli/command.h"
#include "cli/item_options.h"
#include "cli/ranges.h"
#include "cli/serial_check.h"
#include "cli/values.h"
#include "gear/money.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "TASK",
	.choices =
	    "service|inspect|weigh|test|renew|register|fired|inflated|activated|used",
	.help =
	    "the task that was done, or what happened to it: service, inspect, weigh, "
	    "test, renew, register; fired, inflated, activated, used",
	.required = true},
    ITEMS_WORD("LJ-1..LJ-8"),
};

static const struct option_spec OPTIONS[] = {
    {.name = "on", .argument = "DATE", .help = "the day", .required = true},
    {.name = "by", .argument = "STATION", .help = "who did it"},
    {.name = "next", .argument = "DATE", .help = "next date the certificate states"},
    {.name = "certificate", .argument = "NO", .help = "the certificate's number"},
    {.name = "price", .argument = "PRICE", .help = "what it cost, as 45.00"},
    {.name = "made", .argument = "DATE", .help = "renew: the new one was made"},
    {.name = "packed", .argument = "DATE", .help = "renew: the new one was packed"},
    {.name = "expires", .argument = "DATE", .help = "renew: the new one's mark"},
    {.name = "serial", .argument = "NO", .help = "renew: the new one's serial number"},
    SERIAL_OPTIONS,
};

/* What is to be written about each item. */
struct entry {
	bool is_event;
	struct event event;
	struct record record;
	struct item_change renewed; /* new dates; `set` is 0 when there are none */
};

static bool
read_event(
    struct context *context, const char *word, struct entry *entry, struct fault *fault)
{
	static const char *const NOT_FOR_EVENTS[] = {
	    "by", "next", "certificate", "price", "made", "packed", "expires", "serial"};
	for (size_t i = 0; i < COUNT_OF(NOT_FOR_EVENTS); i++) {
		if (options_has(context->given, NOT_FOR_EVENTS[i])) {
			return usage_fault(fault, "becket record",
			    "--%s does not go with \"%s\"", NOT_FOR_EVENTS[i], word);
		}
	}
	entry->is_event = true;
	if (!event_parse(word, &entry->event.kind, fault) ||
	    !value_day(context->given, "on", &entry->event.on, NULL, fault)) {
		return false;
	}
	desk_note_future(&context->desk, "on", stamp_of_day(entry->event.on));
	return true;
}

/* The dates of the thing that took the old one's place. */
static bool
read_renewed(const struct given_options *given, enum task task,
    struct item_change *change, struct fault *fault)
{
	bool made = false;
	bool packed = false;
	bool expires = false;
	if (!value_stamp(given, "made", &change->made, &made, fault) ||
	    !value_stamp(given, "packed", &change->packed, &packed, fault) ||
	    !value_stamp(given, "expires", &change->expires, &expires, fault)) {
		return false;
	}
	change->serial = options_value(given, "serial");
	change->set = (change->serial != NULL ? 1U << FIELD_SERIAL : 0U) |
		      (made ? 1U << FIELD_MADE : 0U) |
		      (packed ? 1U << FIELD_PACKED : 0U) |
		      (expires ? 1U << FIELD_EXPIRES : 0U);
	if (change->set != 0 && task != TASK_RENEW) {
		return usage_fault(fault, "becket record",
		    "--made, --packed, --expires and --serial are for the new thing and go with "
		    "\"renew\" only; \"becket amend\" corrects an item's dates");
	}
	return true;
}

static bool
read_task(
    struct context *context, const char *word, struct entry *entry, struct fault *fault)
{
	const struct given_options *given = context->given;
	struct record *record = &entry->record;
	*record = (struct record){.station = options_value(given, "by"),
	    .certificate = options_value(given, "certificate"),
	    .price_minor = -1};
	record->station = record->station == NULL ? "" : record->station;
	record->certificate = record->certificate == NULL ? "" : record->certificate;
	if (!task_parse(word, &record->task, fault) ||
	    !value_stamp(given, "on", &record->on, NULL, fault) ||
	    !value_stamp(given, "next", &record->next, NULL, fault) ||
	    !value_price(context, "price", &record->price_minor, NULL, fault)) {
		return false;
	}
	if (record->on.precision == STAMP_NONE) {
		return fault_set(
		    fault, FAULT_INPUT, "--on: expected a date, found nothing");
	}
	desk_note_future(&context->desk, "on", record->on);
	return record_check(record, fault) &&
	       read_renewed(given, record->task, &entry->renewed, fault);
}

static bool
write_entry(struct context *context, const struct entry *entry, const char *tag,
    struct fault *fault)
{
	if (entry->is_event) {
		return book_add_event(context->desk.book, tag, &entry->event, fault);
	}
	struct item_change renewed = entry->renewed;
	bool past = false;
	renewed.tag = tag;
	if (!book_is_past_renewal(
		context->desk.book, tag, &entry->record, &past, fault) ||
	    !book_add_record(context->desk.book, tag, &entry->record, fault)) {
		return false;
	}
	if (past) {
		desk_note(&context->desk,
		    "what is in place as %s now is newer, so this is kept as history and "
		    "changes none of its dates%s",
		    tag, renewed.set == 0 ? "" : "; those given here were not kept");
		return true;
	}
	return renewed.set == 0 ||
	       book_put_items(context->desk.book, &renewed, 1, NULL, fault);
}

static void
say(struct context *context, const struct entry *entry, const char *word,
    const size_t *items, size_t count)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	char on[STAMP_TEXT_SIZE];
	struct stamp stamp =
	    entry->is_event ? stamp_of_day(entry->event.on) : entry->record.on;
	text_add_format(
	    &context->out, "%s on %s recorded for", word, stamp_words(stamp, on));
	for (size_t i = 0; i < count; i++) {
		text_add_format(&context->out, "%s %s", i > 0 ? "," : "",
		    inventory->items[items[i]].tag);
	}
	if (!entry->is_event && entry->record.price_minor >= 0) {
		char money[MONEY_WORDS_SIZE];
		text_add_format(&context->out, ", %s%s",
		    money_words(entry->record.price_minor, inventory->currency, money),
		    count > 1 ? " each" : "");
	}
	text_add(&context->out, "\n");
}

/* The new thing's number is asked about; one number can't be that of several things. */
static bool
check_serial(struct context *context, const struct entry *entry, const size_t *items,
    size_t count, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (entry->is_event || entry->record.task != TASK_RENEW) {
		return true;
	}
	if (entry->renewed.serial == NULL) {
		for (size_t i = 0; i < count; i++) {
			const struct item *item = &inventory->items[items[i]];
			if (item->serial[0] != '\0') {
				desk_note(&context->desk,
				    "serial %s of %s went with the old one; \"becket amend "
				    "%s --serial NO\" enters the new one's",
				    item->serial, item->tag, item->tag);
			}
		}
		return true;
	}
	if (count != 1) {
		return usage_fault(fault, "becket record",
		    "--serial is the number of one thing, and %zu are named", count);
	}
	const struct serial_entry number = {
	    .kind = inventory->items[items[0]].kind,
	    .serial = entry->renewed.serial,
	    .item = ITEM_NO_PARENT,
	    .fresh = true,
	};
	return serials_check(context, &number, 1, fault);
}

/* Work on a thing that was not there yet: one of the two dates is wrong. */
static void
note_before_made(struct context *context, const struct entry *entry, size_t index)
{
	const struct item *item = &context->desk.contents.inventory.items[index];
	day_t on = entry->is_event ? entry->event.on : stamp_last(entry->record.on);
	char made[STAMP_TEXT_SIZE];
	if (item->made.precision != STAMP_NONE && on < stamp_first(item->made)) {
		desk_note(&context->desk, "%s was made %s, after the day recorded",
		    item->tag, stamp_words(item->made, made));
	}
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *word = options_word(context->given, 0);
	struct entry entry = {0};
	struct fault no_event = {0};
	enum event_kind kind = EVENT_FIRED;
	bool read = event_parse(word, &kind, &no_event)
			? read_event(context, word, &entry, fault)
			: read_task(context, word, &entry, fault);
	if (!read || !desk_load(&context->desk, NULL, true, fault)) {
		return false;
	}
	size_t *items = NULL;
	size_t count = 0;
	if (!range_items(context, 1, &items, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		note_before_made(context, &entry, items[i]);
	}
	if (!check_serial(context, &entry, items, count, fault)) {
		return false;
	}
	if (!book_begin(context->desk.book, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < count; i++) {
		const char *tag = inventory->items[items[i]].tag;
		if (!write_entry(context, &entry, tag, fault)) {
			return fault_prefix(fault, "recording %s", tag);
		}
	}
	if (!book_commit(context->desk.book, fault)) {
		return false;
	}
	say(context, &entry, word, items, count);
	return true;
}

const struct command COMMAND_RECORD = {
    .name = "record",
    .summary = "record that a task was done on gear, or that something happened to it",
    .details =
	"A renewal puts a new thing in the old one's place: the dates of the old one no "
	"longer count. Give the new one's with --made, --packed, --expires and --serial. Gear that was "
	"fired, inflated, activated or used is out until the task its rule names is recorded.",
    .examples = "record inspect FA-1 --on today\n"
		"the first-aid kit was looked through\n"
		"record service LJ-6 --on 2026-11-20 --certificate C-77 --price 45.00\n"
		"a service, its certificate and what it cost\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
