/* The lines of an entry of many rows, which are kept in pages: what is told of them is
 * what is told of the same changes made few at a time, each line of which is a row of its
 * own. */
#include "book/check.h"
#include "book/reckoned.h"
#include "book_file.h"
#include "book_scratch.h"

/* More in one entry than are kept as rows, and so few that they are. */
enum { MANY = 1200, FEW = 300 };

static struct journal
read_journal(struct scratch *scratch, const char *about, struct arena *arena)
{
	struct journal journal = {0};
	const struct journal_query query = {.about = about, .since = DAY_NONE};
	assert_done(scratch,
	    book_journal(scratch->book, &query, arena, &journal, &scratch->fault));
	return journal;
}

/* All lines that are about something, one behind the other, whichever entries they are of. */
static void
add_lines(struct scratch *scratch, const char *about, struct text *out)
{
	SCOPED_ARENA arena = {0};
	const struct journal journal = read_journal(scratch, about, &arena);
	for (size_t i = 0; i < journal.count; i++) {
		for (size_t j = 0; j < journal.entries[i].line_count; j++) {
			const struct journal_line *line = &journal.entries[i].lines[j];
			text_add_format(out, "%s|%s|%s|%s|%d|%s|%s|%s\n", line->about,
			    line->name, line->kind, line->serial, (int)line->act,
			    line->field, line->was, line->became);
		}
	}
}

/* Puts MANY items, or what is changed of them, so many at a time. */
static void
put_many(struct scratch *scratch, const struct item_change *first, int at_once)
{
	for (int i = 0; i < MANY; i += at_once) {
		assert_done(scratch, book_put_items(scratch->book, &first[i],
					 (size_t)at_once, NULL, &scratch->fault));
	}
}

/* Adds pieces to two boats, and then moves each to the other boat and gives some a place.
 * A third of the tags have what JSON tells otherwise. */
static void
fill(struct scratch *scratch, int at_once)
{
	static struct item_change changes[MANY];
	static char tags[MANY][24];
	static char serials[MANY][24];
	for (int i = 0; i < MANY; i++) {
		(void)snprintf(
		    tags[i], sizeof tags[i], "%s-%d", i % 3 == 0 ? "\"\\/ é" : "T", i);
		(void)snprintf(serials[i], sizeof serials[i], "N-%d", i);
		changes[i] = (struct item_change){
		    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_SERIAL,
		    .tag = tags[i],
		    .vessel = i % 2 == 0 ? "Amber Tern" : "Zinnia",
		    .kind = i % 5 == 0 ? "epirb" : "plb",
		    .serial = i % 10 == 1 ? "" : serials[i]};
	}
	put_many(scratch, changes, at_once);
	for (int i = 0; i < MANY; i++) {
		changes[i].set = 1U << FIELD_VESSEL | 1U << FIELD_PLACE;
		changes[i].vessel = i % 2 == 0 ? "Zinnia" : "Amber Tern";
		changes[i].place = i % 4 == 0 ? "locker" : "";
	}
	put_many(scratch, changes, at_once);
}

static int
count_of(struct scratch *scratch, const char *sql)
{
	sqlite3_stmt *stmt = NULL;
	assert_int_equal(
	    sqlite3_prepare_v2(file_of(scratch->book), sql, -1, &stmt, NULL), SQLITE_OK);
	assert_int_equal(sqlite3_step(stmt), SQLITE_ROW);
	int count = sqlite3_column_int(stmt, 0);
	assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
	return count;
}

static void
assert_same_lines(struct scratch *one, struct scratch *other, const char *about)
{
	SCOPED_TEXT left = {0};
	SCOPED_TEXT right = {0};
	add_lines(one, about, &left);
	add_lines(other, about, &right);
	assert_true(left.length > 0);
	assert_string_equal(text_string(&left), text_string(&right));
}

