/* Writing gear, and what is on record about it. */
#include "book/call.h"

#include <string.h>

/* How deep parts may be inside one another; a chain that is longer is taken for a loop. */
enum { DEEPEST = 32 };

static bool
has(const struct item_change *change, enum item_field field)
{
	return (change->set & 1U << field) != 0;
}

static void
give_text_if(struct call *call, const struct item_change *change, enum item_field field,
    const char *text)
{
	give_text(call, !has(change, field) ? NULL : text == NULL ? "" : text);
}

static void
give_stamp_if(struct call *call, const struct item_change *change, enum item_field field,
    const struct stamp *stamp)
{
	give_stamp(call, has(change, field) ? stamp : NULL);
}

static void
give_day_if(
    struct call *call, const struct item_change *change, enum item_field field, day_t day)
{
	has(change, field) ? give_day(call, day) : give_null(call);
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
	give_text_if(&call, change, FIELD_KIND, change->kind);
	give_text_if(&call, change, FIELD_DESCRIPTION, change->description);
	give_text_if(&call, change, FIELD_SERIAL, change->serial);
	give_text_if(&call, change, FIELD_PLACE, change->place);
	give_text_if(&call, change, FIELD_NOTES, change->notes);
	has(change, FIELD_QUANTITY) ? give_int(&call, change->quantity)
				    : give_null(&call);
	has(change, FIELD_PRICE) ? give_int(&call, change->price_minor)
				 : give_null(&call);
	has(change, FIELD_STATE) ? give_code(&call, &PLACE_CODES, change->state)
				 : give_null(&call);
	give_stamp_if(&call, change, FIELD_MADE, &change->made);
	give_stamp_if(&call, change, FIELD_PACKED, &change->packed);
	give_stamp_if(&call, change, FIELD_BOUGHT, &change->bought);
	give_stamp_if(&call, change, FIELD_FITTED, &change->fitted);
	give_stamp_if(&call, change, FIELD_EXPIRES, &change->expires);
	give_text_if(&call, change, FIELD_MAKE, change->make);
	has(change, FIELD_CAPACITY) ? give_int(&call, change->capacity)
				    : give_null(&call);
	give_text_if(&call, change, FIELD_RATING, change->rating);
	give_text_if(&call, change, FIELD_LANDED_TO, change->landed_to);
	give_day_if(&call, change, FIELD_LANDED_ON, change->landed_on);
	give_day_if(&call, change, FIELD_HIRED_UNTIL, change->hired_until);
	has(change, FIELD_BECAUSE) ? give_code(&call, &BECAUSE_CODES, change->because)
				   : give_null(&call);
	give_text_if(&call, change, FIELD_STANDS_FOR, change->stands_for);
	give_int(&call, id);
	return call_run(&call, fault);
}

static bool
add_item(struct book *book, int64_t vessel, const struct item_change *change,
    int64_t *id_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (vessel == 0) {
		return fault_set(fault, FAULT_INPUT, "a new item needs a vessel");
	}
	if (!has(change, FIELD_KIND)) {
		return fault_set(fault, FAULT_INPUT, "a new item needs a kind");
	}
	if (!call_open(book, ITEM_ADD, &call, fault)) {
		return false;
	}
	give_text(&call, change->tag);
	give_int(&call, vessel);
	give_text(&call, change->kind);
	bool row = false;
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*id_out = take_int(&call);
	return true;
}

static bool
check_item(const struct item_change *change, struct fault *fault)
{
	if (!name_check("the tag", change->tag, fault) ||
	    (has(change, FIELD_KIND) && !name_check("the kind", change->kind, fault))) {
		return false;
	}
	if (has(change, FIELD_QUANTITY) && change->quantity < 1) {
		return fault_set(fault, FAULT_INPUT, "quantity is %d; expected 1 or more",
		    change->quantity);
	}
	if (has(change, FIELD_CAPACITY) && change->capacity < 0) {
		return fault_set(fault, FAULT_INPUT, "capacity is %d; expected 0 or more",
		    change->capacity);
	}
	if (has(change, FIELD_PRICE) && change->price_minor < -1) {
		return fault_set(fault, FAULT_INPUT, "price is %lld; expected 0 or more",
		    (long long)change->price_minor);
	}
	return true;
}

static bool
put_item(struct book *book, const struct item_change *change, struct fault *fault)
{
	int64_t vessel = 0;
	int64_t id = 0;
	if (!check_item(change, fault) ||
	    (has(change, FIELD_VESSEL) &&
		!vessel_need(book, change->vessel, &vessel, fault)) ||
	    !call_id(book, ITEM_FIND, change->tag, &id, fault)) {
		return false;
	}
	if (id == 0 && !add_item(book, vessel, change, &id, fault)) {
		return false;
	}
	return change_item(book, id, vessel, change, fault);
}

bool
item_need(struct book *book, const char *tag, int64_t *id_out, struct fault *fault)
{
	int64_t id = 0;
	if (!name_check("the tag", tag, fault) ||
	    !call_id(book, ITEM_FIND, tag, &id, fault)) {
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
is_part(const struct item_change *change)
{
	return has(change, FIELD_PART_OF) && change->part_of != NULL &&
	       change->part_of[0] != '\0';
}

static bool
set_parent(struct book *book, const struct item_change *change, struct fault *fault)
{
	int64_t id = 0;
	int64_t parent = 0;
	if (!item_need(book, change->tag, &id, fault)) {
		return false;
	}
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
check_chain(struct book *book, const struct item_change *change, struct fault *fault)
{
	int64_t id = 0;
	if (!item_need(book, change->tag, &id, fault)) {
		return false;
	}
	for (int depth = 0; depth < DEEPEST; depth++) {
		if (!parent_of(book, id, &id, fault)) {
			return false;
		}
		if (id == 0) {
			return true;
		}
	}
	return fault_set(fault, FAULT_INPUT,
	    "part_of \"%.60s\" makes a loop, or parts more than %d deep", change->part_of,
	    DEEPEST);
}

/* The three passes over a batch. */
typedef bool item_pass(
    struct book *book, const struct item_change *change, struct fault *fault);

static bool
set_parent_if(struct book *book, const struct item_change *change, struct fault *fault)
{
	return !has(change, FIELD_PART_OF) || set_parent(book, change, fault);
}

static bool
check_chain_if(struct book *book, const struct item_change *change, struct fault *fault)
{
	return !is_part(change) || check_chain(book, change, fault);
}

bool
book_put_items(struct book *book, const struct item_change *changes, size_t count,
    size_t *index_out, struct fault *fault)
{
	static item_pass *const PASSES[] = {put_item, set_parent_if, check_chain_if};

	SCOPED_STEP step = {0};
	if (!step_begin(book, &step, fault)) {
		return fault_prefix(fault, "writing items");
	}
	for (size_t pass = 0; pass < sizeof PASSES / sizeof PASSES[0]; pass++) {
		for (size_t i = 0; i < count; i++) {
			if (PASSES[pass](book, &changes[i], fault)) {
				continue;
			}
			if (index_out != NULL) {
				*index_out = i;
			}
			return fault_prefix(fault, "item \"%.60s\"",
			    changes[i].tag == NULL ? "" : changes[i].tag);
		}
	}
	return step_keep(&step, fault) || fault_prefix(fault, "writing items");
}
