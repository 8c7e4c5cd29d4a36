/* The numbers of rows: the program gives them, and none twice. */
#include "book/check.h"
#include "book/journal_inside.h"
#include "book_file.h"
#include "book_scratch.h"

/* One number out of the file. */
static int64_t
number_of(const struct scratch *scratch, const char *sql)
{
	sqlite3_stmt *stmt = NULL;
	assert_int_equal(
	    sqlite3_prepare_v2(file_of(scratch->book), sql, -1, &stmt, NULL), SQLITE_OK);
	assert_int_equal(sqlite3_step(stmt), SQLITE_ROW);
	int64_t number = sqlite3_column_int64(stmt, 0);
	assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
	return number;
}

static void
alter(const struct scratch *scratch, const char *sql)
{
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book), sql, NULL, NULL, NULL), SQLITE_OK);
}

static void
undo_last(struct scratch *scratch)
{
	int64_t undone = 0;
	int64_t entry = 0;
	assert_done(
	    scratch, book_undo(scratch->book, 0, &undone, &entry, &scratch->fault));
}

SCRATCH_TEST(rows_are_numbered_from_1_on)
{
	scratch_put(scratch, "LR-1");
	scratch_put(scratch, "LR-2");
	assert_int_equal(number_of(scratch, "SELECT id FROM item WHERE tag = 'LR-1'"), 1);
	assert_int_equal(number_of(scratch, "SELECT id FROM item WHERE tag = 'LR-2'"), 2);
	assert_int_equal(number_of(scratch, "SELECT id FROM vessel"), 1);
}

/* LR-2 was number 2, and was taken back: who still means it by that must not find LR-3. */
SCRATCH_TEST(the_number_of_a_row_that_was_taken_back_is_not_given_again)
{
	scratch_put(scratch, "LR-1");
	scratch_put(scratch, "LR-2");
	undo_last(scratch);
	assert_int_equal(number_of(scratch, "SELECT COUNT(*) FROM item"), 1);
	scratch_put(scratch, "LR-3");
	assert_int_equal(number_of(scratch, "SELECT id FROM item WHERE tag = 'LR-3'"), 3);
}

SCRATCH_TEST(what_is_rolled_back_has_given_out_no_number)
{
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-1");
	book_rollback(scratch->book);
	scratch_put(scratch, "LR-2");
	assert_int_equal(number_of(scratch, "SELECT id FROM item WHERE tag = 'LR-2'"), 1);
}

SCRATCH_TEST(two_who_have_the_book_open_give_different_numbers)
{
	struct scratch other = *scratch;
	assert_done(
	    scratch, book_open(scratch->path, BOOK_WRITE, &other.book, &scratch->fault));
	scratch_put(scratch, "LR-1");
	scratch_put(&other, "LR-2");
	scratch_put(scratch, "LR-3");
	book_close(other.book);
	assert_int_equal(
	    number_of(scratch, "SELECT COUNT(DISTINCT id) FROM item WHERE id <= 3"), 3);
}

SCRATCH_TEST(rows_of_another_program_are_gone_on_behind_once_they_are_accepted)
{
	bool differed = false;
	scratch_put(scratch, "LR-1");
	alter(scratch, "INSERT INTO item (id, tag, vessel_id, kind) "
		       "VALUES (2, 'LR-40', 1, 'liferaft-canister')");
	const struct item_change change = {.set = 1U << FIELD_VESSEL | 1U << FIELD_KIND,
	    .tag = "LR-2",
	    .vessel = "Amber Tern",
	    .kind = "liferaft-canister"};
	assert_false(book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "\"becket book accept\" takes it as it is");

	assert_done(scratch, book_accept(scratch->book, &differed, &scratch->fault));
	assert_true(differed);
	scratch_put(scratch, "LR-2");
	assert_int_equal(number_of(scratch, "SELECT id FROM item WHERE tag = 'LR-2'"), 3);
}

SCRATCH_TEST(numbers_that_make_no_sense_are_told_and_nothing_is_written_until_accepted)
{
	static const char *const DAMAGED[] = {"item", "item=", "item=0", "item=-1",
	    "item=2x", "itemx=2", "=2", "item=2  ", "item=9223372036854775807"};
	bool differed = false;
	scratch_put(scratch, "LR-1");
	const struct item_change change = {.set = 1U << FIELD_VESSEL | 1U << FIELD_KIND,
	    .tag = "LR-2",
	    .vessel = "Amber Tern",
	    .kind = "liferaft-canister"};
	for (size_t i = 0; i < sizeof DAMAGED / sizeof DAMAGED[0]; i++) {
		char sql[120];
		(void)snprintf(
		    sql, sizeof sql, "UPDATE revision SET numbers = '%s'", DAMAGED[i]);
		alter(scratch, sql);
		assert_false(
		    book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
		assert_says(scratch, FAULT_BOOK, "the next numbers of the book's rows");
	}
	assert_int_equal(number_of(scratch, "SELECT COUNT(*) FROM item"), 1);
	assert_done(scratch, book_accept(scratch->book, &differed, &scratch->fault));
	assert_true(differed);
	scratch_put(scratch, "LR-2");
	assert_int_equal(number_of(scratch, "SELECT id FROM item WHERE tag = 'LR-2'"), 2);
}

/* The tables of the schema whose key is a number called id that is not always 1 or 2. */
SCRATCH_TEST(every_table_whose_rows_have_a_number_is_numbered_here)
{
	sqlite3_stmt *stmt = NULL;
	int found = 0;
	assert_int_equal(
	    sqlite3_prepare_v2(file_of(scratch->book),
		"SELECT named.name FROM sqlite_schema AS named "
		"JOIN pragma_table_info(named.name) AS about "
		"WHERE named.type = 'table' AND about.name = 'id' AND about.pk = 1 "
		"AND sql NOT LIKE '%CHECK (id = 1)%' AND sql NOT LIKE '%CHECK (id IN (1, "
		"2))%'",
		-1, &stmt, NULL),
	    SQLITE_OK);
	while (sqlite3_step(stmt) == SQLITE_ROW) {
		const char *table = (const char *)sqlite3_column_text(stmt, 0);
		const struct table_shape *shape = shape_known(table);
		if (shape == NULL || shape->numbered == NUMBERED_ENTRY) {
			fail_msg("%s is not among them", table);
		}
		found++;
	}
	assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
	assert_int_equal(found, NUMBERED_ENTRY);
}

TEST(no_statement_asks_for_a_number_back)
{
	for (int i = 0; i < STATEMENT_COUNT; i++) {
		if (strstr(statement_text((enum statement)i)->sql, "RETURNING") != NULL) {
			fail_msg("%s", statement_text((enum statement)i)->sql);
		}
	}
}

RUN_TESTS(NULL, NULL)
