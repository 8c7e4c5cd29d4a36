/* Adding items, of a list some at a time. */
#include "base/numbers.h"
#include "book/journal_inside.h"
#include "book/putting.h"
#include "book/rows.h"

#include <string.h>

_Static_assert((int)ITEMS_TOGETHER == (int)ROWS_MANY, "as putting.h tells other rooms");

#define COLUMNS_OF(id, member, type, ...)                                                \
	[FIELD_##id] = JOIN(LIST_, SHAPE_##type)("", #member, ""),

static const char *const COLUMNS_TOLD[FIELD_COUNT] = {
    INVENTORY_FIELDS(FIELD_NOTHING, COLUMNS_OF, FIELD_NOTHING)};

void
items_waiting_clear(struct items_waiting *waiting)
{
	text_clear(&waiting->sql);
}

void
items_waiting_find(const struct items_waiting *waiting, struct new_item *part)
{
	part->above = WHOLES_MOST;
	for (size_t i = 0; i < waiting->count; i++) {
		const struct new_item *whole = &waiting->rows[i];
		if (strcmp(whole->change->tag, part->change->part_of) == 0) {
			part->whole = whole->id;
			part->above = LESSER(whole->above + 1, WHOLES_MOST);
			return;
		}
	}
}

/* Whether the statement for many names a field: what no item of the list tells is left to
 * the schema, which has the same. */
static bool
is_named(const struct items_waiting *waiting, size_t field)
{
	return !ITEM_FIELDS[field].link && (waiting->told & 1U << field) != 0;
}

/* Adds the names of the columns that items of the list may have otherwise than the schema has
 * them, and says how many. */
static size_t
add_columns(const struct items_waiting *waiting, struct text *out)
{
	size_t count = 4;
	text_add(out, "id, tag, vessel_id, parent_id");
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (is_named(waiting, i)) {
			text_add(out, COLUMNS_TOLD[i]);
			count += ITEM_FIELDS[i].type == VALUE_STAMP ? 3 : 1;
		}
	}
	return count;
}

/* The same columns as struct collected has them. */
static uint64_t
columns_named(const struct items_waiting *waiting)
{
	const struct table_shape *item = shape_known("item");
	SCOPED_TEXT names = {0};
	SCOPED_TEXT name = {0};
	uint64_t named = 0;
	(void)add_columns(waiting, &names);
	for (const char *at = text_string(&names); *at != '\0'; at += strspn(at, ", ")) {
		size_t length = strcspn(at, ", ");
		text_reset(&name);
		text_add_bytes(&name, at, length);
		named |= (uint64_t)1 << shape_column(item, text_string(&name));
		at += length;
	}
	return named;
}

static void
word_statement(struct items_waiting *waiting)
{
	struct text *sql = &waiting->sql;
	text_add(sql, "INSERT INTO item (");
	size_t values = add_columns(waiting, sql);
	for (size_t i = 0; i < ROWS_MANY * values; i++) {
		text_add(sql, i == 0 ? ") VALUES (?" : i % values == 0 ? "), (?" : ", ?");
	}
	text_add_byte(sql, ')');
}

/* Gives an item's own values and those of its fields: all, or those that the statement
 * for many names. */
static void
give_item(struct call *call, const struct items_waiting *waiting,
    const struct new_item *item, bool all)
{
	const struct item_change *change = item->change;
	give_int(call, item->id);
	give_text(call, change->tag);
	give_int(call, item->vessel);
	item->whole != 0 ? give_int(call, item->whole) : give_null(call);
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (all ? !ITEM_FIELDS[i].link : is_named(waiting, i)) {
			bool told = (change->set & 1U << i) != 0;
			give_field(
			    call, &ITEM_FIELDS[i], told ? change : &waiting->nothing);
		}
	}
}

/* Runs a statement that adds items of the list. */
static bool
run_named(struct call *call, struct items_waiting *waiting, struct fault *fault)
{
	if (waiting->named == 0) {
		waiting->named = columns_named(waiting);
	}
	waiting->book->told.named = waiting->named;
	bool run = call_run(call, fault);
	waiting->book->told.named = 0;
	return run;
}

static bool
add_many(struct items_waiting *waiting, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (waiting->sql.length == 0) {
		word_statement(waiting);
	}
	if (!call_open_kept(waiting->book, text_string(&waiting->sql), &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < ROWS_MANY; i++) {
		give_item(&call, waiting, &waiting->rows[i], false);
	}
	call.rows = ROWS_LISTED;
	call.listed = ROWS_MANY;
	return run_named(&call, waiting, fault);
}

static bool
add_one(struct items_waiting *waiting, const struct new_item *item, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(waiting->book, ITEM_ADD, &call, fault)) {
		return false;
	}
	give_item(&call, waiting, item, true);
	return run_named(&call, waiting, fault);
}

bool
items_waiting_end(struct items_waiting *waiting, struct fault *fault)
{
	size_t count = waiting->count;
	waiting->count = 0;
	if (count == ROWS_MANY) {
		waiting->at_fault = ITEM_UNKNOWN;
		return add_many(waiting, fault);
	}
	for (size_t i = 0; i < count; i++) {
		waiting->at_fault = waiting->rows[i].index;
		if (!add_one(waiting, &waiting->rows[i], fault)) {
			return false;
		}
	}
	return true;
}

static bool
check_new(const struct item_change *change, struct fault *fault)
{
	if (!name_check_new("the tag", change->tag, TAG_LONGEST, fault)) {
		return false;
	}
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (ITEM_FIELDS[i].needed && (change->set & 1U << i) == 0) {
			return fault_set(fault, FAULT_INPUT, "a new item needs a %s",
			    ITEM_FIELDS[i].name);
		}
	}
	return true;
}

/* Before it waits, so that the fault is told of this item. */
static bool
check_texts(const struct item_change *change, struct fault *fault)
{
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		bool told = (change->set & 1U << i) != 0 && !ITEM_FIELDS[i].link;
		if (told && !field_is_utf8(&ITEM_FIELDS[i], change)) {
			return fault_set(fault, FAULT_INPUT, "a text is not valid UTF-8");
		}
	}
	return true;
}

bool
items_waiting_add(
    struct items_waiting *waiting, struct new_item *item, struct fault *fault)
{
	waiting->at_fault = item->index;
	if (!check_new(item->change, fault) || !check_texts(item->change, fault) ||
	    !number_next(waiting->book, NUMBERED_ITEM, &item->id, fault)) {
		return false;
	}
	waiting->rows[waiting->count++] = *item;
	return (waiting->many && waiting->count < ROWS_MANY) ||
	       items_waiting_end(waiting, fault);
}
