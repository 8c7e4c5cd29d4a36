/* Reminders as the book remembers them. */
#include "book/reminders.h"

#include "book/call.h"

static void
take_reminder(struct call *call, struct arena *arena, void *out)
{
	struct book_reminder *reminder = out;
	reminder->key = take_text(call, arena);
	reminder->uid = take_text(call, arena);
	reminder->sequence = (int)take_int(call);
	reminder->modified = take_int(call);
	reminder->shape = take_text(call, arena);
	reminder->day = take_day(call);
	reminder->aim = take_day(call);
	reminder->entry = take_int(call);
	reminder->summary = take_text(call, arena);
	reminder->description = take_text(call, arena);
}

static bool
load_reminders(struct book *book, struct arena *arena, const struct book_reminder **out,
    size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return call_open(book, LOAD_REMINDERS, &call, fault) &&
	       call_rows(
		   &call, arena, take_reminder, sizeof **out, out, count_out, fault);
}

bool
book_load_reminders(struct book *book, struct arena *arena,
    const struct book_reminder **out, size_t *count_out, struct fault *fault)
{
	return load_reminders(book, arena, out, count_out, fault) ||
	       fault_prefix(fault, "reading the reminders");
}

bool
book_find_reminder(struct book *book, const char *key, struct arena *arena,
    const struct book_reminder **out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, REMINDER_GET, &call, fault)) {
		return fault_prefix(fault, "reading the reminders");
	}
	give_text(&call, key);
	if (!call_row(&call, &row, fault)) {
		return fault_prefix(fault, "reading the reminders");
	}
	struct book_reminder *found = NULL;
	if (row) {
		found = ARENA_MANY(arena, struct book_reminder, 1);
		take_reminder(&call, arena, found);
	}
	*out = found;
	return true;
}

bool
book_has_uid(struct book *book, const char *uid, bool *out, struct fault *fault)
{
	int64_t found = 0;
	if (!call_id(book, REMINDER_HAS_UID, uid, &found, fault)) {
		return fault_prefix(fault, "reading the reminders");
	}
	*out = found != 0;
	return true;
}

bool
book_last_entry(struct book *book, int64_t *number_out, struct fault *fault)
{
	return call_number(book, JOURNAL_LAST, number_out, fault);
}

bool
book_oldest_given(
    struct book *book, int64_t *number_out, bool *any_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, REMINDER_OLDEST, &call, fault) ||
	    !call_row(&call, &row, fault)) {
		return false;
	}
	*number_out = row ? take_int(&call) : INT64_MAX;
	*any_out = row && take_int(&call) != 0;
	return true;
}

bool
book_last_change(struct book *book, int64_t *number_out, struct fault *fault)
{
	return call_number(book, JOURNAL_LAST_CHANGE, number_out, fault);
}

static void
take_concern(struct call *call, struct arena *arena, void *out)
{
	struct vessel_entry *entry = out;
	entry->vessel = take_text(call, arena);
	entry->number = take_int(call);
}

bool
book_entries_since(struct book *book, int64_t entry, struct arena *arena,
    struct vessel_entry **out, size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, JOURNAL_CONCERNS, &call, fault)) {
		return false;
	}
	give_int(&call, entry);
	return call_rows(
		   &call, arena, take_concern, sizeof **out, out, count_out, fault) ||
	       fault_prefix(fault, "reading what was written since");
}

static bool
put_reminders(struct book *book, const struct book_reminder *reminders, size_t count,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, REMINDER_PUT, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		give_text(&call, reminders[i].key);
		give_text(&call, reminders[i].uid);
		give_int(&call, reminders[i].sequence);
		give_int(&call, reminders[i].modified);
		give_text(&call, reminders[i].shape);
		give_day(&call, reminders[i].day);
		give_day(&call, reminders[i].aim);
		give_int(&call, reminders[i].entry);
		give_text(&call, text_or_empty(reminders[i].summary));
		give_text(&call, text_or_empty(reminders[i].description));
		if (!call_run(&call, fault)) {
			return fault_prefix(fault, "reminder \"%.200s\"",
			    reminders[i].key == NULL ? "" : reminders[i].key);
		}
	}
	return true;
}

/* Notes the days under the SEQUENCEs that they are given out with. */
static bool
put_given(struct book *book, const struct book_reminder *reminders, size_t count,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, GIVEN_PUT, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		give_day(&call, reminders[i].day);
		give_text(&call, reminders[i].key);
		if (!call_run(&call, fault)) {
			return false;
		}
	}
	return true;
}

static void
take_given(struct call *call, struct arena *arena, void *out)
{
	struct book_given *given = out;
	given->uid = take_text(call, arena);
	given->sequence = (int)take_int(call);
	given->day = take_day(call);
}

static bool
load_given(struct book *book, struct arena *arena, const struct book_given **out,
    size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return call_open(book, LOAD_GIVEN, &call, fault) &&
	       call_rows(&call, arena, take_given, sizeof **out, out, count_out, fault);
}

bool
book_load_given(struct book *book, struct arena *arena, const struct book_given **out,
    size_t *count_out, struct fault *fault)
{
	return load_given(book, arena, out, count_out, fault) ||
	       fault_prefix(fault, "reading what was given out");
}

static bool
forget_reminders(
    struct book *book, const char *const *keys, size_t count, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, REMINDER_FORGET, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		give_text(&call, keys[i]);
		if (!call_run(&call, fault)) {
			return false;
		}
	}
	return true;
}

bool
book_store_reminders(struct book *book, const struct book_reminder *kept,
    size_t kept_count, const char *const *gone, size_t gone_count, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	bool stored = writing_begin(book, &writing, fault) &&
		      put_reminders(book, kept, kept_count, fault) &&
		      put_given(book, kept, kept_count, fault) &&
		      forget_reminders(book, gone, gone_count, fault) &&
		      writing_keep(&writing, fault);
	return stored || fault_prefix(fault, "storing the reminders");
}
