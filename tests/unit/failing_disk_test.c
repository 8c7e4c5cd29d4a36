/* A disk that fails in the middle of an act: each call that SQLite makes of it in turn,
 * alone and with all after it; every tenth of them, and with the sanitizers those
 * half-way between; every one with TESTS_SCALE=10 or more (50 with the sanitizers). The
 * book is then what it was or what it should be, sound in any case; what was done says
 * so, and what failed says why. */
#include "failing_disk.h"

#include "book/backup.h"
#include "book/check_inside.h"
#include "book/journal.h"
#include "book/reminders.h"
#include "book_scratch.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>

#define COPY_ENDING ".copy"
#define OLDER_ENDING ".version-9"

enum { MOST_CALLS = 5000, STRIDE = 10 };

/* How far the next call that fails is from the one before. */
static int
stride(void)
{
	return scaled(1) >= STRIDE ? 1 : STRIDE;
}

/* Where the calls that fail begin with the sanitizers, so that they are not those of the
 * other build. */
static int
half(int step)
{
	return WITH_SANITIZERS ? step / 2 : 0;
}

static void
file_copy(const char *from, const char *to)
{
	static char bytes[1 << 22];
	int in = open(from, O_RDONLY);
	int out = open(to, O_WRONLY | O_CREAT | O_TRUNC, 0600);
	ssize_t length = read(in, bytes, sizeof bytes);
	assert_true(in >= 0 && out >= 0 && length >= 0 && length < (ssize_t)sizeof bytes);
	assert_int_equal(write(out, bytes, (size_t)length), length);
	(void)close(in);
	(void)close(out);
}

static void
remove_book(const char *path)
{
	static const char *const ENDINGS[] = {
	    "", "-wal", "-shm", "-journal", COPY_ENDING, OLDER_ENDING, OLDER_ENDING "-2"};
	for (size_t i = 0; i < sizeof ENDINGS / sizeof ENDINGS[0]; i++) {
		char name[128];
		(void)snprintf(name, sizeof name, "%s%s", path, ENDINGS[i]);
		(void)unlink(name);
	}
}

/* ---- the acts ---- */

/* Twelve pieces with a record each, in one transaction. */
static bool
import(struct book *book, struct fault *fault)
{
	if (!book_begin(book, fault)) {
		return false;
	}
	for (int i = 0; i < 12; i++) {
		char tag[16];
		(void)snprintf(tag, sizeof tag, "LR-%d", i + 10);
		const struct item_change change = {
		    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND,
		    .tag = tag,
		    .vessel = "Brass Tern",
		    .kind = "liferaft-valise",
		};
		const struct record record = {.task = TASK_SERVICE,
		    .on = stamp_of("2026-05-20"),
		    .station = "Lorne Rafts",
		    .certificate = "",
		    .price_minor = 61250};
		if (!book_put_items(book, &change, 1, NULL, fault) ||
		    !book_add_record(book, tag, &record, fault)) {
			return false;
		}
	}
	return book_commit(book, fault);
}

static bool
record(struct book *book, struct fault *fault)
{
	const struct record record = {.task = TASK_SERVICE,
	    .on = stamp_of("2026-06-20"),
	    .station = "Lorne Rafts",
	    .certificate = "C 7",
	    .price_minor = -1};
	return book_add_record(book, "LR-1", &record, fault);
}

/* A raft handed in comes back with its service, a new serial number and another place. */
static bool
bring_back(struct book *book, struct fault *fault)
{
	const struct movement back = {.move = MOVE_RETURNED,
	    .on = day_of("2026-06-20"),
	    .station = "Lorne Rafts",
	    .result = RESULT_PASSED,
	    .certificate = "C 7",
	    .price_minor = 61250};
	const struct item_change aboard = {
	    .set = 1U << FIELD_SERIAL | 1U << FIELD_PLACE | 1U << FIELD_STATE,
	    .tag = "LR-1",
	    .serial = "R-8",
	    .place = "deck",
	    .state = PLACE_ABOARD};
	return book_begin(book, fault) && record(book, fault) &&
	       book_add_movement(book, "LR-1", &back, fault) &&
	       book_put_items(book, &aboard, 1, NULL, fault) && book_commit(book, fault);
}

static bool
undo(struct book *book, struct fault *fault)
{
	int64_t undone = 0;
	int64_t entry = 0;
	return book_undo(book, 0, &undone, &entry, fault);
}

static bool
look(struct book *book, struct fault *fault)
{
	struct book_contents contents = {0};
	bool done = book_load(book, NULL, true, &contents, fault);
	book_contents_clear(&contents);
	return done;
}

