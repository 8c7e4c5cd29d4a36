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

static bool
add_item(struct book *book, int64_t vessel, const struct item_change *change,
    int64_t *id_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!name_check_new("the tag", change->tag, TAG_LONGEST, fault)) {
		return false;
	}
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (ITEM_FIELDS[i].needed && !has(change, (enum item_field)i)) {
			return fault_set(fault, FAULT_INPUT, "a new item needs a %s",
			    ITEM_FIELDS[i].name);
		}
	}
	if (!call_open(book, ITEM_ADD, &call, fault)) {
		return false;
	}
	give_text(&call, change->tag);
	give_int(&call, vessel);
	give_text(&call, change->kind);
	/* found by its tag: RETURNING makes a table of its own for each row, which costs more */
	return call_run(&call, fault) &&
	       call_id(book, ITEM_FIND, change->tag, id_out, fault);
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
