#include "book/collect.h"

#include "base/memory.h"
#include "book/load.h"

#include <assert.h>
#include <limits.h>
#include <sqlite3.h>
#include <string.h>

/* How values are told apart in a changeset; SQLite's own numbers of types, but for what is not said. */
enum { NOT_SAID = 0 };

/* A row that was touched. Its values stand one after the other as a changeset has them. */
struct collected_row {
	struct collected_row *next;    /* in the order in which they were touched */
	struct collected_row *chained; /* another of the same bucket */
	const unsigned char *key;      /* the values of its key */
	size_t key_length;
	const unsigned char *old; /* NULL: it was not there */
	const unsigned char *new; /* NULL: it is there no more */
	bool indirect;            /* by a reference of another row alone */
};

struct collected_table {
	struct collected_table *next;
	const struct table_shape *shape;
	struct collected_row *first, *last;
	struct collected_row **buckets;
	size_t bucket_count;
	size_t count;
};

/* ---- values in bytes ---- */

static void
put_number(struct text *out, uint64_t number)
{
	for (int shift = 56; shift >= 0; shift -= 8) {
		text_add_byte(out, (char)(unsigned char)(number >> shift));
	}
}

/* A length as SQLite's files have it: seven bits a byte, the highest first. What is longer than a value
 * of SQLite's can be does not come. */
static void
put_length(struct text *out, size_t length)
{
	for (int shift = 28; shift > 0; shift -= 7) {
		if (length >> shift != 0) {
			text_add_byte(
			    out, (char)(unsigned char)(0x80 | (length >> shift & 0x7f)));
		}
	}
	text_add_byte(out, (char)(unsigned char)(length & 0x7f));
}

static const unsigned char *
get_length(const unsigned char *at, size_t *out)
{
	*out = 0;
	while (*at >= 0x80) {
		*out = *out << 7 | (*at++ & 0x7f);
	}
	*out = *out << 7 | *at++;
	return at;
}

static void
put_value(struct text *out, sqlite3_value *value)
{
	int type = sqlite3_value_type(value);
	text_add_byte(out, (char)type);
	if (type == SQLITE_INTEGER) {
		put_number(out, (uint64_t)sqlite3_value_int64(value));
	} else if (type == SQLITE_FLOAT) {
		double number = sqlite3_value_double(value);
		uint64_t bits = 0;
		memcpy(&bits, &number, sizeof bits);
		put_number(out, bits);
	} else if (type != SQLITE_NULL) {
		const void *bytes = type == SQLITE_TEXT ? sqlite3_value_text(value)
							: sqlite3_value_blob(value);
		size_t length = (size_t)sqlite3_value_bytes(value);
		put_length(out, length);
		text_add_bytes(out, bytes == NULL ? "" : bytes, length);
	}
}

/* Where the next value begins. */
static const unsigned char *
value_end(const unsigned char *at)
{
	size_t length = 0;
	switch (*at++) {
	case SQLITE_INTEGER:
	case SQLITE_FLOAT:
		return at + 8;
	case SQLITE_TEXT:
	case SQLITE_BLOB:
		at = get_length(at, &length);
		return at + length;
	default:
		return at;
	}
}

static const unsigned char *
row_end(const unsigned char *at, size_t columns)
{
	for (size_t i = 0; i < columns; i++) {
		at = value_end(at);
	}
	return at;
}

static bool
same_value(const unsigned char *a, const unsigned char *b)
{
	size_t length = (size_t)(value_end(a) - a);
	return (size_t)(value_end(b) - b) == length && memcmp(a, b, length) == 0;
}

static const unsigned char *
kept(struct arena *arena, const struct text *bytes)
{
	unsigned char *copy = arena_alloc(arena, bytes->length + 1);
	memcpy(copy, text_string(bytes), bytes->length);
	return copy;
}

/* ---- rows by their keys ---- */

/* FNV-1a: the keys are the book's own numbers and names. */
static size_t
bucket_of(const struct collected_table *table, const unsigned char *key, size_t length)
{
	uint64_t hash = UINT64_C(14695981039346656037);
	for (size_t i = 0; i < length; i++) {
		hash = (hash ^ key[i]) * UINT64_C(1099511628211);
	}
	return (size_t)(hash % table->bucket_count);
}

static struct collected_row *
find_row(const struct collected_table *table, const unsigned char *key, size_t length)
{
	struct collected_row *row = table->bucket_count == 0
					? NULL
					: table->buckets[bucket_of(table, key, length)];
	while (row != NULL &&
	       (row->key_length != length || memcmp(row->key, key, length) != 0)) {
		row = row->chained;
	}
	return row;
}

static void
chain(struct collected_table *table, struct collected_row *row)
{
	struct collected_row **bucket =
	    &table->buckets[bucket_of(table, row->key, row->key_length)];
	row->chained = *bucket;
	*bucket = row;
}

static void
widen(struct collected_table *table, struct arena *arena)
{
	table->bucket_count = table->bucket_count == 0 ? 16 : 4 * table->bucket_count;
	size_t size = table->bucket_count * sizeof(struct collected_row *);
	table->buckets = arena_alloc(arena, size);
	memset(table->buckets, 0, size);
	for (struct collected_row *row = table->first; row != NULL; row = row->next) {
		chain(table, row);
	}
}

