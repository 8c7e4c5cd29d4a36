/* The file itself: what is opened, what is refused, and the statements it is asked with. */
#include "book_file.h"

#include "base/text.h"
#include "book_scratch.h"

#include <sys/stat.h>
#include <sys/wait.h>

/* Changes the closed book behind the program's back. */
static void
alter(struct scratch *scratch, const char *sql)
{
	sqlite3 *db = NULL;
	book_close(scratch->book);
	scratch->book = NULL;
	assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
	if (sqlite3_exec(db, sql, NULL, NULL, NULL) != SQLITE_OK) {
		fail_msg("%s: %s", sql, sqlite3_errmsg(db));
	}
	assert_int_equal(sqlite3_close(db), SQLITE_OK);
}

static void
assert_not_opened(struct scratch *scratch, enum book_mode mode, const char *words)
{
	struct book *book = NULL;
	assert_false(book_open(scratch->path, mode, &book, &scratch->fault));
	assert_null(book);
	assert_says(scratch, FAULT_BOOK, words);
	assert_says(scratch, FAULT_BOOK, "opening the book /tmp/");
}

SCRATCH_TEST(every_statement_prepares_and_numbers_its_parameters_in_order_or_names_them)
{
	for (int i = 0; i < STATEMENT_COUNT; i++) {
		sqlite3_stmt *stmt = NULL;
		assert_non_null(statement_text((enum statement)i)->sql);
		if (sqlite3_prepare_v2(file_of(scratch->book),
			statement_text((enum statement)i)->sql, -1, &stmt,
			NULL) != SQLITE_OK) {
			fail_msg("%s: %s", statement_text((enum statement)i)->sql,
			    sqlite3_errmsg(file_of(scratch->book)));
		}
		const char *first = sqlite3_bind_parameter_name(stmt, 1);
		bool named = first != NULL && strcmp(first, "$1") != 0;
		for (int n = 1; n <= sqlite3_bind_parameter_count(stmt); n++) {
			const char *name = sqlite3_bind_parameter_name(stmt, n);
			char number[16];
			(void)snprintf(number, sizeof number, "$%d", n);
			assert_int_equal(name[1] >= '0' && name[1] <= '9', !named);
			assert_true(named || strcmp(name, number) == 0);
		}
		assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
	}
}

/* The words are those of the migrations 0001, 0006, 0009 and 0019; how they are checked is of 0037
 * and 0045. */
SCRATCH_TEST(a_word_or_number_that_no_column_may_hold_is_refused)
{
	static const struct {
		const char *sql;
		int result;
	} TRIES[] = {
	    {"UPDATE item SET state = 'aboard'", SQLITE_OK},
	    {"UPDATE item SET state = 'stand-in'", SQLITE_OK},
	    {"UPDATE item SET state = 'afloat'", SQLITE_CONSTRAINT},
	    {"UPDATE item SET because = 'lost'", SQLITE_OK},
	    {"UPDATE item SET because = 'old'", SQLITE_CONSTRAINT},
	    {"UPDATE item SET made_wording = 2", SQLITE_OK},
	    {"UPDATE item SET made_wording = 3", SQLITE_CONSTRAINT},
	    {"UPDATE item SET expires_wording = -1", SQLITE_CONSTRAINT},
	    {"INSERT INTO record VALUES (1, 1, 'test', 20200101, 0, 0, 0, 0, 0, '', '', "
	     "-1, 0, 0)",
		SQLITE_OK},
	    {"UPDATE record SET refit = 1", SQLITE_CONSTRAINT},
	    {"UPDATE record SET task = 'renew', refit = 2", SQLITE_CONSTRAINT},
	    {"UPDATE record SET task = 'renew', refit = 1", SQLITE_OK},
	    {"UPDATE record SET task = 'test', refit = 0", SQLITE_OK},
	    {"UPDATE record SET task = 'service'", SQLITE_OK},
	    {"UPDATE record SET task = 'paint'", SQLITE_CONSTRAINT},
	    {"UPDATE record SET next_wording = 3", SQLITE_CONSTRAINT},
	    {"INSERT INTO journal_line VALUES (1, 1, '', '', '', '', 'mended', '', '', '')",
		SQLITE_CONSTRAINT},
	    {"UPDATE vessel SET left_because = 'given-back'", SQLITE_OK},
	    {"UPDATE vessel SET left_because = 'old'", SQLITE_CONSTRAINT},
	    {"UPDATE vessel_period SET dry_storage = -1, above_freezing = NULL",
		SQLITE_OK},
	    {"UPDATE vessel_period SET dry_storage = -2", SQLITE_CONSTRAINT},
	    {"UPDATE vessel_period SET above_freezing = 2", SQLITE_CONSTRAINT},
	};

	scratch_put(scratch, "LR-1");
	for (size_t i = 0; i < sizeof TRIES / sizeof TRIES[0]; i++) {
		int result =
		    sqlite3_exec(file_of(scratch->book), TRIES[i].sql, NULL, NULL, NULL);
		if (result != TRIES[i].result) {
			fail_msg("%s: %d", TRIES[i].sql, result);
		}
	}
}

