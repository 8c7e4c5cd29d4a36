#include "base/memory.h"
#include "base/numbers.h"
#include "book/check_inside.h"
#include "book/journal_inside.h"

#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>

static struct value
value_heard(sqlite3_value *heard)
{
	struct value value = {.held = HELD_NOTHING};
	int type = sqlite3_value_type(heard);
	double real = 0;
	if (type == SQLITE_INTEGER) {
		value.held = HELD_INTEGER;
		value.number = sqlite3_value_int64(heard);
	} else if (type == SQLITE_FLOAT) {
		value.held = HELD_REAL;
		real = sqlite3_value_double(heard);
		memcpy(&value.number, &real, sizeof real);
	} else if (type != SQLITE_NULL) {
		const char *bytes = sqlite3_value_blob(heard);
		value.held = type == SQLITE_TEXT ? HELD_TEXT : HELD_BYTES;
		value.bytes = bytes == NULL ? "" : bytes;
		value.length = (size_t)sqlite3_value_bytes(heard);
	}
	return value;
}

static struct bytes_left
kept(struct arena *arena, const struct text *bytes)
{
	unsigned char *copy = arena_alloc(arena, bytes->length + 1);
	memcpy(copy, text_string(bytes), bytes->length);
	return (struct bytes_left){copy, bytes->length};
}

/* What text_string gives, with its length; borrowed. */
static struct bytes_left
bytes_of(const struct text *text)
{
	return (struct bytes_left){
	    (const unsigned char *)text_string(text), text->length};
}

/* ---- rows by their keys ---- */

/* The keys are the book's own numbers and names. */
static size_t
bucket_of(const struct collected_table *table, struct bytes_left key)
{
	uint64_t digest = DIGEST_START;
	for (size_t i = 0; i < key.left; i++) {
		digest = digest_mix(digest, key.at[i]);
	}
	return (size_t)(digest % table->bucket_count);
}

static struct collected_row *
find_row(const struct collected_table *table, struct bytes_left key)
{
	struct collected_row *row =
	    table->bucket_count == 0 ? NULL : table->buckets[bucket_of(table, key)];
	while (row != NULL && !bytes_same(row->key, key)) {
		row = row->chained;
	}
	return row;
}

/* A row whose key is one number. */
static struct collected_row *
find_number(const struct collected_table *table, int64_t number)
{
	SCOPED_TEXT key = {0};
	const struct value value = {.held = HELD_INTEGER, .number = number};
	if (table->bucket_count == 0) {
		return NULL;
	}
	value_add(&key, &value);
	return find_row(table, bytes_of(&key));
}

static void
chain(struct collected_table *table, struct collected_row *row)
{
	struct collected_row **bucket = &table->buckets[bucket_of(table, row->key)];
	row->chained = *bucket;
	*bucket = row;
}

static void
widen(struct collected_table *table, struct arena *arena)
{
	table->bucket_count = table->bucket_count == 0 ? 16 : 4 * table->bucket_count;
	table->buckets = ARENA_MANY(arena, struct collected_row *, table->bucket_count);
	for (struct collected_row *row = table->first; row != NULL; row = row->next) {
		if (row->added == 0) {
			chain(table, row);
		}
	}
}

/* Appends a zeroed row. */
static struct collected_row *
append_row(struct collected_table *table, struct arena *arena)
{
	struct collected_row *row = arena_alloc(arena, sizeof *row);
	*(table->last == NULL ? &table->first : &table->last->next) = row;
	table->last = row;
	return row;
}

static struct collected_row *
add_row(
    struct collected *collected, struct collected_table *table, const struct text *key)
{
	struct arena *arena = &collected->arena;
	if (table->count >= table->bucket_count) {
		widen(table, arena);
	}
	struct collected_row *row = append_row(table, arena);
	row->key = kept(arena, key);
	chain(table, row);
	table->count++;
	collected->apart++;
	return row;
}

struct collected_table *
collected_table(const struct collected *collected, const char *name)
{
	struct collected_table *table = collected->first;
	while (table != NULL && strcmp(table->shape->name, name) != 0) {
		table = table->next;
	}
	return table;
}

static void
name_columns(struct collected_table *table, struct arena *arena)
{
	size_t count = table->shape->count;
	const char **names = arena_alloc(arena, count * sizeof *names);
	unsigned char *key = arena_alloc(arena, count);
	for (size_t i = 0; i < count; i++) {
		names[i] = table->shape->columns[i].name;
		key[i] = (unsigned char)table->shape->columns[i].key;
	}
	table->names = names;
	table->key = key;
}

