/* Writing what was done to gear and what happened to it. */
#include "book/putting.h"
#include "book/rows.h"

bool
record_find(struct book *book, int64_t item, const struct record *record, int64_t *id_out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, RECORD_FIND, &call, fault)) {
		return false;
	}
	give_int(&call, item);
	give_code(&call, &TASK_CODES, record->task);
	give_int(&call, stored_stamp(record->on));
	give_text(&call, text_or_empty(record->certificate));
	give_int(&call, stored_stamp(record->next));
	give_int(&call, record->next.precision == STAMP_NONE ? 0 : record->next.wording);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*id_out = row ? take_int(&call) : 0;
	return true;
}

/* Gives a record's own values, with its new number, and those of its fields. */
static bool
give_record(
    struct call *call, int64_t item, const struct record *record, struct fault *fault)
{
	int64_t id = 0;
	int64_t entry = 0;
	if (!number_coming(call->book, NUMBERED_ENTRY, &entry, fault) ||
	    !number_give(call, NUMBERED_RECORD, &id, fault)) {
		return false;
	}
	give_int(call, item);
	give_int(call, entry);
	for (size_t i = 0; i < RECORD_FIELD_COUNT; i++) {
		give_field(call, &RECORD_FIELDS[i], record);
	}
	return true;
}

static bool
insert_record(
    struct book *book, int64_t item, const struct record *record, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return call_open(book, RECORD_ADD, &call, fault) &&
	       give_record(&call, item, record, fault) && call_run(&call, fault);
}

/* True in *out when one of the stamps a statement gives for an item is of a day after `day`. */
static bool
any_after(struct book *book, enum statement statement, int64_t item, day_t day, bool *out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = true;
	bool after = false;
	if (!call_open(book, statement, &call, fault)) {
		return false;
	}
	give_int(&call, item);
	while (row) {
		if (!call_row(&call, &row, fault)) {
			return false;
		}
		after = after || (row && stamp_first(take_stamp(&call)) > day);
	}
	*out = after;
	return true;
}

/* True in *out when the thing in place is newer than the renewal: put there later itself, or made,
 * packed, bought or fitted later. For a refit also when what is in it was renewed later. */
static bool
is_newer(struct book *book, int64_t item, const struct record *renewal, bool *out,
    struct fault *fault)
{
	struct stamp on = renewal->on;
	bool renewed = false;
	bool refitted = false;
	bool dated = false;
	if (!any_after(book, RENEWALS, item, stamp_first(on), &renewed, fault) ||
	    (renewal->refit &&
		!any_after(book, REFITS, item, stamp_first(on), &refitted, fault)) ||
	    !any_after(book, ITEM_DATES, item, stamp_last(on), &dated, fault)) {
		return false;
	}
	*out = renewed || refitted || dated;
	return true;
}

bool
book_is_past_renewal(struct book *book, const char *tag, const struct record *record,
    bool *out, struct fault *fault)
{
	int64_t item = 0;
	*out = false;
	return record->task != TASK_RENEW ||
	       (item_need(book, tag, &item, fault) &&
		   is_newer(book, item, record, out, fault));
}

/* Nothing known about the old thing holds for another one that was fitted on a day; its mark stays
 * where that is of what was put in since. */
static bool
forget_old_thing(struct book *book, int64_t item, struct stamp fitted, bool keeps_mark,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, ITEM_RENEW, &call, fault)) {
		return false;
	}
	give_stamp(&call, &fitted);
	give_int(&call, keeps_mark ? 1 : 0);
	give_int(&call, item);
	return call_run(&call, fault);
}

/* A new thing in the old place. A mark that a later refit of the new one gave is its. */
static bool
renew_item(
    struct book *book, int64_t item, const struct record *record, struct fault *fault)
{
	const struct movement movement = {
	    .move = MOVE_RENEWED, .on = stamp_first(record->on), .price_minor = -1};
	bool refitted = false;
	return any_after(book, REFITS, item, stamp_first(record->on), &refitted, fault) &&
	       movement_write(book, item, &movement, fault) &&
	       forget_old_thing(book, item, record->on, refitted, fault);
}

/* A refit. Where it is on record as of the whole, and no other one came then or later, there was no
 * new thing: what was told of that goes, but for the mark, which is of what was put in. */
static bool
add_refit(
    struct book *book, int64_t item, const struct record *record, struct fault *fault)
{
	day_t before = stamp_first(record->on) - 1;
	bool was_new = false;
	bool is_new = false;
	return any_after(book, RENEWALS, item, before, &was_new, fault) &&
	       insert_record(book, item, record, fault) &&
	       any_after(book, RENEWALS, item, before, &is_new, fault) &&
	       (!was_new || is_new ||
		   forget_old_thing(book, item, (struct stamp){0}, true, fault));
}

