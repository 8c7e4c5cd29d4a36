/* What a transaction changes, held against what SQLite's session extension sees of the
 * same statements: each is run on a book that collects, and on a copy of it with a
 * session. What this program writes of it and reads again, and what it reads of the
 * session's changeset, is to be what SQLite reads of that; the order of the rows is
 * ours. */
#define SQLITE_ENABLE_SESSION
#define SQLITE_ENABLE_PREUPDATE_HOOK
#include "book/journal_inside.h"
#include "book/rows.h"
#include "book_file.h"
#include "book_scratch.h"
#include "draw.h"

#include <stdarg.h>

/* The two sides, and what runs on both. */
struct sides {
	struct scratch *scratch;
	sqlite3 *other;
	sqlite3_session *session;
	unsigned seed;
	int taken_back;
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
	const struct table_shape *shape = shape_known(table);
	return shape != NULL && shape->kept == KEEPING_TOLD;
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

/* What is compared, a change a line, in the order of the lines. */
struct lines {
	const char *items[1600];
	size_t count;
	struct arena arena;
};

/* What a column of a table is called. */
static const char *
column_name(const char *table, size_t column)
{
	return shape_known(table)->columns[column].name;
}

static void
add_line(struct lines *lines, const struct text *line)
{
	assert_true(lines->count < sizeof lines->items / sizeof lines->items[0]);
	lines->items[lines->count++] = arena_string(&lines->arena, text_string(line));
}

/* Sorts them and makes one text of them. */
static void
join(struct lines *lines, struct text *out)
{
	if (lines->count > 0) {
		qsort(lines->items, lines->count, sizeof lines->items[0], text_order);
	}
	for (size_t i = 0; i < lines->count; i++) {
		text_add_format(out, "%s\n", lines->items[i]);
	}
	arena_clear(&lines->arena);
}

static void
add_bytes(struct text *line, int type, const char *bytes, size_t length)
{
	text_add_format(line, " %d:", type);
	for (size_t i = 0; i < length; i++) {
		text_add_format(line, "%02x", (unsigned char)bytes[i]);
	}
}

/* A value as SQLite reads it, numbers by their text; nothing where there is none. */
static void
add_theirs(struct text *line, const char *side, const char *name, int result,
    sqlite3_value *value)
{
	assert_int_equal(result, SQLITE_OK);
	if (value != NULL) {
		int type = sqlite3_value_type(value);
		const char *bytes = sqlite3_value_blob(value);
		text_add_format(line, " %s %s", side, name);
		add_bytes(line, type, bytes, (size_t)sqlite3_value_bytes(value));
	}
}

/* A session's changeset as SQLite itself reads it. */
static void
lines_of_theirs(int size, void *bytes, struct text *out)
{
	struct lines lines = {0};
	sqlite3_changeset_iter *at = NULL;
	assert_int_equal(sqlite3changeset_start(&at, size, bytes), SQLITE_OK);
	while (sqlite3changeset_next(at) == SQLITE_ROW) {
		SCOPED_TEXT line = {0};
		const char *table = NULL;
		int columns = 0;
		int operation = 0;
		int indirect = 0;
		unsigned char *key = NULL;
		assert_int_equal(
		    sqlite3changeset_op(at, &table, &columns, &operation, &indirect),
		    SQLITE_OK);
		assert_int_equal(sqlite3changeset_pk(at, &key, NULL), SQLITE_OK);
		text_add_format(&line, "%s %d", table, operation);
		for (int i = 0; i < columns; i++) {
			const char *name = column_name(table, (size_t)i);
			sqlite3_value *value = NULL;
			if (key[i]) {
				text_add_format(&line, " key %s %d", name, key[i]);
			}
			if (operation != SQLITE_INSERT) {
				int result = sqlite3changeset_old(at, i, &value);
				add_theirs(&line, "was", name, result, value);
			}
			if (operation != SQLITE_DELETE) {
				int result = sqlite3changeset_new(at, i, &value);
				add_theirs(&line, "is", name, result, value);
			}
		}
		add_line(&lines, &line);
	}
	assert_int_equal(sqlite3changeset_finalize(at), SQLITE_OK);
	join(&lines, out);
}

static void
add_ours(struct text *line, const char *side, const char *name, const struct value *row,
    size_t column)
{
	static const int TYPES[] = {[HELD_NOTHING] = SQLITE_NULL,
	    [HELD_INTEGER] = SQLITE_INTEGER,
	    [HELD_TEXT] = SQLITE_TEXT,
	    [HELD_BYTES] = SQLITE_BLOB};
	char number[24];
	if (row == NULL || row[column].held == HELD_UNSAID) {
		return;
	}
	const struct value *value = &row[column];
	text_add_format(line, " %s %s", side, name);
	if (value->held != HELD_INTEGER) {
		add_bytes(line, TYPES[value->held], value->bytes, value->length);
		return;
	}
	int length = snprintf(number, sizeof number, "%lld", (long long)value->number);
	add_bytes(line, SQLITE_INTEGER, number, (size_t)length);
}

static bool
line_of_ours(const struct row_change *change, void *context, struct fault *fault)
{
	static const int OPERATIONS[] = {[JOURNAL_ADDED] = SQLITE_INSERT,
	    [JOURNAL_CHANGED] = SQLITE_UPDATE,
	    [JOURNAL_REMOVED] = SQLITE_DELETE};
	SCOPED_TEXT line = {0};
	(void)fault;
	text_add_format(&line, "%s %d", change->table, OPERATIONS[change->act]);
	for (size_t i = 0; i < change->count; i++) {
		const char *name = change->names != NULL ? change->names[i]
							 : column_name(change->table, i);
		if (change->key[i]) {
			text_add_format(&line, " key %s %d", name, change->key[i]);
		}
		add_ours(&line, "was", name, change->was, i);
		add_ours(&line, "is", name, change->is, i);
	}
	add_line(context, &line);
	return true;
}

/* An entry's bytes as this program reads them. */
static void
lines_of_ours(struct scratch *scratch, const void *bytes, size_t size, struct text *out)
{
	struct lines lines = {0};
	SCOPED_ARENA passing = {0};
	assert_done(scratch,
	    changes_each(bytes, size, &passing, line_of_ours, &lines, &scratch->fault));
	join(&lines, out);
}

/* Adds a row of SQLite's as a line. */
static int
line_of_row(void *context, int count, char **values, char **names)
{
	SCOPED_TEXT line = {0};
	for (int i = 0; i < count; i++) {
		text_add_format(
		    &line, "%s=%s ", names[i], values[i] == NULL ? "NULL" : values[i]);
	}
	add_line(context, &line);
	return 0;
}

/* The tables that are changed here, as they are in a database. */
static void
contents_of(sqlite3 *db, struct text *out)
{
	static const char *const COMPARED[] = {"vessel", "vessel_period", "station",
	    "station_kind", "station_price", "item", "record", "paper", "booking"};
	for (size_t i = 0; i < sizeof COMPARED / sizeof COMPARED[0]; i++) {
		struct lines lines = {.count = 0};
		char *sql = sqlite3_mprintf("SELECT * FROM \"%w\"", COMPARED[i]);
		int result = sqlite3_exec(db, sql, line_of_row, &lines, NULL);
		sqlite3_free(sql);
		assert_int_equal(result, SQLITE_OK);
		text_add_format(out, "%s\n", COMPARED[i]);
		join(&lines, out);
	}
}

static int
give_up(void *context, int conflict, sqlite3_changeset_iter *at)
{
	(void)context;
	(void)conflict;
	(void)at;
	return SQLITE_CHANGESET_ABORT;
}

/* Whether SQLite can turn a changeset round and apply it, and then no reference points to
 * nothing. */
static bool
taken_back_by_sqlite(sqlite3 *db, int size, void *bytes)
{
	void *inverse = NULL;
	int inverse_size = 0;
	struct lines dangling = {.count = 0};
	assert_int_equal(
	    sqlite3_exec(db, "COMMIT; PRAGMA foreign_keys = OFF", NULL, NULL, NULL),
	    SQLITE_OK);
	assert_int_equal(
	    sqlite3changeset_invert(size, bytes, &inverse_size, &inverse), SQLITE_OK);
	int result =
	    sqlite3changeset_apply(db, inverse_size, inverse, NULL, give_up, NULL);
	sqlite3_free(inverse);
	assert_int_equal(
	    sqlite3_exec(db, "PRAGMA foreign_key_check", line_of_row, &dangling, NULL),
	    SQLITE_OK);
	size_t count = dangling.count;
	arena_clear(&dangling.arena);
	return result == SQLITE_OK && count == 0;
}

/* Takes back what the open transaction did, by an entry's bytes. */
static bool
taken_back_here(struct scratch *scratch, const void *bytes, size_t size,
    const char *before, const char *what)
{
	SCOPED_TEXT entry = {0};
	SCOPED_TEXT after = {0};
	bool done = false;
	text_add_bytes(&entry, size == 0 ? "" : bytes, size);
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book), "SAVEPOINT here", NULL, NULL, NULL),
	    SQLITE_OK);
	assert_done(
	    scratch, changes_take_back(scratch->book, &entry, &done, &scratch->fault));
	contents_of(file_of(scratch->book), &after);
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book), "ROLLBACK TO here", NULL, NULL, NULL),
	    SQLITE_OK);
	if (done && strcmp(before, text_string(&after)) != 0) {
		fail_msg(
		    "%s:\nbefore\n%s\ntaken back\n%s", what, before, text_string(&after));
	}
	return done;
}