/* What writing a calendar keeps: what was given out, of what shape and on which day. */
static bool
give_out(struct book *book, struct fault *fault)
{
	static const struct book_reminder TWO[] = {
	    {.key = "hand-in|Brass Tern|2026|Lorne Rafts|1",
		.uid = "one@becket",
		.modified = 1790000000,
		.shape = "ab12",
		.day = 10,
		.aim = 10},
	    {.key = "collect|Brass Tern|2026|Lorne Rafts|1",
		.uid = "two@becket",
		.modified = 1790000000,
		.shape = "cd34",
		.day = 20,
		.aim = 20},
	};
	return book_store_reminders(book, TWO, 2, NULL, 0, fault);
}

static bool
back_up(struct book *book, struct fault *fault)
{
	char copy[128];
	(void)snprintf(
	    copy, sizeof copy, "%s" COPY_ENDING, database_path(book->database));
	return book_backup(book, copy, false, NULL, 0, NULL, fault);
}

/* ---- what a book holds ---- */

struct holds {
	size_t items;
	size_t records;
	size_t movements;
	size_t reminders;
	int64_t entries;
	int64_t copies;
};

static void assert_sound(const char *path);

static struct holds
holds_of(struct scratch *scratch)
{
	struct holds holds = {0};
	char copy[128];
	const struct book_reminder *reminders = NULL;
	int64_t found = 0;
	int64_t carried = 0;
	scratch_reopen(scratch, BOOK_WRITE);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	holds.items = contents.inventory.item_count;
	for (size_t i = 0; i < holds.items; i++) {
		holds.records += contents.inventory.items[i].record_count;
		holds.movements += contents.inventory.items[i].movement_count;
	}
	assert_done(
	    scratch, book_last_entry(scratch->book, &holds.entries, &scratch->fault));
	assert_done(scratch, book_load_reminders(scratch->book, &contents.arena,
				 &reminders, &holds.reminders, &scratch->fault));
	assert_done(scratch, sums_find(scratch->book, &found, &carried, &scratch->fault));
	assert_int_equal(found, carried);
	book_close(scratch->book);
	scratch->book = NULL;
	(void)snprintf(copy, sizeof copy, "%s" COPY_ENDING, scratch->path);
	if (access(copy, F_OK) == 0) {
		assert_sound(copy);
		holds.copies++;
	}
	return holds;
}

static void
assert_sound(const char *path)
{
	sqlite3 *db = NULL;
	sqlite3_stmt *stmt = NULL;
	assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
	assert_int_equal(
	    sqlite3_prepare_v2(db, "PRAGMA integrity_check", -1, &stmt, NULL), SQLITE_OK);
	assert_int_equal(sqlite3_step(stmt), SQLITE_ROW);
	assert_string_equal((const char *)sqlite3_column_text(stmt, 0), "ok");
	(void)sqlite3_finalize(stmt);
	(void)sqlite3_close(db);
}

typedef bool act_on_book(struct book *book, struct fault *fault);

static bool
do_act(struct scratch *scratch, act_on_book *act)
{
	struct book *book = NULL;
	scratch->fault = (struct fault){0};
	/* a copy is made of a book that is read */
	enum book_mode mode = act == back_up ? BOOK_READ : BOOK_WRITE;
	bool done = book_open(scratch->path, mode, &book, &scratch->fault) &&
		    act(book, &scratch->fault);
	book_close(book);
	return done;
}

/* Does the act on a copy of the book while the n-th call of a kind fails. False when
 * there are fewer calls than that. */
static bool
try_act(struct scratch *scratch, const char *kept, act_on_book *act,
    const struct holds *before, const struct holds *after, enum disk_call call, int n,
    bool broken)
{
	remove_book(scratch->path);
	file_copy(kept, scratch->path);
	disk_fail(call, n, broken);
	bool done = do_act(scratch, act);
	bool failed = disk_mend();
	struct fault fault = scratch->fault;
	struct holds found = holds_of(scratch);
	bool as_before = memcmp(&found, before, sizeof found) == 0;
	bool as_after = memcmp(&found, after, sizeof found) == 0;
	if (done ? !as_after : !as_before) {
		fail_msg("%s %d%s: done %d, %zu items, %zu records, %d entries (%s)",
		    disk_word(call), n, broken ? " and all after" : "", done, found.items,
		    found.records, (int)found.entries, fault.text);
	}
	if (!done && fault.text[0] == '\0') {
		fail_msg("%s %d: it failed without a word", disk_word(call), n);
	}
	assert_sound(scratch->path);
	return failed;
}

