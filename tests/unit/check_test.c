/* Checking a book: each thing that must hold is broken behind the program's back, and found. */
#include "book/check.h"

#include "book/journal.h"
#include "book/journal_inside.h"
#include "book/rows.h"
#include "book_file.h"
#include "book_scratch.h"

static bool
knows_kind(void *context, const char *id)
{
	(void)context;
	return strcmp(id, "liferaft-canister") == 0;
}

static bool
knows_sheet(void *context, const char *name)
{
	(void)context;
	return strcmp(name, "practice") == 0;
}

/* Two rafts on one boat, one of them serviced. */
static void
fill(struct scratch *scratch)
{
	const struct record record = {.task = TASK_SERVICE,
	    .on = stamp_of("2024-05-20"),
	    .next = stamp_of("2024"),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	scratch_put(scratch, "LR-1");
	scratch_put(scratch, "LR-2");
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
	const struct import_answer answer = {.theirs = "made", .ours = "ignore"};
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	assert_done(
	    scratch, book_put_import_answer(scratch->book, &answer, &scratch->fault));
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));
}

static struct check_result
check(struct scratch *scratch, struct arena *arena)
{
	const struct book_known known = {knows_kind, knows_sheet, NULL};
	struct check_result result = {0};
	assert_done(
	    scratch, book_check(scratch->book, &known, arena, &result, &scratch->fault));
	return result;
}

SCRATCH_TEST(a_book_of_this_program_is_all_right)
{
	SCOPED_ARENA arena = {0};
	fill(scratch);
	struct check_result result = check(scratch, &arena);
	assert_int_equal(result.count, 0);
	for (size_t i = 0; i < result.rule_count; i++) {
		assert_int_equal(result.rules[i].found, 0);
	}
	book_check_clear(&result);
	assert_done(scratch, book_check_file(scratch->book, &scratch->fault));
}

/* A station with a price from an age on, put in by a program that checks nothing. */
#define A_PRICE                                                                          \
	"PRAGMA ignore_check_constraints = ON; "                                         \
	"INSERT INTO station (id, name) VALUES (7, 'Lorne Rafts'); "                     \
	"INSERT INTO station_price_step VALUES (7, 'epirb', '', "

/* What is broken, the rule that finds it, and words that its finding has. */
static const struct {
	const char *sql;
	const char *rule;
	const char *what;
} BREAKS[] = {
    {"DELETE FROM vessel", "reference", "item has a row that refers to a missing vessel"},
    {"UPDATE item SET parent_id = 3 - id", "part-loop", "LR-1 is a part of itself"},
    {"INSERT INTO vessel (id, name) VALUES (2, 'Grey Plover'); "
     "INSERT INTO vessel_sheet VALUES (2, 0, 'practice'); "
     "INSERT INTO vessel_period (vessel_id, from_day, use, area, persons) "
     "VALUES (2, 0, 'private', '', 0); "
     "UPDATE item SET parent_id = 1, vessel_id = 2 WHERE id = 2",
	"part-apart", "LR-2 is a part of LR-1, which is on another vessel"},
    {"UPDATE item SET parent_id = 1 WHERE id = 2; "
     "UPDATE item SET state = 'withdrawn' WHERE id = 1",
	"part-left", "LR-2 is a part of LR-1, which was withdrawn"},
    {"UPDATE item SET landed_to = 'Lorne Rafts' WHERE id = 1", "landed",
	"LR-1 is said to be at Lorne Rafts"},
    {"UPDATE item SET stands_for = 'LR-9', state = 'stand-in' WHERE id = 1", "stand-in",
	"LR-1 stands in for LR-9, which is not in the book"},
    {"UPDATE record SET next_day = 20240500", NULL, NULL}, /* through 31 May: fine */
    {"UPDATE record SET next_day = 20240400", "next-day",
	"LR-1: the next date of its service is before"},
    {"UPDATE record SET next_day = 20230000", "next-day", "LR-1"},
    {"UPDATE item SET kind = 'anchor' WHERE id = 2", "kind",
	"LR-2: there is no kind anchor"},
    {"UPDATE vessel_sheet SET sheet = 'lost'", "sheet",
	"Amber Tern follows the sheet lost"},
    {"INSERT INTO paper (item_id, name, media_type, note, added_day, size, sha256, bytes) "
     "VALUES (1, 'label.jpg', 'image/jpeg', '', 20260101, 4, "
     "'0123456789012345678901234567890123456789012345678901234567890123', x'0102')",
	"paper", "LR-1: label.jpg: reading paper 1: its bytes are not those"},
    /* the SHA-256 of "abc" that FIPS 180-4 gives: fine */
    {"INSERT INTO paper (item_id, name, media_type, note, added_day, size, sha256, bytes) "
     "VALUES (1, 'label.txt', 'text/plain', '', 20260101, 3, "
     "'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', x'616263')",
	NULL, NULL},
    {"DROP TRIGGER journal_no_removal; DELETE FROM journal WHERE number = 2", "journal",
	"the journal's last number is 3"},
    {"UPDATE item SET made = 20211301 WHERE id = 1", "value",
	"makes no sense (column made)"},
    {A_PRICE "200, 62000)", "value",
	"Lorne Rafts asks 62000 for epirb from an age of 200 years, which can't be"},
    {A_PRICE "10, -5)", "value", "asks -5 for epirb from an age of 10 years"},
    {A_PRICE "0, 62000); INSERT INTO station_price VALUES (7, 'epirb', '', 45000)",
	"value", "from an age of 0 years, which can't be, or is there twice"},
    {A_PRICE "10, 62000); INSERT INTO station_price VALUES (7, 'epirb', '', 45000)", NULL,
	NULL},
};

