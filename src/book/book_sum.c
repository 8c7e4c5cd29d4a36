/* The sum of a book: kept up from what a transaction changed, or worked out again from
 * all rows. */
#include "base/text.h"
#include "book/check_inside.h"
#include "book/journal_inside.h"
#include "book/rows.h"

#include <string.h>

/* Sums are taken modulo 2^62. */
static const uint64_t SUM_MASK = (UINT64_C(1) << 62) - 1;

bool
revision_raise(struct book *book, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, REVISION_RAISE, &call, fault)) {
		return false;
	}
	give_int(&call, (int64_t)(book->sum & SUM_MASK));
	numbers_give(&call);
	return call_run(&call, fault);
}

bool
sums_equal(uint64_t a, uint64_t b)
{
	return ((a - b) & SUM_MASK) == 0;
}

uint64_t
row_seed(const struct value *values, const struct table_shape *shape)
{
	uint64_t seed = row_sum_of(shape->name).seed;
	for (size_t i = 0; i < shape->count; i++) {
		if (shape->columns[i].key) {
			seed = digest_value(seed, (int)i, values[i]);
		}
	}
	return seed;
}

uint64_t
row_adds(const struct value *values, const struct table_shape *shape)
{
	uint64_t seed = row_seed(values, shape);
	uint64_t sum = seed;
	for (size_t i = 0; i < shape->count; i++) {
		sum += shape->columns[i].key ? 0 : digest_value(seed, (int)i, values[i]);
	}
	return sum;
}

bool
rows_each(struct row_wording *wording, const struct table_shape *shape, row_visitor *each,
    void *context, struct fault *fault)
{
	SCOPED_TEXT sql = {0};
	SCOPED_CALL call = {0};
	bool row = true;
	text_add(&sql, "SELECT * FROM ");
	add_quoted(&sql, shape->name);
	if (!call_open_text(wording->book, text_string(&sql), &call, fault)) {
		return false;
	}
	struct value *values = arena_alloc(&wording->kept, shape->count * sizeof *values);
	while (call_row(&call, &row, fault) && row) {
		for (size_t i = 0; i < shape->count; i++) {
			values[i] = take_value(&call);
		}
		if (!each(values, shape, context, fault)) {
			return false;
		}
	}
	return !row;
}

static bool
add_row(const struct value *values, const struct table_shape *shape, void *context,
    struct fault *fault)
{
	(void)fault;
	*(uint64_t *)context += row_adds(values, shape);
	return true;
}

/* A changed default or check of a table would change what is written from then on. */
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
		struct row_sum text = row_sum_of(name);
		row_sum_bytes(&text, 0, sql, strlen(sql));
		*sum += text.values;
	}
	return !row;
}

static void
take_table(struct call *call, struct arena *arena, void *out)
{
	struct table_shape *shape = out;
	shape->name = take_text(call, arena);
	shape->count = (size_t)take_int(call);
	uint64_t keys = (uint64_t)take_int(call);
	struct column *columns = arena_alloc(arena, shape->count * sizeof *columns);
	for (size_t i = 0; i < shape->count && i < 64; i++) {
		columns[i].key = (int)(keys >> i & 1);
	}
	shape->columns = columns;
}

/* Adds the rows of all tables as the file has them: it may be an older program's, and
 * about to be migrated. */
static bool
add_tables(struct row_wording *wording, uint64_t *sum, struct fault *fault)
{
	SCOPED_CALL call = {0};
	const struct table_shape *tables = NULL;
	size_t count = 0;
	if (!call_open(wording->book, TABLES_THERE, &call, fault) ||
	    !call_rows(&call, &wording->kept, take_table, sizeof *tables, &tables, &count,
		fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (sums_include(tables[i].name) &&
		    !rows_each(wording, &tables[i], add_row, sum, fault)) {
			return false;
		}
	}
	return true;
}

static bool
find_sum(struct book *book, int64_t *out, struct fault *fault)
{
	SCOPED_WORDING wording = {.book = book};
	uint64_t sum = 0;
	if (!add_schema(book, &sum, fault) || !add_tables(&wording, &sum, fault)) {
		return false;
	}
	*out = (int64_t)(sum & SUM_MASK);
	return true;
}

bool
sums_find(
    struct book *book, int64_t *found_out, int64_t *carried_out, struct fault *fault)
{
	return find_sum(book, found_out, fault) &&
	       call_number(book, CONTENTS_SUM, carried_out, fault);
}

bool
sums_renew(struct book *book, uint64_t off, struct fault *fault)
{
	SCOPED_CALL call = {0};
	int64_t sum = 0;
	if (!find_sum(book, &sum, fault) ||
	    !call_open(book, CONTENTS_SUM_SET, &call, fault)) {
		return false;
	}
	give_int(&call, (int64_t)(((uint64_t)sum - off) & SUM_MASK));
	return call_run(&call, fault);
}
