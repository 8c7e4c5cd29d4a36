/* The description of the tables against what the migrations make of a new book, as
 * SQLite's own catalogue tells it (https://www.sqlite.org/pragma.html, table_xinfo and
 * foreign_key_list). */
#include "book/journal_inside.h"
#include "book_file.h"
#include "book_scratch.h"

static const char *const TYPES[] = {[COLUMN_NUMBER] = "INTEGER",
    [COLUMN_FLAG] = "INTEGER",
    [COLUMN_DAY] = "INTEGER",
    [COLUMN_MONEY] = "INTEGER",
    [COLUMN_TEXT] = "TEXT",
    [COLUMN_BYTES] = "BLOB"};

/* Prepares a question about a table, or of none. */
static sqlite3_stmt *
ask(struct scratch *scratch, const char *sql, const char *table)
{
	sqlite3_stmt *stmt = NULL;
	assert_int_equal(
	    sqlite3_prepare_v2(file_of(scratch->book), sql, -1, &stmt, NULL), SQLITE_OK);
	if (table != NULL) {
		assert_int_equal(
		    sqlite3_bind_text(stmt, 1, table, -1, SQLITE_STATIC), SQLITE_OK);
	}
	return stmt;
}

/* Fails where two texts are not the same, or only one of them is there. */
static void
assert_same(const struct table_shape *shape, size_t column, const char *what,
    const char *ours, const char *theirs)
{
	bool same =
	    ours == NULL || theirs == NULL ? ours == theirs : strcmp(ours, theirs) == 0;
	if (!same) {
		fail_msg("%s, column %zu (%s): %s is described as %s, and is %s",
		    shape->name, column,
		    column < shape->count ? shape->columns[column].name : "none", what,
		    ours == NULL ? "nothing" : ours, theirs == NULL ? "nothing" : theirs);
	}
}

/* A default as the schema writes it, without its quotes. */
static const char *
unquoted(const char *written, char out[32])
{
	bool quoted = written != NULL && written[0] == '\'';
	if (written != NULL) {
		(void)snprintf(out, 32, "%.*s", (int)(strlen(written) - 2 * quoted),
		    written + quoted);
	}
	return written == NULL ? NULL : out;
}

static const char *
number_text(int number, char out[12])
{
	(void)snprintf(out, 12, "%d", number);
	return out;
}

/* The column at hand: name, type, NOT NULL, default, place in the key. A number that is
 * the whole key is never NULL, whether that is said or not
 * (https://www.sqlite.org/lang_createtable.html, "ROWIDs and the INTEGER PRIMARY
 * KEY"). */
static void
assert_column(const struct table_shape *shape, size_t i, sqlite3_stmt *stmt)
{
	char fallback[32];
	char key[12];
	assert_true(i < shape->count);
	const struct column *column = &shape->columns[i];
	bool is_rowid = column->key == 1 && column->type == COLUMN_NUMBER;
	assert_same(shape, i, "its name", column->name,
	    (const char *)sqlite3_column_text(stmt, 0));
	assert_same(shape, i, "its type", TYPES[column->type],
	    (const char *)sqlite3_column_text(stmt, 1));
	assert_same(shape, i, "NULL", column->nullable ? "taken" : "refused",
	    sqlite3_column_int(stmt, 2) != 0 || is_rowid ? "refused" : "taken");
	assert_same(shape, i, "its default", column->fallback,
	    unquoted((const char *)sqlite3_column_text(stmt, 3), fallback));
	assert_same(shape, i, "its place in the key", number_text(column->key, key),
	    (const char *)sqlite3_column_text(stmt, 4));
}

static void
assert_columns(struct scratch *scratch, const struct table_shape *shape)
{
	size_t count = 0;
	sqlite3_stmt *stmt = ask(scratch,
	    "SELECT name, type, \"notnull\", dflt_value, pk FROM pragma_table_xinfo($1) "
	    "ORDER BY cid",
	    shape->name);
	while (sqlite3_step(stmt) == SQLITE_ROW) {
		assert_column(shape, count++, stmt);
	}
	assert_int_equal(count, shape->count);
	assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
}

/* Every reference is one column's, and to the key of the other table. */
static void
assert_references(struct scratch *scratch, const struct table_shape *shape)
{
	size_t described = 0;
	size_t count = 0;
	for (size_t i = 0; i < shape->count; i++) {
		described += shape->columns[i].refers != NULL ? 1 : 0;
	}
	sqlite3_stmt *stmt = ask(scratch,
	    "SELECT \"from\", \"table\", seq, \"to\" FROM pragma_foreign_key_list($1)",
	    shape->name);
	for (; sqlite3_step(stmt) == SQLITE_ROW; count++) {
		const char *to = (const char *)sqlite3_column_text(stmt, 1);
		size_t i =
		    shape_column(shape, (const char *)sqlite3_column_text(stmt, 0));
		assert_true(i < shape->count);
		assert_same(shape, i, "its reference", shape->columns[i].refers, to);
		assert_int_equal(sqlite3_column_int(stmt, 2), 0);
		const struct table_shape *other = shape_known(to);
		size_t key =
		    shape_column(other, (const char *)sqlite3_column_text(stmt, 3));
		assert_true(key < other->count && other->columns[key].key == 1);
	}
	assert_int_equal(count, described);
	assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
}

