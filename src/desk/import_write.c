/* What an import writes: movements, items some at a time, and their records by day. */
#include "base/numbers.h"
#include "book/putting.h"
#include "desk/inside.h"
#include "exchange/tag_index.h"

#include <stdlib.h>
#include <string.h>

/* A row that says another boat or another state than the book tells of a movement, on the
 * day the book learns of it. */
static bool
write_movement(struct desk *desk, const struct csv_row *row, const struct item *item,
    struct fault *fault)
{
	const struct item_change *change = &row->change;
	const char *vessel = desk->contents.inventory.vessels[item->vessel].name;
	enum move move = MOVE_CARRIED;
	bool carried = (change->set & 1U << FIELD_VESSEL) != 0 &&
		       strcmp(change->vessel, vessel) != 0;
	struct movement movement = life_movement(MOVE_CARRIED, desk->today, "");
	movement.vessel = carried ? change->vessel : vessel;
	if (carried && !book_add_movement(desk->book, change->tag, &movement, fault)) {
		return false;
	}
	if (!life_state_move(item, change, &move)) {
		return true;
	}
	movement.move = move;
	movement.because = change->because;
	movement.station = move == MOVE_LANDED ? change->landed_to : item->landed_to;
	return book_add_movement(desk->book, change->tag, &movement, fault);
}

/* Movements of rows that are about gear of the book. */
struct moving {
	struct desk *desk;
	struct tag_index index;
};

static bool
move_row(struct csv_row *row, void *context, struct fault *fault)
{
	const struct moving *moving = context;
	const struct inventory *inventory = &moving->desk->contents.inventory;
	size_t at = tag_index_find(&moving->index, row->change.tag);
	return at == ITEM_NO_PARENT || row->further ||
	       write_movement(moving->desk, row, &inventory->items[at], fault);
}

static bool
write_movements(struct desk *desk, const struct csv_rows *rows, struct fault *fault)
{
	struct moving moving = {.desk = desk};
	if (desk->contents.inventory.item_count == 0) {
		return true;
	}
	tag_index_make(&desk->contents.inventory, &moving.index);
	bool written = csv_rows_each(rows, move_row, &moving, fault);
	tag_index_clear(&moving.index);
	return written;
}

/* A record that was gathered: its day, and where it is packed, the earlier rows' first. */
struct dated {
	day_t day;
	size_t at;
	size_t length;
};

/* So many bytes of records are gathered, and then made a run. */
enum { RUN_GATHERED = 512 * 1024 };

/* What is put of a row. */
struct chosen {
	struct item_change change;
	const struct csv_row *row;
};

/* The writing of items and records. */
struct import_writing {
	struct desk *desk;
	const struct csv_rows *rows;
	struct runs records; /* the rows with records, packed, by day and line */

	struct dated_list {
		struct dated *items; /* owned; not yet in a run */
		size_t count;
		size_t capacity;
	} dated;

	/* owned: what is put of the rows at hand, and the numbers of these items */
	struct chosen_list {
		struct chosen *items;
		size_t count;
		size_t capacity;
	} chosen;

	struct number_list {
		int64_t *items;
		size_t count;
		size_t capacity;
	} numbers;

	bool fresh;         /* the book had no gear */
	bool later;         /* a part was put before its whole */
	struct text packed; /* records that are gathered, then those that are told next */
	/* of the latter */
	struct csv_row *told;
	size_t told_count;
	struct fault *fault;
	bool failed;
};

/* So many records are told to the book at once. */
enum { TOLD_AT_ONCE = 500 };

/* Which of a row's fields are put: all, all but the serial number where renewals follow,
 * the whole alone. */
enum putting_what { PUT_ALL, PUT_BUT_SERIALS, PUT_WHOLES };

static int
by_day(const void *a, const void *b)
{
	const struct dated *x = a;
	const struct dated *y = b;
	return ORDER_THEN(ORDER(x->day, y->day), x->at, y->at);
}

/* Makes a run of the records that were gathered. Each run takes memory when they are merged, so
 * there are few. */
static void
end_run(struct import_writing *writing)
{
	struct dated_list *dated = &writing->dated;
	ARRAY_SORT(dated->items, dated->count, by_day);
	for (size_t i = 0; i < dated->count; i++) {
		const struct dated *one = &dated->items[i];
		runs_add(&writing->records,
		    &(struct run_piece){
			one->day, writing->packed.bytes + one->at, one->length, NULL});
	}
	runs_end(&writing->records);
	dated->count = 0;
	text_reset(&writing->packed);
}

/* Gathers a row with its record; `number` is that of its item, 0 where that is not known. */
static void
gather_record(struct import_writing *writing, const struct csv_batch *batch, size_t index,
    int64_t number)
{
	struct text *packed = &writing->packed;
	size_t at = packed->length;
	size_t length = 0;
	const char *bytes = csv_batch_packed(batch, index, &length);
	text_add_bytes(packed, (const char *)&number, sizeof number);
	text_add_bytes(packed, bytes, length);
	ARRAY_ADD(
	    &writing->dated, (struct dated){stamp_first(batch->items[index].record.on),
				 at, packed->length - at});
}

/* Gathers the records of some rows, of which those that were chosen have been put. */
static void
gather_records(struct import_writing *writing, const struct csv_batch *batch)
{
	const struct chosen_list *chosen = &writing->chosen;
	size_t next = 0;
	for (size_t i = 0; i < batch->count; i++) {
		const struct csv_row *row = &batch->items[i];
		bool put = next < chosen->count && chosen->items[next].row == row;
		if (row->has_record) {
			gather_record(
			    writing, batch, i, put ? writing->numbers.items[next] : 0);
		}
		next += put;
	}
	if (writing->packed.length >= RUN_GATHERED) {
		end_run(writing);
	}
}