static void
the_book_survives(struct scratch *scratch, act_on_book *act, int step, int least)
{
	char kept[128];
	(void)snprintf(kept, sizeof kept, "%s.kept", scratch->path);
	book_close(scratch->book);
	scratch->book = NULL;
	file_copy(scratch->path, kept);
	struct holds before = holds_of(scratch);
	assert_done(scratch, do_act(scratch, act));
	struct holds after = holds_of(scratch);
	int faults = 0;
	for (int call = 0; call < DISK_CALLS; call++) {
		for (int broken = 0; broken < 2; broken++) {
			int n = 1 + (call + half(step)) % step;
			while (
			    n < MOST_CALLS && try_act(scratch, kept, act, &before, &after,
						  (enum disk_call)call, n, broken == 1)) {
				n += step;
				faults++;
			}
			assert_true(n < MOST_CALLS);
		}
	}
	print_message("%d times the disk failed\n", faults);
	assert_true(faults > least);
	remove_book(scratch->path);
	file_copy(kept, scratch->path);
	(void)unlink(kept);
}

static int
book_with_a_raft(void **state)
{
	disk_begin();
	int begun = scratch_begin(state);
	struct scratch *scratch = *state;
	scratch_put(scratch, "LR-1");
	return begun;
}

#define PREPARED_TEST(name)                                                              \
	TEST_OF(struct scratch, scratch, name, book_with_a_raft, scratch_end)

PREPARED_TEST(an_import_is_whole_or_not_there)
{
	the_book_survives(scratch, import, stride(), 10);
}

PREPARED_TEST(a_record_is_there_or_not)
{
	the_book_survives(scratch, record, stride(), 10);
}

PREPARED_TEST(gear_that_comes_back_is_back_whole_or_not)
{
	the_book_survives(scratch, bring_back, stride(), 10);
}

PREPARED_TEST(an_undo_takes_back_all_or_nothing)
{
	the_book_survives(scratch, undo, stride(), 10);
}

PREPARED_TEST(a_look_changes_nothing)
{
	the_book_survives(scratch, look, stride(), 4);
}

PREPARED_TEST(what_a_calendar_keeps_is_there_or_not)
{
	the_book_survives(scratch, give_out, stride(), 10);
}

PREPARED_TEST(a_copy_is_whole_or_not_there)
{
	the_book_survives(scratch, back_up, stride(), 10);
}

/* Puts a book of version 9, as a program of that time wrote it, in the place of the new one. */
static void
put_older(struct scratch *scratch)
{
	static char sql[1 << 17];
	sqlite3 *db = NULL;
	char *error = NULL;
	FILE *file = fopen(OLDER_BOOKS "/version-9.sql", "r");
	assert_non_null(file);
	size_t length = fread(sql, 1, sizeof sql - 1, file);
	assert_true(length > 0 && length < sizeof sql - 1);
	sql[length] = '\0';
	(void)fclose(file);
	book_close(scratch->book);
	scratch->book = NULL;
	remove_book(scratch->path);
	assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
	if (sqlite3_exec(db, sql, NULL, NULL, &error) != SQLITE_OK) {
		fail_msg("%s", error);
	}
	assert_int_equal(sqlite3_close(db), SQLITE_OK);
}

/* Opening it is what brings it up to date; what failed is done by the next opening. */
PREPARED_TEST(an_older_book_is_brought_up_to_date_or_left)
{
	put_older(scratch);
	/* it makes many more calls than an act */
	the_book_survives(scratch, look, 4 * stride(), 10);
}

/* A new book is there with all its tables, or there is none of which a word is lost. */
PREPARED_TEST(a_new_book_is_whole_or_can_be_begun_again)
{
	int faults = 0;
	for (int call = 0; call < DISK_CALLS; call++) {
		int n = -half(stride());
		bool failed = true;
		while (failed && n < MOST_CALLS) {
			book_close(scratch->book);
			scratch->book = NULL;
			remove_book(scratch->path);
			disk_fail((enum disk_call)call, n += stride(), false);
			bool done = book_open(
			    scratch->path, BOOK_CREATE, &scratch->book, &scratch->fault);
			failed = disk_mend();
			faults += failed;
			if (!done) {
				assert_done(
				    scratch, book_open(scratch->path, BOOK_CREATE,
						 &scratch->book, &scratch->fault));
			}
			SCOPED_CONTENTS contents = scratch_load(scratch);
			assert_int_equal(contents.inventory.item_count, 0);
		}
	}
	assert_sound(scratch->path);
	print_message("%d times the disk failed\n", faults);
	assert_true(faults > 10);
}

RUN_TESTS(NULL, NULL)
