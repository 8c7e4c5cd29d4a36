/* What has become of the rows that were touched: told one by one, and as the bytes of an
 * entry. */
#include "base/numbers.h"
#include "book/journal_inside.h"

#include <string.h>

static bool
is_changed(const struct collected_row *row)
{
	return row->there > 0 || !bytes_same(row->was, row->is);
}

/* A table's changes, as they are told one after the other. */
struct telling {
	size_t count; /* columns of the table */
	struct row_change change;
	struct value *was, *is; /* in the arena */
	const size_t *columns;  /* those that are told, in order; NULL: all */
};

static struct telling
telling_of(const struct collected_table *table, struct arena *arena)
{
	size_t count = table->shape->count;
	return (struct telling){
	    .count = count,
	    .change = {.table = table->shape->name,
		.count = count,
		.names = table->names,
		.key = table->key},
	    .was = arena_alloc(arena, count * sizeof(struct value)),
	    .is = arena_alloc(arena, count * sizeof(struct value)),
	};
}

/* Moves the values that are told to the front. */
static void
narrow(const struct telling *telling, struct value *values)
{
	for (size_t i = 0; telling->columns != NULL && i < telling->change.count; i++) {
		values[i] = values[telling->columns[i]];
	}
}

static void
tell(struct telling *telling, const struct collected_row *row)
{
	struct row_change *change = &telling->change;
	change->act = row->was.at == NULL  ? JOURNAL_ADDED
		      : row->is.at == NULL ? JOURNAL_REMOVED
					   : JOURNAL_CHANGED;
	change->was = row->was.at == NULL ? NULL : telling->was;
	change->is = row->is.at == NULL ? NULL : telling->is;
	if (change->was != NULL) {
		values_take(row->was, telling->count, telling->was);
		narrow(telling, telling->was);
	}
	if (change->is != NULL) {
		values_take(row->is, telling->count, telling->is);
		narrow(telling, telling->is);
	}
}

/* ---- runs of rows that were added ---- */

/* This many rows of a run are read at once: what is asked for each row must wait until
 * they are all there. */
enum { ROWS_AT_ONCE = 128 };

/* Some rows of a table by their numbers, and how many there are. */
struct added_rows {
	int64_t first, last;
	struct value *values; /* one row behind the other */
	size_t count;
};

/* Reads the rows with the numbers from `first` on, up to `last`; texts in the arena. */
static bool
read_added(struct book *book, const struct table_shape *shape, struct arena *arena,
    struct added_rows *rows, struct fault *fault)
{
	struct value *out = rows->values;
	SCOPED_CALL call = {0};
	SCOPED_TEXT sql = {0};
	bool row = true;
	text_add(&sql, "SELECT * FROM ");
	add_quoted(&sql, shape->name);
	text_add(&sql, " WHERE id BETWEEN $1 AND $2 ORDER BY id");
	if (!call_open_text(book, text_string(&sql), &call, fault)) {
		return false;
	}
	give_int(&call, rows->first);
	give_int(&call, rows->last);
	for (rows->count = 0; call_row(&call, &row, fault) && row; rows->count++) {
		for (size_t i = 0; i < shape->count; i++) {
			struct value value = take_value(&call);
			if (value.length > 0) {
				char *copy = arena_alloc(arena, value.length);
				memcpy(copy, value.bytes, value.length);
				value.bytes = copy;
			}
			*out++ = value;
		}
	}
	return !row;
}

/* What a walk through all changes calls. */
struct visiting {
	struct book *book;
	struct arena *passing;
	change_visitor *each;
	void *context;
};

static bool
visit(const struct visiting *visiting, const struct telling *telling, struct fault *fault)
{
	bool visited = visiting->each(&telling->change, visiting->context, fault);
	arena_reset(visiting->passing);
	return visited;
}

static bool
visit_run(const struct visiting *visiting, const struct table_shape *shape,
    const struct collected_row *run, struct telling *telling, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	int64_t behind = run->first + run->added;
	telling->change.act = JOURNAL_ADDED;
	telling->change.was = NULL;
	for (int64_t from = run->first; from < behind; from += ROWS_AT_ONCE) {
		struct added_rows rows = {.first = from};
		rows.last = LESSER(from + ROWS_AT_ONCE, behind) - 1;
		rows.values = arena_alloc(
		    &arena, ROWS_AT_ONCE * shape->count * sizeof *rows.values);
		if (!read_added(visiting->book, shape, &arena, &rows, fault)) {
			return false;
		}
		for (size_t i = 0; i < rows.count; i++) {
			telling->change.is = rows.values + i * shape->count;
			if (!visit(visiting, telling, fault)) {
				return false;
			}
		}
		arena_reset(&arena);
	}
	return true;
}

