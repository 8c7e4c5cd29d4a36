/* Tables as the schema describes them, and their rows. */
#include "base/memory.h"
#include "book/row_words.h"

#include <stdlib.h>
#include <string.h>

void
wording_clear(struct row_wording *wording)
{
	for (struct table_shape *shape = wording->shapes; shape != NULL;
	     shape = shape->next) {
		(void)sqlite3_finalize(shape->by_key);
	}
	free(wording->items);
	arena_clear(&wording->kept);
	arena_clear(&wording->passing);
	*wording = (struct row_wording){0};
}

/* A default as the schema writes it, without its quotes. */
static const char *
unquoted(struct row_wording *wording, const char *written)
{
	size_t length = strlen(written);
	char *copy = arena_alloc(&wording->kept, length + 1);
	bool quoted = length >= 2 && written[0] == '\'' && written[length - 1] == '\'';
	memcpy(copy, written + quoted, quoted ? length - 2 : length);
	return copy;
}

static void
take_column(struct call *call, struct arena *arena, void *out)
{
	struct column *column = out;
	column->name = take_text(call, arena);
	column->fallback = take_text(call, arena);
	column->key = take_int(call) != 0;
	column->refers = take_text(call, arena);
}

static bool
read_columns(struct row_wording *wording, struct table_shape *shape, struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct column *columns = NULL;
	if (!call_open(wording->book, TABLE_COLUMNS, &call, fault)) {
		return false;
	}
	give_text(&call, shape->name);
	if (!call_rows(&call, &wording->kept, take_column, sizeof *columns, &columns,
		&shape->count, fault)) {
		return false;
	}
	for (size_t i = 0; i < shape->count; i++) {
		columns[i].fallback = unquoted(wording, columns[i].fallback);
	}
	shape->columns = columns;
	column_settle(shape, columns, &wording->kept);
	return true;
}

bool
shape_find(struct row_wording *wording, const char *table, struct table_shape **out,
    struct fault *fault)
{
	for (struct table_shape *shape = wording->shapes; shape != NULL;
	     shape = shape->next) {
		if (strcmp(shape->name, table) == 0) {
			*out = shape;
			return true;
		}
	}
	struct table_shape *shape = arena_alloc(&wording->kept, sizeof *shape);
	shape->name = arena_string(&wording->kept, table);
	if (!read_columns(wording, shape, fault)) {
		return false;
	}
	shape->next = wording->shapes;
	wording->shapes = shape;
	*out = shape;
	return true;
}

/* The one statement that is not in the table of statements: it names a table and columns that
 * only the schema knows. Nothing in it comes from outside the schema. */
static bool
prepare_by_key(
    struct row_wording *wording, struct table_shape *shape, struct fault *fault)
{
	sqlite3 *db = wording->book->db;
	sqlite3_str *sql = sqlite3_str_new(db);
	const char *between = "SELECT ";
	for (size_t i = 0; i < shape->count; i++) {
		sqlite3_str_appendf(sql, "%s\"%w\"", between, shape->columns[i].name);
		between = ", ";
	}
	sqlite3_str_appendf(sql, " FROM \"%w\"", shape->name);
	between = " WHERE ";
	for (size_t i = 0; i < shape->count; i++) {
		if (shape->columns[i].key) {
			sqlite3_str_appendf(
			    sql, "%s\"%w\" = ?", between, shape->columns[i].name);
			between = " AND ";
		}
	}
	char *text = memory_held(sqlite3_str_finish(sql));
	int result = sqlite3_prepare_v2(db, text, -1, &shape->by_key, NULL);
	sqlite3_free(text);
	return result == SQLITE_OK || call_fault(db, fault);
}

static const char *
column_value(struct row_wording *wording, sqlite3_stmt *stmt, int column)
{
	const unsigned char *text = sqlite3_column_text(stmt, column);
	return text == NULL ? NULL : arena_string(&wording->passing, (const char *)text);
}

bool
row_now(struct row_wording *wording, struct table_shape *shape, const struct row *key,
    struct row *out, struct fault *fault)
{
	if (shape->by_key == NULL && !prepare_by_key(wording, shape, fault)) {
		return false;
	}
	sqlite3_stmt *stmt = shape->by_key;
	const char **values =
	    arena_alloc(&wording->passing, shape->count * sizeof *values);
	int bound = SQLITE_OK;
	int at = 0;
	for (size_t i = 0; i < shape->count && bound == SQLITE_OK; i++) {
		if (shape->columns[i].key) {
			bound = sqlite3_bind_text(
			    stmt, ++at, key->values[i], -1, SQLITE_STATIC);
		}
	}
	bool found = bound == SQLITE_OK && sqlite3_step(stmt) == SQLITE_ROW;
	for (size_t i = 0; found && i < shape->count; i++) {
		bool blob = sqlite3_column_type(stmt, (int)i) == SQLITE_BLOB;
		values[i] = blob ? "" : column_value(wording, stmt, (int)i);
	}
	out->values = values;
	(void)sqlite3_reset(stmt);
	(void)sqlite3_clear_bindings(stmt);
	return found || fault_set(fault, FAULT_BOOK, "a changed row of %s is not there",
			    shape->name);
}
