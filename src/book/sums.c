/* What rows and changes add to the sum of a book. */
#include "book/check_inside.h"

#include <sodium.h>
#include <string.h>

bool
sums_include(const char *table)
{
	const struct table_shape *shape = shape_known(table);
	return shape == NULL || shape->kept != KEEPING_APART;
}

/* A number whose bytes in memory begin with the least, and back. */
static uint64_t
least_first(uint64_t number)
{
	return __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__ ? number
							 : __builtin_bswap64(number);
}

/* A digest of bytes under a seed and a place. */
static uint64_t
digest(uint64_t seed, int place, const void *bytes, size_t size)
{
	const uint64_t key[] = {least_first(seed), least_first((unsigned char)place)};
	uint64_t out = 0;
	_Static_assert(sizeof key == crypto_shorthash_KEYBYTES, "a key");
	_Static_assert(sizeof out == crypto_shorthash_BYTES, "a digest");
	(void)crypto_shorthash(
	    (unsigned char *)&out, bytes, size, (const unsigned char *)key);
	return least_first(out);
}

/* Most numbers are 0: theirs is the seed, which no other value has but by chance. */
static uint64_t
digest_int(uint64_t seed, int place, int64_t value)
{
	if (value == 0) {
		return seed + (uint64_t)place;
	}
	const uint64_t bytes = least_first((uint64_t)value);
	return digest(seed, place, &bytes, sizeof bytes);
}

uint64_t
digest_value(uint64_t seed, int place, struct value value)
{
	if (value.held == HELD_REAL) { /* never as an integer of the same bits */
		return digest_int(seed + 1, place, value.number) + 1;
	}
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

/* ---- rows that changed ---- */

static uint64_t
values_sum(uint64_t seed, const struct row_change *change, const struct value *values)
{
	uint64_t sum = 0;
	for (size_t i = 0; i < change->count; i++) {
		sum += change->key[i] ? 0 : digest_value(seed, (int)i, values[i]);
	}
	return sum;
}

static uint64_t
seed_of(const struct row_change *change)
{
	const struct value *row = change_row(change);
	uint64_t seed = row_sum_of(change->table).seed;
	for (size_t i = 0; i < change->count; i++) {
		seed = change->key[i] ? digest_value(seed, (int)i, row[i]) : seed;
	}
	return seed;
}

uint64_t
column_sum(const struct row_change *change, size_t column)
{
	uint64_t seed = seed_of(change);
	return digest_value(seed, (int)column, change->is[column]) -
	       digest_value(seed, (int)column, change->was[column]);
}

uint64_t
change_sum(const struct row_change *change)
{
	uint64_t seed = seed_of(change);
	switch (change->act) {
	case JOURNAL_ADDED:
		return seed + values_sum(seed, change, change->is);
	case JOURNAL_REMOVED:
		return 0 - seed - values_sum(seed, change, change->was);
	case JOURNAL_CHANGED:
		break;
	}
	return values_sum(seed, change, change->is) -
	       values_sum(seed, change, change->was);
}
