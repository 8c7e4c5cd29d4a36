/* Writing gear, and what is on record about it. */
#include "base/numbers.h"
#include "book/journal_inside.h"
#include "book/putting.h"
#include "book/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool
has(const struct item_change *change, enum item_field field)
{
	return (change->set & 1U << field) != 0;
}

static bool
change_item(struct book *book, int64_t id, int64_t vessel,
    const struct item_change *change, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, ITEM_CHANGE, &call, fault)) {
		return false;
	}
	vessel != 0 ? give_int(&call, vessel) : give_null(&call);
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (!ITEM_FIELDS[i].link) {
			bool told = has(change, (enum item_field)i);
			give_field(&call, &ITEM_FIELDS[i], told ? change : NULL);
		}
	}
	give_int(&call, id);
	return call_run(&call, fault);
}

/* What is known of a change when its item has been put. */
struct put {
	int64_t id;   /* the item's */
	bool added;   /* it was not in the book */
	bool settled; /* it was added as the part of the whole it names */
	int above;    /* as struct new_item has it */
};

/* The work on many. */
struct putting {
	struct book *book;
	const struct item_batch *batch;
	const bool *again; /* by index: an earlier one has its tag */
	struct put *put;   /* by index */
	struct items_waiting waiting;
	bool tied;          /* an item was put into another whole than it was added in */
	const char *vessel; /* the last one named, "" for none; borrowed */
	int64_t vessel_id;
};

static const struct item_change *
change_at(const struct putting *putting, size_t index)
{
	const struct item_batch *batch = putting->batch;
	const void *change = (const char *)batch->first + index * batch->size;
	return change;
}

static bool
is_part(const struct item_change *change)
{
	return has(change, FIELD_PART_OF) && change->part_of != NULL &&
	       change->part_of[0] != '\0';
}

/* The number of the item a change names as its whole; 0 for none, and for one that comes later. */
static bool
find_whole(struct book *book, const struct item_change *change, int64_t *id_out,
    struct fault *fault)
{
	return !is_part(change) ||
	       (name_check("the tag", change->part_of, fault) &&
		   call_id(book, ITEM_FIND, change->part_of, id_out, fault)) ||
	       fault_prefix(fault, "part_of");
}

/* Has an item added, as a part where its whole is there already. */
static bool
add_item(struct putting *putting, size_t index, struct fault *fault)
{
	struct new_item item = {
	    .change = change_at(putting, index),
	    .index = index,
	    .vessel = putting->vessel_id,
	};
	if (is_part(item.change)) {
		items_waiting_find(&putting->waiting, &item);
	}
	if ((item.whole == 0 &&
		!find_whole(putting->book, item.change, &item.whole, fault)) ||
	    !items_waiting_add(&putting->waiting, &item, fault)) {
		return false;
	}
	putting->put[index] = (struct put){item.id, true, item.whole != 0, item.above};
	return true;
}

static bool
check_item(const struct item_change *change, struct fault *fault)
{
	if (!name_check("the tag", change->tag, fault) ||
	    (has(change, FIELD_KIND) && !name_check("the kind", change->kind, fault))) {
		return false;
	}
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (has(change, (enum item_field)i) && !ITEM_FIELDS[i].link &&
		    !field_check(&ITEM_FIELDS[i], change, fault)) {
			return false;
		}
	}
	return true;
}

/* The number of the vessel named, which a list says many times over. */
static bool
find_vessel(struct putting *putting, const char *name, struct fault *fault)
{
	if (name == NULL || strcmp(name, putting->vessel) != 0) {
		if (!vessel_need(putting->book, name, &putting->vessel_id, fault)) {
			return false;
		}
		putting->vessel = name;
	}
	return true;
}

/* The number of the item with this tag; 0 for none. An act names one again and again, and
 * no statement of an act changes a tag or takes an item out: what was found stays true
 * until the transaction ends. */
static bool
find_item(struct book *book, const char *tag, int64_t *id_out, struct fault *fault)
{
	struct item_found *last = &book->found;
	bool known = book->told.listens && strcmp(last->tag, tag) == 0;
	if (!known && !call_id(book, ITEM_FIND, tag, id_out, fault)) {
		return false;
	}
	if (known) {
		*id_out = last->id;
	} else if (*id_out != 0 && strlen(tag) < sizeof last->tag) {
		last->id = *id_out;
		(void)snprintf(last->tag, sizeof last->tag, "%s", tag);
	}
	return true;
}

/* What is added stays before what is changed after it. */
static bool
change_after(struct putting *putting, size_t index, int64_t vessel, struct fault *fault)
{
	if (!items_waiting_end(&putting->waiting, fault)) {
		return false;
	}
	putting->waiting.at_fault = index;
	return change_item(putting->book, putting->put[index].id, vessel,
	    change_at(putting, index), fault);
}

