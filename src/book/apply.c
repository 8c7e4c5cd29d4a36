/* Applying a change of the journal to a book, or taking it back: a row is added or
 * removed, or some of its columns are set. */
#include "book/journal_inside.h"

#include <stdlib.h>
#include <string.h>

void
applying_clear(struct applying *applying)
{
	prepared_drop(applying->prepared);
	text_clear(&applying->sql);
	text_clear(&applying->prepared_text);
	free(applying->values.items);
	*applying = (struct applying){0};
}

size_t
change_column(
    const struct row_change *change, const struct table_shape *shape, size_t column)
{
	if (change->names != NULL) {
		return shape_column(shape, change->names[column]);
	}
	return column < shape->count ? column : shape->count;
}

bool
change_fits(const struct row_change *change, const struct table_shape *shape)
{
	size_t keys = 0;
	for (size_t i = 0; i < change->count; i++) {
		size_t column = change_column(change, shape, i);
		bool keyed = change->key[i] != 0;
		if (column == shape->count ||
		    (shape->columns[column].key != 0) != keyed) {
			return false;
		}
		keys += keyed ? 1 : 0;
	}
	for (size_t i = 0; i < shape->count; i++) {
		keys -= shape->columns[i].key != 0 ? 1 : 0;
	}
	return keys == 0;
}

/* ---- the statement's text ---- */

/* Nothing in the text comes from the change: tables and columns are the schema's own words. */
static void
add_column(struct applying *applying, const struct table_shape *shape,
    const struct row_change *change, size_t column)
{
	add_quoted(
	    &applying->sql, shape->columns[change_column(change, shape, column)].name);
}

static void
add_value(struct applying *applying, const struct value *value)
{
	text_add_byte(&applying->sql, '?');
	ARRAY_ADD(&applying->values, *value);
}

/* "WHERE key = ? AND column IS NOT DISTINCT FROM ?", of all that is said of the row. */
static void
add_condition(struct applying *applying, const struct table_shape *shape,
    const struct row_change *change, const struct value *found)
{
	const char *between = " WHERE ";
	for (size_t i = 0; i < change->count; i++) {
		bool keyed = change->key[i] != 0;
		const struct value *value = keyed ? &change_row(change)[i] : &found[i];
		if (value->held == HELD_UNSAID || (applying->over && !keyed)) {
			continue;
		}
		text_add(&applying->sql, between);
		add_column(applying, shape, change, i);
		text_add(&applying->sql, keyed ? " = " : " IS NOT DISTINCT FROM ");
		add_value(applying, value);
		between = " AND ";
	}
}

static void
begin_statement(
    struct applying *applying, const char *verb, const struct table_shape *shape)
{
	text_reset(&applying->sql);
	applying->values.count = 0;
	text_add(&applying->sql, verb);
	add_quoted(&applying->sql, shape->name);
}

static void
write_insert(struct applying *applying, const struct table_shape *shape,
    const struct row_change *change)
{
	begin_statement(applying, "INSERT INTO ", shape);
	const char *between = " (";
	for (size_t i = 0; i < change->count; i++) {
		text_add(&applying->sql, between);
		add_column(applying, shape, change, i);
		between = ", ";
	}
	between = ") VALUES (";
	for (size_t i = 0; i < change->count; i++) {
		text_add(&applying->sql, between);
		add_value(applying, &change_row(change)[i]);
		between = ", ";
	}
	text_add(&applying->sql, ")");
}

static void
write_delete(struct applying *applying, const struct table_shape *shape,
    const struct row_change *change)
{
	begin_statement(applying, "DELETE FROM ", shape);
	add_condition(applying, shape, change, change_row(change));
}

static void
write_update(struct applying *applying, const struct table_shape *shape,
    const struct row_change *change)
{
	const struct value *found = applying->back ? change->is : change->was;
	const struct value *wanted = applying->back ? change->was : change->is;
	const char *between = " SET ";
	begin_statement(applying, "UPDATE ", shape);
	for (size_t i = 0; i < change->count; i++) {
		if (change->key[i] == 0 && wanted[i].held != HELD_UNSAID) {
			text_add(&applying->sql, between);
			add_column(applying, shape, change, i);
			text_add(&applying->sql, " = ");
			add_value(applying, &wanted[i]);
			between = ", ";
		}
	}
	add_condition(applying, shape, change, found);
}

/* ---- running it ---- */

static bool
prepare(struct applying *applying, struct fault *fault)
{
	struct database *database = applying->book->database;
	const char *sql = text_string(&applying->sql);
	if (applying->prepared != NULL &&
	    strcmp(sql, text_string(&applying->prepared_text)) == 0) {
		return true;
	}
	prepared_drop(applying->prepared);
	text_reset(&applying->prepared_text);
	text_add(&applying->prepared_text, sql);
	applying->prepared = database_prepare(database, sql, false);
	return applying->prepared != NULL || database_fault(database, fault);
}

/* The count includes rows that a reference removes with it: only one is meant. */
static bool
run(struct applying *applying, enum applied *out, struct fault *fault)
{
	struct database *database = applying->book->database;
	int64_t before = database_changes(database);
	uint64_t sum = applying->book->sum;
	if (!prepare(applying, fault)) {
		return false;
	}
	struct prepared *prepared = applying->prepared;
	for (size_t i = 0; i < applying->values.count; i++) {
		prepared->values[i] = applying->values.items[i];
	}
	bool ran = prepared_give(prepared) && prepared_step(prepared) == STEPPED_END;
	if (!ran) { /* rows that it had changed are as they were */
		applying->book->sum = sum;
	}
	bool held_back = !ran && database_trouble(database) == DATABASE_CONSTRAINT;
	*out = held_back                                  ? APPLIED_LATER
	       : database_changes(database) - before == 1 ? APPLIED
							  : APPLIED_OTHERWISE;
	ran = ran || held_back || database_fault(database, fault);
	prepared_reset(prepared);
	return ran;
}

bool
change_apply(struct applying *applying, const struct table_shape *shape,
    const struct row_change *change, enum applied *out, struct fault *fault)
{
	bool goes = (change->act == JOURNAL_REMOVED) != applying->back;
	if (change->act == JOURNAL_CHANGED) {
		write_update(applying, shape, change);
		return run(applying, out, fault);
	}
	if (goes || applying->over) {
		write_delete(applying, shape, change);
	}
	if (goes) {
		return run(applying, out, fault);
	}
	if (applying->over && !run(applying, out, fault)) {
		return false;
	}
	write_insert(applying, shape, change);
	return run(applying, out, fault);
}
