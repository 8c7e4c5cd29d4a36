#include "base/memory.h"
#include "base/text.h"
#include "book/sums.h"

#include <sqlite3.h>
#include <string.h>

void
changeset_clear(struct changeset *changes)
{
	sqlite3_free(changes->bytes);
	*changes = (struct changeset){0};
}

const char *
integer_text(int64_t number, struct arena *arena)
{
	enum { LONGEST = 21 };

	if (number == 0) {
		return "0"; /* most are */
	}
	char digits[LONGEST];
	char *at = digits + LONGEST - 1;
	uint64_t left = number < 0 ? 0 - (uint64_t)number : (uint64_t)number;
	*at = '\0';
	for (; left > 0; left /= 10) {
		*--at = (char)('0' + left % 10);
	}
	if (number < 0) {
		*--at = '-';
	}
	return arena_string(arena, at);
}

/* A value as text in the arena. Bytes are told by their number; none say nothing. */
static void
value_text(sqlite3_value *value, struct arena *arena, const char **out)
{
	char size[40];
	const char *text;
	if (value == NULL || sqlite3_value_type(value) == SQLITE_NULL) {
		*out = NULL;
		return;
	}
	if (sqlite3_value_type(value) == SQLITE_INTEGER) {
		*out = integer_text(sqlite3_value_int64(value), arena);
		return;
	}
	if (sqlite3_value_type(value) == SQLITE_BLOB) {
		int bytes = sqlite3_value_bytes(value);
		(void)sqlite3_snprintf(sizeof size, size, "%d bytes", bytes);
		text = bytes == 0 ? "" : size;
	} else {
		text = (const char *)sqlite3_value_text(value);
	}
	if (text != NULL && !utf8_valid(text, strlen(text))) {
		text = "(no UTF-8)";
	}
	*out = arena_string(arena, text);
}

typedef int value_reader(sqlite3_changeset_iter *at, int column, sqlite3_value **out);

static void
read_row(sqlite3_changeset_iter *at, value_reader *read, size_t count,
    struct arena *arena, struct row *out, bool *has)
{
	out->values = arena_alloc(arena, count * sizeof *out->values);
	for (size_t i = 0; i < count; i++) {
		sqlite3_value *value = NULL;
		if (read(at, (int)i, &value) != SQLITE_OK) {
			memory_ended();
		}
		has[i] = value != NULL;
		value_text(value, arena, &out->values[i]);
	}
}

/* A row is told by all of its key; a damaged change may lack part of it. */
static bool
has_key(const struct row_change *change)
{
	const struct row *row =
	    change->act == JOURNAL_ADDED ? &change->new : &change->old;
	for (size_t i = 0; i < change->count; i++) {
		if (change->key[i] != 0 && row->values[i] == NULL) {
			return false;
		}
	}
	return true;
}

static bool
read_change(sqlite3_changeset_iter *at, struct arena *arena, struct row_change *out,
    struct fault *fault)
{
	int count = 0;
	int operation = 0;
	int indirect = 0;
	unsigned char *key = NULL;
	if (sqlite3changeset_op(at, &out->table, &count, &operation, &indirect) !=
		SQLITE_OK ||
	    sqlite3changeset_pk(at, &key, NULL) != SQLITE_OK) {
		return fault_set(fault, FAULT_BOOK, "a change can't be read");
	}
	out->at = at;
	out->key = key;
	out->count = (size_t)count;
	bool *has = arena_alloc(arena, out->count * sizeof *has);
	out->act = operation == SQLITE_INSERT   ? JOURNAL_ADDED
		   : operation == SQLITE_DELETE ? JOURNAL_REMOVED
						: JOURNAL_CHANGED;
	if (operation != SQLITE_INSERT) {
		read_row(at, sqlite3changeset_old, out->count, arena, &out->old, has);
	}
	if (operation != SQLITE_DELETE) {
		read_row(at, sqlite3changeset_new, out->count, arena, &out->new, has);
	}
	if (!has_key(out)) {
		return fault_set(fault, FAULT_BOOK, "a change can't be read");
	}
	out->has_new = has;
	out->sum = change_sum(at, out->table, count, operation, key);
	return true;
}

bool
changes_each(const struct changeset *changes, struct arena *passing,
    bool (*each)(const struct row_change *change, void *context, struct fault *fault),
    void *context, struct fault *fault)
{
	sqlite3_changeset_iter *at = NULL;
	if (!changeset_is_whole(changes)) {
		return fault_set(fault, FAULT_BOOK, "the journal's changes are damaged");
	}
	if (sqlite3changeset_start(&at, changes->size, changes->bytes) != SQLITE_OK) {
		memory_ended();
	}
	bool done = true;
	while (done && sqlite3changeset_next(at) == SQLITE_ROW) {
		struct row_change change = {0};
		done = read_change(at, passing, &change, fault) &&
		       each(&change, context, fault);
		arena_reset(passing);
	}
	int result = sqlite3changeset_finalize(at);
	if (done && result != SQLITE_OK) {
		if (result == SQLITE_NOMEM) {
			memory_ended();
		}
		return fault_set(fault, FAULT_BOOK, "the journal's changes are damaged");
	}
	return done;
}
