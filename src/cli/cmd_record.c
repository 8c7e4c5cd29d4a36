/* becket record */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "cli/terminal.h"
#include "desk/acts.h"
#include "gear/money.h"

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
    OPTION("on", "DATE", STAMP, struct record_request, record.on, "the day",
	.required = true),
    OPTION("by", "STATION", STATION, struct record_request, record.station, "who did it"),
    OPTION("next", "DATE", STAMP, struct record_request, record.next,
	"next date the certificate states"),
    OPTION("certificate", "NO", WORDS, struct record_request, record.certificate,
	"the certificate's number"),
    OPTION("price", "PRICE", PRICE, struct record_request, record.price_minor,
	"what it cost, as 45.00"),
    FLAG_OPTION("refit", struct record_request, record.refit,
	"renew: what is in it, as a battery; it is the same thing still"),
    FLAG_OPTION("new", struct record_request, is_new, "renew: it is another thing now",
	.not_with = "refit"),
    OPTION("made", "DATE", STAMP, struct record_request, renewed.made,
	"renew: the new one was made",
	FIELD_MARKS(struct record_request, renewed.set, FIELD_MADE)),
    OPTION("packed", "DATE", STAMP, struct record_request, renewed.packed,
	"renew: the new one was packed",
	FIELD_MARKS(struct record_request, renewed.set, FIELD_PACKED)),
    OPTION("expires", "DATE", STAMP, struct record_request, renewed.expires,
	"renew: the mark of the new one, or of what is new in it",
	FIELD_MARKS(struct record_request, renewed.set, FIELD_EXPIRES)),
    OPTION("serial", "NO", WORDS, struct record_request, renewed.serial,
	"renew: the new one's serial number",
	FIELD_MARKS(struct record_request, renewed.set, FIELD_SERIAL)),
    SERIAL_OPTIONS(struct record_request, said),
};

static bool
read_event(struct context *context, const char *word, struct record_request *entry,
    struct fault *fault)
{
	static const char *const NOT_FOR_EVENTS[] = {"by", "next", "certificate", "price",
	    "refit", "new", "made", "packed", "expires", "serial"};
	for (size_t i = 0; i < COUNT_OF(NOT_FOR_EVENTS); i++) {
		if (options_has(context->given, NOT_FOR_EVENTS[i])) {
			return usage_fault(fault, "becket record",
			    "--%s does not go with \"%s\"", NOT_FOR_EVENTS[i], word);
		}
	}
	/* A task's day may be coarse; what happened did on one day. */
	const char *on = options_value(context->given, "on");
	entry->is_event = true;
	if (!options_into(context->given, entry, fault) ||
	    !event_parse(word, &entry->event.kind, fault)) {
		return false;
	}
	return on == NULL ||
	       day_typed(on, context->desk.today, &entry->event.on, fault) ||
	       fault_prefix(fault, "--on");
}

static bool
read_task(struct context *context, const char *word, struct record_request *entry,
    struct fault *fault)
{
	struct record *record = &entry->record;
	*record = (struct record){.station = "", .certificate = "", .price_minor = -1};
	if (!task_parse(word, &record->task, fault) ||
	    !options_into(context->given, entry, fault)) {
		return false;
	}
	if (record->on.precision == STAMP_NONE) {
		return fault_set(
		    fault, FAULT_INPUT, "--on: expected a date, found nothing");
	}
	if (entry->renewed.set != 0 && record->task != TASK_RENEW) {
		return usage_fault(fault, "becket record",
		    "--made, --packed, --expires and --serial are for the new thing and go with "
		    "\"renew\" only; \"becket amend\" corrects an item's dates");
	}
	return record_check(record, fault);
}

static void
say(struct context *context, const struct record_request *entry,
    const struct gear_outcome *done, const char *word)
{
	char on[STAMP_TEXT_SIZE];
	struct stamp stamp =
	    entry->is_event ? stamp_of_day(entry->event.on) : entry->record.on;
	text_add_format(&context->out, "%s%s on %s recorded for", word,
	    entry->record.refit ? " (refit)" : "", stamp_words(stamp, on));
	for (size_t i = 0; i < done->count; i++) {
		text_add_format(&context->out, "%s %s", i > 0 ? "," : "", done->tags[i]);
	}
	if (!entry->is_event && entry->record.next.precision != STAMP_NONE) {
		text_add_format(
		    &context->out, ", next %s", stamp_words(entry->record.next, on));
	}
	if (!entry->is_event && entry->record.price_minor >= 0) {
		char money[MONEY_WORDS_SIZE];
		text_add_format(&context->out, ", %s%s",
		    money_words(entry->record.price_minor,
			context->desk.contents.inventory.currency, money),
		    done->count > 1 ? " each" : "");
	}
	text_add(&context->out, "\n");
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *word = options_word(context->given, 0);
	const struct word_list *words = &context->given->words;
	struct record_request request = {
	    .tags = {words->items + 1, words->count - 1, 0},
	};
	struct gear_outcome done = {0};
	struct fault no_event = {0};
	enum event_kind kind = EVENT_FIRED;
	bool recorded = false;
	if (!(event_parse(word, &kind, &no_event)
		    ? read_event(context, word, &request, fault)
		    : read_task(context, word, &request, fault))) {
		return false;
	}
	do {
		struct waiting_word waiting;
		waiting_begin(&waiting, true);
		recorded = desk_record(&context->desk, &request, &done, fault);
		waiting_end(&waiting);
	} while (!recorded && context_asked(context, fault));
	if (recorded) {
		say(context, &request, &done, word);
	}
	return recorded;
}

const struct command COMMAND_RECORD = {
    .name = "record",
    .summary = "record that a task was done on gear, or that something happened to it",
    .details =
	"A renewal puts a new thing in the old one's place: the dates of the old one no "
	"longer count. Give the new one's with --made, --packed, --expires and --serial. With "
	"--refit what is in it is new, as a beacon's battery or a light's cells, and the thing is "
	"the same: it has the new mark, and its age, its service, its tests and its registration go "
	"on. Of gear that may be either it has to be told: --refit, or --new where nothing else "
	"tells of another. Gear that was fired, inflated, activated or used is out until the task "
	"its rule names is recorded.",
    .examples = "record inspect FA-1 --on today\n"
		"the first-aid kit was looked through\n"
		"record service LJ-6 --on 2026-11-20 --certificate C-77 --price 45.00\n"
		"a service, its certificate and what it cost\n"
		"record renew EB-1 --on 2026-11-20 --refit --expires 2032-05\n"
		"the same beacon with a new battery\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