/* What both formats tell is taken back wherever SQLite can, and then all is as it was. */
static void
take_back(struct sides *sides, const struct text *entry, int size, void *bytes,
    const char *what)
{
	struct scratch *scratch = sides->scratch;
	SCOPED_TEXT before = {0};
	sqlite3 *untouched = NULL;
	assert_int_equal(sqlite3_open(scratch->path, &untouched), SQLITE_OK);
	contents_of(untouched, &before);
	(void)sqlite3_close(untouched);
	bool ours = taken_back_here(
	    scratch, entry->bytes, entry->length, text_string(&before), what);
	bool older =
	    taken_back_here(scratch, bytes, (size_t)size, text_string(&before), what);
	bool theirs = taken_back_by_sqlite(sides->other, size, bytes);
	if ((theirs && !ours) || ours != older) {
		fail_msg("%s: taken back by SQLite %d, here %d, of the older form %d",
		    what, theirs, ours, older);
	}
	sides->taken_back += ours ? 1 : 0;
	(void)sqlite3_close(sides->other);
}

static bool
add_to_pieces(const struct row_change *change, void *context, struct fault *fault)
{
	return pieces_add(context, change, fault);
}

/* The bytes of the entry, which of many rows are those of its pieces: they are to be of
 * one, so that none is written. */
