/* Any bytes as an entry's changes, of either format, as a hostile book might hold them:
 * refused with words, or read change by change with all that value.h promises; and what
 * is read, written and read again is the same. */
#include "book/value.h"

#include <sqlite3.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void
need(bool holds)
{
	if (!holds) {
		abort();
	}
}

/* Every byte of a value is there. */
static size_t
touch(const struct value *value)
{
	size_t sum = (size_t)value->held + (size_t)value->number;
	for (size_t i = 0; i < value->length; i++) {
		sum += (unsigned char)value->bytes[i];
	}
	return sum;
}

static void
look_at_row(const struct row_change *change, size_t *seen)
{
	const struct value *row = change_row(change);
	size_t keys = 0;
	for (size_t i = 0; i < change->count; i++) {
		bool keyed = change->key[i] != 0;
		keys += keyed ? 1 : 0;
		need(!keyed ||
		     (row[i].held != HELD_UNSAID && row[i].held != HELD_NOTHING));
		need(change->act == JOURNAL_CHANGED || row[i].held != HELD_UNSAID);
		*seen +=
		    touch(&row[i]) + (change->is == NULL ? 0 : touch(&change->is[i]));
		*seen += change->names == NULL ? 0 : strlen(change->names[i]);
	}
	need(keys > 0);
}

/* What is read again, beside what was written. */
struct again {
	const struct row_change *change;
	size_t count;
};

static bool
same_side(const struct value *a, const struct value *b, size_t count)
{
	bool same = (a == NULL) == (b == NULL);
	for (size_t i = 0; same && a != NULL && i < count; i++) {
		same = value_same(&a[i], &b[i]);
	}
	return same;
}

static bool
compare(const struct row_change *change, void *context, struct fault *fault)
{
	(void)fault;
	struct again *again = context;
	const struct row_change *written = again->change;
	need(strcmp(change->table, written->table) == 0);
	need(change->act == written->act && change->count == written->count);
	need(same_side(change->was, written->was, change->count));
	need(same_side(change->is, written->is, change->count));
	again->count++;
	return true;
}

/* A changed row in which a column is said to be another and is the same is not written so. */
static bool
is_plain(const struct row_change *change)
{
	for (size_t i = 0; change->act == JOURNAL_CHANGED && i < change->count; i++) {
		if (change->is[i].held != HELD_UNSAID &&
		    value_same(&change->was[i], &change->is[i])) {
			return false;
		}
	}
	return true;
}

static void
add_whole(struct text *out, const struct row_change *change)
{
	SCOPED_TEXT values = {0};
	for (size_t i = 0; i < change->count; i++) {
		value_add(&values, &change_row(change)[i]);
	}
	const struct bytes_left row = {
	    (const unsigned char *)values.bytes, values.length};
	changes_add_whole(out, change->act, row);
}

static void
write_again(const struct row_change *change)
{
	SCOPED_TEXT bytes = {0};
	SCOPED_ARENA passing = {0};
	struct fault fault = {0};
	struct again again = {change, 0};
	changes_add_head(&bytes, 1);
	changes_add_table(&bytes, change, 1);
	if (change->act == JOURNAL_CHANGED) {
		changes_add_changed(&bytes, change);
	} else {
		add_whole(&bytes, change);
	}
	need(changes_each(bytes.bytes, bytes.length, &passing, compare, &again, &fault));
	need(again.count == 1);
}

static bool
look(const struct row_change *change, void *context, struct fault *fault)
{
	(void)fault;
	need(change->table != NULL && change->count > 0);
	need((change->was == NULL) == (change->act == JOURNAL_ADDED));
	need((change->is == NULL) == (change->act == JOURNAL_REMOVED));
	look_at_row(change, context);
	if (change->names != NULL && is_plain(change)) {
		write_again(change);
	}
	return true;
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	SCOPED_ARENA arena = {0};
	struct fault fault = {0};
	size_t seen = 0;
	unsigned char *bytes = malloc(size == 0 ? 1 : size);
	need(bytes != NULL);
	memcpy(bytes, data, size);
	need(changes_each(bytes, size, &arena, look, &seen, &fault) ||
	     (fault.kind != FAULT_NONE && fault.text[0] != '\0'));
	free(bytes);
	return 0;
}
