/* The bytes of an entry, made by hand from what value.h says of this program's format,
 * and from www.sqlite.org/session/c_changegroup.html and the head of SQLite's
 * ext/session/sqlite3session.c of the older one. */
#include "becket_test.h"
#include "book/value.h"

#include <stdlib.h>
#include <string.h>

#define EIGHT_ONES "\xff\xff\xff\xff\xff\xff\xff\xff"

/* Three rows of a table with a key and two other columns, and one of a table that is all
 * key. Numbers with their sign last: 5 is 10, -1 is 1; of the least the bits are all
 * ones, of the greatest all but the last. 1.5 is 3ff8 and zeros (IEEE 754). */
static const char OURS[] =
    "\x01\x02"
    "\x01t\x03\x02id\x01\x01"
    "a\x00\x01"
    "b\x00\x04"
    "\x00\x01\x0a\x03\x02hi\x00"
    "\x01\x01\x01\x01\x02\x00\x02\x3f\xf8\x00\x00\x00\x00\x00\x00"
    "\x02\x01" EIGHT_ONES "\xff\x01\x04\x02\x00\xff\x01\xfe" EIGHT_ONES "\x01"
    "\x00\x01\x00\x03\x00\x04\x00"
    "\x01u\x02\x01x\x02\x01y\x01\x01"
    "\x02\x03\x01z\x01\x80\x01";

/* The same by the older program, whose columns have no names: in it the text is "hi", and
 * numbers fill eight bytes. 0 is not said, 1 to 5 are an integer, a real, a text, bytes
 * and nothing. */
static const char THEIRS[] =
    "T\x03\x01\x00\x00t\x00"
    "\x12\x00\x01\x00\x00\x00\x00\x00\x00\x00\x05\x03\x02hi\x05"
    "\x17\x00\x01" EIGHT_ONES "\x00\x05\x00\x00\x02\x3f\xf8\x00\x00\x00\x00\x00\x00"
    "\x09\x00\x01\x80\x00\x00\x00\x00\x00\x00\x00\x04\x02\x00\xff\x01\x7f\xff\xff\xff"
    "\xff\xff\xff\xff"
    "\x12\x01\x01\x00\x00\x00\x00\x00\x00\x00\x00\x03\x00\x04\x00"
    "T\x02\x02\x01u\x00"
    "\x09\x00\x03\x01z\x01\x00\x00\x00\x00\x00\x00\x00\x40";

static const char READ[] = "t added id1 5 a0 'hi' b0 nothing\n"
			   "t changed id1 -1 > - a0 - > - b0 nothing > 1.5\n"
			   "t removed id1 -9223372036854775808 a0 2 bytes 00ff "
			   "b0 9223372036854775807\n"
			   "t added id1 0 a0 '' b0 0 bytes \n"
			   "u removed x2 'z' y1 64\n";

enum { OURS_SIZE = sizeof OURS - 1, THEIRS_SIZE = sizeof THEIRS - 1 };

static void
add_value(struct text *out, const struct value *value)
{
	double real = 0;
	switch (value->held) {
	case HELD_NOTHING:
		text_add(out, " nothing");
		break;
	case HELD_UNSAID:
		text_add(out, " -");
		break;
	case HELD_INTEGER:
		text_add_format(out, " %lld", (long long)value->number);
		break;
	case HELD_REAL:
		memcpy(&real, &value->number, sizeof real);
		text_add_format(out, " %.17g", real);
		break;
	case HELD_TEXT:
		text_add_format(out, " '%.*s'", (int)value->length, value->bytes);
		break;
	case HELD_BYTES:
		text_add_format(out, " %zu bytes ", value->length);
		for (size_t i = 0; i < value->length; i++) {
			text_add_format(out, "%02x", (unsigned char)value->bytes[i]);
		}
		break;
	}
}