/* BEGIN IMMEDIATE and the pragma of foreign keys count as writing to SQLite, and are of no
 * table. */
static bool
is_of_no_table(enum statement statement)
{
	return statement == BEGIN_WRITING || statement == FOREIGN_KEYS_OFF;
}

SCRATCH_TEST(every_statement_that_writes_says_how_many_rows_it_changes)
{
	for (int i = 0; i < STATEMENT_COUNT; i++) {
		sqlite3_stmt *stmt = NULL;
		assert_int_equal(
		    sqlite3_prepare_v2(file_of(scratch->book),
			statement_text((enum statement)i)->sql, -1, &stmt, NULL),
		    SQLITE_OK);
		bool writes = sqlite3_stmt_readonly(stmt) == 0 &&
			      !is_of_no_table((enum statement)i);
		assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
		if (writes != (statement_text((enum statement)i)->rows != ROWS_READ)) {
			fail_msg("%s: %s", writes ? "writes" : "reads",
			    statement_text((enum statement)i)->sql);
		}
	}
}

/* There is no vessel with this number: the statement changes none where it should change one. */
SCRATCH_TEST(another_number_of_rows_than_is_said_is_a_fault)
{
	struct fault fault = {0};
	SCOPED_CALL call = {0};
	assert_true(call_open(scratch->book, PAPER_FILL, &call, &fault));
	give_null(&call);
	give_text(&call, "a note");
	give_int(&call, 77);
	assert_false(call_run(&call, &fault));
	assert_int_equal(fault.kind, FAULT_BOOK);
	assert_non_null(strstr(fault.text, "0 rows changed where 1 should have"));
}

/* The plan of a statement, one line a step. */
static void
explain(struct scratch *scratch, enum statement statement, struct text *plan)
{
	struct text sql = {0};
	sqlite3_stmt *stmt = NULL;
	text_add_format(&sql, "EXPLAIN QUERY PLAN %s", statement_text(statement)->sql);
	assert_int_equal(sqlite3_prepare_v2(
			     file_of(scratch->book), text_string(&sql), -1, &stmt, NULL),
	    SQLITE_OK);
	while (sqlite3_step(stmt) == SQLITE_ROW) {
		text_add_format(plan, "%s\n", (const char *)sqlite3_column_text(stmt, 3));
	}
	(void)sqlite3_finalize(stmt);
	text_clear(&sql);
}

SCRATCH_TEST(statements_that_run_once_an_item_scan_no_table)
{
	static const enum statement HOT[] = {VESSEL_FIND, STATION_FIND, ITEM_FIND,
	    ITEM_CHANGE, ITEM_SET_PARENT, ITEM_PARENT, ITEM_RENEW, ITEM_DATES,
	    RECORD_FIND, RENEWALS, REMINDER_FORGET};

	for (size_t i = 0; i < sizeof HOT / sizeof HOT[0]; i++) {
		SCOPED_TEXT plan = {0};
		explain(scratch, HOT[i], &plan);
		if (strstr(text_string(&plan), "SEARCH") == NULL ||
		    strstr(text_string(&plan), "SCAN") != NULL) {
			fail_msg(
			    "%s: %s", statement_text(HOT[i])->sql, text_string(&plan));
		}
	}
}

/* A scan of a table of the book: the cost of a part must not grow with it. */
static void
assert_scans_no_table(struct scratch *scratch, enum statement statement)
{
	static const char *const GROWING[] = {"item", "other", "record", "event",
	    "extension", "movement", "maker_interval", "booking", "vessel"};
	SCOPED_TEXT plan = {0};
	explain(scratch, statement, &plan);
	bool scans = strstr(text_string(&plan), "AUTOMATIC") != NULL;
	for (size_t i = 0; i < sizeof GROWING / sizeof GROWING[0]; i++) {
		char scan[32];
		(void)snprintf(scan, sizeof scan, "SCAN %s", GROWING[i]);
		scans = scans || strstr(text_string(&plan), scan) != NULL;
	}
	if (scans) {
		fail_msg("%s: %s", statement_text(statement)->sql, text_string(&plan));
	}
}