static void
break_book(struct scratch *scratch, const char *sql)
{
	sqlite3 *db = NULL;
	char *error = NULL;
	book_close(scratch->book);
	scratch->book = NULL;
	assert_int_equal(sqlite3_open(scratch->path, &db), SQLITE_OK);
	if (sqlite3_exec(db, sql, NULL, NULL, &error) != SQLITE_OK) {
		fail_msg("%s: %s", sql, error);
	}
	assert_int_equal(sqlite3_close(db), SQLITE_OK);
	assert_done(scratch,
	    book_open(scratch->path, BOOK_READ, &scratch->book, &scratch->fault));
}

/* True when the rule has a finding with these words. */
static bool
has_finding(const struct check_result *result, const char *rule, const char *what)
{
	for (size_t i = 0; i < result->count; i++) {
		if (strcmp(result->items[i].rule, rule) == 0 &&
		    strstr(result->items[i].what, what) != NULL) {
			return result->items[i].to_do[0] != '\0';
		}
	}
	return false;
}

/* No other rule has found anything. */
static bool
only_contents(const struct check_result *result)
{
	bool only = result->count > 0;
	for (size_t i = 0; i < result->count; i++) {
		only = only && strcmp(result->items[i].rule, "contents") == 0;
	}
	return only;
}

TEST(what_is_broken_is_found_and_named)
{
	for (size_t i = 0; i < sizeof BREAKS / sizeof BREAKS[0]; i++) {
		void *own = NULL;
		SCOPED_ARENA arena = {0};
		assert_int_equal(scratch_begin(&own), 0);
		struct scratch *scratch = own;
		fill(scratch);
		break_book(scratch, BREAKS[i].sql);
		struct check_result result = check(scratch, &arena);
		bool fine = BREAKS[i].rule == NULL
				? only_contents(&result)
				: has_finding(&result, BREAKS[i].rule, BREAKS[i].what);
		if (!fine) {
			fail_msg("%s: %zu findings, the first \"%s\"", BREAKS[i].sql,
			    result.count, result.count > 0 ? result.items[0].what : "");
		}
		book_check_clear(&result);
		assert_int_equal(scratch_end(&own), 0);
	}
}

/* The one finding about the contents is these words; NULL none. */
static void
assert_contents(struct scratch *scratch, const char *words)
{
	SCOPED_ARENA arena = {0};
	struct check_result result = check(scratch, &arena);
	size_t told = 0;
	for (size_t i = 0; i < result.count; i++) {
		if (strcmp(result.items[i].rule, "contents") == 0) {
			assert_non_null(words);
			assert_string_equal(result.items[i].what, words);
			told++;
		}
	}
	assert_int_equal(told, words == NULL ? 0 : 1);
	book_check_clear(&result);
}

