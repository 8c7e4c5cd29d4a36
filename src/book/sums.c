#include "book/sums.h"

#include "base/memory.h"

#include <sodium.h>
#include <string.h>

/* Sums are taken modulo 2^62. */
static const uint64_t SUM_MASK = (UINT64_C(1) << 62) - 1;

bool
sums_include(const char *table)
{
	static const char *const LEFT_OUT[] = {
	    "revision", "paper_bytes", "reckoning", "reckoned", "reckoned_vessel"};
	for (size_t i = 0; i < sizeof LEFT_OUT / sizeof LEFT_OUT[0]; i++) {
		if (strcmp(table, LEFT_OUT[i]) == 0) {
			return false;
		}
	}
	return true;
}

/* A digest of bytes under a seed and a place. */
static uint64_t
digest(uint64_t seed, int place, const void *bytes, size_t size)
{
	unsigned char key[crypto_shorthash_KEYBYTES] = {0};
	unsigned char out[crypto_shorthash_BYTES];
	for (size_t i = 0; i < 8; i++) {
		key[i] = (unsigned char)(seed >> 8 * i);
	}
	key[8] = (unsigned char)place;
	(void)crypto_shorthash(out, bytes, size, key);
	uint64_t number = 0;
	for (size_t i = 0; i < sizeof out; i++) {
		number |= (uint64_t)out[i] << 8 * i;
	}
	return number;
}

/* Most numbers are 0: theirs is the seed, which no other value has but by chance. */
static uint64_t
digest_int(uint64_t seed, int place, int64_t value)
{
	if (value == 0) {
		return seed + (uint64_t)place;
	}
	unsigned char bytes[8];
	for (size_t i = 0; i < sizeof bytes; i++) {
		bytes[i] = (unsigned char)((uint64_t)value >> 8 * i);
	}
	return digest(seed, place, bytes, sizeof bytes);
}

/* Of any value of SQLite's. A number that is no integer counts as its text. */
static uint64_t
digest_value(uint64_t seed, int place, sqlite3_value *value)
{
	switch (sqlite3_value_type(value)) {
	case SQLITE_INTEGER:
		return digest_int(seed, place, sqlite3_value_int64(value));
	case SQLITE_NULL:
		return 0;
	default:
		break;
	}
	const void *bytes = sqlite3_value_blob(value);
	int size = sqlite3_value_bytes(value);
	return size == 0 ? 0 : digest(seed, place, bytes, (size_t)size);
}

/* ---- rows of the journal ---- */

struct row_sum
row_sum_of(const char *table)
{
	return (struct row_sum){.seed = digest(0, 0, table, strlen(table))};
}

void
row_sum_key(struct row_sum *row, int column, int64_t key)
{
	row->seed = digest_int(row->seed, column, key);
}

void
row_sum_int(struct row_sum *row, int column, int64_t value)
{
	row->values += digest_int(row->seed, column, value);
}

void
row_sum_bytes(struct row_sum *row, int column, const void *bytes, size_t size)
{
	row->values += size == 0 ? 0 : digest(row->seed, column, bytes, size);
}

/* ---- rows that a session saw ---- */

typedef int value_reader(sqlite3_changeset_iter *at, int column, sqlite3_value **out);

/* NULL where the changeset has no value of the column. */
static sqlite3_value *
value_at(sqlite3_changeset_iter *at, value_reader *read, int column)
{
	sqlite3_value *value = NULL;
	if (read(at, column, &value) != SQLITE_OK) {
		memory_ended();
	}
	return value;
}

static uint64_t
values_sum(sqlite3_changeset_iter *at, value_reader *read, uint64_t seed, int count,
    const unsigned char *key)
{
	uint64_t sum = 0;
	for (int i = 0; i < count; i++) {
		sqlite3_value *value = key[i] ? NULL : value_at(at, read, i);
		sum += value == NULL ? 0 : digest_value(seed, i, value);
	}
	return sum;
}

uint64_t
change_sum(sqlite3_changeset_iter *at, const char *table, int count, int operation,
    const unsigned char *key)
{
	bool added = operation == SQLITE_INSERT;
	value_reader *read = added ? sqlite3changeset_new : sqlite3changeset_old;
	uint64_t seed = row_sum_of(table).seed;
	for (int i = 0; i < count; i++) {
		seed = key[i] ? digest_value(seed, i, value_at(at, read, i)) : seed;
	}
	uint64_t sum = values_sum(at, read, seed, count, key);
	if (added) {
		return seed + sum;
	}
	return operation == SQLITE_DELETE
		   ? 0 - seed - sum
		   : values_sum(at, sqlite3changeset_new, seed, count, key) - sum;
}