SCRATCH_TEST(a_part_of_the_book_is_found_without_reading_the_rest)
{
	static const enum statement OF_PART[] = {LOAD_COUNTS_OF, LOAD_COUNTS_OF_ONE,
	    LOAD_PERIODS_OF, LOAD_WINTERS_OF, LOAD_AWAY_OF, LOAD_BOOKINGS_OF,
	    LOAD_SHEETS_OF, LOAD_ITEMS_OF, LOAD_RECORDS_OF, LOAD_EVENTS_OF,
	    LOAD_EXTENSIONS_OF, LOAD_MOVEMENTS_OF, LOAD_INTERVALS_OF, RECKONED_BY};

	for (size_t i = 0; i < sizeof OF_PART / sizeof OF_PART[0]; i++) {
		assert_scans_no_table(scratch, OF_PART[i]);
	}
}

SCRATCH_TEST(what_hangs_on_gear_is_read_in_the_order_of_its_index)
{
	static const enum statement WHOLE[] = {
	    LOAD_RECORDS, LOAD_EVENTS, LOAD_EXTENSIONS};

	for (size_t i = 0; i < sizeof WHOLE / sizeof WHOLE[0]; i++) {
		SCOPED_TEXT plan = {0};
		explain(scratch, WHOLE[i], &plan);
		if (strstr(text_string(&plan), "USING INDEX") == NULL ||
		    strstr(text_string(&plan), "FOR ORDER BY") != NULL) {
			fail_msg(
			    "%s: %s", statement_text(WHOLE[i])->sql, text_string(&plan));
		}
	}
}

SCRATCH_TEST(a_book_of_a_newer_program_is_refused)
{
	alter(scratch, "PRAGMA user_version = 999");
	assert_not_opened(scratch, BOOK_READ, "newer program");
	assert_not_opened(scratch, BOOK_WRITE, "newer program");
	assert_not_opened(scratch, BOOK_CREATE, "newer program");
}

SCRATCH_TEST(a_version_that_no_program_writes_is_refused_before_anything_is_run)
{
	static const char *const ALTERED[] = {"PRAGMA user_version = -1",
	    "PRAGMA user_version = 0", "PRAGMA user_version = -2147483648"};
	for (size_t i = 0; i < sizeof ALTERED / sizeof ALTERED[0]; i++) {
		alter(scratch, ALTERED[i]);
		assert_not_opened(scratch, BOOK_READ, "damaged");
		assert_not_opened(scratch, BOOK_WRITE, "damaged");
		assert_not_opened(scratch, BOOK_CREATE, "damaged");
	}
}

/* The bytes of a closed book of one file; the caller frees them. */
static unsigned char *
read_bytes(const char *path, size_t *size_out)
{
	FILE *file = fopen(path, "rb");
	assert_non_null(file);
	assert_int_equal(fseek(file, 0, SEEK_END), 0);
	long size = ftell(file);
	assert_true(size > 0);
	unsigned char *bytes = malloc((size_t)size);
	assert_non_null(bytes);
	rewind(file);
	assert_int_equal(fread(bytes, 1, (size_t)size, file), (size_t)size);
	assert_int_equal(fclose(file), 0);
	*size_out = (size_t)size;
	return bytes;
}

static void
write_bytes(const char *path, const unsigned char *bytes, size_t size)
{
	FILE *file = fopen(path, "wb");
	assert_non_null(file);
	assert_int_equal(fwrite(bytes, 1, size, file), size);
	assert_int_equal(fclose(file), 0);
}

/* The header of an SQLite file is its first 100 bytes (sqlite.org/fileformat2.html, 1.3). */
SCRATCH_TEST(any_flipped_bit_of_the_header_is_opened_or_refused_with_words)
{
	enum { HEADER_BITS = 100 * 8 };

	size_t size = 0;
	alter(scratch, "PRAGMA journal_mode = DELETE");
	unsigned char *bytes = read_bytes(scratch->path, &size);
	for (size_t bit = 0; bit < HEADER_BITS; bit++) {
		struct book *book = NULL;
		bytes[bit / 8] ^= (unsigned char)(1U << bit % 8);
		write_bytes(scratch->path, bytes, size);
		if (book_open(scratch->path, BOOK_WRITE, &book, &scratch->fault)) {
			/* the version before this one may be brought up to date again */
			if (book_older_kept(book) != NULL) {
				assert_int_equal(unlink(book_older_kept(book)), 0);
			}
			book_close(book);
		} else {
			assert_says(scratch, FAULT_BOOK, "opening the book");
		}
		bytes[bit / 8] ^= (unsigned char)(1U << bit % 8);
	}
	free(bytes);
}