static struct collected_table *
need_table(struct collected *collected, const struct table_shape *shape)
{
	struct collected_table *table = collected_table(collected, shape->name);
	if (table == NULL) {
		table = arena_alloc(&collected->arena, sizeof *table);
		table->shape = shape;
		name_columns(table, &collected->arena);
		*(collected->last == NULL ? &collected->first : &collected->last->next) =
		    table;
		collected->last = table;
	}
	return table;
}

/* ---- runs of rows that were added ---- */

/* The run that a number is in; NULL for none. */
static struct collected_row *
find_run(const struct collected_table *table, int64_t number)
{
	size_t first = 0;
	size_t behind = table->runs.count;
	while (first < behind) {
		size_t middle = first + (behind - first) / 2;
		struct collected_row *run = table->runs.items[middle];
		if (number < run->first) {
			behind = middle;
		} else if (number >= run->first + run->added) {
			first = middle + 1;
		} else {
			return run;
		}
	}
	return NULL;
}

/* Notes an added row whose number follows all runs; false where it does not. */
static bool
add_to_run(struct collected_table *table, struct arena *arena, int64_t number)
{
	struct added_runs *runs = &table->runs;
	struct collected_row *run =
	    runs->count == 0 ? NULL : runs->items[runs->count - 1];
	if (run != NULL && number < run->first + run->added) {
		return false;
	}
	if (run == NULL || run != table->last || number > run->first + run->added) {
		run = append_row(table, arena);
		run->first = number;
		ARENA_ADD(arena, runs, run);
	}
	run->added++;
	run->there++;
	return true;
}

/* Notes a change by the number of its row alone: of the rows that a large transaction
 * adds no value is kept here; their present values are read from the book. No statement
 * changes a number. `named` are the columns that a row is added with, UINT64_MAX for all. */
static bool
note_in_run(struct collected *collected, int operation, const struct table_shape *shape,
    int64_t number, uint64_t named)
{
	struct collected_table *table = need_table(collected, shape);
	struct collected_row *run = find_run(table, number);
	if (run != NULL) {
		run->there += operation == SQLITE_INSERT;
		run->there -= operation == SQLITE_DELETE;
		table->told = UINT64_MAX;
		return true;
	}
	bool large = collected->large || collected->apart >= TOUCHED_WITHOUT_RUN;
	if (operation != SQLITE_INSERT || !large || find_number(table, number) != NULL ||
	    !add_to_run(table, &collected->arena, number)) {
		return false;
	}
	table->told |= named;
	return true;
}

/* ---- what the hook tells ---- */

typedef int value_reader(sqlite3 *db, int column, sqlite3_value **out);

/* A value of the change at hand; its bytes are there until it is done with. */
static struct value
read_value(sqlite3 *db, value_reader *read, size_t column)
{
	sqlite3_value *value = NULL;
	if (read(db, (int)column, &value) != SQLITE_OK) {
		memory_ended();
	}
	return value_heard(value);
}

/* A row of the change at hand, and the values of its key. */
static void
read_row(sqlite3 *db, value_reader *read, const struct table_shape *shape,
    struct text *row_out, struct text *key_out)
{
	for (size_t i = 0; i < shape->count; i++) {
		size_t before = row_out->length;
		const struct value known = read_value(db, read, i);
		value_add(row_out, &known);
		if (shape->columns[i].key != 0) {
			text_add_bytes(
			    key_out, row_out->bytes + before, row_out->length - before);
		}
	}
}

/* Notes what a row was, if this is the first report of it, and what it is now; NULL for
 * no row. */
static void
note(struct collected *collected, const struct table_shape *shape, const struct text *key,
    const struct text *was, const struct text *is)
{
	struct collected_table *table = need_table(collected, shape);
	struct collected_row *row = find_row(table, bytes_of(key));
	if (row == NULL) {
		row = add_row(collected, table, key);
	}
	if (!row->heard && was != NULL) {
		row->was = kept(&collected->arena, was);
	}
	row->heard = true;
	row->is = is == NULL ? (struct bytes_left){0} : kept(&collected->arena, is);
}

void
collected_foresee(struct collected *collected, const struct table_shape *shape,
    const struct row_change *change)
{
	SCOPED_TEXT key = {0};
	for (size_t i = 0; i < change->count; i++) {
		if (change->key[i] != 0) {
			value_add(&key, &change_row(change)[i]);
		}
	}
	struct collected_table *table = need_table(collected, shape);
	if (find_row(table, bytes_of(&key)) == NULL) {
		(void)add_row(collected, table, &key);
	}
}

