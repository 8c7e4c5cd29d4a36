#include "cli/item_options.h"

#include "cli/command.h"
#include "cli/values.h"

#include <string.h>

static void
read_word(const struct given_options *given, const char *name, enum item_field field,
    struct item_change *change, const char **out)
{
	const char *value = options_value(given, name);
	if (value != NULL) {
		*out = value;
		change->set |= 1U << field;
	}
}

static bool
read_stamp(const struct given_options *given, const char *name, enum item_field field,
    struct item_change *change, struct stamp *out, struct fault *fault)
{
	bool has = false;
	if (!value_stamp(given, name, out, &has, fault)) {
		return false;
	}
	change->set |= has ? 1U << field : 0U;
	return true;
}

static bool
read_dates(
    const struct given_options *given, struct item_change *change, struct fault *fault)
{
	return read_stamp(given, "made", FIELD_MADE, change, &change->made, fault) &&
	       read_stamp(
		   given, "packed", FIELD_PACKED, change, &change->packed, fault) &&
	       read_stamp(
		   given, "bought", FIELD_BOUGHT, change, &change->bought, fault) &&
	       read_stamp(
		   given, "fitted", FIELD_FITTED, change, &change->fitted, fault) &&
	       read_stamp(
		   given, "expires", FIELD_EXPIRES, change, &change->expires, fault);
}

static bool
read_figures(struct context *context, struct item_change *change, struct fault *fault)
{
	const struct given_options *given = context->given;
	bool has = false;
	if (!value_number(given, "quantity", (struct range){1, 100000}, &change->quantity,
		&has, fault)) {
		return false;
	}
	change->set |= has ? 1U << FIELD_QUANTITY : 0U;
	if (!value_number(given, "capacity", (struct range){1, 100000}, &change->capacity,
		&has, fault)) {
		return false;
	}
	change->set |= has ? 1U << FIELD_CAPACITY : 0U;
	change->hired_until = DAY_NONE;
	if (!value_day(given, "hired-until", &change->hired_until, &has, fault)) {
		return false;
	}
	change->set |= has ? 1U << FIELD_HIRED_UNTIL : 0U;
	if (!value_price(context, "price", &change->price_minor, &has, fault)) {
		return false;
	}
	change->set |= has ? 1U << FIELD_PRICE : 0U;
	const char *state = options_value(given, "state");
	if (state == NULL) {
		return true;
	}
	change->set |= 1U << FIELD_STATE;
	return place_parse(state, &change->state, fault);
}

/* The columns that belong to the last record, which need the day it was done. */
static bool
read_record(struct context *context, struct record *record, bool *has_record_out,
    struct fault *fault)
{
	const struct given_options *given = context->given;
	static const char *const COLUMNS[] = {
	    "task", "next", "station", "certificate", "paid"};
	*record = (struct record){
	    .task = TASK_SERVICE, .station = "", .certificate = "", .price_minor = -1};
	if (!value_stamp(given, "served", &record->on, has_record_out, fault)) {
		return false;
	}
	*has_record_out = record->on.precision != STAMP_NONE;
	for (size_t i = 0; i < COUNT_OF(COLUMNS); i++) {
		if (!*has_record_out && options_has(given, COLUMNS[i])) {
			return fault_set(fault, FAULT_USAGE,
			    "--%s belongs to a task that was done: --served DATE is missing",
			    COLUMNS[i]);
		}
	}
	const char *task = options_value(given, "task");
	const char *station = options_value(given, "station");
	const char *certificate = options_value(given, "certificate");
	record->station = station != NULL ? station : "";
	record->certificate = certificate != NULL ? certificate : "";
	return (task == NULL || task_parse(task, &record->task, fault)) &&
	       value_stamp(given, "next", &record->next, NULL, fault) &&
	       value_price(context, "paid", &record->price_minor, NULL, fault) &&
	       record_check(record, fault);
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
	const struct given_options *given = context->given;
	change->price_minor = -1;
	change->quantity = 1;
	read_word(given, "vessel", FIELD_VESSEL, change, &change->vessel);
	read_word(given, "description", FIELD_DESCRIPTION, change, &change->description);
	read_word(given, "make", FIELD_MAKE, change, &change->make);
	read_word(given, "serial", FIELD_SERIAL, change, &change->serial);
	read_word(given, "rating", FIELD_RATING, change, &change->rating);
	read_word(given, "place", FIELD_PLACE, change, &change->place);
	read_word(given, "part-of", FIELD_PART_OF, change, &change->part_of);
	read_word(given, "notes", FIELD_NOTES, change, &change->notes);
	return read_dates(given, change, fault) && read_figures(context, change, fault) &&
	       read_record(context, record, has_record_out, fault);
}

void
item_remarks(struct context *context, const struct item_change *change,
    const struct record *record)
{
	desk_note_future(&context->desk, "made", change->made);
	desk_note_future(&context->desk, "packed", change->packed);
	desk_note_future(&context->desk, "bought", change->bought);
	desk_note_future(&context->desk, "fitted", change->fitted);
	if (record != NULL) {
		desk_note_future(&context->desk, "served", record->on);
	}
}

bool
kind_from_words(struct context *context, const char *words, const struct kind **out,
    struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (!desk_kinds(&context->desk, &kinds, fault)) {
		return false;
	}
	const struct kind *kind = kinds_find(kinds, words);
	if (kind == NULL) {
		kind = kinds_tell(kinds, words, fault);
		if (kind == NULL) {
			return false;
		}
		desk_note(&context->desk, "\"%s\" is read as %s", words, kind->id);
	}
	*out = kind;
	return true;
}