static bool
tell(const struct row_change *change, void *context, struct fault *fault)
{
	static const char *const NAMES[][3] = {{"id", "a", "b"}, {"x", "y", NULL}};
	static const char *const ACTS[] = {"added", "changed", "removed"};
	struct text *out = context;
	(void)fault;
	const char *const *names =
	    change->names == NULL ? NAMES[change->table[0] == 'u'] : change->names;
	text_add_format(out, "%s %s", change->table, ACTS[change->act]);
	for (size_t i = 0; i < change->count; i++) {
		text_add_format(out, " %s%d", names[i], change->key[i]);
		add_value(out, &change_row(change)[i]);
		if (change->act == JOURNAL_CHANGED) {
			text_add(out, " >");
			add_value(out, &change->is[i]);
		}
	}
	text_add(out, "\n");
	return true;
}

/* What is read of a copy of the bytes that ends where they end, so that a sanitizer sees
 * what lies beyond; false when they are refused, and then nothing was told. */
static bool
reads(const void *bytes, size_t size, struct text *out)
{
	SCOPED_ARENA passing = {0};
	struct fault fault = {0};
	unsigned char *copy = malloc(size > 0 ? size : 1);
	assert_non_null(copy);
	memcpy(copy, bytes, size);
	text_reset(out);
	bool read = changes_each(copy, size, &passing, tell, out, &fault);
	free(copy);
	if (!read) {
		assert_int_equal(fault.kind, FAULT_BOOK);
		assert_string_equal(fault.text, "the journal's changes are damaged");
		assert_int_equal(out->length, 0);
	}
	return read;
}

TEST(both_formats_tell_values_of_all_types)
{
	SCOPED_TEXT out = {0};
	assert_true(reads(OURS, OURS_SIZE, &out));
	assert_string_equal(text_string(&out), READ);
	assert_true(reads(THEIRS, THEIRS_SIZE, &out));
	assert_string_equal(text_string(&out), READ);
}

TEST(an_entry_that_changed_nothing_has_no_bytes)
{
	SCOPED_TEXT out = {0};
	assert_true(reads("", 0, &out));
	assert_int_equal(out.length, 0);
}

static void
add_row(struct text *out, const struct row_change *change)
{
	SCOPED_TEXT values = {0};
	if (change->act == JOURNAL_CHANGED) {
		changes_add_changed(out, change);
		return;
	}
	for (size_t i = 0; i < change->count; i++) {
		value_add(&values, &change_row(change)[i]);
	}
	const struct bytes_left row = {
	    (const unsigned char *)values.bytes, values.length};
	changes_add_whole(out, change->act, row);
}

/* Writes each change as it is read, under heads for the two tables. */
static bool
write(const struct row_change *change, void *context, struct fault *fault)
{
	struct text *out = context;
	(void)fault;
	if (out->length == 0) {
		changes_add_head(out, 2);
		changes_add_table(out, change, 4);
	} else if (change->table[0] == 'u') {
		changes_add_table(out, change, 1);
	}
	add_row(out, change);
	return true;
}

TEST(what_is_written_is_to_the_byte_what_was_read)
{
	SCOPED_TEXT out = {0};
	SCOPED_ARENA passing = {0};
	struct fault fault = {0};
	assert_true(changes_each(OURS, OURS_SIZE, &passing, write, &out, &fault));
	assert_int_equal(out.length, OURS_SIZE);
	assert_memory_equal(out.bytes, OURS, OURS_SIZE);
}

TEST(what_is_the_same_before_and_after_is_left_out)
{
	static const char *const NAMES[] = {"id", "a", "b"};
	static const unsigned char KEY[] = {1, 0, 0};
	static const struct value WAS[] = {
	    {HELD_INTEGER, 7, NULL, 0}, {HELD_TEXT, 0, "hi", 2}, {HELD_TEXT, 0, "1", 1}};
	static const struct value IS[] = {{HELD_INTEGER, 7, NULL, 0},
	    {HELD_TEXT, 0, "hi", 2}, {HELD_INTEGER, 1, NULL, 0}};
	const struct row_change change = {
	    "t", 3, NAMES, KEY, JOURNAL_CHANGED, WAS, IS, NULL};
	SCOPED_TEXT out = {0};
	changes_add_changed(&out, &change);
	assert_int_equal(out.length, 10);
	assert_memory_equal(out.bytes, "\x01\x01\x0e\x01\x02\x03\x01\x31\x01\x02", 10);
}

