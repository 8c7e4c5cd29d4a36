/* Splitting a lot. What is copied goes by tables.h, so that a new column or table is
 * copied without further code. */
#include "base/text.h"
#include "book/journal_inside.h"
#include "book/putting.h"
#include "book/rows.h"

#include <string.h>

/* The rows of one table that are copied. */
struct copying_rows {
	struct book *book;
	int64_t from;
	int64_t to;      /* the new item's number */
	const char *tag; /* the new item's */
	int quantity;
};

/* Adds the expression for a column: what is copied is the column itself. `$1` is the new item,
 * `$2` the old one, `$3` the tag, `$4` the quantity and `$5` the first number of the
 * table. A paper goes to the copy of its record. */
static void
add_value(struct text *sql, const char *table, const char *column)
{
	bool item = strcmp(table, "item") == 0;
	if (strcmp(column, "id") == 0) {
		text_add(sql, "$5 - 1 + ROW_NUMBER() OVER (ORDER BY id)");
	} else if (strcmp(column, "item_id") == 0) {
		text_add(sql, "$1");
	} else if (item && strcmp(column, "tag") == 0) {
		text_add(sql, "$3");
	} else if (item && strcmp(column, "quantity") == 0) {
		text_add(sql, "$4");
	} else if (item && strcmp(column, "split_from") == 0) {
		text_add(sql, "$2");
	} else if (item && strcmp(column, "to_buy") == 0) {
		text_add(sql, "''"); /* it was asked for once */
	} else if (strcmp(column, "record_id") == 0) {
		text_add(sql,
		    "(SELECT fresh.id FROM record AS fresh JOIN record AS old ON old.id = "
		    "paper.record_id WHERE fresh.item_id = $1 AND fresh.on_day = old.on_day "
		    "AND fresh.task = old.task AND fresh.certificate = old.certificate "
		    "AND fresh.next_day = old.next_day "
		    "AND fresh.next_wording = old.next_wording)");
	} else {
		add_quoted(sql, column);
	}
}

/* "INSERT INTO record (...) SELECT ... FROM record WHERE item_id = $2 ORDER BY 1". All
 * five stand at its beginning, so that they are its parameters in order whichever of them
 * a table needs. */
static void
copy_text(const struct table_shape *shape, struct text *sql)
{
	SCOPED_TEXT values = {0};
	bool item = strcmp(shape->name, "item") == 0;
	const char *between = "";
	text_add(sql, "WITH given AS (SELECT $1, $2, $3, $4, $5) INSERT INTO ");
	add_quoted(sql, shape->name);
	text_add(sql, " (");
	for (size_t i = 0; i < shape->count; i++) {
		const char *column = shape->columns[i].name;
		text_add(sql, between);
		add_quoted(sql, column);
		text_add(&values, between);
		add_value(&values, shape->name, column);
		between = ", ";
	}
	text_add_format(sql, ") SELECT %s FROM ", text_string(&values));
	add_quoted(sql, shape->name);
	text_add_format(sql, " WHERE %s = $2 ORDER BY 1", item ? "id" : "item_id");
}

static bool
copy_table(
    struct copying_rows *rows, const struct table_shape *shape, struct fault *fault)
{
	SCOPED_TEXT sql = {0};
	SCOPED_CALL call = {0};
	enum numbered of = shape->numbered;
	int64_t first = 0;
	int64_t copied = 0;
	if (!number_coming(rows->book, of, &first, fault)) {
		return false;
	}
	copy_text(shape, &sql);
	if (!call_open_text(rows->book, text_string(&sql), &call, fault)) {
		return false;
	}
	give_int(&call, rows->to);
	give_int(&call, rows->from);
	give_text(&call, rows->tag);
	give_int(&call, rows->quantity);
	give_int(&call, first);
	if (!call_run_changed(&call, &copied, fault)) {
		return false;
	}
	rows->book->numbers[of] += of == NUMBERED_ENTRY ? 0 : copied;
	return true;
}

/* Copies what hangs on the item: records first, for papers refer to them. */
static bool
copy_all(struct copying_rows *rows, struct fault *fault)
{
	const struct table_shape *records = shape_known("record");
	if (!number_coming(rows->book, NUMBERED_ITEM, &rows->to, fault) ||
	    !copy_table(rows, shape_known("item"), fault) ||
	    !copy_table(rows, records, fault)) {
		return false;
	}
	for (size_t i = 0; i < TABLE_COUNT; i++) {
		const struct table_shape *shape = &TABLES[i];
		bool owned = shape_column(shape, "item_id") < shape->count;
		if (owned && shape != records && !copy_table(rows, shape, fault)) {
			return false;
		}
	}
	return true;
}

static bool
take_off(struct book *book, int64_t item, int quantity, struct fault *fault)
{
	SCOPED_CALL call = {0};
	int64_t taken = 0;
	if (!call_open(book, LOT_TAKE, &call, fault)) {
		return false;
	}
	give_int(&call, quantity);
	give_int(&call, item);
	return call_run_changed(&call, &taken, fault) &&
	       (taken > 0 ||
		   fault_set(fault, FAULT_INPUT,
		       "expected fewer pieces than the lot has, found %d", quantity));
}

bool
book_split_item(struct book *book, const char *tag, const char *new_tag, int quantity,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	struct copying_rows rows = {.book = book, .tag = new_tag, .quantity = quantity};
	if (!name_check_new("the tag", new_tag, TAG_LONGEST, fault) ||
	    !writing_begin(book, &writing, fault) ||
	    !item_need(book, tag, &rows.from, fault) ||
	    !take_off(book, rows.from, quantity, fault)) {
		return fault_prefix(fault, "splitting %.60s", tag);
	}
	return (copy_all(&rows, fault) && writing_keep(&writing, fault)) ||
	       fault_prefix(fault, "splitting %.60s", tag);
}