/* The vessels that entries concern, and those that they touch. */
static void
add_concerned(struct scratch *scratch, struct text *out)
{
	SCOPED_ARENA arena = {0};
	struct vessel_entry *entries = NULL;
	struct reckoned_by by = {0};
	size_t count = 0;
	const struct reckoned_change none = {.figures = "", .all = true};
	assert_done(scratch, book_entries_since(scratch->book, 0, &arena, &entries,
				 &count, &scratch->fault));
	for (size_t i = 0; i < count; i++) {
		text_add_format(out, "%s|", entries[i].vessel);
	}
	assert_done(scratch, book_put_reckoned(scratch->book, &none, &scratch->fault));
	assert_int_equal(sqlite3_exec(file_of(scratch->book),
			     "UPDATE reckoning SET entry = 0", NULL, NULL, NULL),
	    SQLITE_OK);
	assert_done(
	    scratch, book_load_reckoned_by(scratch->book, &arena, &by, &scratch->fault));
	for (size_t i = 0; i < by.touched_count; i++) {
		text_add_format(out, " %s%s", by.touched[i].name,
		    by.touched[i].there ? "" : ", gone");
	}
}

SCRATCH_TEST(lines_in_pages_are_those_that_would_be_rows)
{
	struct scratch *paged = scratch;
	void *second = NULL;
	SCOPED_TEXT concerned = {0};
	assert_int_equal(scratch_begin(&second), 0);
	struct scratch *rows = second;
	fill(paged, MANY);
	fill(rows, FEW);
	/* two entries, whose lines are all in pages */
	assert_int_equal(
	    count_of(paged, "SELECT COUNT(DISTINCT number) FROM journal_page"), 2);
	assert_int_equal(count_of(paged, "SELECT COUNT(*) FROM journal_line"), 0);
	assert_int_equal(count_of(rows, "SELECT COUNT(*) FROM journal_page"), 0);

	assert_same_lines(paged, rows, NULL);
	assert_same_lines(paged, rows, "T-1");
	assert_same_lines(paged, rows, "\"\\/ é-999");
	assert_same_lines(paged, rows, "Zinnia");
	/* all is about gear that changed boats, which concerns every boat, and both were touched */
	add_concerned(paged, &concerned);
	add_concerned(rows, &concerned);
	assert_string_equal(text_string(&concerned),
	    "|Amber Tern|Zinnia| Amber Tern Zinnia|Amber Tern|Zinnia| Amber Tern Zinnia");
	assert_int_equal(scratch_end(&second), 0);
}

/* By hand: a piece added in pages gets another number, and a third one, each in an entry
 * of its own; another piece of the same kind has the first number under another tag. */
SCRATCH_TEST(what_happened_to_a_piece_is_found_by_any_number_it_had)
{
	struct item_change change = {.set = 1U << FIELD_SERIAL, .tag = "T-7"};
	SCOPED_TEXT found = {0};
	static const char ALL[] =
	    "item|T-7|plb|N-7|0|||vessel Zinnia, kind plb, serial N-7\n"
	    "item|T-7|plb|N-7|1|vessel|Zinnia|Amber Tern\n"
	    "item|T-7|plb|N 2|1|serial|N-7|N 2\n"
	    "item|T-7|plb|N 3|1|serial|N 2|N 3\n"
	    "item|OTHER|plb|N-7|0|||vessel Amber Tern, kind plb, serial N-7\n";
	fill(scratch, MANY);
	change.serial = "N 2";
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
	change.serial = "N 3";
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
	change = (struct item_change){
	    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_SERIAL,
	    .tag = "OTHER",
	    .vessel = "Amber Tern",
	    .kind = "plb",
	    .serial = "N-7"};
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
	add_lines(scratch, "T-7", &found);
	assert_string_equal(text_string(&found), ALL);
	text_reset(&found);
	add_lines(scratch, "N 2", &found);
	assert_string_equal(text_string(&found),
	    "item|T-7|plb|N 2|1|serial|N-7|N 2\nitem|T-7|plb|N 3|1|serial|N 2|N 3\n");
	text_reset(&found);
	add_lines(scratch, "OTHER", &found);
	/* all with its number, and none that the piece had later */
	assert_string_equal(text_string(&found),
	    "item|T-7|plb|N-7|0|||vessel Zinnia, kind plb, serial N-7\n"
	    "item|T-7|plb|N-7|1|vessel|Zinnia|Amber Tern\n"
	    "item|OTHER|plb|N-7|0|||vessel Amber Tern, kind plb, serial N-7\n");
}