SCRATCH_TEST(another_programs_database_is_refused_and_left_alone)
{
	alter(scratch, "PRAGMA journal_mode = DELETE; PRAGMA application_id = 7");
	assert_not_opened(scratch, BOOK_CREATE, "no book of this program");
	assert_not_opened(scratch, BOOK_READ, "no book of this program");
	sqlite3 *db = NULL;
	sqlite3_stmt *stmt = NULL;
	assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
	assert_int_equal(
	    sqlite3_prepare_v2(db, "PRAGMA journal_mode", -1, &stmt, NULL), SQLITE_OK);
	assert_int_equal(sqlite3_step(stmt), SQLITE_ROW);
	assert_string_equal((const char *)sqlite3_column_text(stmt, 0), "delete");
	(void)sqlite3_finalize(stmt);
	(void)sqlite3_close(db);
}

static void
write_file(const char *path, const char *words)
{
	FILE *file = fopen(path, "w");
	assert_non_null(file);
	assert_true(fputs(words, file) >= 0);
	assert_int_equal(fclose(file), 0);
}

SCRATCH_TEST(a_text_file_an_empty_file_and_a_directory_are_no_books)
{
	book_close(scratch->book);
	scratch->book = NULL;
	write_file(scratch->path, "vessel,tag,kind\nAmber Tern,LR-1,liferaft-valise\n");
	assert_not_opened(scratch, BOOK_READ, "no book");
	assert_not_opened(scratch, BOOK_WRITE, "no book");
	assert_not_opened(scratch, BOOK_CREATE, "no book");
	write_file(scratch->path, "");
	assert_not_opened(scratch, BOOK_READ, "the file is empty");
	assert_not_opened(scratch, BOOK_WRITE, "the file is empty");

	struct book *book = NULL;
	assert_false(book_open(scratch->directory, BOOK_READ, &book, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "no ordinary file");
}

SCRATCH_TEST(a_book_that_is_not_there_is_made_only_when_asked)
{
	book_close(scratch->book);
	scratch->book = NULL;
	assert_int_equal(unlink(scratch->path), 0);
	assert_not_opened(scratch, BOOK_READ, "there is no such book");
	assert_not_opened(scratch, BOOK_WRITE, "there is no such book");
	assert_int_not_equal(access(scratch->path, F_OK), 0);
	struct book *book = NULL;
	assert_false(book_open(
	    "/tmp/becket-no-such-directory/b", BOOK_CREATE, &book, &scratch->fault));
	assert_int_equal(scratch->fault.kind, FAULT_BOOK);
}

SCRATCH_TEST(reading_writes_nothing)
{
	scratch_reopen(scratch, BOOK_READ);
	const struct vessel_change change = {.name = "Amber Tern"};
	assert_false(book_put_vessel(scratch->book, &change, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "can't be written");
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.vessel_count, 0);
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));
}

/* In a child that may not write: is the book read, or what is said? 0 when it was read, 2
 * when it was refused with words about the log, 1 otherwise. */
static int
read_without_rights(struct scratch *scratch)
{
	pid_t child = fork();
	assert_true(child >= 0);
	if (child == 0) {
		/* The superuser may write anywhere, so be nobody. */
		if (geteuid() == 0 && (setgid(65534) != 0 || setuid(65534) != 0)) {
			_exit(3);
		}
		struct book *book = NULL;
		struct book_contents contents = {0};
		struct fault fault = {0};
		if (!book_open(scratch->path, BOOK_READ, &book, &fault)) {
			_exit(strstr(fault.text, "changes wait in") != NULL ? 2 : 1);
		}
		bool read = book_load(book, NULL, false, &contents, &fault) &&
			    contents.inventory.item_count == 1 &&
			    fault.kind == FAULT_NONE;
		book_contents_clear(&contents);
		book_close(book);
		_exit(read ? 0 : 1);
	}
	int status = 0;
	assert_int_equal(waitpid(child, &status, 0), child);
	assert_true(WIFEXITED(status));
	return WEXITSTATUS(status);
}

