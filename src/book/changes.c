#include "book/value.h"

#include <string.h>

enum { OF_OURS = 1, OF_A_CHANGESET = 'T' };

/* They are in every book's bytes. */
_Static_assert(
    JOURNAL_ADDED == 0 && JOURNAL_CHANGED == 1 && JOURNAL_REMOVED == 2, "acts");
_Static_assert(HELD_NOTHING == 0 && HELD_INTEGER == 1 && HELD_REAL == 2 &&
		   HELD_TEXT == 3 && HELD_BYTES == 4,
    "types of values");

const struct value *
change_row(const struct row_change *change)
{
	return change->act == JOURNAL_ADDED ? change->is : change->was;
}

/* ---- reading ---- */

static bool
take_name(struct changes_reading *reading, const char **out)
{
	uint64_t length = 0;
	const unsigned char *bytes = NULL;
	if (!number_take(&reading->left, &length) || length > reading->left.left ||
	    !bytes_take(&reading->left, (size_t)length, &bytes) ||
	    memchr(bytes, '\0', (size_t)length) != NULL) {
		return false;
	}
	char *copy = arena_alloc(&reading->table, (size_t)length + 1);
	memcpy(copy, bytes, (size_t)length);
	*out = copy;
	return true;
}

static bool
take_table(struct changes_reading *reading)
{
	struct row_change *change = &reading->change;
	uint64_t count = 0;
	arena_clear(&reading->table);
	if (!take_name(reading, &change->table) || !number_take(&reading->left, &count) ||
	    count > CHANGES_COLUMNS_MOST) {
		return false;
	}
	const char **names =
	    arena_alloc(&reading->table, (size_t)count * sizeof *names + 1);
	unsigned char *key = arena_alloc(&reading->table, (size_t)count + 1);
	for (size_t i = 0; i < count; i++) {
		const unsigned char *place = NULL;
		if (!take_name(reading, &names[i]) ||
		    !bytes_take(&reading->left, 1, &place)) {
			return false;
		}
		key[i] = *place;
	}
	change->count = (size_t)count;
	change->names = names;
	change->key = key;
	return changes_ready(reading) && number_take(&reading->left, &reading->rows);
}

/* A row is told by all of its key. */
static bool
take_whole(struct changes_reading *reading, struct value *values)
{
	const struct row_change *change = &reading->change;
	for (size_t i = 0; i < change->count; i++) {
		if (!value_take(&reading->left, &values[i]) ||
		    (change->key[i] != 0 && values[i].held == HELD_NOTHING)) {
			return false;
		}
	}
	return true;
}

static bool
take_key(struct changes_reading *reading)
{
	const struct row_change *change = &reading->change;
	for (size_t i = 0; i < change->count; i++) {
		reading->was[i] = (struct value){.held = HELD_UNSAID};
		reading->is[i] = reading->was[i];
		if (change->key[i] != 0 &&
		    (!value_take(&reading->left, &reading->was[i]) ||
			reading->was[i].held == HELD_NOTHING)) {
			return false;
		}
	}
	return true;
}

static bool
take_changed(struct changes_reading *reading)
{
	struct bytes_left *left = &reading->left;
	uint64_t count = 0;
	if (!take_key(reading) || !number_take(left, &count) || count == 0) {
		return false;
	}
	for (; count > 0; count--) {
		uint64_t column = 0;
		if (!number_take(left, &column) || column >= reading->change.count ||
		    reading->was[column].held != HELD_UNSAID ||
		    !value_take(left, &reading->was[column]) ||
		    !value_take(left, &reading->is[column])) {
			return false;
		}
	}
	return true;
}

static bool
take_row(struct changes_reading *reading)
{
	const unsigned char *act = NULL;
	if (!bytes_take(&reading->left, 1, &act) || *act > JOURNAL_REMOVED) {
		return false;
	}
	reading->change.act = (enum journal_act) * act;
	reading->change.was = reading->change.act == JOURNAL_ADDED ? NULL : reading->was;
	reading->change.is = reading->change.act == JOURNAL_REMOVED ? NULL : reading->is;
	switch (reading->change.act) {
	case JOURNAL_ADDED:
		return take_whole(reading, reading->is);
	case JOURNAL_REMOVED:
		return take_whole(reading, reading->was);
	case JOURNAL_CHANGED:
		break;
	}
	return take_changed(reading);
}