/* A renewal on the day of one on record is that one, told again. */
static bool
add_renewal(
    struct book *book, int64_t item, const struct record *record, struct fault *fault)
{
	int64_t id = 0;
	bool past = true;
	bool since = true;
	if (!record_find(book, item, record, &id, fault)) {
		return false;
	}
	if (id == 0 && (!is_newer(book, item, record, &past, fault) ||
			   !any_after(book, RENEWALS, item, stamp_first(record->on) - 1,
			       &since, fault))) {
		return false;
	}
	return insert_record(book, item, record, fault) &&
	       (id != 0 || past || since || renew_item(book, item, record, fault));
}

/* The number of the item, and whether what is told can be on record of it. */
static bool
check_record(struct book *book, const struct tagged_record *told, int64_t *item_out,
    struct fault *fault)
{
	const struct record *record = told->record;
	*item_out = told->item;
	if (record->on.precision == STAMP_NONE) {
		return fault_set(fault, FAULT_INPUT,
		    "the day it was done is not known; expected a date");
	}
	if (told->item == 0 && !item_need(book, told->tag, item_out, fault)) {
		return false;
	}
	if (record->refit && record->task != TASK_RENEW) {
		return fault_set(fault, FAULT_INPUT,
		    "only a renewal can be a refit, and this is a %s",
		    TASK_CODES.words[record->task]);
	}
	for (size_t i = 0; i < RECORD_FIELD_COUNT; i++) {
		if (!field_is_utf8(&RECORD_FIELDS[i], record)) {
			return fault_set(fault, FAULT_INPUT, "a text is not valid UTF-8");
		}
	}
	return true;
}

/* Records of a list that wait to be added. */
struct records_waiting {
	struct book *book;
	const struct tagged_record *told;
	/* after a failure the index of the record that it is about; SIZE_MAX: not known */
	size_t at_fault;
	size_t count;

	struct {
		size_t index;
		int64_t item;
	} rows[ROWS_MANY];
};