static bool
visit_row(const struct visiting *visiting, const struct table_shape *shape,
    const struct collected_row *row, struct telling *telling, struct fault *fault)
{
	if (!is_changed(row)) {
		return true;
	}
	if (row->added > 0) {
		return visit_run(visiting, shape, row, telling, fault);
	}
	tell(telling, row);
	return visit(visiting, telling, fault);
}

bool
collected_each(struct book *book, const struct collected *collected,
    struct arena *passing, change_visitor *each, void *context, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	const struct visiting visiting = {book, passing, each, context};
	for (const struct collected_table *table = collected->first; table != NULL;
	     table = table->next) {
		struct telling telling = telling_of(table, &arena);
		for (const struct collected_row *row = table->first; row != NULL;
		     row = row->next) {
			if (!visit_row(&visiting, table->shape, row, &telling, fault)) {
				return false;
			}
		}
	}
	return true;
}

/* ---- how many, and as bytes ---- */

static size_t
changed_rows(const struct collected_table *table)
{
	size_t count = 0;
	for (const struct collected_row *row = table->first; row != NULL;
	     row = row->next) {
		count += row->added > 0 ? (size_t)row->there : is_changed(row) ? 1 : 0;
	}
	return count;
}

size_t
collected_tables(const struct collected *collected)
{
	size_t tables = 0;
	for (const struct collected_table *table = collected->first; table != NULL;
	     table = table->next) {
		tables += changed_rows(table) > 0 ? 1 : 0;
	}
	return tables;
}

size_t
collected_rows(const struct collected *collected, const char *table)
{
	return changed_rows(collected_table(collected, table));
}

size_t
collected_touched(const struct collected *collected)
{
	size_t touched = 0;
	for (const struct collected_table *table = collected->first; table != NULL;
	     table = table->next) {
		touched += table->count;
		for (size_t i = 0; i < table->runs.count; i++) {
			touched += (size_t)table->runs.items[i]->added;
		}
	}
	return touched;
}

/* Marks the columns of a table that an entry tells: its key and what changed in any row;
 * all of them where rows were added or removed. */
static void
mark_told(const struct collected_table *table, struct telling *telling, bool *told)
{
	const struct row_change *change = &telling->change;
	bool all = false;
	for (const struct collected_row *row = table->first; row != NULL && !all;
	     row = row->next) {
		if (!is_changed(row)) {
			continue;
		}
		tell(telling, row);
		all = change->act != JOURNAL_CHANGED;
		for (size_t i = 0; i < change->count; i++) {
			told[i] = told[i] || all || change->key[i] != 0 ||
				  !value_same(&change->was[i], &change->is[i]);
		}
	}
}

/* As an entry tells of a table. */
static struct telling
short_telling_of(const struct collected_table *table, struct arena *arena)
{
	struct telling telling = telling_of(table, arena);
	struct row_change *change = &telling.change;
	bool *told = arena_alloc(arena, telling.count * sizeof *told);
	size_t *columns = arena_alloc(arena, telling.count * sizeof *columns);
	const char **names = arena_alloc(arena, telling.count * sizeof *names);
	unsigned char *key = arena_alloc(arena, telling.count);
	size_t count = 0;
	mark_told(table, &telling, told);
	for (size_t i = 0; i < telling.count; i++) {
		if (told[i]) {
			names[count] = table->names[i];
			key[count] = table->key[i];
			columns[count++] = i;
		}
	}
	change->names = names;
	change->key = key;
	change->count = count;
	telling.columns = columns;
	return telling;
}

static void
add_table(const struct collected_table *table, size_t rows, struct text *out)
{
	SCOPED_ARENA arena = {0};
	struct telling telling = short_telling_of(table, &arena);
	changes_add_table(out, &telling.change, rows);
	for (const struct collected_row *row = table->first; row != NULL;
	     row = row->next) {
		if (!is_changed(row)) {
			continue;
		}
		if (row->was.at == NULL) {
			changes_add_whole(out, JOURNAL_ADDED, row->is);
		} else if (row->is.at == NULL) {
			changes_add_whole(out, JOURNAL_REMOVED, row->was);
		} else {
			tell(&telling, row);
			changes_add_changed(out, &telling.change);
		}
	}
}

void
collected_add(const struct collected *collected, struct text *out)
{
	size_t tables = collected_tables(collected);
	if (tables == 0) {
		return;
	}
	changes_add_head(out, tables);
	for (const struct collected_table *table = collected->first; table != NULL;
	     table = table->next) {
		size_t rows = changed_rows(table);
		if (rows > 0) {
			add_table(table, rows, out);
		}
	}
}
