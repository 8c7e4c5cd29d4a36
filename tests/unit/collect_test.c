/* What a transaction changes, held against what SQLite's session extension sees of the same statements:
 * each is run on a book that collects, and on a copy of it with a session. The order of the rows of a
 * table is ours; all else is to be the same. */
#define SQLITE_ENABLE_SESSION
#define SQLITE_ENABLE_PREUPDATE_HOOK
#include "book/collect.h"

#include "book_file.h"
#include "book_scratch.h"

#include <stdarg.h>

/* The two sides, and what runs on both. */
struct sides {
	struct scratch *scratch;
	sqlite3 *other;
	sqlite3_session *session;
	unsigned seed;
};

static void
open_other(struct sides *sides)
{
	assert_int_equal(sqlite3_open(":memory:", &sides->other), SQLITE_OK);
	sqlite3_backup *copy = sqlite3_backup_init(
	    sides->other, "main", file_of(sides->scratch->book), "main");
	assert_non_null(copy);
	assert_int_equal(sqlite3_backup_step(copy, -1), SQLITE_DONE);
	assert_int_equal(sqlite3_backup_finish(copy), SQLITE_OK);
	assert_int_equal(
	    sqlite3_exec(sides->other, "PRAGMA foreign_keys = ON", NULL, NULL, NULL),
	    SQLITE_OK);
}

static int
listened_to(void *context, const char *table)
{
	(void)context;
	return journal_tells_of(table);
}

static void
begin(struct sides *sides)
{
	assert_done(
	    sides->scratch, book_begin(sides->scratch->book, &sides->scratch->fault));
	assert_int_equal(
	    sqlite3_exec(sides->other, "BEGIN", NULL, NULL, NULL), SQLITE_OK);
	assert_int_equal(
	    sqlite3session_create(sides->other, "main", &sides->session), SQLITE_OK);
	sqlite3session_table_filter(sides->session, listened_to, NULL);
	assert_int_equal(sqlite3session_attach(sides->session, NULL), SQLITE_OK);
}

/* Runs a statement on both sides. One that fails would spoil a transaction. */
static void __attribute__((format(printf, 2, 3)))
both(struct sides *sides, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	char *sql = sqlite3_vmprintf(format, arguments);
	va_end(arguments);
	int here = sqlite3_exec(file_of(sides->scratch->book), sql, NULL, NULL, NULL);
	int there = sqlite3_exec(sides->other, sql, NULL, NULL, NULL);
	if (here != SQLITE_OK || there != SQLITE_OK) {
		fail_msg("%s: %d and %d", sql, here, there);
	}
	sqlite3_free(sql);
}

static void
add_value(struct text *out, int result, sqlite3_value *value)
{
	assert_int_equal(result, SQLITE_OK);
	if (value == NULL) {
		text_add(out, " -");
		return;
	}
	int type = sqlite3_value_type(value);
	const unsigned char *bytes = sqlite3_value_blob(value);
	int size = sqlite3_value_bytes(value);
	text_add_format(out, " %d:", type);
	for (int i = 0; i < size; i++) {
		text_add_format(out, "%02x", bytes[i]);
	}
}

/* A changeset as lines, a change each, in the order of the lines. */
static char *
lines_of(int size, void *bytes)
{
	SCOPED_TEXT out = {0};
	struct text lines[400] = {{0}};
	const char *order[400];
	size_t count = 0;
	sqlite3_changeset_iter *at = NULL;
	assert_int_equal(sqlite3changeset_start(&at, size, bytes), SQLITE_OK);
	while (sqlite3changeset_next(at) == SQLITE_ROW) {
		const char *table = NULL;
		int columns = 0;
		int operation = 0;
		int indirect = 0;
		unsigned char *key = NULL;
		assert_true(count < 400);
		struct text *line = &lines[count++];
		assert_int_equal(
		    sqlite3changeset_op(at, &table, &columns, &operation, &indirect),
		    SQLITE_OK);
		assert_int_equal(sqlite3changeset_pk(at, &key, NULL), SQLITE_OK);
		text_add_format(line, "%s %d %d", table, operation, indirect);
		for (int i = 0; i < columns; i++) {
			sqlite3_value *value = NULL;
			text_add_format(line, " key %d", key[i]);
			if (operation != SQLITE_INSERT) {
				int result = sqlite3changeset_old(at, i, &value);
				add_value(line, result, value);
			}
			if (operation != SQLITE_DELETE) {
				int result = sqlite3changeset_new(at, i, &value);
				add_value(line, result, value);
			}
		}
	}
	assert_int_equal(sqlite3changeset_finalize(at), SQLITE_OK);
	for (size_t i = 0; i < count; i++) {
		order[i] = text_string(&lines[i]);
	}
	qsort(order, count, sizeof *order, text_order);
	for (size_t i = 0; i < count; i++) {
		text_add_format(&out, "%s\n", order[i]);
	}
	char *all = strdup(text_string(&out));
	for (size_t i = 0; i < count; i++) {
		text_clear(&lines[i]);
	}
	return all;
}

