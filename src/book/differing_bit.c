/* Finds the value of which one bit was flipped. */
#include "book/check_inside.h"
#include "book/value.h"

#include <string.h>

enum { LONGEST_TRIED = 4096 };

/* What is looked for. */
struct turning {
	struct row_wording wording;
	uint64_t off;
	struct arena *arena;
	struct differing *out;
	/* the value at hand */
	uint64_t seed;
	int column;
	uint64_t now;
	/* the row that it is in, once that is found: its table, and how it is and was */
	const struct table_shape *found;
	struct value *is;
	struct value *was;
};

/* Whether the sum would be right with another digest in place of the value's. */
static bool
would_do(const struct turning *turning, uint64_t digest)
{
	return sums_equal(turning->now - digest, turning->off);
}

static uint64_t
digest_of_int(const struct turning *turning, int64_t value)
{
	struct row_sum row = {.seed = turning->seed};
	row_sum_int(&row, turning->column, value);
	return row.values;
}

/* How many bytes SQLite stores of an integer: a flip in the file is in one of them. */
static int
stored_bytes(int64_t value)
{
	static const int SIZES[] = {1, 2, 3, 4, 6};
	uint64_t beyond = value < 0 ? ~(uint64_t)value : (uint64_t)value;
	for (size_t i = 0; i < sizeof SIZES / sizeof SIZES[0]; i++) {
		if (beyond >> (8 * SIZES[i] - 1) == 0) {
			return SIZES[i];
		}
	}
	return 8;
}

/* SQLite stores 0, 1 and NULL as a type without a value; a flip may turn one into
 * another, "" where it was NULL. */
static bool
turn_int(const struct turning *turning, int64_t value, struct value *was)
{
	for (int64_t other = 0; other <= 1; other++) {
		if (value != other && would_do(turning, digest_of_int(turning, other))) {
			*was = (struct value){.held = HELD_INTEGER, .number = other};
			return true;
		}
	}
	for (int bit = 0; bit < 8 * stored_bytes(value); bit++) {
		int64_t other = (int64_t)((uint64_t)value ^ UINT64_C(1) << bit);
		if (would_do(turning, digest_of_int(turning, other))) {
			*was = (struct value){.held = HELD_INTEGER, .number = other};
			return true;
		}
	}
	return would_do(turning, 0);
}

static bool
turn_bytes(struct turning *turning, const void *bytes, size_t size, struct value *was)
{
	SCOPED_TEXT turned = {0};
	if (size == 0 || size > LONGEST_TRIED) {
		return false;
	}
	text_add_bytes(&turned, bytes, size);
	for (size_t bit = 0; bit < 8 * size; bit++) {
		struct row_sum row = {.seed = turning->seed};
		turned.bytes[bit / 8] = (char)(turned.bytes[bit / 8] ^ 1 << bit % 8);
		row_sum_bytes(&row, turning->column, turned.bytes, size);
		if (would_do(turning, row.values)) {
			bool sound = utf8_valid(turned.bytes, size);
			const char *words = arena_string(&turning->wording.kept,
			    sound ? text_string(&turned) : "(bytes)");
			*was = (struct value){
			    .held = HELD_TEXT, .bytes = words, .length = strlen(words)};
			return true;
		}
		turned.bytes[bit / 8] = (char)(turned.bytes[bit / 8] ^ 1 << bit % 8);
	}
	return false;
}

/* What a value was, where that is found: nothing for SQL's NULL. */
static bool
turn_value(struct turning *turning, const struct value *value, struct value *was)
{
	*was = (struct value){0};
	switch (value->held) {
	case HELD_NOTHING:
	case HELD_REAL:
	case HELD_UNSAID:
		break;
	case HELD_INTEGER:
		return turn_int(turning, value->number, was);
	case HELD_TEXT:
	case HELD_BYTES:
		return turn_bytes(turning, value->bytes, value->length, was);
	}
	return false;
}

/* Keeps the row at hand as it is and, in the column at hand, as it was. */
static void
keep(struct turning *turning, const struct value *values, const struct table_shape *shape,
    struct value was)
{
	struct arena *kept = &turning->wording.kept;
	turning->found = shape;
	turning->is = arena_alloc(kept, shape->count * sizeof *turning->is);
	turning->was = arena_alloc(kept, shape->count * sizeof *turning->was);
	for (size_t i = 0; i < shape->count; i++) {
		turning->is[i] = values[i];
		if (values[i].bytes != NULL) {
			turning->is[i].bytes =
			    arena_bytes(kept, values[i].bytes, values[i].length);
		}
		turning->was[i] = turning->is[i];
	}
	turning->was[turning->column] = was;
}

static bool
try_row(const struct value *values, const struct table_shape *shape, void *context,
    struct fault *fault)
{
	struct turning *turning = context;
	struct value was = {0};
	(void)fault;
	turning->seed = row_seed(values, shape);
	for (int i = 0; i < (int)shape->count && turning->found == NULL; i++) {
		turning->column = i;
		turning->now = digest_value(turning->seed, i, values[i]);
		if (!shape->columns[i].key && turn_value(turning, &values[i], &was)) {
			keep(turning, values, shape, was);
		}
	}
	return true;
}

static bool
tell(struct turning *turning, struct fault *fault)
{
	SCOPED_TEXT words = {0};
	if (!differing_value_words(&turning->wording, turning->found, turning->was,
		turning->is, (size_t)turning->column, &words, fault)) {
		return false;
	}
	differing_add(turning->arena, turning->out,
	    (struct differing_value){text_string(&words), turning->off, false});
	return true;
}

bool
differing_by_bit(struct book *book, uint64_t off, struct arena *arena,
    struct differing *out, struct fault *fault)
{
	struct turning turning = {
	    .wording = {.book = book}, .off = off, .arena = arena, .out = out};
	bool done = true;
	for (size_t i = 0; done && i < TABLE_COUNT && turning.found == NULL; i++) {
		done = TABLES[i].kept == KEEPING_APART ||
		       rows_each(&turning.wording, &TABLES[i], try_row, &turning, fault);
	}
	done = done && (turning.found == NULL || tell(&turning, fault));
	wording_clear(&turning.wording);
	return done;
}