static bool
add_many(struct records_waiting *waiting, struct fault *fault)
{
	SCOPED_CALL call = {0};
	waiting->at_fault = SIZE_MAX;
	if (!call_open_many(waiting->book, RECORD_ADD, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < ROWS_MANY; i++) {
		const struct record *record =
		    waiting->told[waiting->rows[i].index].record;
		if (!give_record(&call, waiting->rows[i].item, record, fault)) {
			return false;
		}
	}
	return call_run(&call, fault);
}

/* Adds those that wait: as many as may by one statement, fewer one by one. */
static bool
end_waiting(struct records_waiting *waiting, struct fault *fault)
{
	size_t count = waiting->count;
	waiting->count = 0;
	if (count == ROWS_MANY) {
		return add_many(waiting, fault);
	}
	for (size_t i = 0; i < count; i++) {
		size_t index = waiting->rows[i].index;
		waiting->at_fault = index;
		if (!insert_record(waiting->book, waiting->rows[i].item,
			waiting->told[index].record, fault)) {
			return false;
		}
	}
	return true;
}

/* A renewal asks what is on record before it. */
static bool
add_record(struct records_waiting *waiting, size_t index, struct fault *fault)
{
	const struct tagged_record *told = &waiting->told[index];
	int64_t item = 0;
	waiting->at_fault = index;
	if (!check_record(waiting->book, told, &item, fault)) {
		return false;
	}
	if (told->record->task == TASK_RENEW) {
		bool ended = end_waiting(waiting, fault);
		waiting->at_fault = ended ? index : waiting->at_fault;
		return ended && (told->record->refit ? add_refit : add_renewal)(
				    waiting->book, item, told->record, fault);
	}
	waiting->rows[waiting->count].index = index;
	waiting->rows[waiting->count++].item = item;
	return waiting->count < ROWS_MANY || end_waiting(waiting, fault);
}

static bool
add_records(struct records_waiting *waiting, size_t count, struct fault *fault)
{
	for (size_t i = 0; i < count; i++) {
		if (!add_record(waiting, i, fault)) {
			return false;
		}
	}
	return end_waiting(waiting, fault);
}

bool
book_add_records(struct book *book, const struct tagged_record *told, size_t count,
    size_t *index_out, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	struct records_waiting waiting = {
	    .book = book, .told = told, .at_fault = SIZE_MAX};
	bool added =
	    writing_begin(book, &writing, fault) && add_records(&waiting, count, fault);
	if (!added && waiting.at_fault != SIZE_MAX) {
		const struct tagged_record *wrong = &told[waiting.at_fault];
		*index_out = waiting.at_fault;
		return fault_prefix(fault, "recording %s of \"%.60s\"",
		    TASK_CODES.words[wrong->record->task], text_or_empty(wrong->tag));
	}
	*index_out = count;
	return (added && writing_keep(&writing, fault)) ||
	       fault_prefix(fault, "writing records");
}

bool
book_add_record(
    struct book *book, const char *tag, const struct record *record, struct fault *fault)
{
	const struct tagged_record told = {tag, 0, record};
	size_t index = 0;
	return book_add_records(book, &told, 1, &index, fault);
}

static bool
write_event(
    struct book *book, const char *tag, const struct event *event, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	int64_t item = 0;
	int64_t id = 0;
	int64_t entry = 0;
	if (event->on < DAY_MIN || event->on > DAY_MAX) {
		return fault_set(fault, FAULT_INPUT, "the day is not known");
	}
	if (!writing_begin(book, &writing, fault) ||
	    !item_need(book, tag, &item, fault) ||
	    !number_coming(book, NUMBERED_ENTRY, &entry, fault) ||
	    !call_open(book, EVENT_ADD, &call, fault) ||
	    !number_give(&call, NUMBERED_EVENT, &id, fault)) {
		return false;
	}
	give_int(&call, item);
	give_code(&call, &EVENT_CODES, event->kind);
	give_day(&call, event->on);
	give_int(&call, entry);
	return call_run(&call, fault) && writing_keep(&writing, fault);
}

bool
book_add_event(
    struct book *book, const char *tag, const struct event *event, struct fault *fault)
{
	return write_event(book, tag, event, fault) ||
	       fault_prefix(fault, "recording that \"%.60s\" was %s", text_or_empty(tag),
		   EVENT_CODES.words[event->kind]);
}

static bool
write_extension(struct book *book, const char *tag, const struct extension *extension,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	int64_t item = 0;
	int64_t id = 0;
	int64_t entry = 0;
	if (extension->until < DAY_MIN || extension->until > DAY_MAX) {
		return fault_set(fault, FAULT_INPUT, "its last day is not known");
	}
	if (!writing_begin(book, &writing, fault) ||
	    !item_need(book, tag, &item, fault) ||
	    !number_coming(book, NUMBERED_ENTRY, &entry, fault) ||
	    !call_open(book, EXTENSION_ADD, &call, fault) ||
	    !number_give(&call, NUMBERED_EXTENSION, &id, fault)) {
		return false;
	}
	give_int(&call, item);
	give_code(&call, &TASK_CODES, extension->task);
	give_day(&call, extension->until);
	give_text(&call, text_or_empty(extension->paper));
	give_int(&call, 0); /* not ended */
	give_int(&call, entry);
	give_day(&call, extension->given);
	return call_run(&call, fault) && writing_keep(&writing, fault);
}

static bool
write_interval(struct book *book, const char *tag, const struct interval *interval,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	int64_t item = 0;
	int64_t id = 0;
	if (interval->on < DAY_MIN || interval->on > DAY_MAX) {
		return fault_set(fault, FAULT_INPUT, "its day is not known");
	}
	if (!writing_begin(book, &writing, fault) ||
	    !item_need(book, tag, &item, fault) ||
	    !call_open(book, INTERVAL_PUT, &call, fault) ||
	    !number_give(&call, NUMBERED_MAKER_INTERVAL, &id, fault)) {
		return false;
	}
	give_int(&call, item);
	give_code(&call, &TASK_CODES, interval->task);
	give_day(&call, interval->on);
	give_int(&call, interval->months);
	give_int(&call, interval->first_months);
	give_code(
	    &call, &COUNTS_FROM_CODES, interval->from_said ? interval->from + 1U : 0U);
	give_text(&call, text_or_empty(interval->paper));
	return call_run(&call, fault) && writing_keep(&writing, fault);
}

bool
book_put_interval(struct book *book, const char *tag, const struct interval *interval,
    struct fault *fault)
{
	return write_interval(book, tag, interval, fault) ||
	       fault_prefix(fault, "writing the maker's interval for \"%.60s\"",
		   text_or_empty(tag));
}

bool
book_drop_interval(
    struct book *book, const char *tag, enum task task, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	int64_t item = 0;
	if (!writing_begin(book, &writing, fault) ||
	    !item_need(book, tag, &item, fault) ||
	    !call_open(book, INTERVAL_DROP, &call, fault)) {
		return false;
	}
	give_int(&call, item);
	give_code(&call, &TASK_CODES, task);
	return call_run(&call, fault) && writing_keep(&writing, fault);
}

bool
book_add_extension(struct book *book, const char *tag, const struct extension *extension,
    struct fault *fault)
{
	return write_extension(book, tag, extension, fault) ||
	       fault_prefix(
		   fault, "recording an extension for \"%.60s\"", text_or_empty(tag));
}
