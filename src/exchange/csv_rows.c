/* Rows packed and read back. A row is its length, its head, and the values that are not
 * blank. */
#include "exchange/csv_rows.h"

#include "base/memory.h"
#include "base/numbers.h"
#include "exchange/inventory_csv.h"

#include <stddef.h>
#include <stdlib.h>
#include <string.h>

/* What stands before the values. */
struct head {
	size_t length; /* of all of it */
	size_t line;
	uint64_t values; /* a bit for each value that follows, by its place in SLOTS */
	unsigned set;
	unsigned given;
	bool has_record, implied, tag_made, further;
};

/* Where a value stands in a row, and its size: 0 for words. */
struct value_slot {
	size_t offset;
	size_t size;
};

#define SLOT(type, offset)                                                               \
	{(offset), VALUE_##type <= VALUE_KIND ? 0 : sizeof(FIELD_C_##type)},
#define ITEM_SLOT(id, member, type, ...)                                                 \
	SLOT(type, offsetof(struct csv_row, change.member))
#define RECORD_SLOT(id, member, type, ...)                                               \
	SLOT(type, offsetof(struct csv_row, record.member))

static const struct value_slot SLOTS[] = {
    INVENTORY_FIELDS(ITEM_SLOT, ITEM_SLOT, RECORD_SLOT)};

enum { SLOT_COUNT = sizeof SLOTS / sizeof SLOTS[0] };

_Static_assert(SLOT_COUNT <= 64, "a bit each");
_Static_assert(VALUE_TEXT < VALUE_KIND && VALUE_NAME < VALUE_KIND, "words come first");

struct csv_row
csv_row_blank(void)
{
	return (struct csv_row){
	    .change = blank_change(),
	    .record = {.station = "", .certificate = "", .price_minor = -1},
	};
}

/* Adds a value unless it is blank. */
static bool
add_value(const struct value_slot *slot, const struct csv_row *row,
    const struct csv_row *blank, struct text *out)
{
	const char *value = (const char *)row + slot->offset;
	if (slot->size > 0) {
		if (memcmp(value, (const char *)blank + slot->offset, slot->size) == 0) {
			return false;
		}
		text_add_bytes(out, value, slot->size);
		return true;
	}
	const char *words = NULL;
	memcpy(&words, value, sizeof words);
	if (words == NULL || words[0] == '\0') {
		return false;
	}
	text_add_bytes(out, words, strlen(words) + 1);
	return true;
}

static void
pack(const struct csv_row *row, const struct csv_row *blank, struct text *out)
{
	struct head head = {.line = row->line,
	    .set = row->change.set,
	    .given = row->given,
	    .has_record = row->has_record,
	    .implied = row->implied,
	    .tag_made = row->tag_made,
	    .further = row->further};
	size_t start = out->length;
	text_add_bytes(out, (const char *)&head, sizeof head);
	for (size_t i = 0; i < SLOT_COUNT; i++) {
		if (add_value(&SLOTS[i], row, blank, out)) {
			head.values |= (uint64_t)1 << i;
		}
	}
	head.length = out->length - start;
	memcpy(out->bytes + start, &head, sizeof head);
}

/* Takes a value into its place; returns what comes after it. */
static const char *
take_value(const struct value_slot *slot, const char *at, struct csv_row *row)
{
	void *value = (char *)row + slot->offset;
	if (slot->size > 0) {
		memcpy(value, at, slot->size);
		return at + slot->size;
	}
	memcpy(value, &at, sizeof at);
	return at + strlen(at) + 1;
}

size_t
csv_row_unpack(const char *bytes, const struct csv_row *blank, struct csv_row *out)
{
	struct head head;
	memcpy(&head, bytes, sizeof head);
	*out = *blank;
	out->line = head.line;
	out->change.set = head.set;
	out->given = head.given;
	out->has_record = head.has_record;
	out->implied = head.implied;
	out->tag_made = head.tag_made;
	out->further = head.further;
	const char *at = bytes + sizeof head;
	for (uint64_t left = head.values; left != 0; left &= left - 1) {
		at = take_value(&SLOTS[__builtin_ctzll(left)], at, out);
	}
	return head.length;
}

void
csv_rows_clear(struct csv_rows *rows)
{
	csv_digests_clear(&rows->tags);
	spool_clear(&rows->packed);
	text_clear(&rows->packing);
	text_clear(&rows->notes);
	*rows = (struct csv_rows){0};
}

void
csv_rows_add(struct csv_rows *rows, const struct csv_row *row)
{
	const char *tag = row->change.tag;
	if (rows->count == 0) {
		rows->blank = csv_row_blank();
	}
	if (tag != NULL && !row->tag_made) {
		csv_digests_add(&rows->tags, &tag, 1, rows->packed.length, false);
	}
	rows->untagged = rows->untagged || tag == NULL;
	rows->implying = rows->implying || row->implied;
	rows->going_on = rows->going_on || row->further;
	rows->renewing =
	    rows->renewing || (row->has_record && row->record.task == TASK_RENEW);
	rows->count++;
	text_reset(&rows->packing);
	pack(row, &rows->blank, &rows->packing);
	spool_add(&rows->packed, rows->packing.bytes, rows->packing.length);
}

void
csv_batch_clear(struct csv_batch *batch)
{
	free(batch->items);
	text_clear(&batch->bytes);
	*batch = (struct csv_batch){.rows = batch->rows};
}

/* How many bytes the row behind those that were used has, as far as that is held: of one
 * whose head is not, its head's. */
static size_t
row_length(const struct csv_batch *batch)
{
	struct head head;
	if (batch->bytes.length - batch->used < sizeof head) {
		return sizeof head;
	}
	memcpy(&head, batch->bytes.bytes + batch->used, sizeof head);
	return head.length;
}

/* Reads on, so that the next row is held whole. */
static bool
hold_more(struct csv_batch *batch, struct fault *fault)
{
	enum { USUAL = 64 * 1024 };

	struct text *bytes = &batch->bytes;
	size_t held = bytes->length - batch->used;
	if (held > 0) {
		memmove(bytes->bytes, bytes->bytes + batch->used, held);
	}
	bytes->length = held;
	batch->used = 0;
	for (;;) {
		size_t left = batch->rows->packed.length - batch->next;
		size_t at_once = batch->at_once > 0 ? batch->at_once : USUAL;
		size_t more = LESSER(left, GREATER(at_once, row_length(batch)));
		if (more == 0) {
			return true;
		}
		batch->next += more;
		if (!spool_read(&batch->rows->packed, batch->next - more,
			text_grow(bytes, more), more, fault)) {
			return false;
		}
		if (bytes->length >= row_length(batch)) {
			return true;
		}
	}
}

/* True where the next row is held whole. */
static bool
holds_row(const struct csv_batch *batch)
{
	return batch->bytes.length - batch->used >= row_length(batch);
}

static void
take_row(struct csv_batch *batch, struct csv_row *out)
{
	size_t length =
	    csv_row_unpack(batch->bytes.bytes + batch->used, &batch->rows->blank, out);
	out->at = batch->next - batch->bytes.length + batch->used;
	batch->used += length;
}

/* How many rows are taken of those that are held whole. */
static size_t
rows_to_take(struct csv_batch *batch)
{
	const size_t used = batch->used;
	size_t count = 0;
	for (; holds_row(batch); count++) {
		batch->used += row_length(batch);
	}
	batch->used = used;
	bool cut = batch->next < batch->rows->packed.length && batch->cut > 0 &&
		   count > batch->cut;
	return cut ? count - count % batch->cut : count;
}

bool
csv_batch_next(struct csv_batch *batch, struct fault *fault)
{
	batch->count = 0;
	if (!hold_more(batch, fault)) {
		return false;
	}
	for (size_t left = rows_to_take(batch); left > 0; left--) {
		ARRAY_ROOM(batch);
		take_row(batch, &batch->items[batch->count++]);
	}
	return true;
}

const char *
csv_batch_packed(const struct csv_batch *batch, size_t index, size_t *length_out)
{
	size_t first = batch->next - batch->bytes.length;
	const char *bytes = batch->bytes.bytes + (batch->items[index].at - first);
	struct head head;
	memcpy(&head, bytes, sizeof head);
	*length_out = head.length;
	return bytes;
}

bool
csv_rows_each(
    const struct csv_rows *rows, csv_row_take *take, void *context, struct fault *fault)
{
	SCOPED_BATCH batch = {.rows = rows};
	struct csv_row row;
	do {
		if (!hold_more(&batch, fault)) {
			return false;
		}
		while (holds_row(&batch)) {
			take_row(&batch, &row);
			if (!take(&row, context, fault)) {
				return false;
			}
		}
	} while (batch.used > 0);
	return true;
}

bool
csv_rows_at(const struct csv_rows *rows, size_t at, struct arena *arena,
    struct csv_row *out, struct fault *fault)
{
	struct head head;
	if (!spool_read(&rows->packed, at, (char *)&head, sizeof head, fault)) {
		return false;
	}
	char *bytes = arena_alloc(arena, head.length);
	if (!spool_read(&rows->packed, at, bytes, head.length, fault)) {
		return false;
	}
	(void)csv_row_unpack(bytes, &rows->blank, out);
	out->at = at;
	return true;
}