SCRATCH_TEST(pages_are_only_added_to)
{
	static const struct {
		const char *sql, *says;
	} TRIES[] = {
	    {"DELETE FROM journal_page", "no page of an entry can be taken out"},
	    {"UPDATE journal_page SET items = '[]'",
		"no page of an entry can be changed"},
	    {"INSERT INTO journal_page VALUES (1, 99, '[]', '[]', x'01')",
		"only ever added to, at its end"},
	    {"INSERT INTO journal_page VALUES (2, 99, '[]', '[]', x'01')",
		"only ever added to, at its end"},
	    {"INSERT OR REPLACE INTO journal_page SELECT number, position, '[]', '[]', "
	     "lines FROM journal_page",
		"only ever added to, at its end"},
	};

	fill(scratch, MANY);
	for (size_t i = 0; i < sizeof TRIES / sizeof TRIES[0]; i++) {
		assert_int_equal(
		    sqlite3_exec(file_of(scratch->book), TRIES[i].sql, NULL, NULL, NULL),
		    SQLITE_CONSTRAINT);
		const char *said = sqlite3_errmsg(file_of(scratch->book));
		if (strstr(said, TRIES[i].says) == NULL) {
			fail_msg("%s: %s", TRIES[i].sql, said);
		}
	}
}

/* Of entries in pages, in rows of their own, and with few lines: the first lines are those of
 * all, and all are counted. */
SCRATCH_TEST(where_few_lines_are_read_all_are_counted)
{
	enum { READ = 5 };

	SCOPED_ARENA arena = {0};
	struct journal few = {0};
	const struct journal_query query = {.since = DAY_NONE, .lines_most = READ};
	fill(scratch, MANY);
	fill(scratch, FEW);
	scratch_put(scratch, "LR-1");
	const struct journal all = read_journal(scratch, NULL, &arena);
	assert_done(
	    scratch, book_journal(scratch->book, &query, &arena, &few, &scratch->fault));
	assert_int_equal(few.count, all.count);
	assert_true(few.entries[1].line_count >= MANY);
	for (size_t i = 0; i < all.count; i++) {
		const struct journal_entry *entry = &few.entries[i];
		assert_int_equal(entry->line_count, all.entries[i].line_count);
		for (size_t j = 0; j < entry->line_count && j < READ; j++) {
			assert_string_equal(
			    entry->lines[j].name, all.entries[i].lines[j].name);
			assert_string_equal(
			    entry->lines[j].became, all.entries[i].lines[j].became);
		}
	}
}

/* Only the entry whose page it is has lost lines; the others are told whole, of any name. */
static void
assert_told_but(struct scratch *scratch, int64_t damaged, struct arena *arena)
{
	const struct journal all = read_journal(scratch, NULL, arena);
	const struct journal other = read_journal(scratch, "LR-1", arena);
	assert_int_equal(all.damaged_count, 1);
	assert_int_equal(all.damaged[0], damaged);
	assert_int_equal(all.count, 3);
	assert_true(all.entries[2].line_count > 0);
	assert_int_equal(other.damaged_count, 1);
	assert_int_equal(other.damaged[0], damaged);
	assert_int_equal(other.count, 1);
	assert_string_equal(other.entries[0].lines[0].name, "LR-1");
}

TEST(a_page_that_is_damaged_is_told)
{
	static const char *const BYTES[] = {"x''", "x'02'", "substr(lines, 1, 9)",
	    "CAST(lines || x'00' AS BLOB)", "x'010101'", "x'0105'",
	    "x'0104016100000000000000'"};
	for (size_t i = 0; i < sizeof BYTES / sizeof BYTES[0]; i++) {
		void *own = NULL;
		char sql[160];
		SCOPED_ARENA arena = {0};
		bool as_written = false;
		assert_int_equal(scratch_begin(&own), 0);
		struct scratch *scratch = own;
		fill(scratch, MANY);
		scratch_put(scratch, "LR-1");
		assert_done(scratch,
		    book_is_as_written(scratch->book, &as_written, &scratch->fault));
		assert_true(as_written);
		(void)snprintf(sql, sizeof sql,
		    "DROP TRIGGER journal_page_no_change; "
		    "UPDATE journal_page SET lines = %s WHERE position = 0 AND number = 2",
		    BYTES[i]);
		assert_int_equal(
		    sqlite3_exec(file_of(scratch->book), sql, NULL, NULL, NULL),
		    SQLITE_OK);
		assert_told_but(scratch, 2, &arena);
		assert_done(scratch,
		    book_is_as_written(scratch->book, &as_written, &scratch->fault));
		assert_false(as_written);
		assert_int_equal(scratch_end(&own), 0);
	}
}

