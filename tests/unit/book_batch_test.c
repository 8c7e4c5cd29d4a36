/* Many rows at once: they come out as they would one by one. */
#include "book_file.h"
#include "book_scratch.h"

enum { MANY = 2300 };

/* All that a question answers, a line a row. */
static void
answer(struct book *book, const char *sql, struct text *out)
{
	sqlite3_stmt *stmt = NULL;
	assert_int_equal(
	    sqlite3_prepare_v2(file_of(book), sql, -1, &stmt, NULL), SQLITE_OK);
	while (sqlite3_step(stmt) == SQLITE_ROW) {
		for (int i = 0; i < sqlite3_column_count(stmt); i++) {
			const unsigned char *value = sqlite3_column_text(stmt, i);
			text_add_format(
			    out, "%s|", value == NULL ? "NULL" : (const char *)value);
		}
		text_add(out, "\n");
	}
	assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
}

static void
assert_same(struct scratch *one, struct scratch *other, const char *sql)
{
	SCOPED_TEXT left = {0};
	SCOPED_TEXT right = {0};
	answer(one->book, sql, &left);
	answer(other->book, sql, &right);
	assert_true(left.length > 0);
	assert_string_equal(text_string(&left), text_string(&right));
}

SCRATCH_TEST(what_is_not_told_of_a_new_item_is_as_the_schema_has_it)
{
	struct scratch *scratch = *state;
	const struct item_change told = {.set = 1U << FIELD_VESSEL | 1U << FIELD_KIND,
	    .tag = "OURS",
	    .vessel = "Amber Tern",
	    .kind = "plb"};
	assert_done(
	    scratch, book_put_items(scratch->book, &told, 1, NULL, &scratch->fault));
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book),
		"INSERT INTO item (tag, vessel_id, kind) VALUES ('RAW', 1, 'plb')", NULL,
		NULL, NULL),
	    SQLITE_OK);
	sqlite3_stmt *stmt = NULL;
	assert_int_equal(sqlite3_prepare_v2(file_of(scratch->book),
			     "SELECT ours.*, raw.* FROM item AS ours, item AS raw "
			     "WHERE ours.tag = 'OURS' AND raw.tag = 'RAW'",
			     -1, &stmt, NULL),
	    SQLITE_OK);
	assert_int_equal(sqlite3_step(stmt), SQLITE_ROW);
	int columns = sqlite3_column_count(stmt) / 2;
	assert_true(columns > (int)FIELD_COUNT);
	for (int i = 2; i < columns; i++) {
		const char *ours = (const char *)sqlite3_column_text(stmt, i);
		const char *raw = (const char *)sqlite3_column_text(stmt, i + columns);
		if (strcmp(ours == NULL ? "NULL" : ours, raw == NULL ? "NULL" : raw) !=
		    0) {
			fail_msg("%s: \"%s\", and the schema has \"%s\"",
			    sqlite3_column_name(stmt, i), ours, raw);
		}
	}
	assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
}

/* Each seventh names an earlier one again, each fifth is a part of the one that comes after it. */
static void
draw_batch(struct item_change *changes, char (*tags)[16], struct tagged_record *told,
    struct record *records)
{
	for (int i = 0; i < MANY; i++) {
		bool again = i % 7 == 6;
		bool part = i % 5 == 1;
		(void)snprintf(tags[i], sizeof tags[i], "T-%d", again ? i - 3 : i);
		changes[i] = (struct item_change){
		    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_SERIAL,
		    .tag = tags[i],
		    .vessel = i / 100 % 2 == 0 ? "Amber Tern" : "Zinnia",
		    .kind = "plb",
		    .serial = tags[i]};
		records[i] = (struct record){.task = i % 11 == 3 ? TASK_RENEW : TASK_TEST,
		    .on = stamp_of(i % 2 == 0 ? "2024-05" : "2025-06-07"),
		    .certificate = "",
		    .station = again ? "Raft Loft" : "",
		    .price_minor = again ? 900 : -1};
		told[i] = (struct tagged_record){tags[i], &records[i]};
		if (part && !again && (i + 1) % 7 != 6 && i + 1 < MANY) {
			changes[i].set |= 1U << FIELD_PART_OF;
		}
	}
	for (int i = 0; i < MANY; i++) {
		if ((changes[i].set & 1U << FIELD_PART_OF) != 0) {
			changes[i].part_of = tags[i + 1];
			changes[i + 1].vessel = changes[i].vessel;
		}
	}
	for (int i = 6; i < MANY; i += 7) {
		changes[i].vessel = changes[i - 3].vessel;
	}
}