static void
note_change(struct collected *collected, sqlite3 *db, int operation,
    const struct table_shape *shape)
{
	SCOPED_TEXT was = {0};
	SCOPED_TEXT is = {0};
	SCOPED_TEXT key_before = {0};
	SCOPED_TEXT key_now = {0};
	if (operation != SQLITE_INSERT) {
		read_row(db, sqlite3_preupdate_old, shape, &was, &key_before);
	}
	if (operation != SQLITE_DELETE) {
		read_row(db, sqlite3_preupdate_new, shape, &is, &key_now);
	}
	if (operation == SQLITE_UPDATE &&
	    bytes_same(bytes_of(&key_before), bytes_of(&key_now))) {
		note(collected, shape, &key_now, &was, &is);
		return;
	}
	if (operation != SQLITE_INSERT) {
		note(collected, shape, &key_before, &was, NULL);
	}
	if (operation != SQLITE_DELETE) {
		note(collected, shape, &key_now, NULL, &is);
	}
}

/* The table of that name, looked up once while it stays the same; NULL for none. */
static const struct table_shape *
shape_heard(struct book *book, const char *name)
{
	if (book->heard == NULL || strcmp(book->heard->name, name) != 0) {
		book->heard = shape_known(name);
	}
	return book->heard;
}

static void
read_values(
    sqlite3 *db, value_reader *read, const struct table_shape *shape, struct value *out)
{
	for (size_t i = 0; i < shape->count; i++) {
		out[i] = read_value(db, read, i);
	}
}

/* What rows of a table add to the sum of the book: those that the journal does not tell of are kept
 * nowhere, for each change of a row adds what it becomes less what it was. */
static void
sum_change(struct book *book, sqlite3 *db, int operation, const struct table_shape *shape)
{
	struct value *row = memory_zeroed(shape->count, sizeof *row);
	if (operation != SQLITE_INSERT) {
		read_values(db, sqlite3_preupdate_old, shape, row);
		book->sum -= row_adds(row, shape);
	}
	if (operation != SQLITE_DELETE) {
		read_values(db, sqlite3_preupdate_new, shape, row);
		book->sum += row_adds(row, shape);
	}
	free(row);
}

/* The columns that an added row is named with; one of a trigger's is not the statement's. */
static uint64_t
columns_named(const struct collected *collected, sqlite3 *db)
{
	bool known = collected->named != 0 && sqlite3_preupdate_depth(db) == 0;
	return known ? collected->named : UINT64_MAX;
}

static void
hear(void *context, sqlite3 *db, int operation, const char *database, const char *name,
    sqlite3_int64 key, sqlite3_int64 new_key)
{
	struct book *book = context;
	(void)new_key;
	if (strcmp(database, "main") != 0) {
		return;
	}
	if (!book->watched) {
		return;
	}
	const struct table_shape *shape = shape_heard(book, name);
	if (shape == NULL || sqlite3_preupdate_count(db) != (int)shape->count) {
		book->strange = true;
		return;
	}
	book->touched |= shape->loads;
	if (shape->kept == KEEPING_SUMMED) {
		sum_change(book, db, operation, shape);
	} else if (shape->kept == KEEPING_TOLD && book->told.listens &&
		   (shape->numbered == NUMBERED_ENTRY ||
		       !note_in_run(&book->told, operation, shape, key,
			   columns_named(&book->told, db)))) {
		note_change(&book->told, db, operation, shape);
	}
}

void
collect_begin(struct book *book)
{
	(void)sqlite3_preupdate_hook(database_handle(book->database), hear, book);
}

void
collected_clear(struct collected *collected)
{
	arena_clear(&collected->arena);
	*collected = (struct collected){0};
}

const struct value *
collected_row(const struct collected *collected, const char *table, int64_t key,
    struct arena *arena)
{
	const struct collected_table *of = collected_table(collected, table);
	const struct collected_row *row = of == NULL ? NULL : find_number(of, key);
	struct bytes_left last = {0};
	if (row != NULL) {
		last = row->is.at != NULL ? row->is : row->was;
	}
	if (last.at == NULL) {
		return NULL;
	}
	struct value *values = arena_alloc(arena, of->shape->count * sizeof *values);
	values_take(last, of->shape->count, values);
	return values;
}