static void
entry_of(struct scratch *scratch, struct text *out)
{
	SCOPED_ARENA passing = {0};
	struct entry_pieces pieces = {0};
	const struct collected *told = &scratch->book->told;
	if (collected_touched(told) <= TOUCHED_WITHOUT_RUN) {
		collected_add(told, out);
		return;
	}
	pieces_begin(&pieces, scratch->book, 1);
	assert_done(scratch, collected_each(scratch->book, told, &passing, add_to_pieces,
				 &pieces, &scratch->fault));
	assert_int_equal(pieces.position, 0);
	text_add_bytes(out, pieces.bytes.bytes, pieces.bytes.length);
	text_clear(&pieces.bytes);
}

/* Compares, takes back, and has both sides as they were. */
static void
end(struct sides *sides, const char *what)
{
	struct scratch *scratch = sides->scratch;
	SCOPED_TEXT entry = {0};
	SCOPED_TEXT ours = {0};
	SCOPED_TEXT theirs = {0};
	SCOPED_TEXT theirs_read = {0};
	void *bytes = NULL;
	int size = 0;
	entry_of(scratch, &entry);
	assert_int_equal(
	    sqlite3session_changeset(sides->session, &size, &bytes), SQLITE_OK);
	sqlite3session_delete(sides->session);
	lines_of_ours(scratch, entry.bytes, entry.length, &ours);
	lines_of_theirs(size, bytes, &theirs);
	lines_of_ours(scratch, bytes, (size_t)size, &theirs_read);
	if (strcmp(text_string(&ours), text_string(&theirs)) != 0 ||
	    strcmp(text_string(&theirs_read), text_string(&theirs)) != 0) {
		fail_msg("%s:\nours\n%s\ntheirs\n%s\nas read here\n%s", what,
		    text_string(&ours), text_string(&theirs), text_string(&theirs_read));
	}
	take_back(sides, &entry, size, bytes, what);
	sqlite3_free(bytes);
	book_rollback(scratch->book);
	open_other(sides);
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
sides_of(struct scratch *scratch)
{
	struct sides sides = {.scratch = scratch, .seed = 1};
	open_other(&sides);
	fill(&sides);
	keep_filled(&sides);
	return sides;
}

/* Adds bookings, which have the numbers from one to another. */
static void
add_bookings(struct sides *sides, int first, int last)
{
	both(sides,
	    "WITH RECURSIVE counted (number) AS (SELECT %d UNION ALL SELECT number + 1 "
	    "FROM counted WHERE number < %d) INSERT INTO booking SELECT number, 1, number, "
	    "number, 2, 0, '' FROM counted",
	    first, last);
}

SCRATCH_TEST(what_many_rows_came_to_is_as_a_session_sees_it)
{
	struct sides sides = sides_of(scratch);
	begin(&sides);
	add_bookings(&sides, 11, TOUCHED_WITHOUT_RUN + 10);
	/* these are noted by their numbers alone */
	add_bookings(&sides, 2001, 2200);
	both(&sides,
	    "UPDATE booking SET note = 'both ways' WHERE id BETWEEN 2000 AND 2010");
	both(&sides, "DELETE FROM booking WHERE id IN (2001, 2050, 2200)");
	add_bookings(&sides, 2050, 2050);
	both(&sides, "UPDATE booking SET persons = 3 WHERE id = 2050 OR id = 12");
	/* behind a gap; before it, where it can't be in a run; and behind the gap again */
	add_bookings(&sides, 2300, 2301);
	add_bookings(&sides, 2250, 2250);
	add_bookings(&sides, 1, 2);
	add_bookings(&sides, 2302, 2303);
	both(&sides, "DELETE FROM booking WHERE id BETWEEN 2302 AND 2303");
	both(&sides, "UPDATE item SET vessel_id = 2 WHERE id > 3");
	both(&sides,
	    "INSERT INTO record VALUES (1, 2, 'test', 20200101, 0, 0, 0, 0, 0, '', "
	    "'', -1, 0, 0)");
	assert_int_equal(collected_rows(&sides.scratch->book->told, "booking"),
	    TOUCHED_WITHOUT_RUN + 200 - 2 + 2 + 1 + 2);
	end(&sides, "many rows");
	assert_int_equal(sides.taken_back, 1);
	(void)sqlite3_close(sides.other);
}

SCRATCH_TEST(what_is_added_changed_and_removed_is_as_a_session_sees_it)
{
	struct sides sides = sides_of(scratch);
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
drawn(struct sides *sides, unsigned below)
{
	return (int)draw(&sides->seed, below);
}

static void
do_something(struct sides *sides)
{
	int a = 1 + drawn(sides, 9);
	int b = 1 + drawn(sides, 9);
	switch (drawn(sides, 12)) {
	case 0:
		both(sides,
		    "INSERT OR IGNORE INTO item (id, tag, vessel_id, kind) "
		    "SELECT %d, 'T-%d', id, 'epirb' FROM vessel WHERE id = %d",
		    a, b, 1 + drawn(sides, 4));
		break;
	case 1:
		both(sides,
		    "DELETE FROM item WHERE id = %d AND NOT EXISTS "
		    "(SELECT 1 FROM item AS part WHERE part.parent_id = %d)",
		    a, a);
		break;
	case 2:
		both(sides, "UPDATE item SET notes = '%d' WHERE id IN (%d, %d)",
		    drawn(sides, 2), a, b);
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
		    20200101 + b, drawn(sides, 3), a);
		break;
	case 7:
		both(sides,
		    "UPDATE OR IGNORE vessel_period SET from_day = from_day + %d - 4", b);
		break;
	case 8:
		both(sides,
		    "INSERT OR IGNORE INTO station_kind (station_id, position, kind) "
		    "SELECT id, %d, 'epirb' FROM station WHERE id = %d",
		    drawn(sides, 2), a);
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
		    a, 1 + drawn(sides, 3), b);
		break;
	}
}