static bool
put_item(struct putting *putting, size_t index, bool again, struct fault *fault)
{
	const struct item_change *change = change_at(putting, index);
	int64_t *id = &putting->put[index].id;
	bool vessel = has(change, FIELD_VESSEL);
	if (!check_item(change, fault) ||
	    (vessel && !find_vessel(putting, change->vessel, fault)) ||
	    ((again || !putting->batch->fresh) &&
		!find_item(putting->book, change->tag, id, fault))) {
		return false;
	}
	return *id == 0
		   ? add_item(putting, index, fault)
		   : change_after(putting, index, vessel ? putting->vessel_id : 0, fault);
}

bool
item_need(struct book *book, const char *tag, int64_t *id_out, struct fault *fault)
{
	int64_t id = 0;
	if (!name_check("the tag", tag, fault) || !find_item(book, tag, &id, fault)) {
		return false;
	}
	if (id == 0) {
		return fault_set(
		    fault, FAULT_INPUT, "no item in the book has the tag \"%.60s\"", tag);
	}
	*id_out = id;
	return true;
}

static bool
set_parent(struct putting *putting, int64_t id, const struct item_change *change,
    struct fault *fault)
{
	struct book *book = putting->book;
	int64_t parent = 0;
	putting->tied = true;
	if (is_part(change) && !item_need(book, change->part_of, &parent, fault)) {
		return fault_prefix(fault, "part_of");
	}
	if (parent == id) {
		return fault_set(fault, FAULT_INPUT,
		    "part_of names the item itself; expected another");
	}
	SCOPED_CALL call = {0};
	if (!call_open(book, ITEM_SET_PARENT, &call, fault)) {
		return false;
	}
	parent != 0 ? give_int(&call, parent) : give_null(&call);
	give_int(&call, id);
	return call_run(&call, fault);
}

static bool
parent_of(struct book *book, int64_t id, int64_t *parent_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, ITEM_PARENT, &call, fault)) {
		return false;
	}
	give_int(&call, id);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*parent_out = row ? take_int(&call) : 0;
	return true;
}

/* Walks up from a part; it must come out at an item that is no part. */
static bool
check_chain(
    struct book *book, int64_t id, const struct item_change *change, struct fault *fault)
{
	for (int depth = 0; depth < WHOLES_MOST; depth++) {
		if (!parent_of(book, id, &id, fault)) {
			return false;
		}
		if (id == 0) {
			return true;
		}
	}
	return fault_set(fault, FAULT_INPUT,
	    "part_of \"%.60s\" makes a loop, or parts more than %d deep", change->part_of,
	    WHOLES_MOST);
}

struct tag_at {
	const char *tag;
	size_t index;
};

static int
compare_tags(const void *a, const void *b)
{
	const struct tag_at *left = a;
	const struct tag_at *right = b;
	int order = strcmp(left->tag, right->tag);
	return ORDER_THEN(order, left->index, right->index);
}

/* By index, whether an earlier one has its tag. */
static const bool *
tags_again(const struct putting *putting, size_t count, struct arena *arena)
{
	struct tag_at *tags = arena_alloc(arena, (count + 1) * sizeof *tags);
	bool *again = arena_alloc(arena, (count + 1) * sizeof *again);
	for (size_t i = 0; i < count; i++) {
		const char *tag = change_at(putting, i)->tag;
		tag = tag == NULL ? "" : tag;
		tags[i] = (struct tag_at){tag, i};
	}
	qsort(tags, count, sizeof *tags, compare_tags);
	for (size_t i = 1; i < count; i++) {
		again[tags[i].index] = strcmp(tags[i].tag, tags[i - 1].tag) == 0;
	}
	return again;
}

/* One thing done with the item of an index; true when it is done. */
typedef bool item_pass(struct putting *putting, size_t index, struct fault *fault);

/* A change to an item that an earlier change of the batch has added is put after
 * those. */
static bool
put_first(struct putting *putting, size_t index, struct fault *fault)
{
	return putting->again[index] || put_item(putting, index, false, fault);
}

static bool
put_again(struct putting *putting, size_t index, struct fault *fault)
{
	return !putting->again[index] || put_item(putting, index, true, fault);
}

/* Has an item be no part until all parts are put once more. */
static bool
put_apart(struct putting *putting, int64_t id, struct fault *fault)
{
	*putting->batch->later = true;
	return set_parent(putting, id, &putting->waiting.nothing, fault);
}

