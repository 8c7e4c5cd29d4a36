/* Taking back what an entry of the journal changed. */
#include "base/memory.h"
#include "book/changes.h"
#include "book/row_words.h"

#include <sqlite3.h>
#include <string.h>

/* A table may have got columns since; it may not have lost any, or have another key. */
static bool
fits_schema(const struct row_change *change, void *context, struct fault *fault)
{
	struct table_shape *shape = NULL;
	if (!shape_find(context, change->table, &shape, fault)) {
		return false;
	}
	bool fits = shape->count >= change->count;
	for (size_t i = 0; fits && i < change->count; i++) {
		fits = (shape->columns[i].key != 0) == (change->key[i] != 0);
	}
	return fits || fault_set(fault, FAULT_INPUT,
			   "it is of an older program, and its table %s is another now",
			   change->table);
}

static int
give_up(void *context, int conflict, sqlite3_changeset_iter *at)
{
	(void)at;
	(void)conflict;
	*(bool *)context = true;
	return SQLITE_CHANGESET_ABORT;
}

/* True in *out when a statement gives any row: a reference into nothing, parts in a loop. */
static bool
any_row(struct book *book, enum statement statement, bool *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, statement, &call, fault)) {
		return false;
	}
	if (call.prepared->count == 2) {
		give_int(&call, 0);
		give_int(&call, INT64_MAX);
	}
	return call_row(&call, out, fault);
}

/* What no changeset knows of: references, parts in a loop, and the identity from which
 * reminders' UIDs were drawn. */
static bool
still_sound(struct book *book, bool *sound_out, struct fault *fault)
{
	char identity[sizeof book->identity];
	bool dangling = false;
	bool loops = false;
	bool reminders = false;
	memcpy(identity, book->identity, sizeof identity);
	if (!any_row(book, CHECK_REFERENCES, &dangling, fault) ||
	    !any_row(book, CHECK_LOOPS, &loops, fault) ||
	    !any_row(book, REMINDERS_ANY, &reminders, fault) ||
	    !identity_read(book, fault)) {
		return false;
	}
	if (reminders && strcmp(identity, book->identity) != 0) {
		return fault_set(fault, FAULT_INPUT,
		    "the book has given out reminders; its identity stays as it is");
	}
	*sound_out = !dangling && !loops;
	return true;
}

static bool
apply_inverse(struct book *book, int64_t number, const struct changeset *changes,
    struct fault *fault)
{
	SCOPED_WORDING wording = {.book = book};
	SCOPED_CHANGESET inverse = {0};
	bool conflict = false;
	bool sound = true;
	if (!changes_each(changes, &wording.passing, fits_schema, &wording, fault)) {
		return false;
	}
	if (sqlite3changeset_invert(changes->size, changes->bytes, &inverse.size,
		&inverse.bytes) != SQLITE_OK) {
		return fault_set(fault, FAULT_BOOK, "the journal's changes are damaged");
	}
	int result = sqlite3changeset_apply_v2(engine_handle(book->engine), inverse.size,
	    inverse.bytes, NULL, give_up, &conflict, NULL, NULL, 0);
	if (result != SQLITE_OK && !conflict) {
		return engine_fault(book->engine, fault);
	}
	if (!conflict && !still_sound(book, &sound, fault)) {
		return false;
	}
	return (!conflict && sound) || later_refuse(book, number, changes, fault);
}

static bool
read_changes(struct book *book, int64_t number, struct changeset *out, bool *found_out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, JOURNAL_CHANGES, &call, fault)) {
		return false;
	}
	give_int(&call, number);
	if (!call_row(&call, found_out, fault) || !*found_out) {
		return !*found_out;
	}
	struct value bytes = take_value(&call);
	out->size = (int)bytes.length;
	out->bytes = sqlite3_malloc(out->size > 0 ? out->size : 1);
	if (out->bytes == NULL) {
		memory_ended();
	}
	memcpy(out->bytes, bytes.bytes == NULL ? "" : bytes.bytes, bytes.length);
	return true;
}

/* The last entry that changed something, takes nothing back, and stands. */
static bool
last_standing(struct book *book, const int64_t *undone, int64_t last, int64_t *out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, JOURNAL_DOINGS, &call, fault)) {
		return false;
	}
	for (;;) {
		if (!call_row(&call, &row, fault)) {
			return false;
		}
		if (!row) {
			return fault_set(
			    fault, FAULT_INPUT, "there is nothing to take back");
		}
		int64_t number = take_int(&call);
		if (number > last || undone[number] == 0) {
			*out = number;
			return true;
		}
	}
}

static bool
choose(struct book *book, int64_t wanted, int64_t *number_out, struct fault *fault)
{
	struct arena arena = {0};
	const int64_t *undone = NULL;
	int64_t last = 0;
	bool chosen = journal_undone(book, &arena, &undone, &last, fault);
	if (chosen && wanted == 0) {
		chosen = last_standing(book, undone, last, number_out, fault);
	} else if (chosen && wanted <= last && undone[wanted] != 0) {
		chosen = fault_set(fault, FAULT_INPUT,
		    "entry %lld was taken back by entry %lld already", (long long)wanted,
		    (long long)undone[wanted]);
	} else if (chosen) {
		*number_out = wanted;
	}
	arena_clear(&arena);
	return chosen;
}

static bool
take_back(struct book *book, int64_t number, struct fault *fault)
{
	SCOPED_CHANGESET changes = {0};
	bool found = false;
	if (!read_changes(book, number, &changes, &found, fault)) {
		return false;
	}
	if (!found) {
		return fault_set(fault, FAULT_INPUT, "the journal has no such entry");
	}
	if (changes.size == 0) {
		return fault_set(fault, FAULT_INPUT, "it changed nothing");
	}
	return apply_inverse(book, number, &changes, fault) &&
	       journal_write(book, number, fault);
}

static bool
undo_whole(struct book *book, int64_t wanted, int64_t *undone_out, int64_t *entry_out,
    struct fault *fault)
{
	SCOPED_STEP step = {0};
	int64_t number = 0;
	int64_t entry = 0;
	if (!step_begin(book, &step, fault) || !choose(book, wanted, &number, fault)) {
		return false;
	}
	if (!take_back(book, number, fault)) {
		return fault_prefix(
		    fault, "entry %lld can't be taken back", (long long)number);
	}
	if (!call_number(book, JOURNAL_LAST, &entry, fault) || !step_keep(&step, fault)) {
		return false;
	}
	*undone_out = number;
	*entry_out = entry;
	return true;
}

/* References are checked at the end and as a whole: a row that is taken back must not take
 * others with it that the changeset knows nothing of, or that it will take back itself. */
bool
book_undo(struct book *book, int64_t number, int64_t *undone_out, int64_t *entry_out,
    struct fault *fault)
{
	struct fault ignored = {0};
	if (book->begun) {
		return fault_set(fault, FAULT_BOOK, "a transaction is open");
	}
	if (!call_plain(book, FOREIGN_KEYS_OFF, fault)) {
		return false;
	}
	bool undone = undo_whole(book, number, undone_out, entry_out, fault);
	if (!undone) {
		(void)!identity_read(book, &ignored);
	}
	bool kept = call_plain(book, FOREIGN_KEYS_ON, undone ? fault : &ignored);
	return undone && kept;
}