SCRATCH_TEST(any_number_of_changes_comes_to_what_a_session_makes_of_them)
{
	struct sides sides = sides_of(scratch);
	int rounds = scaled(150);
	for (int round = 0; round < rounds; round++) {
		char what[40];
		(void)snprintf(what, sizeof what, "round %d", round);
		begin(&sides);
		for (int i = 1 + drawn(&sides, 30); i > 0; i--) {
			do_something(&sides);
		}
		end(&sides, what);
	}
	assert_true(sides.taken_back > rounds * 9 / 10);
	(void)sqlite3_close(sides.other);
}

SCRATCH_TEST(a_statement_that_fails_spoils_its_transaction)
{
	int64_t id = 0;
	scratch_put(scratch, "LR-1");
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-2");
	assert_false(add_named(scratch->book, VESSEL_ADD, NUMBERED_VESSEL, "Amber Tern",
	    &id, &scratch->fault));
	assert_false(book_commit(scratch->book, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "a part of the change failed");
	book_rollback(scratch->book);
}

SCRATCH_TEST(a_row_that_was_touched_is_known_by_its_number_even_when_it_is_gone)
{
	SCOPED_ARENA arena = {0};
	const struct value *row = NULL;
	scratch_put(scratch, "LR-1");
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	const struct collected *told = &scratch->book->told;
	assert_null(collected_row(told, "item", 1, &arena));
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book),
		"UPDATE item SET tag = 'LR-9' WHERE id = 1", NULL, NULL, NULL),
	    SQLITE_OK);
	row = collected_row(told, "item", 1, &arena);
	assert_non_null(row);
	assert_string_equal(value_text(&row[1], &arena), "LR-9");
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book), "DELETE FROM item", NULL, NULL, NULL),
	    SQLITE_OK);
	row = collected_row(told, "item", 1, &arena);
	assert_non_null(row);
	assert_string_equal(value_text(&row[1], &arena), "LR-1");
	assert_null(collected_row(told, "item", 2, &arena));
	book_rollback(scratch->book);
}

RUN_TESTS(NULL, NULL)