#define NOT_TOLD                                                                         \
	"a value in the book is not as becket wrote it (the sum of all differs; which "  \
	"one can't be told)"

/* One of each kind of value: a day, a number, a letter, a whole row, a note of the
 * program's own memory, a line of the journal and the journal's changes. All make sense,
 * and no other rule sees them. What it was is known from the journal, or by turning each
 * bit: '8' is one bit from '9'. */
TEST(a_value_that_becket_did_not_write_is_told_until_it_is_accepted)
{
	static const struct {
		const char *sql;
		const char *words;
	} FLIPS[] = {
	    {"UPDATE item SET made = 20120500 WHERE id = 1",
		"LR-1: made is 2012-05, not as becket wrote it: nothing"},
	    {"UPDATE item SET quantity = 3 WHERE id = 2",
		"LR-2: quantity is 3, not as becket wrote it: 1"},
	    {"UPDATE record SET station = 'A'",
		"LR-1: record station is A, not as becket wrote it: nothing"},
	    {"UPDATE record SET on_day = 20240504",
		"LR-1: record on is 2024-05-04, not as becket wrote it: 2024-05-20"},
	    {"DELETE FROM record",
		"LR-1: record (task service, on 2024-05-20, next 2024) is "
		"gone, and becket did not take it out"},
	    {"UPDATE import_answer SET ours = 'ignoru'",
		"import answer: ours is ignoru, not as becket wrote it: ignore"},
	    {"INSERT INTO import_answer VALUES ('header', 'packed', 'ignore')", NOT_TOLD},
	    {"DROP TRIGGER journal_line_no_change; "
	     "UPDATE journal_line SET became = became || '1' WHERE number = 1",
		NOT_TOLD},
	    {"DROP TRIGGER journal_no_change; UPDATE journal SET changes = x'' WHERE number = 2",
		NOT_TOLD},
	    /* it ends inside the head of a table, in which SQLite goes round for ever */
	    {"DROP TRIGGER journal_no_change; "
	     "UPDATE journal SET changes = substr(changes, 1, 10) WHERE number = 2",
		NOT_TOLD},
	};

	for (size_t i = 0; i < sizeof FLIPS / sizeof FLIPS[0]; i++) {
		void *own = NULL;
		bool differed = false;
		assert_int_equal(scratch_begin(&own), 0);
		struct scratch *scratch = own;
		fill(scratch);
		assert_contents(scratch, NULL);
		break_book(scratch, FLIPS[i].sql);
		assert_contents(scratch, FLIPS[i].words);
		scratch_reopen(scratch, BOOK_WRITE);
		/* writing on does not make it right */
		scratch_put(scratch, "LR-3");
		scratch_reopen(scratch, BOOK_READ);
		assert_contents(scratch, FLIPS[i].words);
		scratch_reopen(scratch, BOOK_WRITE);
		assert_done(
		    scratch, book_accept(scratch->book, &differed, &scratch->fault));
		assert_true(differed);
		assert_contents(scratch, NULL);
		scratch_put(scratch, "LR-4");
		assert_contents(scratch, NULL);
		assert_int_equal(scratch_end(&own), 0);
	}
}

SCRATCH_TEST(accepting_what_becket_wrote_writes_nothing)
{
	bool differed = true;
	int64_t before = 0;
	int64_t after = 0;
	fill(scratch);
	assert_done(scratch, book_last_entry(scratch->book, &before, &scratch->fault));
	assert_done(scratch, book_accept(scratch->book, &differed, &scratch->fault));
	assert_done(scratch, book_last_entry(scratch->book, &after, &scratch->fault));
	assert_false(differed);
	assert_int_equal(before, after);
}

SCRATCH_TEST(what_is_undone_or_rolled_back_leaves_the_sum_right)
{
	int64_t undone = 0;
	int64_t entry = 0;
	fill(scratch);
	assert_done(
	    scratch, book_undo(scratch->book, 0, &undone, &entry, &scratch->fault));
	assert_contents(scratch, NULL);
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-5");
	book_rollback(scratch->book);
	assert_contents(scratch, NULL);
	assert_done(
	    scratch, book_undo(scratch->book, entry, &undone, &entry, &scratch->fault));
	assert_contents(scratch, NULL);
}