static bool
set_parent_if(struct putting *putting, size_t index, struct fault *fault)
{
	const struct item_change *change = change_at(putting, index);
	const struct put *put = &putting->put[index];
	bool nothing = put->settled || (put->added && !is_part(change));
	if (nothing || !has(change, FIELD_PART_OF)) {
		return true;
	}
	int64_t whole = 0;
	if (putting->batch->later != NULL && is_part(change)) {
		if (!find_whole(putting->book, change, &whole, fault)) {
			return false;
		}
		if (whole == 0) {
			return put->added ? (*putting->batch->later = true)
					  : put_apart(putting, put->id, fault);
		}
	}
	return set_parent(putting, put->id, change, fault);
}

/* Of a part that was added behind all that it is in, and stayed there, nothing is asked. */
static bool
check_chain_if(struct putting *putting, size_t index, struct fault *fault)
{
	int64_t id = putting->put[index].id;
	bool settled = !putting->tied && putting->put[index].above < WHOLES_MOST;
	if (!is_part(change_at(putting, index)) || settled ||
	    check_chain(putting->book, id, change_at(putting, index), fault)) {
		return true;
	}
	/* a later batch may yet take the loop apart */
	if (putting->batch->later == NULL || fault->kind != FAULT_INPUT) {
		return false;
	}
	*fault = (struct fault){0};
	return put_apart(putting, id, fault);
}

/* Tells of which item a fault is, where that is known. */
static bool
tell_fault(const struct putting *putting, size_t *index_out, struct fault *fault)
{
	size_t index = putting->waiting.at_fault;
	if (index_out != NULL) {
		*index_out = index == ITEM_UNKNOWN ? putting->batch->count : index;
	}
	if (index == ITEM_UNKNOWN) {
		return fault_prefix(fault, "writing items");
	}
	const char *tag = change_at(putting, index)->tag;
	return fault_prefix(fault, "item \"%.60s\"", tag == NULL ? "" : tag);
}

static bool
put_all(struct putting *putting, size_t *index_out, struct fault *fault)
{
	static item_pass *const PASSES[] = {
	    put_first, put_again, set_parent_if, check_chain_if};

	for (size_t pass = 0; pass < sizeof PASSES / sizeof PASSES[0]; pass++) {
		for (size_t i = 0; i < putting->batch->count; i++) {
			putting->waiting.at_fault = i;
			if (!PASSES[pass](putting, i, fault)) {
				return tell_fault(putting, index_out, fault);
			}
		}
		if (!items_waiting_end(&putting->waiting, fault)) {
			return tell_fault(putting, index_out, fault);
		}
	}
	return true;
}

/* What is not told, and which fields any item tells. */
static void
begin_waiting(struct putting *putting)
{
	struct items_waiting *waiting = &putting->waiting;
	waiting->book = putting->book;
	waiting->many = putting->batch->count >= ROWS_MANY;
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		field_empty(&ITEM_FIELDS[i], &waiting->nothing);
	}
	for (size_t i = 0; i < putting->batch->count; i++) {
		waiting->told |= change_at(putting, i)->set;
	}
}

bool
book_items_most(struct book *book, size_t *out, struct fault *fault)
{
	int64_t last = 0;
	if (!call_number(book, ITEM_LAST, &last, fault)) {
		return false;
	}
	*out = last > 0 ? (size_t)last : 0;
	return true;
}

bool
book_put_batch(struct book *book, const struct item_batch *batch, size_t *index_out,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_ARENA arena = {0};
	struct putting putting = {
	    .book = book,
	    .batch = batch,
	    .put = ARENA_MANY(&arena, struct put, batch->count),
	    .vessel = "",
	};
	if (index_out != NULL) {
		*index_out = batch->count;
	}
	putting.again = tags_again(&putting, batch->count, &arena);
	begin_waiting(&putting);
	if (!writing_begin(book, &writing, fault)) {
		return fault_prefix(fault, "writing items");
	}
	book->told.large = book->told.large || batch->new_ones > TOUCHED_WITHOUT_RUN;
	bool put = put_all(&putting, index_out, fault);
	items_waiting_clear(&putting.waiting);
	for (size_t i = 0; put && batch->numbers != NULL && i < batch->count; i++) {
		batch->numbers[i] = putting.put[i].id;
	}
	return put &&
	       (writing_keep(&writing, fault) || fault_prefix(fault, "writing items"));
}

bool
book_put_items(struct book *book, const struct item_change *changes, size_t count,
    size_t *index_out, struct fault *fault)
{
	const struct item_batch batch = {
	    .first = changes, .size = sizeof *changes, .count = count};
	return book_put_batch(book, &batch, index_out, fault);
}
