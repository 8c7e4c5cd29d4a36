/* Entries as programs before this format wrote them: changesets as SQLite's session
 * extension has them (www.sqlite.org/session/c_changegroup.html, and the head of
 * ext/session/sqlite3session.c in its sources). A table's head is 'T', the number of
 * columns, a byte for each (its place in the primary key, 0 for none), its name and a
 * zero. A change is its operation, a byte that says whether another row's reference made
 * it, and the values of all columns, of an update twice: as they were and as they are. A
 * value is its type and what belongs to it. */
#include "book/value.h"

#include <string.h>

/* SQLite's codes of authorization, and of its types. */
enum { OPERATION_DELETE = 9, OPERATION_INSERT = 18, OPERATION_UPDATE = 23 };

enum { TYPE_UNSAID, TYPE_INTEGER, TYPE_REAL, TYPE_TEXT, TYPE_BYTES, TYPE_NOTHING };

bool
changes_ready(struct changes_reading *reading)
{
	const struct row_change *change = &reading->change;
	bool keyed = false;
	for (size_t i = 0; i < change->count; i++) {
		keyed = keyed || change->key[i] != 0;
	}
	if (!keyed || change->count > CHANGES_COLUMNS_MOST) {
		return false;
	}
	size_t size = change->count * sizeof *reading->was;
	reading->was = arena_alloc(&reading->table, size);
	reading->is = arena_alloc(&reading->table, size);
	return true;
}

/* SQLite's number of one to nine bytes, the high ones first, seven bits of each but the ninth. */
static bool
take_number(struct bytes_left *left, uint64_t *out)
{
	*out = 0;
	for (int i = 0; i < 9; i++) {
		const unsigned char *byte = NULL;
		if (!bytes_take(left, 1, &byte)) {
			return false;
		}
		if (i == 8) {
			*out = *out << 8 | *byte;
			return true;
		}
		*out = *out << 7 | (*byte & 0x7fU);
		if ((*byte & 0x80U) == 0) {
			return true;
		}
	}
	return false;
}

static bool
take_bytes(struct bytes_left *left, struct value *out)
{
	uint64_t length = 0;
	const unsigned char *bytes = NULL;
	if (!take_number(left, &length) || length > left->left ||
	    !bytes_take(left, (size_t)length, &bytes)) {
		return false;
	}
	out->bytes = (const char *)bytes;
	out->length = (size_t)length;
	return true;
}

static bool
take_value(struct bytes_left *left, struct value *out)
{
	static const enum value_held TYPES[] = {[TYPE_UNSAID] = HELD_UNSAID,
	    [TYPE_INTEGER] = HELD_INTEGER,
	    [TYPE_REAL] = HELD_REAL,
	    [TYPE_TEXT] = HELD_TEXT,
	    [TYPE_BYTES] = HELD_BYTES,
	    [TYPE_NOTHING] = HELD_NOTHING};

	const unsigned char *type = NULL;
	if (!bytes_take(left, 1, &type) || *type > TYPE_NOTHING) {
		return false;
	}
	*out = (struct value){.held = TYPES[*type]};
	switch (out->held) {
	case HELD_INTEGER:
	case HELD_REAL:
		return eight_take(left, &out->number);
	case HELD_TEXT:
	case HELD_BYTES:
		return take_bytes(left, out);
	case HELD_NOTHING:
	case HELD_UNSAID:
		break;
	}
	return true;
}

static bool
take_head(struct changes_reading *reading)
{
	struct bytes_left *left = &reading->left;
	struct row_change *change = &reading->change;
	const unsigned char *bytes = NULL;
	uint64_t columns = 0;
	arena_clear(&reading->table);
	if (!bytes_take(left, 1, &bytes) || !take_number(left, &columns) ||
	    columns > CHANGES_COLUMNS_MOST ||
	    !bytes_take(left, (size_t)columns, &change->key)) {
		return false;
	}
	change->count = (size_t)columns;
	const unsigned char *end = memchr(left->at, '\0', left->left);
	if (end == NULL || !bytes_take(left, (size_t)(end - left->at) + 1, &bytes)) {
		return false;
	}
	change->table = (const char *)bytes;
	return changes_ready(reading);
}

static bool
take_row(struct changes_reading *reading, struct value *values)
{
	for (size_t i = 0; i < reading->change.count; i++) {
		if (!take_value(&reading->left, &values[i])) {
			return false;
		}
	}
	return true;
}

/* Whether a row has all that it must: its key, and but for an update everything. */
static bool
is_told(const struct row_change *change, const struct value *values)
{
	for (size_t i = 0; i < change->count; i++) {
		bool keyed = change->key[i] != 0;
		bool said = values[i].held != HELD_UNSAID;
		if ((!said && (keyed || change->act != JOURNAL_CHANGED)) ||
		    (keyed && values[i].held == HELD_NOTHING)) {
			return false;
		}
	}
	return true;
}

/* A row that changed has each value on both sides or on neither, its key on the old side
 * alone, and at least one value that changed. */
static bool
fits_together(const struct row_change *change)
{
	bool any = false;
	for (size_t i = 0; i < change->count; i++) {
		bool was = change->was[i].held != HELD_UNSAID;
		bool is = change->is[i].held != HELD_UNSAID;
		if (change->key[i] != 0 ? is : was != is) {
			return false;
		}
		any = any || is;
	}
	return any;
}

static bool
take_change(struct changes_reading *reading)
{
	struct row_change *change = &reading->change;
	const unsigned char *head = NULL;
	if (change->count == 0 || !bytes_take(&reading->left, 2, &head)) {
		return false;
	}
	switch (head[0]) {
	case OPERATION_INSERT:
		change->act = JOURNAL_ADDED;
		change->was = NULL;
		change->is = reading->is;
		return take_row(reading, reading->is) && is_told(change, reading->is);
	case OPERATION_DELETE:
		change->act = JOURNAL_REMOVED;
		change->was = reading->was;
		change->is = NULL;
		return take_row(reading, reading->was) && is_told(change, reading->was);
	case OPERATION_UPDATE:
		change->act = JOURNAL_CHANGED;
		change->was = reading->was;
		change->is = reading->is;
		return take_row(reading, reading->was) &&
		       take_row(reading, reading->is) && is_told(change, reading->was) &&
		       fits_together(change);
	default:
		return false;
	}
}

bool
changeset_next(struct changes_reading *reading)
{
	while (reading->left.left > 0 && *reading->left.at == 'T') {
		if (!take_head(reading)) {
			return false;
		}
	}
	reading->ended = reading->left.left == 0;
	return reading->ended || take_change(reading);
}