static bool
add_change(const struct row_change *change, void *context, struct fault *fault)
{
	(void)fault;
	*(uint64_t *)context += change->sum;
	return true;
}

bool
kept_sum(struct book *book, uint64_t *out, struct fault *fault)
{
	SCOPED_CHANGESET changes = {0};
	SCOPED_ARENA passing = {0};
	*out = 0;
	if (book->watch_kept == NULL || sqlite3session_isempty(book->watch_kept) != 0) {
		return true;
	}
	int result =
	    sqlite3session_changeset(book->watch_kept, &changes.size, &changes.bytes);
	if (result == SQLITE_NOMEM) {
		memory_ended();
	}
	return result == SQLITE_OK
		   ? changes_each(&changes, &passing, add_change, out, fault)
		   : call_fault(book->db, fault);
}

bool
revision_raise(struct book *book, struct fault *fault)
{
	SCOPED_CALL call = {0};
	uint64_t kept = 0;
	if (!kept_sum(book, &kept, fault) ||
	    !call_open(book, REVISION_RAISE, &call, fault)) {
		return false;
	}
	give_int(&call, (int64_t)((book->sum + kept) & SUM_MASK));
	return call_run(&call, fault);
}

/* ---- all rows ---- */

static uint64_t
row_sum_now(sqlite3_stmt *stmt, const struct table_shape *shape)
{
	uint64_t seed = row_sum_of(shape->name).seed;
	uint64_t sum = 0;
	for (size_t i = 0; i < shape->count; i++) {
		if (shape->columns[i].key) {
			seed = digest_value(
			    seed, (int)i, sqlite3_column_value(stmt, (int)i));
		}
	}
	for (size_t i = 0; i < shape->count; i++) {
		if (!shape->columns[i].key) {
			sum += digest_value(
			    seed, (int)i, sqlite3_column_value(stmt, (int)i));
		}
	}
	return seed + sum;
}

/* Its name is the schema's own: nothing in the statement comes from outside. */
static bool
add_table(
    struct row_wording *wording, const char *table, uint64_t *sum, struct fault *fault)
{
	sqlite3 *db = wording->book->db;
	sqlite3_stmt *stmt = NULL;
	struct table_shape *shape = NULL;
	if (!shape_find(wording, table, &shape, fault)) {
		return false;
	}
	char *sql = memory_held(sqlite3_mprintf("SELECT * FROM \"%w\"", table));
	int result = sqlite3_prepare_v2(db, sql, -1, &stmt, NULL);
	sqlite3_free(sql);
	while (result == SQLITE_OK || result == SQLITE_ROW) {
		result = sqlite3_step(stmt);
		*sum += result == SQLITE_ROW ? row_sum_now(stmt, shape) : 0;
	}
	bool done = result == SQLITE_DONE || call_fault(db, fault);
	(void)sqlite3_finalize(stmt);
	return done;
}

/* A table's default or check that has become another would change what is written from then on. */
static bool
add_schema(struct book *book, uint64_t *sum, struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_ARENA arena = {0};
	bool row = true;
	if (!call_open(book, SCHEMA_TEXTS, &call, fault)) {
		return false;
	}
	while (call_row(&call, &row, fault) && row) {
		const char *name = take_text(&call, &arena);
		const char *sql = take_text(&call, &arena);
		*sum += digest(row_sum_of(name).seed, 0, sql, strlen(sql));
	}
	return !row;
}

static bool
find_sum(struct book *book, int64_t *out, struct fault *fault)
{
	SCOPED_WORDING wording = {.book = book};
	SCOPED_CALL call = {0};
	uint64_t sum = 0;
	bool row = true;
	if (!add_schema(book, &sum, fault) || !call_open(book, TABLES, &call, fault)) {
		return false;
	}
	while (call_row(&call, &row, fault) && row) {
		const char *table = take_text(&call, &wording.kept);
		if (sums_include(table) && !add_table(&wording, table, &sum, fault)) {
			return false;
		}
	}
	*out = (int64_t)(sum & SUM_MASK);
	return !row;
}

bool
sums_find(
    struct book *book, int64_t *found_out, int64_t *carried_out, struct fault *fault)
{
	return find_sum(book, found_out, fault) &&
	       call_number(book, CONTENTS_SUM, carried_out, fault);
}

bool
sums_renew(struct book *book, struct fault *fault)
{
	SCOPED_CALL call = {0};
	int64_t sum = 0;
	if (!find_sum(book, &sum, fault) ||
	    !call_open(book, CONTENTS_SUM_SET, &call, fault)) {
		return false;
	}
	give_int(&call, sum);
	return call_run(&call, fault);
}