/* What was asked about may have had another number in the lines that are lost: their entries are
 * named also where they are not among those asked for, each once and in order. */
SCRATCH_TEST(a_page_that_is_damaged_is_told_of_later_entries)
{
	SCOPED_ARENA arena = {0};
	struct journal journal = {0};
	struct journal_query query = {.about = "T-1", .since = DAY_NONE, .number = 3};
	fill(scratch, MANY);
	scratch_put(scratch, "LR-1");
	assert_int_equal(sqlite3_exec(file_of(scratch->book),
			     "DROP TRIGGER journal_page_no_change; "
			     "UPDATE journal_page SET lines = substr(lines, 1, 9)",
			     NULL, NULL, NULL),
	    SQLITE_OK);
	assert_done(scratch,
	    book_journal(scratch->book, &query, &arena, &journal, &scratch->fault));
	assert_int_equal(journal.count, 0);
	assert_int_equal(journal.damaged_count, 2);
	assert_int_equal(journal.damaged[0], 1);
	assert_int_equal(journal.damaged[1], 2);
	query = (struct journal_query){.about = "T-1", .since = DAY_NONE};
	assert_done(scratch,
	    book_journal(scratch->book, &query, &arena, &journal, &scratch->fault));
	assert_int_equal(journal.damaged_count, 2);
	query = (struct journal_query){.since = DAY_NONE, .number = 3};
	assert_done(scratch,
	    book_journal(scratch->book, &query, &arena, &journal, &scratch->fault));
	assert_int_equal(journal.damaged_count, 0);
}

/* Items, and one record of each, more than are told by rows; the last item's serial
 * number is damaged in between, as a broken disk or another program may. */
static bool
records_of_many(struct scratch *scratch, const char *damaged)
{
	static struct item_change changes[MANY];
	static char tags[MANY][24];
	static struct tagged_record told[MANY];
	const struct record record = {
	    .task = TASK_INSPECT, .on = stamp_of("2026-11-20"), .price_minor = -1};
	char sql[400];
	size_t index = 0;
	for (int i = 0; i < MANY; i++) {
		(void)snprintf(tags[i], sizeof tags[i], "T-%d", i);
		changes[i] =
		    (struct item_change){.set = 1U << FIELD_VESSEL | 1U << FIELD_KIND,
			.tag = tags[i],
			.vessel = "Amber Tern",
			.kind = "epirb"};
		told[i] = (struct tagged_record){tags[i], 0, &record};
	}
	put_many(scratch, changes, FEW);
	(void)snprintf(sql, sizeof sql,
	    "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, "
	    "'serial TEXT NOT NULL', 'serial TEXT') WHERE name = 'item'; "
	    "PRAGMA writable_schema = RESET; PRAGMA ignore_check_constraints = ON; "
	    "UPDATE item SET serial = %s WHERE tag = 'T-1199'",
	    damaged);
	sqlite3 *other = NULL;
	assert_int_equal(sqlite3_open(scratch->path, &other), SQLITE_OK);
	if (sqlite3_exec(other, sql, NULL, NULL, NULL) != SQLITE_OK) {
		fail_msg("%s", sqlite3_errmsg(other));
	}
	assert_int_equal(sqlite3_close(other), SQLITE_OK);
	scratch_reopen(scratch, BOOK_WRITE);
	return book_add_records(scratch->book, told, MANY, &index, &scratch->fault);
}

SCRATCH_TEST(a_piece_without_a_number_is_told_of_among_many)
{
	assert_done(scratch, records_of_many(scratch, "NULL"));
	assert_int_equal(count_of(scratch, "SELECT COUNT(*) FROM record"), MANY);
}

SCRATCH_TEST(a_number_that_is_no_text_is_not_told_of_among_many)
{
	assert_false(records_of_many(scratch, "CAST(x'ff41' AS TEXT)"));
	assert_says(scratch, FAULT_INPUT, "a text is not valid UTF-8");
	assert_int_equal(count_of(scratch, "SELECT COUNT(*) FROM record"), 0);
}

RUN_TESTS(NULL, NULL)
