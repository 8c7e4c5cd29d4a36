/* Rows of a list kept packed: each comes back as it was, however many and however long.
 * */
#include "exchange/csv_rows.h"

#include "becket_test.h"
#include "life/serials.h"

#include <stdio.h>
#include <string.h>

/* A row with a value of every type, its own by its number. */
static struct csv_row
row_of(size_t number, char tag[24], const char *notes)
{
	struct csv_row row = csv_row_blank();
	(void)snprintf(tag, 24, "LJ-%zu", number);
	row.line = number + 2;
	row.change.set = 1U << FIELD_MADE | 1U << FIELD_NOTES;
	row.change.tag = tag;
	row.change.notes = notes;
	row.change.vessel = "Quillfish";
	row.change.quantity = (int)number;
	row.change.price_minor = (int64_t)number * 100;
	row.change.made = (struct stamp){.year = 2021, .precision = STAMP_YEAR};
	row.change.hired_until = (day_t)number;
	row.change.state = PLACE_RESERVE;
	row.given = 5;
	row.has_record = number % 2 == 0;
	row.record.certificate = number % 2 == 0 ? tag : "";
	row.record.task = TASK_WEIGH;
	return row;
}

TEST(a_row_comes_back_as_it_was_however_many_there_are)
{
	enum { MANY = 3000, LONG = 200000 };

	/* the last one is longer than what is read at once */
	char *notes = test_malloc(LONG + 1);
	char tag[24];
	size_t met = 0;
	struct fault fault = {0};
	SCOPED_ROWS rows = {0};
	memset(notes, 'n', LONG);
	notes[LONG] = '\0';
	for (size_t i = 0; i < MANY; i++) {
		struct csv_row row = row_of(i, tag, i + 1 == MANY ? notes : "");
		csv_rows_add(&rows, &row);
	}
	SCOPED_BATCH batch = {.rows = &rows};
	assert_true(csv_batch_next(&batch, &fault));
	while (batch.count > 0) {
		assert_true(batch.count < MANY);
		for (size_t i = 0; i < batch.count; i++, met++) {
			const struct csv_row *row = &batch.items[i];
			(void)snprintf(tag, sizeof tag, "LJ-%zu", met);
			assert_int_equal(row->line, met + 2);
			assert_string_equal(row->change.tag, tag);
			assert_string_equal(row->change.vessel, "Quillfish");
			assert_string_equal(row->change.serial, "");
			assert_int_equal(row->change.quantity, (int)met);
			assert_int_equal(row->change.price_minor, (int64_t)met * 100);
			assert_int_equal(row->change.made.year, 2021);
			assert_int_equal(row->change.hired_until, (day_t)met);
			assert_int_equal(row->change.state, PLACE_RESERVE);
			assert_int_equal(row->given, 5);
			assert_int_equal(row->has_record, met % 2 == 0);
			assert_int_equal(row->record.task, TASK_WEIGH);
			assert_int_equal(row->record.price_minor, -1);
			assert_string_equal(
			    row->record.certificate, met % 2 == 0 ? tag : "");
			assert_int_equal(
			    strlen(row->change.notes), met + 1 == MANY ? LONG : 0);
		}
		assert_true(csv_batch_next(&batch, &fault));
	}
	assert_int_equal(met, MANY);
	test_free(notes);
}

TEST(rows_are_cut_at_a_multiple_while_more_follow)
{
	enum { MANY = 3007, CUT = 50 };

	char tag[24];
	size_t met = 0;
	struct fault fault = {0};
	SCOPED_ROWS rows = {0};
	for (size_t i = 0; i < MANY; i++) {
		struct csv_row row = row_of(i, tag, "");
		csv_rows_add(&rows, &row);
	}
	SCOPED_BATCH batch = {.rows = &rows, .cut = CUT};
	do {
		assert_true(csv_batch_next(&batch, &fault));
		for (size_t i = 0; i < batch.count; i++, met++) {
			assert_int_equal(batch.items[i].line, met + 2);
		}
		assert_true(batch.count < MANY);
		assert_true(met == MANY || batch.count % CUT == 0);
	} while (batch.count > 0);
	assert_int_equal(met, MANY);
}

