/* Taking back what an entry of the journal changed. */
#include "book/journal_inside.h"

#include <string.h>

/* True in *out when a statement gives any row: parts in a loop, reminders given out. */
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

/* Checks what no single row shows: parts in a loop, and the identity from which
 * reminders' UIDs were made. */
static bool
still_sound(struct book *book, bool *sound_out, struct fault *fault)
{
	char identity[sizeof book->identity];
	bool loops = false;
	bool reminders = false;
	memcpy(identity, book->identity, sizeof identity);
	if (!any_row(book, CHECK_LOOPS, &loops, fault) ||
	    !any_row(book, REMINDERS_ANY, &reminders, fault) ||
	    !identity_read(book, fault)) {
		return false;
	}
	if (reminders && strcmp(identity, book->identity) != 0) {
		return fault_set(fault, FAULT_INPUT,
		    "the book has given out reminders; its identity stays as it is");
	}
	*sound_out = !loops;
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
	SCOPED_TEXT changes = {0};
	bool found = false;
	bool done = false;
	if (!entry_changes(book, number, &changes, &found, fault)) {
		return false;
	}
	if (!found) {
		return fault_set(fault, FAULT_INPUT, "the journal has no such entry");
	}
	if (changes.length == 0) {
		return fault_set(fault, FAULT_INPUT, "it changed nothing");
	}
	if (!changes_take_back(book, &changes, &done, fault) ||
	    (done && !still_sound(book, &done, fault))) {
		return false;
	}
	return done ? journal_write(book, number, fault)
		    : later_refuse(book, number, &changes, fault);
}

static bool
undo_whole(struct book *book, int64_t wanted, int64_t *undone_out, int64_t *entry_out,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	int64_t number = 0;
	int64_t entry = 0;
	if (!writing_begin(book, &writing, fault) ||
	    !choose(book, wanted, &number, fault)) {
		return false;
	}
	if (!take_back(book, number, fault)) {
		return fault_prefix(
		    fault, "entry %lld can't be taken back", (long long)number);
	}
	if (!call_number(book, JOURNAL_LAST, &entry, fault) ||
	    !writing_keep(&writing, fault)) {
		return false;
	}
	*undone_out = number;
	*entry_out = entry;
	return true;
}

bool
book_undo(struct book *book, int64_t number, int64_t *undone_out, int64_t *entry_out,
    struct fault *fault)
{
	struct fault ignored = {0};
	if (book->begun) {
		return fault_set(fault, FAULT_BOOK, "a transaction is open");
	}
	bool undone = undo_whole(book, number, undone_out, entry_out, fault);
	if (!undone) {
		(void)!identity_read(book, &ignored);
	}
	return undone;
}