SCRATCH_TEST(every_table_is_as_it_is_described_and_no_other_is_there)
{
	size_t count = 0;
	sqlite3_stmt *stmt = ask(scratch,
	    "SELECT name FROM sqlite_schema WHERE type = 'table' "
	    "AND name NOT LIKE 'sqlite%' ORDER BY name",
	    NULL);
	for (; sqlite3_step(stmt) == SQLITE_ROW; count++) {
		const char *name = (const char *)sqlite3_column_text(stmt, 0);
		assert_true(count < TABLE_COUNT);
		assert_string_equal(TABLES[count].name, name);
		assert_columns(scratch, &TABLES[count]);
		assert_references(scratch, &TABLES[count]);
	}
	assert_int_equal(count, TABLE_COUNT);
	assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
}

/* What the journal makes of a column, by the habits of the schema: days, money, and a
 * stamp's three. */
TEST(days_money_and_stamps_are_called_as_such)
{
	static const char *const DAYS[] = {"_day", "_on", "_until", "_first", "_last"};
	for (size_t t = 0; t < TABLE_COUNT; t++) {
		for (size_t i = 0; i < TABLES[t].count; i++) {
			const struct column *column = &TABLES[t].columns[i];
			const char *last = strrchr(column->name, '_');
			bool day = column->worded != 0;
			for (size_t j = 0; last != NULL && j < 5; j++) {
				day = day || strcmp(last, DAYS[j]) == 0;
			}
			bool money = last != NULL && strcmp(last, "_minor") == 0;
			bool beside =
			    last != NULL && (strcmp(last, "_wording") == 0 ||
						strcmp(last, "_estimated") == 0);
			assert_int_equal(column->type == COLUMN_DAY, day);
			assert_int_equal(column->type == COLUMN_MONEY, money);
			assert_true(!beside || column->silent);
		}
	}
}

/* What a new item has where nothing is told is what the schema itself would put there. */
SCRATCH_TEST(a_field_that_is_not_told_is_as_the_schema_has_it)
{
	scratch_put(scratch, "LR-1");
	assert_int_equal(sqlite3_exec(file_of(scratch->book),
			     "INSERT INTO item (id, tag, vessel_id, kind) "
			     "VALUES (2, 'LR-2', 1, 'liferaft-canister')",
			     NULL, NULL, NULL),
	    SQLITE_OK);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item_change ours = {
	    .values = scratch_item(&contents, "LR-1")->values};
	const struct item_change schema = {
	    .values = scratch_item(&contents, "LR-2")->values};
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[i];
		if (!field->link && !field_same(field, &ours, &schema)) {
			fail_msg("%s begins as another value in the schema", field->name);
		}
	}
}

/* Another program has added a column: what the journal would tell of a row is not known then. */
SCRATCH_TEST(nothing_is_written_to_a_table_that_is_another)
{
	struct item_change change = {.set = 1U << FIELD_PLACE, .tag = "LR-1"};
	scratch_put(scratch, "LR-1");
	assert_int_equal(sqlite3_exec(file_of(scratch->book),
			     "ALTER TABLE item ADD COLUMN hue TEXT NOT NULL DEFAULT ''",
			     NULL, NULL, NULL),
	    SQLITE_OK);
	change.place = "locker";
	assert_false(book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "is not as this program makes it");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_string_equal(scratch_item(&contents, "LR-1")->place, "");
}

/* The rows that a question has in two books, value by value; texts as bytes. */
static void
assert_same_rows(sqlite3 *one, sqlite3 *other, const char *sql)
{
	sqlite3_stmt *stmts[2] = {0};
	bool row = true;
	assert_int_equal(sqlite3_prepare_v2(one, sql, -1, &stmts[0], NULL), SQLITE_OK);
	assert_int_equal(sqlite3_prepare_v2(other, sql, -1, &stmts[1], NULL), SQLITE_OK);
	while (row) {
		row = sqlite3_step(stmts[0]) == SQLITE_ROW;
		assert_int_equal(sqlite3_step(stmts[1]) == SQLITE_ROW, row);
		for (int i = 0; row && i < sqlite3_column_count(stmts[0]); i++) {
			const char *ours = (const char *)sqlite3_column_text(stmts[0], i);
			const char *theirs =
			    (const char *)sqlite3_column_text(stmts[1], i);
			assert_string_equal(ours == NULL ? "NULL" : ours,
			    theirs == NULL ? "NULL" : theirs);
		}
	}
	assert_int_equal(sqlite3_finalize(stmts[0]), SQLITE_OK);
	assert_int_equal(sqlite3_finalize(stmts[1]), SQLITE_OK);
}

/* A new book is made by one script; here every migration is run, as an old book has them.
 * Its identity is drawn, and its sum and revision come when all is there. */
SCRATCH_TEST(a_new_book_is_byte_for_byte_what_the_migrations_make)
{
	sqlite3 *ours = file_of(scratch->book);
	sqlite3 *migrated = NULL;
	assert_int_equal(sqlite3_open(":memory:", &migrated), SQLITE_OK);
	for (size_t i = 0; i < MIGRATIONS_COUNT; i++) {
		assert_int_equal(
		    sqlite3_exec(migrated, MIGRATIONS[i].bytes, NULL, NULL, NULL),
		    SQLITE_OK);
	}
	assert_same_rows(ours, migrated,
	    "SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY rowid");
	assert_same_rows(ours, migrated,
	    "SELECT application_id, user_version FROM pragma_application_id, "
	    "pragma_user_version");
	for (size_t t = 0; t < TABLE_COUNT; t++) {
		char sql[80];
		bool later = strcmp(TABLES[t].name, "book") == 0 ||
			     strcmp(TABLES[t].name, "revision") == 0;
		(void)snprintf(sql, sizeof sql, "SELECT * FROM %s", TABLES[t].name);
		if (!later) {
			assert_same_rows(ours, migrated, sql);
		}
	}
	assert_int_equal(sqlite3_close(migrated), SQLITE_OK);
}

RUN_TESTS(NULL, NULL)