/* Compares, and rolls both sides back. */
static void
end(struct sides *sides, const char *what)
{
	struct scratch *scratch = sides->scratch;
	SCOPED_CHANGESET ours = {0};
	SCOPED_CHANGESET theirs = {0};
	assert_done(scratch,
	    collected_changeset(&scratch->book->told, false, &ours, &scratch->fault));
	assert_int_equal(
	    sqlite3session_changeset(sides->session, &theirs.size, &theirs.bytes),
	    SQLITE_OK);
	char *here = lines_of(ours.size, ours.bytes);
	char *there = lines_of(theirs.size, theirs.bytes);
	if (strcmp(here, there) != 0) {
		fail_msg("%s:\nours\n%s\ntheirs\n%s", what, here, there);
	}
	free(here);
	free(there);
	sqlite3session_delete(sides->session);
	book_rollback(scratch->book);
	assert_int_equal(
	    sqlite3_exec(sides->other, "ROLLBACK", NULL, NULL, NULL), SQLITE_OK);
}

static void
fill(struct sides *sides)
{
	begin(sides);
	for (int i = 1; i <= 4; i++) {
		both(sides, "INSERT INTO vessel (id, name) VALUES (%d, 'V%d')", i, i);
		both(sides, "INSERT INTO station (id, name) VALUES (%d, 'S%d')", i, i);
		both(sides,
		    "INSERT INTO station_kind (station_id, position, kind) "
		    "SELECT id, 0, 'epirb' FROM station WHERE id = %d AND id > 2",
		    i);
	}
	for (int i = 1; i <= 8; i++) {
		both(sides,
		    "INSERT INTO item (id, tag, vessel_id, kind) VALUES (%d, 'T-%d', %d, "
		    "'epirb')",
		    i, i, 1 + i % 4);
		both(sides,
		    "INSERT INTO vessel_period (vessel_id, from_day, use) "
		    "VALUES (%d, %d, 'private')",
		    1 + i % 4, 20200101 + i);
	}
}

/* Keeps what `fill` wrote on both sides, so that what follows finds rows there. */
static void
keep_filled(struct sides *sides)
{
	sqlite3session_delete(sides->session);
	assert_done(
	    sides->scratch, book_commit(sides->scratch->book, &sides->scratch->fault));
	assert_int_equal(
	    sqlite3_exec(sides->other, "COMMIT", NULL, NULL, NULL), SQLITE_OK);
}

static struct sides
sides_of(void **state)
{
	struct sides sides = {.scratch = *state, .seed = 1};
	open_other(&sides);
	fill(&sides);
	keep_filled(&sides);
	return sides;
}

static void
what_is_added_changed_and_removed_is_as_a_session_sees_it(void **state)
{
	struct sides sides = sides_of(state);
	static const char *const EACH[] = {
	    "INSERT INTO station (name) VALUES ('New')",
	    "UPDATE item SET notes = 'caf\xc3\xa9', quantity = 3 WHERE id = 2",
	    "UPDATE item SET notes = notes WHERE id = 2",
	    "DELETE FROM vessel_period WHERE vessel_id = 2",
	    "DELETE FROM station WHERE id = 3",
	    "DELETE FROM vessel_period",
	    "UPDATE station SET id = id + 100 WHERE id < 3",
	    "UPDATE vessel_period SET from_day = from_day + 1",
	    "INSERT INTO vessel_period (vessel_id, from_day, use) "
	    "VALUES (2, 20200102, 'commercial') ON CONFLICT (vessel_id, from_day) "
	    "DO UPDATE SET use = excluded.use, persons = 4",
	    "INSERT OR REPLACE INTO station (id, name) VALUES (1, 'Other')",
	    "INSERT OR REPLACE INTO station (id, name) VALUES (9, 'S2')",
	    "UPDATE item SET parent_id = 1 WHERE id > 6",
	    "INSERT INTO paper (item_id, name, media_type, note, added_day, size, sha256, "
	    "bytes) VALUES (1, 'n', 'text/plain', '', 20240101, 3, "
	    "'"
	    "0123456789012345678901234567890123456789012345678901234567890123"
	    "', x'00ff80')",
	};
	for (size_t i = 0; i < sizeof EACH / sizeof EACH[0]; i++) {
		begin(&sides);
		both(&sides, "%s", EACH[i]);
		end(&sides, EACH[i]);
	}
	(void)sqlite3_close(sides.other);
}

static int
draw(struct sides *sides, int most)
{
	sides->seed = sides->seed * 1103515245U + 12345U;
	return (int)(sides->seed >> 16 & 0x7fff) % most;
}