static bool
next_of_ours(struct changes_reading *reading)
{
	while (reading->rows == 0) {
		if (reading->tables == 0) {
			reading->ended = true;
			return reading->left.left == 0;
		}
		reading->tables--;
		if (!take_table(reading)) {
			return false;
		}
	}
	reading->rows--;
	return take_row(reading);
}

/* Goes through the bytes; with `each` NULL only to see whether they are sound, which
 * `*sound_out` says. */
static bool
go_through(struct bytes_left bytes, struct arena *passing, change_visitor *each,
    void *context, bool *sound_out, struct fault *fault)
{
	struct changes_reading reading = {.left = bytes};
	bool ours = bytes.left > 0 && *bytes.at == OF_OURS;
	bool sound = bytes.left == 0 || ours || *bytes.at == OF_A_CHANGESET;
	bool done = true;
	if (ours) {
		reading.left = (struct bytes_left){bytes.at + 1, bytes.left - 1};
		sound = number_take(&reading.left, &reading.tables);
	}
	while (sound && done) {
		sound = ours ? next_of_ours(&reading) : changeset_next(&reading);
		if (!sound || reading.ended) {
			break;
		}
		if (each != NULL) {
			done = each(&reading.change, context, fault);
			arena_reset(passing);
		}
	}
	arena_clear(&reading.table);
	*sound_out = sound;
	return done;
}

bool
changes_each(const void *bytes, size_t size, struct arena *passing, change_visitor *each,
    void *context, struct fault *fault)
{
	const struct bytes_left all = {bytes, size};
	bool sound = true;
	(void)!go_through(all, passing, NULL, NULL, &sound, fault);
	if (!sound) {
		return fault_set(fault, FAULT_BOOK, "the journal's changes are damaged");
	}
	return go_through(all, passing, each, context, &sound, fault);
}

/* ---- writing ---- */

static void
add_name(struct text *out, const char *name)
{
	size_t length = strlen(name);
	number_add(out, length);
	text_add_bytes(out, name, length);
}

void
changes_add_head(struct text *out, size_t tables)
{
	text_add_byte(out, OF_OURS);
	number_add(out, tables);
}

void
changes_add_table(struct text *out, const struct row_change *of, size_t rows)
{
	add_name(out, of->table);
	number_add(out, of->count);
	for (size_t i = 0; i < of->count; i++) {
		add_name(out, of->names[i]);
		text_add_byte(out, (char)of->key[i]);
	}
	number_add(out, rows);
}

static bool
is_another(const struct row_change *change, size_t column)
{
	return change->key[column] == 0 &&
	       !value_same(&change->was[column], &change->is[column]);
}

void
changes_add_whole(struct text *out, enum journal_act act, struct bytes_left values)
{
	text_add_byte(out, (char)act);
	text_add_bytes(out, (const char *)values.at, values.left);
}

void
changes_add_changed(struct text *out, const struct row_change *change)
{
	size_t others = 0;
	text_add_byte(out, JOURNAL_CHANGED);
	for (size_t i = 0; i < change->count; i++) {
		if (change->key[i] != 0) {
			value_add(out, &change->was[i]);
		}
		others += is_another(change, i) ? 1 : 0;
	}
	number_add(out, others);
	for (size_t i = 0; i < change->count; i++) {
		if (is_another(change, i)) {
			number_add(out, i);
			value_add(out, &change->was[i]);
			value_add(out, &change->is[i]);
		}
	}
}

void
changes_add_row(struct text *out, const struct row_change *change)
{
	if (change->act == JOURNAL_CHANGED) {
		changes_add_changed(out, change);
		return;
	}
	text_add_byte(out, (char)change->act);
	values_add(out, change_row(change), change->count);
}