TEST(an_entry_cut_at_any_byte_or_with_one_more_is_refused)
{
	SCOPED_TEXT out = {0};
	for (size_t size = 1; size < OURS_SIZE; size++) {
		if (reads(OURS, size, &out)) {
			fail_msg("read of %zu bytes:\n%s", size, text_string(&out));
		}
	}
	assert_false(reads(OURS, OURS_SIZE + 1, &out));
}

/* A changeset has no counts: cut between two changes, or after a table's head, it is a shorter
 * one. */
TEST(an_older_entry_cut_within_a_change_is_refused)
{
	static const size_t BETWEEN[] = {0, 7, 23, 47, 71, 86, 92, THEIRS_SIZE};
	SCOPED_TEXT out = {0};
	size_t next = 0;
	for (size_t size = 0; size <= THEIRS_SIZE; size++) {
		bool whole = size == BETWEEN[next];
		next += whole ? 1 : 0;
		if (reads(THEIRS, size, &out) != whole) {
			fail_msg("of %zu bytes: %s", size, text_string(&out));
		}
	}
}

/* One bit may make another value, and is told by the sum of the book; here nothing falls
 * over, and what is read is another or nothing. */
TEST(no_turned_bit_is_read_as_if_nothing_were)
{
	static const struct {
		const char *bytes;
		size_t size;
	} ENTRIES[] = {{OURS, OURS_SIZE}, {THEIRS, THEIRS_SIZE}};

	size_t refused = 0;
	for (size_t i = 0; i < 2; i++) {
		for (size_t bit = 0; bit < 8 * ENTRIES[i].size; bit++) {
			SCOPED_TEXT out = {0};
			SCOPED_TEXT turned = {0};
			text_add_bytes(&turned, ENTRIES[i].bytes, ENTRIES[i].size);
			turned.bytes[bit / 8] =
			    (char)(turned.bytes[bit / 8] ^ 1 << bit % 8);
			refused += reads(turned.bytes, turned.length, &out) ? 0 : 1;
			/* the byte that says of an older change whether a reference made it */
			bool said_of_references =
			    i == 1 && (bit / 8 == 8 || bit / 8 == 24 || bit / 8 == 48 ||
					  bit / 8 == 72 || bit / 8 == 93);
			if (!said_of_references && strcmp(text_string(&out), READ) == 0) {
				fail_msg("bit %zu of entry %zu", bit, i);
			}
		}
	}
	assert_true(refused > 100);
}

/* An entry of one table with a key and one other column, then so many rows. */
#define TABLE                                                                            \
	"\x01\x01\x01t\x02\x02id\x01\x01"                                                \
	"a\x00"