SCRATCH_TEST(many_items_and_records_come_out_as_one_by_one)
{
	static struct item_change changes[MANY];
	static char tags[MANY][16];
	static struct record records[MANY];
	static struct tagged_record told[MANY];
	struct scratch *whole = *state;
	void *second = NULL;
	size_t index = 0;
	draw_batch(changes, tags, told, records);
	assert_done(whole, book_begin(whole->book, &whole->fault));
	assert_done(
	    whole, book_put_items(whole->book, changes, MANY, &index, &whole->fault) &&
		       book_add_records(whole->book, told, MANY, &index, &whole->fault) &&
		       book_commit(whole->book, &whole->fault));

	assert_int_equal(scratch_begin(&second), 0);
	struct scratch *singly = second;
	assert_done(singly, book_begin(singly->book, &singly->fault));
	for (int i = 0; i < MANY; i++) {
		struct item_change alone = changes[i];
		alone.set &= ~(1U << FIELD_PART_OF);
		assert_done(singly,
		    book_put_items(singly->book, &alone, 1, NULL, &singly->fault));
	}
	for (int i = 0; i < MANY; i++) {
		const struct item_change inside = {
		    .set = changes[i].set & 1U << FIELD_PART_OF,
		    .tag = tags[i],
		    .part_of = changes[i].part_of};
		assert_done(singly,
		    book_put_items(singly->book, &inside, 1, NULL, &singly->fault));
	}
	for (int i = 0; i < MANY; i++) {
		assert_done(singly,
		    book_add_record(singly->book, tags[i], &records[i], &singly->fault));
	}
	assert_done(singly, book_commit(singly->book, &singly->fault));

	assert_same(whole, singly, "SELECT * FROM vessel ORDER BY id");
	assert_same(whole, singly, "SELECT * FROM item ORDER BY id");
	assert_same(whole, singly, "SELECT * FROM record ORDER BY id");
	assert_same(whole, singly, "SELECT * FROM movement ORDER BY id");
	assert_same(
	    whole, singly, "SELECT * FROM journal_line ORDER BY number, position");
	assert_same(whole, singly, "SELECT hex(changes) FROM journal");
	assert_int_equal(scratch_end(&second), 0);
}

SCRATCH_TEST(one_bad_record_of_many_is_named_and_none_is_kept)
{
	static char tags[40][16];
	struct scratch *scratch = *state;
	struct tagged_record told[40];
	struct record records[40];
	size_t index = 99;
	for (int i = 0; i < 40; i++) {
		(void)snprintf(tags[i], sizeof tags[i], "T-%d", i);
		scratch_put(scratch, tags[i]);
		records[i] = (struct record){.task = TASK_TEST,
		    .on = stamp_of("2024-05"),
		    .certificate = "",
		    .station = "",
		    .price_minor = -1};
		told[i] = (struct tagged_record){i == 33 ? "NONE" : tags[i], &records[i]};
	}
	assert_false(book_add_records(scratch->book, told, 40, &index, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "no item in the book has the tag \"NONE\"");
	assert_int_equal(index, 33);
	SCOPED_TEXT left = {0};
	answer(scratch->book, "SELECT COUNT(*) FROM record", &left);
	assert_string_equal(text_string(&left), "0|\n");
}

RUN_TESTS(NULL, NULL)