static struct collected_row *
add_row(struct collected_table *table, struct arena *arena, const struct text *key)
{
	struct collected_row *row = arena_alloc(arena, sizeof *row);
	*row = (struct collected_row){
	    .indirect = true, .key = kept(arena, key), .key_length = key->length};
	if (table->count >= table->bucket_count) {
		widen(table, arena);
	}
	chain(table, row);
	*(table->last == NULL ? &table->first : &table->last->next) = row;
	table->last = row;
	table->count++;
	return row;
}

static struct collected_table *
find_table(const struct collected *collected, const char *name)
{
	struct collected_table *table = collected->first;
	while (table != NULL && strcmp(table->shape->name, name) != 0) {
		table = table->next;
	}
	return table;
}

static struct collected_table *
need_table(struct collected *collected, const struct table_shape *shape)
{
	struct collected_table *table = find_table(collected, shape->name);
	if (table == NULL) {
		table = arena_alloc(&collected->arena, sizeof *table);
		*table = (struct collected_table){.shape = shape};
		*(collected->last == NULL ? &collected->first : &collected->last->next) =
		    table;
		collected->last = table;
	}
	return table;
}

/* ---- what the hook tells ---- */

typedef int value_reader(sqlite3 *db, int column, sqlite3_value **out);

/* A row of the change at hand, and the values of its key. */
static void
read_row(sqlite3 *db, value_reader *read, const struct table_shape *shape,
    struct text *row_out, struct text *key_out)
{
	for (size_t i = 0; i < shape->count; i++) {
		sqlite3_value *value = NULL;
		size_t before = row_out->length;
		if (read(db, (int)i, &value) != SQLITE_OK) {
			memory_ended();
		}
		put_value(row_out, value);
		if (shape->columns[i].key != 0) {
			text_add_bytes(
			    key_out, row_out->bytes + before, row_out->length - before);
		}
	}
}

/* Notes what a row was, if this is the first that is heard of it, and is now; NULL for not there. */
static void
note(struct collected *collected, const struct table_shape *shape, bool direct,
    const struct text *key, const struct text *old, const struct text *new)
{
	struct collected_table *table = need_table(collected, shape);
	struct collected_row *row =
	    find_row(table, (const unsigned char *)key->bytes, key->length);
	if (row == NULL) {
		row = add_row(table, &collected->arena, key);
		row->old = old == NULL ? NULL : kept(&collected->arena, old);
	}
	row->new = new == NULL ? NULL : kept(&collected->arena, new);
	row->indirect = row->indirect && !direct;
}

static void
note_change(struct collected *collected, sqlite3 *db, int operation,
    const struct table_shape *shape)
{
	SCOPED_TEXT old = {0};
	SCOPED_TEXT new = {0};
	SCOPED_TEXT old_key = {0};
	SCOPED_TEXT new_key = {0};
	bool direct = sqlite3_preupdate_depth(db) == 0;
	assert(sqlite3_preupdate_count(db) == (int)shape->count);
	if (operation != SQLITE_INSERT) {
		read_row(db, sqlite3_preupdate_old, shape, &old, &old_key);
	}
	if (operation != SQLITE_DELETE) {
		read_row(db, sqlite3_preupdate_new, shape, &new, &new_key);
	}
	bool same_key =
	    old_key.length == new_key.length &&
	    memcmp(text_string(&old_key), text_string(&new_key), new_key.length) == 0;
	if (operation == SQLITE_UPDATE && same_key) {
		note(collected, shape, direct, &old_key, &old, &new);
		return;
	}
	if (operation != SQLITE_INSERT) {
		note(collected, shape, direct, &old_key, &old, NULL);
	}
	if (operation != SQLITE_DELETE) {
		note(collected, shape, direct, &new_key, NULL, &new);
	}
}

static void
hear(void *context, sqlite3 *db, int operation, const char *database, const char *name,
    sqlite3_int64 key, sqlite3_int64 new_key)
{
	struct book *book = context;
	(void)key;
	(void)new_key;
	if (strcmp(database, "main") != 0) {
		return;
	}
	book->touched |= load_table_of(name);
	struct collected *const both[] = {&book->told, &book->kept};
	for (size_t i = 0; i < sizeof both / sizeof both[0]; i++) {
		if (both[i]->wants != NULL && both[i]->wants(name)) {
			note_change(both[i], db, operation, shape_known(book, name));
		}
	}
}

void
collect_begin(struct book *book)
{
	(void)sqlite3_preupdate_hook(engine_handle(book->engine), hear, book);
}

void
collect_end(struct book *book)
{
	(void)sqlite3_preupdate_hook(engine_handle(book->engine), NULL, NULL);
}

void
collected_clear(struct collected *collected)
{
	arena_clear(&collected->arena);
	*collected = (struct collected){0};
}

/* ---- what has come of it ---- */