/* Chooses those rows of a batch that are put, and of these what is. */
static void
choose(
    struct import_writing *writing, const struct csv_batch *batch, enum putting_what what)
{
	writing->chosen.count = 0;
	writing->numbers.count = 0;
	for (size_t i = 0; i < batch->count; i++) {
		const struct csv_row *row = &batch->items[i];
		struct chosen chosen = {.change = row->change, .row = row};
		bool part = (row->change.set & 1U << FIELD_PART_OF) != 0 &&
			    row->change.part_of[0] != '\0';
		/* a further row says of the item what the first has said */
		if (row->further || (what == PUT_WHOLES && !part)) {
			continue;
		}
		if (what == PUT_BUT_SERIALS) {
			chosen.change.set &= ~(1U << FIELD_SERIAL);
		} else if (what == PUT_WHOLES) {
			chosen.change.set = 1U << FIELD_PART_OF;
		}
		ARRAY_ADD(&writing->chosen, chosen);
		ARRAY_ADD(&writing->numbers, 0);
	}
}

static bool
put_chosen(struct import_writing *writing, bool first, struct fault *fault)
{
	size_t wrong = 0;
	const struct chosen_list *chosen = &writing->chosen;
	if (chosen->count == 0) {
		return true;
	}
	const struct item_batch batch = {.first = &chosen->items[0].change,
	    .size = sizeof chosen->items[0],
	    .count = chosen->count,
	    .fresh = first && writing->fresh,
	    /* a further row brings no item */
	    .new_ones =
		writing->fresh && !writing->rows->going_on ? writing->rows->count : 0,
	    .later = first ? &writing->later : NULL,
	    .numbers = writing->numbers.items};
	return book_put_batch(writing->desk->book, &batch, &wrong, fault) ||
	       (wrong < chosen->count &&
		   fault_prefix(fault, "line %zu", chosen->items[wrong].row->line));
}

/* Puts the items of all rows; the first time their records are gathered, too. */
static bool
put_items(struct import_writing *writing, enum putting_what what, bool first,
    struct fault *fault)
{
	SCOPED_BATCH batch = {.rows = writing->rows, .cut = ITEMS_TOGETHER};
	for (;;) {
		if (!csv_batch_next(&batch, fault)) {
			return false;
		}
		if (batch.count == 0) {
			if (first) {
				end_run(writing);
			}
			return true;
		}
		choose(writing, &batch, what);
		if (!put_chosen(writing, first, fault)) {
			return false;
		}
		if (first) {
			gather_records(writing, &batch);
		}
	}
}

/* Tells the book of the records that were gathered. */
static bool
tell(struct import_writing *writing, struct fault *fault)
{
	struct tagged_record told[TOLD_AT_ONCE];
	const char *at = writing->packed.bytes;
	size_t count = writing->told_count;
	size_t wrong = count;
	for (size_t i = 0; i < count; i++) {
		struct csv_row *row = &writing->told[i];
		int64_t number = 0;
		memcpy(&number, at, sizeof number);
		at += sizeof number;
		at += csv_row_unpack(at, &writing->rows->blank, row);
		told[i] = (struct tagged_record){row->change.tag, number, &row->record};
	}
	writing->told_count = 0;
	if (count > 0 &&
	    !book_add_records(writing->desk->book, told, count, &wrong, fault)) {
		return wrong == count
			   ? false
			   : fault_prefix(fault, "line %zu", writing->told[wrong].line);
	}
	text_reset(&writing->packed);
	return true;
}

static void
take_record(const struct run_piece *piece, void *context)
{
	struct import_writing *writing = context;
	if (writing->failed) {
		return;
	}
	text_add_bytes(&writing->packed, piece->bytes, piece->length);
	writing->told_count++;
	writing->failed =
	    writing->told_count == TOLD_AT_ONCE && !tell(writing, writing->fault);
}

/* Adds the rows' records, the oldest first. */
static bool
write_records(struct import_writing *writing, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	writing->told = ARENA_MANY(&arena, struct csv_row, TOLD_AT_ONCE);
	writing->fault = fault;
	text_reset(&writing->packed);
	return runs_merge(&writing->records, take_record, writing, fault) &&
	       !writing->failed && tell(writing, fault);
}

/* Writes all items, then their records; then, where a renewal has put a new thing in an
 * old place, that row's dates and serial number again, for a renewal clears them. The
 * number of the new thing is not written before that, so that it is not kept as the old
 * one's. */
static bool
write_rows(struct import_writing *writing, struct fault *fault)
{
	bool renewing = writing->rows->renewing;
	size_t most = 0;
	if (!book_items_most(writing->desk->book, &most, fault)) {
		return false;
	}
	writing->fresh = most == 0;
	return put_items(writing, renewing ? PUT_BUT_SERIALS : PUT_ALL, true, fault) &&
	       (!writing->later || put_items(writing, PUT_WHOLES, false, fault)) &&
	       write_records(writing, fault) &&
	       (!renewing || put_items(writing, PUT_ALL, false, fault));
}

bool
import_write(struct desk *desk, const struct csv_rows *rows, struct fault *fault)
{
	struct import_writing writing = {.desk = desk, .rows = rows};
	bool written = write_movements(desk, rows, fault) && write_rows(&writing, fault);
	/* a thing that has several records, or was renewed, has its dates reckoned from the book */
	if (written && writing.fresh && !rows->going_on && !rows->renewing) {
		desk->written = rows;
	}
	runs_clear(&writing.records);
	free(writing.dated.items);
	free(writing.chosen.items);
	free(writing.numbers.items);
	text_clear(&writing.packed);
	return written;
}