TEST(bytes_that_make_no_sense_are_refused)
{
	static const struct {
		const char *what, *bytes;
		size_t size;
	} BAD[] = {

#define BYTES(what, bytes) {what, bytes, sizeof(bytes) - 1}
	    BYTES("another format", "\x02\x00"),
	    BYTES("text", "U"),
	    BYTES("more tables than there are", "\x01\x02\x01t\x01\x01k\x01\x00"),
	    BYTES("2^64 - 1 columns", "\x01\x01\x01t" EIGHT_ONES "\xff\x01\x01k\x01"),
	    BYTES("a number over 2^64", "\x01" EIGHT_ONES "\xff\x02"),
	    BYTES("a number that does not end", "\x01" EIGHT_ONES "\xff\xff\xff\x01"),
	    BYTES("a name longer than all", "\x01\x01\x7ft"),
	    BYTES("a name with a zero", "\x01\x01\x02t\x00\x01\x01k\x01\x00"),
	    BYTES("a table without columns", "\x01\x01\x01t\x00\x00"),
	    BYTES("a table without a key", "\x01\x01\x01t\x01\x01k\x00\x00"),
	    BYTES("more rows than there are", TABLE "\x02\x00\x01\x02\x00"),
	    BYTES("2^64 - 1 rows", TABLE EIGHT_ONES "\xff\x01\x00\x01\x02\x00"),
	    BYTES("an unknown act", TABLE "\x01\x03\x01\x02\x00"),
	    BYTES("an unknown type", TABLE "\x01\x00\x05\x02\x00"),
	    BYTES("a key of nothing", TABLE "\x01\x00\x00\x00"),
	    BYTES("a changed row with a key of nothing",
		TABLE "\x01\x01\x00\x01\x01\x00\x00"),
	    BYTES("a changed row of which nothing is", TABLE "\x01\x01\x01\x02\x00"),
	    BYTES("a changed key", TABLE "\x01\x01\x01\x02\x01\x00\x01\x02\x01\x04"),
	    BYTES("a column twice",
		TABLE "\x01\x01\x01\x02\x02\x01\x00\x01\x02\x01\x00\x01\x04"),
	    BYTES("a column beyond", TABLE "\x01\x01\x01\x02\x01\x02\x00\x01\x02"),
	    BYTES("a text longer than all", TABLE "\x01\x00\x01\x02\x03\x05hi"),
	    BYTES("an older change before any table", "\x12\x00\x05"),
	    BYTES("an older table whose name does not end", "T\x01\x01t"),
	    BYTES("an older table of 2^63 columns", "T\xff" EIGHT_ONES "t\x00"),
	    BYTES("an older table without a key", "T\x01\x00t\x00"),
	    BYTES("an older change that is not known", "T\x01\x01t\x00\x13\x00\x03\x01x"),
	    BYTES("an older row with a value not said", "T\x01\x01t\x00\x12\x00\x00"),
	    BYTES("an older row with a key of nothing", "T\x01\x01t\x00\x12\x00\x05"),
	    BYTES("an older type that is not known", "T\x01\x01t\x00\x12\x00\x06"),
	    BYTES("an older change with one side said",
		"T\x02\x01\x00t\x00\x17\x00\x03\x01x\x05\x00\x00"),
	    BYTES("an older change of a key", "T\x01\x01t\x00\x17\x00\x03\x01x\x03\x01y"),
	    BYTES("an older change of nothing",
		"T\x02\x01\x00t\x00\x17\x00\x03\x01x\x00\x00\x00"),
	    BYTES("an older text longer than all", "T\x01\x01t\x00\x12\x00\x03\x05x"),
#undef BYTES
	};
	SCOPED_TEXT out = {0};
	for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
		if (reads(BAD[i].bytes, BAD[i].size, &out)) {
			fail_msg("%s: read as\n%s", BAD[i].what, text_string(&out));
		}
	}
}

/* Who reads stops at the first that it can't do, and its fault stands. */
static bool
stop(const struct row_change *change, void *context, struct fault *fault)
{
	(void)change;
	++*(int *)context;
	return fault_set(fault, FAULT_INPUT, "enough");
}

TEST(reading_ends_with_the_first_that_fails)
{
	SCOPED_ARENA passing = {0};
	struct fault fault = {0};
	int called = 0;
	assert_false(changes_each(OURS, OURS_SIZE, &passing, stop, &called, &fault));
	assert_int_equal(called, 1);
	assert_string_equal(fault.text, "enough");
}

TEST(a_value_as_text_is_what_people_read)
{
	static const struct {
		struct value value;
		const char *text;
	} CASES[] = {
	    {{HELD_NOTHING, 0, NULL, 0}, NULL},
	    {{HELD_UNSAID, 0, NULL, 0}, NULL},
	    {{HELD_INTEGER, INT64_MIN, NULL, 0}, "-9223372036854775808"},
	    {{HELD_INTEGER, INT64_MAX, NULL, 0}, "9223372036854775807"},
	    {{HELD_INTEGER, 0, NULL, 0}, "0"},
	    {{HELD_REAL, INT64_C(0x3ff8000000000000), NULL, 0}, "1.5"},
	    {{HELD_TEXT, 0, "caf\xc3\xa9!", 5}, "caf\xc3\xa9"},
	    {{HELD_TEXT, 0, "caf\xc3\xa9", 4}, "(no UTF-8)"},
	    {{HELD_TEXT, 0, NULL, 0}, ""},
	    {{HELD_BYTES, 0, "abc", 3}, "3 bytes"},
	    {{HELD_BYTES, 0, NULL, 0}, ""},
	};

	SCOPED_ARENA arena = {0};
	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		const char *text = value_text(&CASES[i].value, &arena);
		if (CASES[i].text == NULL) {
			assert_null(text);
		} else {
			assert_string_equal(text, CASES[i].text);
		}
	}
}

RUN_TESTS(NULL, NULL)