/* Tables that the journal does not tell of. Rows are added, changed twice over, given
 * another key, put in place of others, taken away with what refers to them, and come
 * back. */
static const char *const UNTOLD[] = {
    "INSERT INTO reminder (key, uid, sequence, modified, shape) VALUES "
    "('one', 'u1', 0, 5, 'a'), ('two', 'u2', 0, 5, ''), ('three', 'u3', 7, 5, 'c')",
    "UPDATE reminder SET shape = 'b', given_summary = 'Service LR-1' WHERE key = 'one'",
    "UPDATE reminder SET sequence = sequence + 1, shape = '' WHERE key <> 'two'",
    "UPDATE reminder SET key = 'four' WHERE key = 'three'",
    "REPLACE INTO reminder (key, uid, sequence, modified, shape) VALUES ('two', 'u9', 1, 6, 'd')",
    "INSERT INTO reminder_given (uid, sequence, on_day) VALUES ('u1', 0, 20261125)",
    "DELETE FROM reminder WHERE key = 'one'",
    "INSERT INTO feed (id, secret, scope, name, todos) VALUES (1, 'aaaabbbbccccddddeeeeffff00001111', 'fleet', '', 0)",
    "INSERT INTO feed_given (feed_id, etag, modified) VALUES (1, 'e', 2)",
    "DELETE FROM feed", "DELETE FROM import_answer",
    "INSERT INTO import_answer (about, theirs, ours) VALUES ('header', 'made', 'tag')",
    "INSERT INTO hand_in (id, of_base, owner, winter, station, number, hand_in_day, chosen, missed) "
    "VALUES (1, 0, 'Amber Tern', 2026, 'S', 1, 20270110, 0, 0)",
    "INSERT INTO hand_in_piece (hand_in_id, tag) VALUES (1, 'LR-1')"};

/* The numbers of the feed and the hand-in are given as the program gives them. */
static void
write_untold(struct scratch *scratch)
{
	int64_t number = 0;
	assert_done(
	    scratch, number_next(scratch->book, NUMBERED_FEED, &number, &scratch->fault));
	assert_done(scratch,
	    number_next(scratch->book, NUMBERED_HAND_IN, &number, &scratch->fault));
	assert_int_equal(number, 1);
	for (size_t i = 0; i < sizeof UNTOLD / sizeof UNTOLD[0]; i++) {
		char *trouble = NULL;
		(void)sqlite3_exec(
		    file_of(scratch->book), UNTOLD[i], NULL, NULL, &trouble);
		if (trouble != NULL) {
			fail_msg("%s: %s", UNTOLD[i], trouble);
		}
	}
}

SCRATCH_TEST(what_the_journal_does_not_tell_of_is_in_the_sum_however_often_it_is_written)
{
	fill(scratch);
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	write_untold(scratch);
	assert_null(scratch->book->told.first);
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));
	assert_contents(scratch, NULL);
}

SCRATCH_TEST(a_row_that_a_reference_holds_back_adds_nothing_to_the_sum)
{
	static const unsigned char is_key[] = {1};
	static const struct value number = {.held = HELD_INTEGER, .number = 1};
	static const struct row_change added = {.table = "hand_in",
	    .count = 1,
	    .key = is_key,
	    .act = JOURNAL_ADDED,
	    .is = &number};
	struct applying applying = {.book = scratch->book, .back = true};
	enum applied applied = APPLIED;
	fill(scratch);
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	write_untold(scratch);
	uint64_t before = scratch->book->sum;
	assert_done(scratch, change_apply(&applying, shape_known("hand_in"), &added,
				 &applied, &scratch->fault));
	assert_int_equal(applied, APPLIED_LATER);
	assert_int_equal(scratch->book->sum, before);
	applying_clear(&applying);
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));
	assert_contents(scratch, NULL);
}

RUN_TESTS(NULL, NULL)
