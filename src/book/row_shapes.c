/* Tables as the schema describes them, and their rows. */
#include "base/memory.h"
#include "book/journal_inside.h"

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
	book->shapes = NULL;
	book->heard = (struct heard_table){0};
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

/* Makes a table of the columns from the first on that are of the same one; it goes behind the last. */
static size_t
add_shape(struct book *book, const struct schema_column *from, size_t count,
    struct table_shape ***last)
{
	struct table_shape *shape = arena_alloc(&book->schema, sizeof *shape);
	*shape = (struct table_shape){.name = from->table};
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
	**last = shape;
	*last = &shape->next;
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
	struct table_shape **last = &book->shapes;
	for (size_t at = 0; at < count;) {
		at += add_shape(book, columns + at, count - at, &last);
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

struct row
row_texts(const struct value *values, size_t count, struct arena *arena)
{
	struct row row = {0};
	if (values != NULL) {
		row.values = arena_alloc(arena, count * sizeof *row.values);
	}
	for (size_t i = 0; values != NULL && i < count; i++) {
		row.values[i] = value_text(&values[i], arena);
	}
	return row;
}