SCRATCH_TEST(a_read_only_book_in_a_read_only_directory_is_read)
{
	scratch_put(scratch, "LR-1");
	book_close(scratch->book);
	scratch->book = NULL;
	assert_int_equal(chmod(scratch->path, 0444), 0);
	assert_int_equal(chmod(scratch->directory, 0555), 0);
	int read = read_without_rights(scratch);
	assert_int_equal(chmod(scratch->directory, 0755), 0);
	assert_int_equal(read, 0);
	assert_int_equal(chmod(scratch->path, 0644), 0);
}

SCRATCH_TEST(a_log_that_can_not_be_read_in_is_never_passed_over)
{
	char log[128];
	(void)snprintf(log, sizeof log, "%s-wal", scratch->path);
	scratch_put(scratch, "LR-1");
	book_close(scratch->book);
	scratch->book = NULL;
	write_file(log, "something waits here");
	assert_int_equal(chmod(scratch->path, 0444), 0);
	assert_int_equal(chmod(scratch->directory, 0555), 0);
	int read = read_without_rights(scratch);
	assert_int_equal(chmod(scratch->directory, 0755), 0);
	assert_int_equal(chmod(scratch->path, 0644), 0);
	assert_int_equal(read, 2);
}

SCRATCH_TEST(a_value_that_makes_no_sense_is_reported_and_not_shown)
{
	scratch_put(scratch, "LR-1");
	alter(scratch, "UPDATE item SET made = 20230231");
	scratch_reopen(scratch, BOOK_READ);
	struct book_contents contents = {0};
	assert_false(book_load(scratch->book, NULL, false, &contents, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "makes no sense (column made)");
}

SCRATCH_TEST(two_programs_share_a_book)
{
	struct book *other = NULL;
	struct book_contents contents = {0};
	assert_done(
	    scratch, book_open(scratch->path, BOOK_READ, &other, &scratch->fault));
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-1");
	assert_done(scratch, book_load(other, NULL, true, &contents, &scratch->fault));
	assert_int_equal(contents.inventory.item_count, 0);
	book_contents_clear(&contents);
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));
	assert_done(scratch, book_load(other, NULL, true, &contents, &scratch->fault));
	assert_int_equal(contents.inventory.item_count, 1);
	book_contents_clear(&contents);
	book_close(other);
}

SCRATCH_TEST(what_is_no_ordinary_file_is_refused_and_never_taken_away)
{
	char pipe_path[sizeof scratch->directory + 8];
	struct book *book = NULL;
	struct stat status;
	(void)snprintf(pipe_path, sizeof pipe_path, "%s/pipe", scratch->directory);
	assert_int_equal(mkfifo(pipe_path, 0600), 0);
	assert_false(book_open(pipe_path, BOOK_CREATE, &book, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "no ordinary file");
	assert_int_equal(lstat(pipe_path, &status), 0);
	assert_true(S_ISFIFO(status.st_mode));
	assert_int_equal(unlink(pipe_path), 0);
}

SCRATCH_TEST(a_trial_works_on_a_copy_and_the_file_stays_as_it_is)
{
	struct book *trial = NULL;
	struct book_contents contents = {0};
	const struct vessel_change change = {.name = "Quillfish"};
	assert_true(book_open(scratch->path, BOOK_TRIAL, &trial, &scratch->fault));
	assert_true(book_put_vessel(trial, &change, &scratch->fault));
	assert_true(book_load(trial, NULL, false, &contents, &scratch->fault));
	assert_int_equal(contents.inventory.vessel_count, 1);
	book_contents_clear(&contents);
	book_close(trial);
	assert_true(book_load(scratch->book, NULL, false, &contents, &scratch->fault));
	assert_int_equal(contents.inventory.vessel_count, 0);
	book_contents_clear(&contents);
}

SCRATCH_TEST(a_trial_without_a_book_makes_no_file)
{
	struct book *trial = NULL;
	struct stat status;
	SCOPED_TEXT path = {0};
	const struct vessel_change change = {.name = "Quillfish"};
	text_add_format(&path, "%s-none", scratch->path);
	assert_true(book_open(text_string(&path), BOOK_TRIAL, &trial, &scratch->fault));
	assert_true(book_put_vessel(trial, &change, &scratch->fault));
	book_close(trial);
	assert_int_not_equal(stat(text_string(&path), &status), 0);
}

RUN_TESTS(NULL, NULL)