static void
do_something(struct sides *sides)
{
	int a = 1 + draw(sides, 9);
	int b = 1 + draw(sides, 9);
	switch (draw(sides, 12)) {
	case 0:
		both(sides,
		    "INSERT OR IGNORE INTO item (id, tag, vessel_id, kind) "
		    "SELECT %d, 'T-%d', id, 'epirb' FROM vessel WHERE id = %d",
		    a, b, 1 + draw(sides, 4));
		break;
	case 1:
		both(sides,
		    "DELETE FROM item WHERE id = %d AND NOT EXISTS "
		    "(SELECT 1 FROM item AS part WHERE part.parent_id = %d)",
		    a, a);
		break;
	case 2:
		both(sides, "UPDATE item SET notes = '%d' WHERE id IN (%d, %d)",
		    draw(sides, 2), a, b);
		break;
	case 3:
		both(sides,
		    "UPDATE OR IGNORE item SET id = %d WHERE id = %d AND NOT EXISTS "
		    "(SELECT 1 FROM item AS part WHERE part.parent_id = %d)",
		    a, b, b);
		break;
	case 4:
		both(sides,
		    "DELETE FROM vessel WHERE id = %d AND NOT EXISTS "
		    "(SELECT 1 FROM item WHERE vessel_id = %d)",
		    a, a);
		break;
	case 5:
		both(sides, "INSERT OR IGNORE INTO vessel (id, name) VALUES (%d, 'V%d')",
		    a, b);
		break;
	case 6:
		both(sides,
		    "INSERT OR REPLACE INTO vessel_period (vessel_id, from_day, persons) "
		    "SELECT id, %d, %d FROM vessel WHERE id = %d",
		    20200101 + b, draw(sides, 3), a);
		break;
	case 7:
		both(sides,
		    "UPDATE OR IGNORE vessel_period SET from_day = from_day + %d - 4", b);
		break;
	case 8:
		both(sides,
		    "INSERT OR IGNORE INTO station_kind (station_id, position, kind) "
		    "SELECT id, %d, 'epirb' FROM station WHERE id = %d",
		    draw(sides, 2), a);
		break;
	case 9:
		both(sides, "DELETE FROM station WHERE id = %d", a);
		break;
	case 10:
		both(sides,
		    "INSERT OR REPLACE INTO station (id, name) VALUES (%d, 'S%d')", a, b);
		break;
	default:
		both(sides,
		    "UPDATE item SET parent_id = (SELECT id FROM item WHERE id = %d), "
		    "quantity = %d WHERE id = %d",
		    a, 1 + draw(sides, 3), b);
		break;
	}
}

static void
any_number_of_changes_comes_to_what_a_session_makes_of_them(void **state)
{
	struct sides sides = sides_of(state);
	int rounds = scaled(150);
	for (int round = 0; round < rounds; round++) {
		char what[40];
		(void)snprintf(what, sizeof what, "round %d", round);
		begin(&sides);
		for (int i = 1 + draw(&sides, 30); i > 0; i--) {
			do_something(&sides);
		}
		end(&sides, what);
	}
	(void)sqlite3_close(sides.other);
}

static void
a_statement_that_fails_spoils_its_transaction(void **state)
{
	struct scratch *scratch = *state;
	int64_t id = 0;
	scratch_put(scratch, "LR-1");
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-2");
	assert_false(
	    call_id(scratch->book, VESSEL_ADD, "Amber Tern", &id, &scratch->fault));
	assert_false(book_commit(scratch->book, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "a part of the change failed");
	book_rollback(scratch->book);
}

static void
a_row_that_was_touched_is_known_by_its_number_even_when_it_is_gone(void **state)
{
	struct scratch *scratch = *state;
	SCOPED_ARENA arena = {0};
	struct row row = {0};
	scratch_put(scratch, "LR-1");
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	const struct collected *told = &scratch->book->told;
	assert_false(collected_row(told, "item", 1, &arena, &row));
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book),
		"UPDATE item SET tag = 'LR-9' WHERE id = 1", NULL, NULL, NULL),
	    SQLITE_OK);
	assert_true(collected_row(told, "item", 1, &arena, &row));
	assert_string_equal(row.values[1], "LR-9");
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book), "DELETE FROM item", NULL, NULL, NULL),
	    SQLITE_OK);
	assert_true(collected_row(told, "item", 1, &arena, &row));
	assert_string_equal(row.values[1], "LR-1");
	assert_false(collected_row(told, "item", 2, &arena, &row));
	book_rollback(scratch->book);
}

#define CASE(test) cmocka_unit_test_setup_teardown(test, scratch_begin, scratch_end)

int
main(void)
{
	const struct CMUnitTest tests[] = {
	    CASE(what_is_added_changed_and_removed_is_as_a_session_sees_it),
	    CASE(a_statement_that_fails_spoils_its_transaction),
	    CASE(any_number_of_changes_comes_to_what_a_session_makes_of_them),
	    CASE(a_row_that_was_touched_is_known_by_its_number_even_when_it_is_gone),
	};
	return cmocka_run_group_tests_name("collect", tests, NULL, NULL);
}
