/* What rows and changes add to the sum of a book. */
#include "book/sums.h"

#include "base/memory.h"

#include <sodium.h>
#include <sqlite3.h>
#include <string.h>

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

uint64_t
digest_value(uint64_t seed, int place, struct value value)
{
	return value.held == HELD_INTEGER ? digest_int(seed, place, value.number)
	       : value.length == 0        ? 0
				   : digest(seed, place, value.bytes, value.length);
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

/* Nothing where the changeset has no value of the column. */
static struct value
value_at(sqlite3_changeset_iter *at, value_reader *read, int column)
{
	sqlite3_value *value = NULL;
	if (read(at, column, &value) != SQLITE_OK) {
		memory_ended();
	}
	int type = value == NULL ? SQLITE_NULL : sqlite3_value_type(value);
	if (type == SQLITE_NULL) {
		return (struct value){0};
	}
	if (type == SQLITE_INTEGER) {
		return (struct value){
		    .held = HELD_INTEGER, .number = sqlite3_value_int64(value)};
	}
	const void *bytes = sqlite3_value_blob(value);
	size_t length = (size_t)sqlite3_value_bytes(value);
	return (struct value){.held = HELD_BYTES, .bytes = bytes, .length = length};
}

static uint64_t
values_sum(sqlite3_changeset_iter *at, value_reader *read, uint64_t seed, int count,
    const unsigned char *key)
{
	uint64_t sum = 0;
	for (int i = 0; i < count; i++) {
		sum += key[i] ? 0 : digest_value(seed, i, value_at(at, read, i));
	}
	return sum;
}

static uint64_t
seed_of(sqlite3_changeset_iter *at, value_reader *read, const char *table, int count,
    const unsigned char *key)
{
	uint64_t seed = row_sum_of(table).seed;
	for (int i = 0; i < count; i++) {
		seed = key[i] ? digest_value(seed, i, value_at(at, read, i)) : seed;
	}
	return seed;
}

uint64_t
column_sum(sqlite3_changeset_iter *at, const char *table, int count,
    const unsigned char *key, int column)
{
	uint64_t seed = seed_of(at, sqlite3changeset_old, table, count, key);
	return digest_value(seed, column, value_at(at, sqlite3changeset_new, column)) -
	       digest_value(seed, column, value_at(at, sqlite3changeset_old, column));
}

uint64_t
change_sum(sqlite3_changeset_iter *at, const char *table, int count, int operation,
    const unsigned char *key)
{
	bool added = operation == SQLITE_INSERT;
	value_reader *read = added ? sqlite3changeset_new : sqlite3changeset_old;
	uint64_t seed = seed_of(at, read, table, count, key);
	uint64_t sum = values_sum(at, read, seed, count, key);
	if (added) {
		return seed + sum;
	}
	return operation == SQLITE_DELETE
		   ? 0 - seed - sum
		   : values_sum(at, sqlite3changeset_new, seed, count, key) - sum;
}