/* Rows of which fewer than are to be together are held at once come as they do. */
TEST(long_rows_are_not_cut)
{
	enum { MANY = 7, LONG = 30000 };

	char *notes = test_malloc(LONG + 1);
	char tag[24];
	size_t met = 0;
	struct fault fault = {0};
	SCOPED_ROWS rows = {0};
	memset(notes, 'n', LONG);
	notes[LONG] = '\0';
	for (size_t i = 0; i < MANY; i++) {
		struct csv_row row = row_of(i, tag, notes);
		csv_rows_add(&rows, &row);
	}
	SCOPED_BATCH batch = {.rows = &rows, .cut = 50};
	do {
		assert_true(csv_batch_next(&batch, &fault));
		met += batch.count;
	} while (batch.count > 0);
	assert_int_equal(met, MANY);
	test_free(notes);
}

static void
count_alike(struct csv_row *rows, size_t count, void *context)
{
	size_t *found = context;
	assert_int_equal(count, 2);
	assert_true(rows[0].line < rows[1].line);
	assert_string_equal(rows[0].change.tag, rows[1].change.tag);
	*found += rows[0].line;
}

/* Rows 7 and 1500 are said twice, the second time as parts: they stand in lines 9 and
 * 1502, and 9 + 1502 is 1511. The whole of the one is the last row, that of the other
 * none. 40,000 are more than are held. */
static void
assert_found_among(size_t many)
{
	char tag[24];
	char whole[24];
	size_t found = 0;
	struct fault fault = {0};
	struct csv_places lone = {0};
	SCOPED_ROWS rows = {0};
	for (size_t i = 0; i < many; i++) {
		struct csv_row row = row_of(i, tag, "");
		csv_rows_add(&rows, &row);
	}
	for (size_t i = 7; i <= 1500; i += 1493) {
		struct csv_row row = row_of(i, tag, "");
		const char *const words = whole;
		(void)snprintf(whole, sizeof whole, "LJ-%zu", i == 7 ? many - 1 : many);
		row.line = 50000 + i;
		row.change.part_of = whole;
		csv_digests_add(&rows.tags, &words, 1, rows.packed.length, true);
		csv_rows_add(&rows, &row);
	}
	assert_true(csv_rows_alike(&rows, &rows.tags, count_alike, &found, &fault));
	assert_int_equal(found, 1511);
	assert_true(csv_rows_without_whole(&rows, &lone, &fault));
	assert_int_equal(lone.count, 1);
	SCOPED_ARENA arena = {0};
	struct csv_row row;
	assert_true(csv_rows_at(&rows, lone.items[0], &arena, &row, &fault));
	assert_int_equal(row.line, 51500);
	free(lone.items);
}

TEST(rows_with_one_tag_and_wholes_are_found_among_many)
{
	assert_found_among(2000);
	assert_found_among(40000);
}

/* Entries are shown in words that are gone once they were: the second is one character
 * from the first, the fourth the same as the third, and the last counts on from the one
 * before it. */
TEST(serials_are_looked_at_without_being_held)
{
	static const char *const SERIALS[] = {
	    "AB1231", "AB1235X", "77", "77", "Q-0198", "Q-0199"};

	enum { MANY = sizeof SERIALS / sizeof SERIALS[0] };

	const struct inventory nothing = {0};
	struct serial_looking *looking = serial_look_begin(&nothing, MANY);
	size_t count = 0;
	do {
		for (size_t i = 0; i < MANY; i++) {
			char kind[] = "plb";
			char serial[16];
			(void)snprintf(serial, sizeof serial, "%s", SERIALS[i]);
			serial[i == 1 ? 6 : sizeof serial - 1] = '\0';
			const struct serial_entry entry = {
			    kind, serial, ITEM_NO_PARENT, true};
			serial_look_at(looking, &entry, i * 10);
			memset(kind, 'x', sizeof kind - 1);
			memset(serial, 'x', sizeof serial - 1);
		}
	} while (serial_look_again(looking));
	const struct serial_found *found = serial_look_found(looking, &count);
	assert_int_equal(count, 2);
	assert_int_equal(found[0].entry, 1);
	assert_int_equal(found[0].key, 10);
	assert_int_equal(found[0].other_key, 0);
	assert_int_equal(found[0].finding.doubt, SERIAL_NEAR);
	assert_string_equal(found[0].serial, "AB1235");
	assert_string_equal(found[0].finding.serial, "AB1231");
	assert_int_equal(found[1].entry, 3);
	assert_int_equal(found[1].other_key, 20);
	assert_int_equal(found[1].finding.doubt, SERIAL_SAME);
	serial_look_end(looking);
}

RUN_TESTS(NULL, NULL)
