/* Tables as the schema describes them, and their rows. */
#include "base/memory.h"
#include "book/row_words.h"

#include <stdlib.h>
#include <string.h>

void
wording_clear(struct row_wording *wording)
{
	arena_clear(&wording->kept);
	arena_clear(&wording->passing);
	*wording = (struct row_wording){0};
}

void
shapes_clear(struct book *book)
{
	for (struct table_shape *shape = book->shapes; shape != NULL;
	     shape = shape->next) {
		(void)sqlite3_finalize(shape->by_key);
	}
	book->shapes = NULL;
	arena_clear(&book->schema);
}

/* A default as the schema writes it, without its quotes. */
static const char *
unquoted(struct arena *arena, const char *written)
{
	size_t length = strlen(written);
	char *copy = arena_alloc(arena, length + 1);
	bool quoted = length >= 2 && written[0] == '\'' && written[length - 1] == '\'';
	memcpy(copy, written + quoted, quoted ? length - 2 : length);
	return copy;
}

/* A column of the schema, and the table it is of. */
struct schema_column {
	const char *table;
	struct column column;
};

static void
take_column(struct call *call, struct arena *arena, void *out)
{
	struct schema_column *of = out;
	of->table = take_text(call, arena);
	of->column.name = take_text(call, arena);
	of->column.fallback = unquoted(arena, take_text(call, arena));
	of->column.key = (int)take_int(call);
	of->column.refers = take_text(call, arena);
}

/* Makes a table of the columns from the first on that are of the same one. */
static size_t
add_shape(struct book *book, const struct schema_column *from, size_t count)
{
	struct table_shape *shape = arena_alloc(&book->schema, sizeof *shape);
	*shape = (struct table_shape){.name = from->table, .next = book->shapes};
	while (
	    shape->count < count && strcmp(from[shape->count].table, from->table) == 0) {
		shape->count++;
	}
	struct column *columns =
	    arena_alloc(&book->schema, shape->count * sizeof *columns);
	for (size_t i = 0; i < shape->count; i++) {
		columns[i] = from[i].column;
	}
	shape->columns = columns;
	column_settle(shape, columns, &book->schema);
	book->shapes = shape;
	return shape->count;
}

bool
shapes_read(struct book *book, struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct schema_column *columns = NULL;
	size_t count = 0;
	if (book->shapes != NULL) {
		return true;
	}
	if (!call_open(book, TABLE_COLUMNS, &call, fault) ||
	    !call_rows(&call, &book->schema, take_column, sizeof *columns, &columns,
		&count, fault)) {
		return false;
	}
	for (size_t at = 0; at < count;) {
		at += add_shape(book, columns + at, count - at);
	}
	return true;
}

struct table_shape *
shape_known(const struct book *book, const char *table)
{
	struct table_shape *shape = book->shapes;
	while (shape != NULL && strcmp(shape->name, table) != 0) {
		shape = shape->next;
	}
	return shape;
}

bool
shape_find(struct row_wording *wording, const char *table, struct table_shape **out,
    struct fault *fault)
{
	if (!shapes_read(wording->book, fault)) {
		return false;
	}
	*out = shape_known(wording->book, table);
	if (*out == NULL) {
		*out = arena_alloc(&wording->kept, sizeof **out);
		**out = (struct table_shape){.name = arena_string(&wording->kept, table)};
	}
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