static bool
is_changed(const struct collected_table *table, const struct collected_row *row)
{
	if (row->old == NULL || row->new == NULL) {
		return row->old != row->new;
	}
	size_t length = (size_t)(row_end(row->old, table->shape->count) - row->old);
	size_t new_length = (size_t)(row_end(row->new, table->shape->count) - row->new);
	return length != new_length || memcmp(row->old, row->new, length) != 0;
}

bool
collected_is_empty(const struct collected *collected)
{
	for (const struct collected_table *table = collected->first; table != NULL;
	     table = table->next) {
		for (const struct collected_row *row = table->first; row != NULL;
		     row = row->next) {
			if (is_changed(table, row)) {
				return false;
			}
		}
	}
	return true;
}

static void
add_bytes(struct text *out, const unsigned char *from, const unsigned char *to)
{
	text_add_bytes(out, (const char *)from, (size_t)(to - from));
}

/* The old values, then the new ones; without `whole` what is as it was is left out, but for the key
 * among the old ones. */
static void
add_update(struct text *out, const struct collected_table *table,
    const struct collected_row *row, bool whole)
{
	const struct table_shape *shape = table->shape;
	for (int side = 0; side < 2; side++) {
		const unsigned char *old = row->old;
		const unsigned char *new = row->new;
		for (size_t i = 0; i < shape->count; i++) {
			bool said = whole || !same_value(old, new) ||
				    (side == 0 && shape->columns[i].key != 0);
			const unsigned char *value = side == 0 ? old : new;
			if (said) {
				add_bytes(out, value, value_end(value));
			} else {
				text_add_byte(out, NOT_SAID);
			}
			old = value_end(old);
			new = value_end(new);
		}
	}
}

static void
add_change(struct text *out, const struct collected_table *table,
    const struct collected_row *row, bool whole)
{
	size_t count = table->shape->count;
	text_add_byte(out, (char)(row->old == NULL   ? SQLITE_INSERT
				  : row->new == NULL ? SQLITE_DELETE
						     : SQLITE_UPDATE));
	text_add_byte(out, (char)row->indirect);
	if (row->old != NULL && row->new != NULL) {
		add_update(out, table, row, whole);
	} else if (row->new != NULL) {
		add_bytes(out, row->new, row_end(row->new, count));
	} else {
		add_bytes(out, row->old, row_end(row->old, count));
	}
}

static void
add_head(struct text *out, const struct table_shape *shape)
{
	text_add_byte(out, 'T');
	put_length(out, shape->count);
	for (size_t i = 0; i < shape->count; i++) {
		text_add_byte(out, (char)shape->columns[i].key);
	}
	text_add_bytes(out, shape->name, strlen(shape->name) + 1);
}

static void
add_table(struct text *out, const struct collected_table *table, bool whole)
{
	bool headed = false;
	for (const struct collected_row *row = table->first; row != NULL;
	     row = row->next) {
		if (is_changed(table, row)) {
			if (!headed) {
				add_head(out, table->shape);
			}
			headed = true;
			add_change(out, table, row, whole);
		}
	}
}

bool
collected_changeset(const struct collected *collected, bool whole, struct changeset *out,
    struct fault *fault)
{
	SCOPED_TEXT bytes = {0};
	for (const struct collected_table *table = collected->first; table != NULL;
	     table = table->next) {
		add_table(&bytes, table, whole);
	}
	if (bytes.length > INT_MAX) {
		return fault_set(fault, FAULT_INPUT,
		    "that is more than the journal can hold in one entry; do it in parts");
	}
	out->size = (int)bytes.length;
	out->bytes = memory_held(sqlite3_malloc64(bytes.length + 1));
	memcpy(out->bytes, text_string(&bytes), bytes.length);
	return true;
}

/* A value as text in the arena, as changes_each tells it. */
static const char *
value_text(const unsigned char *at, struct arena *arena)
{
	size_t length = 0;
	if (*at == SQLITE_INTEGER) {
		uint64_t number = 0;
		for (int i = 1; i <= 8; i++) {
			number = number << 8 | at[i];
		}
		return integer_text((int64_t)number, arena);
	}
	if (*at != SQLITE_TEXT) {
		return NULL;
	}
	at = get_length(at + 1, &length);
	char *copy = arena_alloc(arena, length + 1);
	memcpy(copy, at, length);
	copy[length] = '\0';
	return copy;
}

bool
collected_row(const struct collected *collected, const char *table, int64_t key,
    struct arena *arena, struct row *out)
{
	SCOPED_TEXT bytes = {0};
	const struct collected_table *of = find_table(collected, table);
	text_add_byte(&bytes, SQLITE_INTEGER);
	put_number(&bytes, (uint64_t)key);
	const struct collected_row *row =
	    of == NULL ? NULL
		       : find_row(of, (const unsigned char *)bytes.bytes, bytes.length);
	if (row == NULL) {
		return false;
	}
	const unsigned char *at = row->new != NULL ? row->new : row->old;
	out->values = arena_alloc(arena, of->shape->count * sizeof *out->values);
	for (size_t i = 0; at != NULL && i < of->shape->count; i++) {
		out->values[i] = value_text(at, arena);
		at = value_end(at);
	}
	return at != NULL;
}
