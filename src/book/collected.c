/* What has become of the rows that were touched: told one by one, and as the bytes of an
 * entry. */
#include "base/memory.h"
#include "base/numbers.h"
#include "base/text.h"
#include "book/journal_inside.h"

#include <stdlib.h>
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

/* The reading of a run. */
struct run_reading {
	struct book *book;
	const struct table_shape *shape;
	size_t owner;  /* the column with the item that a row is of; shape->count: none */
	size_t width;  /* values of a row: its columns, then those of that item */
	uint64_t told; /* the columns that are read */
	struct text sql;
	struct value *values; /* one row behind the other; their texts in the arena */
	struct value *blank;  /* a row behind them, as the schema has it */
	size_t count;         /* rows */
	struct arena arena;
};

/* Whether a value is read of each row; any other is as the schema has it. */
static bool
is_read(const struct run_reading *reading, size_t value)
{
	return value >= reading->shape->count || value >= 64 ||
	       (reading->told >> value & 1) != 0;
}

static void
word_run(struct run_reading *reading)
{
	const struct table_shape *shape = reading->shape;
	struct text *sql = &reading->sql;
	bool owned = reading->owner < shape->count;
	for (size_t i = 0; i < shape->count; i++) {
		if (is_read(reading, i)) {
			text_add(sql, sql->length == 0 ? "SELECT run." : ", run.");
			add_quoted(sql, shape->columns[i].name);
		}
	}
	text_add(sql, owned ? ", item.tag, item.kind, item.serial" : "");
	text_add(sql, " FROM ");
	add_quoted(sql, shape->name);
	text_add(sql, " AS run");
	if (owned) {
		text_add(sql, " LEFT JOIN item ON item.id = run.");
		add_quoted(sql, shape->columns[reading->owner].name);
	}
	text_add(sql, " WHERE run.id BETWEEN $1 AND $2 ORDER BY run.id");
}

static void
begin_run(struct run_reading *reading)
{
	const struct table_shape *shape = reading->shape;
	bool item = strcmp(shape->name, "item") == 0;
	reading->owner = item ? shape->count : 0;
	while (reading->owner < shape->count &&
	       (shape->columns[reading->owner].refers == NULL ||
		   strcmp(shape->columns[reading->owner].refers, "item") != 0)) {
		reading->owner++;
	}
	reading->width = shape->count + (reading->owner < shape->count ? 3 : 0);
	reading->values =
	    memory_zeroed((ROWS_AT_ONCE + 1) * reading->width, sizeof *reading->values);
	reading->blank = reading->values + ROWS_AT_ONCE * reading->width;
	for (size_t i = 0; i < shape->count; i++) {
		reading->blank[i] = column_fallback(&shape->columns[i]);
	}
	word_run(reading);
}

/* Reads the rows with the numbers from `first` on, up to `last`. */
static bool
read_run(struct run_reading *reading, int64_t first, int64_t last, struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct value *out = reading->values;
	bool row = true;
	arena_reset(&reading->arena);
	if (!call_open_kept(reading->book, text_string(&reading->sql), &call, fault)) {
		return false;
	}
	give_int(&call, first);
	give_int(&call, last);
	for (reading->count = 0; call_row(&call, &row, fault) && row; reading->count++) {
		memcpy(out, reading->blank, reading->width * sizeof *out);
		for (size_t i = 0; i < reading->width; i++, out++) {
			if (!is_read(reading, i)) {
				continue;
			}
			struct value value = take_value(&call);
			if (value.length > 0) {
				char *copy = arena_alloc(&reading->arena, value.length);
				memcpy(copy, value.bytes, value.length);
				value.bytes = copy;
			}
			*out = value;
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

/* The words of an item; false where a row has none, and where one is damaged: it is asked for by
 * itself. */
static bool
take_words(const struct value item[3], struct arena *arena, const char *out[3])
{
	for (size_t i = 0; i < 3; i++) {
		if (item[i].held != HELD_TEXT ||
		    (item[i].length > 0 &&
			(memchr(item[i].bytes, '\0', item[i].length) != NULL ||
			    !utf8_valid(item[i].bytes, item[i].length)))) {
			return false;
		}
		out[i] = arena_bytes(
		    arena, item[i].length == 0 ? "" : item[i].bytes, item[i].length);
	}
	return true;
}

/* Visits the rows that were read. */
static bool
visit_read(const struct visiting *visiting, const struct run_reading *reading,
    struct telling *telling, struct fault *fault)
{
	size_t columns = reading->shape->count;
	bool visited = true;
	for (size_t i = 0; visited && i < reading->count; i++) {
		const struct value *values = reading->values + i * reading->width;
		const char *words[3];
		struct named_item of = {0};
		if (reading->width > columns &&
		    take_words(values + columns, visiting->passing, words)) {
			of = (struct named_item){
			    values[reading->owner].number, words[0], words[1], words[2]};
			telling->change.of = &of;
		}
		telling->change.is = values;
		visited = visit(visiting, telling, fault);
		telling->change.of = NULL;
	}
	return visited;
}

static bool
visit_run(const struct visiting *visiting, const struct collected_table *table,
    const struct collected_row *run, struct telling *telling, struct fault *fault)
{
	struct run_reading reading = {
	    .book = visiting->book, .shape = table->shape, .told = table->told};
	int64_t behind = run->first + run->added;
	bool visited = true;
	telling->change.act = JOURNAL_ADDED;
	telling->change.was = NULL;
	begin_run(&reading);
	for (int64_t from = run->first; visited && from < behind; from += ROWS_AT_ONCE) {
		int64_t last = LESSER(from + ROWS_AT_ONCE, behind) - 1;
		visited = read_run(&reading, from, last, fault) &&
			  visit_read(visiting, &reading, telling, fault);
	}
	free(reading.values);
	text_clear(&reading.sql);
	arena_clear(&reading.arena);
	return visited;
}

static bool
visit_row(const struct visiting *visiting, const struct collected_table *table,
    const struct collected_row *row, struct telling *telling, struct fault *fault)
{
	if (!is_changed(row)) {
		return true;
	}
	if (row->added > 0) {
		return visit_run(visiting, table, row, telling, fault);
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
			if (!visit_row(&visiting, table, row, &telling, fault)) {
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
