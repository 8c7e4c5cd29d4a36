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
		told[i] = (struct tagged_record){tags[i], 0, &records[i]};
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
	struct scratch *whole = scratch;
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
	assert_same(whole, singly,
	    "SELECT number, position, items, others, hex(lines) FROM journal_page "
	    "ORDER BY number, position");
	assert_same(whole, singly, "SELECT hex(changes) FROM journal");
	assert_int_equal(scratch_end(&second), 0);
}

static void
assert_answer(struct scratch *scratch, const char *sql, const char *expected)
{
	SCOPED_TEXT found = {0};
	answer(scratch->book, sql, &found);
	assert_string_equal(text_string(&found), expected);
}

static int64_t
undo(struct scratch *scratch, int64_t number)
{
	int64_t undone = 0;
	int64_t entry = 0;
	assert_done(
	    scratch, book_undo(scratch->book, number, &undone, &entry, &scratch->fault));
	assert_int_equal(undone, number);
	return entry;
}

SCRATCH_TEST(an_entry_of_many_rows_is_in_pieces_and_taken_back_and_done_again)
{
	static struct item_change changes[MANY];
	static char tags[MANY][16];
	static struct record records[MANY];
	static struct tagged_record told[MANY];
	int64_t number = 0;
	SCOPED_TEXT before = {0};
	SCOPED_TEXT again = {0};
	draw_batch(changes, tags, told, records);
	scratch_put(scratch, "LR-1");
	assert_done(
	    scratch, book_put_items(scratch->book, changes, MANY, NULL, &scratch->fault));
	/* 2300 less the 328 that name an earlier one again, and LR-1 */
	assert_answer(scratch, "SELECT COUNT(*) FROM item", "1973|\n");
	assert_answer(scratch,
	    "SELECT number, hex(changes), (SELECT COUNT(*) > 1 FROM journal_piece AS piece "
	    "WHERE piece.number = journal.number) FROM journal WHERE number > 1",
	    "2|02|1|\n");
	answer(scratch->book, "SELECT * FROM item ORDER BY id", &before);

	assert_int_equal(undo(scratch, 2), 3);
	assert_answer(scratch, "SELECT tag FROM item", "LR-1|\n");
	assert_int_equal(undo(scratch, 3), 4);
	answer(scratch->book, "SELECT * FROM item ORDER BY id", &again);
	assert_string_equal(text_string(&again), text_string(&before));

	/* what came after it stands in the way, whether in pieces itself or not; 2
	 * stands, for 3 was taken back */
	assert_done(
	    scratch, book_add_record(scratch->book, "T-8", &records[8], &scratch->fault));
	assert_false(book_undo(scratch->book, 4, &number, &number, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "entry 5 came later and builds on it");
	assert_false(book_undo(scratch->book, 1, &number, &number, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "entry 2 came later and builds on it");
}

/* It is as large as it was said to be for the way it is kept alone: nothing hangs on the number. */
SCRATCH_TEST(an_entry_that_was_said_to_be_large_and_is_not_is_taken_back_and_done_again)
{
	struct item_change changes[3] = {0};
	static char tags[3][16];
	SCOPED_TEXT before = {0};
	SCOPED_TEXT again = {0};
	for (int i = 0; i < 3; i++) {
		(void)snprintf(tags[i], sizeof tags[i], "T-%d", i);
		changes[i] = (struct item_change){
		    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_PLACE,
		    .tag = tags[i],
		    .vessel = "Amber Tern",
		    .kind = "plb",
		    .place = tags[2 - i]};
	}
	const struct item_batch batch = {.first = changes,
	    .size = sizeof *changes,
	    .count = 3,
	    .fresh = true,
	    .new_ones = 5000};
	assert_done(
	    scratch, book_put_batch(scratch->book, &batch, NULL, &scratch->fault));
	assert_answer(scratch, "SELECT tag, place FROM item ORDER BY id",
	    "T-0|T-2|\nT-1|T-1|\nT-2|T-0|\n");
	assert_answer(scratch, "SELECT number, hex(changes) FROM journal", "1|02|\n");
	answer(scratch->book, "SELECT * FROM item ORDER BY id", &before);
	assert_int_equal(undo(scratch, 1), 2);
	assert_answer(scratch, "SELECT COUNT(*) FROM item", "0|\n");
	assert_int_equal(undo(scratch, 2), 3);
	answer(scratch->book, "SELECT * FROM item ORDER BY id", &again);
	assert_string_equal(text_string(&again), text_string(&before));
}

/* Adds many items, with a trigger that another program has made, and takes them back and does them
 * again by what the journal has of them: they are as they were. */
static void
assert_journalled_whole(
    struct scratch *scratch, const char *trigger, const char *expected)
{
	static struct item_change changes[MANY];
	static char tags[MANY][16];
	static const unsigned TOLD[] = {0, 1U << FIELD_SERIAL | 1U << FIELD_MADE, 0};
	SCOPED_TEXT before = {0};
	SCOPED_TEXT again = {0};
	for (int i = 0; i < MANY; i++) {
		(void)snprintf(tags[i], sizeof tags[i], "T-%d", i);
		changes[i] = (struct item_change){
		    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | TOLD[i / 1000],
		    .tag = tags[i],
		    .vessel = "Amber Tern",
		    .kind = "plb",
		    .serial = tags[i],
		    .made = stamp_of("before 2024-05")};
	}
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book), trigger, NULL, NULL, NULL), SQLITE_OK);
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	for (int i = 0; i < MANY; i += 1000) {
		size_t count = i + 1000 < MANY ? 1000 : (size_t)(MANY - i);
		assert_done(scratch, book_put_items(scratch->book, &changes[i], count,
					 NULL, &scratch->fault));
	}
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));
	assert_answer(scratch,
	    "SELECT COUNT(*), SUM(made_wording), SUM(serial <> ''), "
	    "GROUP_CONCAT(notes, ''), GROUP_CONCAT(place, '') FROM item",
	    expected);
	answer(scratch->book, "SELECT * FROM item ORDER BY id", &before);
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book), "DROP TRIGGER theirs", NULL, NULL, NULL),
	    SQLITE_OK);
	assert_int_equal(undo(scratch, 1), 2);
	assert_answer(scratch, "SELECT COUNT(*) FROM item", "0|\n");
	assert_int_equal(undo(scratch, 2), 3);
	answer(scratch->book, "SELECT * FROM item ORDER BY id", &again);
	assert_string_equal(text_string(&again), text_string(&before));
}

/* Only those columns of them are read back in which any may differ from the schema. */
SCRATCH_TEST(an_item_that_a_trigger_adds_among_many_is_journalled_whole)
{
	assert_journalled_whole(scratch,
	    "CREATE TRIGGER theirs AFTER INSERT ON item WHEN NEW.tag = 'T-2100' BEGIN "
	    "INSERT INTO item (id, tag, vessel_id, kind, notes) "
	    "VALUES (9000, 'OWN', NEW.vessel_id, 'plb', 'its own'); END",
	    "2301|1000|1000|its own||\n");
}

SCRATCH_TEST(an_item_that_a_trigger_changes_among_many_is_journalled_whole)
{
	assert_journalled_whole(scratch,
	    "CREATE TRIGGER theirs AFTER INSERT ON item WHEN NEW.tag = 'T-2100' BEGIN "
	    "UPDATE item SET place = 'locker' WHERE tag = 'T-1500'; END",
	    "2300|1000|1000||locker|\n");
}

SCRATCH_TEST(pieces_of_an_entry_stay_and_are_missed)
{
	static const struct {
		const char *sql;
		const char *says;
	} TRIES[] = {
	    {"DELETE FROM journal_piece", "no piece of an entry can be taken out"},
	    {"UPDATE journal_piece SET bytes = x'01'",
		"no piece of an entry can be changed"},
	    {"INSERT INTO journal_piece VALUES (1, 99, x'01')",
		"only ever added to, at its end"},
	};
	static struct item_change changes[MANY];
	static char tags[MANY][16];
	static struct record records[MANY];
	static struct tagged_record told[MANY];
	int64_t number = 0;
	draw_batch(changes, tags, told, records);
	assert_done(
	    scratch, book_put_items(scratch->book, changes, MANY, NULL, &scratch->fault));
	for (size_t i = 0; i < sizeof TRIES / sizeof TRIES[0]; i++) {
		assert_int_equal(
		    sqlite3_exec(file_of(scratch->book), TRIES[i].sql, NULL, NULL, NULL),
		    SQLITE_CONSTRAINT);
		assert_non_null(
		    strstr(sqlite3_errmsg(file_of(scratch->book)), TRIES[i].says));
	}
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book),
		"DROP TRIGGER journal_piece_no_removal; DELETE FROM journal_piece "
		"WHERE position = (SELECT MAX(position) FROM journal_piece)",
		NULL, NULL, NULL),
	    SQLITE_OK);
	assert_false(book_undo(scratch->book, 1, &number, &number, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "the journal's changes are damaged");
	assert_int_equal(sqlite3_exec(file_of(scratch->book), "DELETE FROM journal_piece",
			     NULL, NULL, NULL),
	    SQLITE_OK);
	assert_false(book_undo(scratch->book, 1, &number, &number, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "the journal's changes are damaged");
}

/* A record each of items that are put first. */
static void
draw_records(struct scratch *scratch, char (*tags)[16], struct tagged_record *told,
    struct record *records, int count)
{
	for (int i = 0; i < count; i++) {
		(void)snprintf(tags[i], sizeof tags[i], "T-%d", i);
		scratch_put(scratch, tags[i]);
		records[i] = (struct record){.task = TASK_TEST,
		    .on = stamp_of("2024-05"),
		    .certificate = "",
		    .station = "",
		    .price_minor = -1};
		told[i] = (struct tagged_record){tags[i], 0, &records[i]};
	}
}

SCRATCH_TEST(one_bad_record_of_many_is_named_and_none_is_kept)
{
	static char tags[60][16];
	struct tagged_record told[60];
	struct record records[60];
	size_t index = 99;
	draw_records(scratch, tags, told, records, 60);
	told[53].tag = "NONE";
	assert_false(book_add_records(scratch->book, told, 60, &index, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "no item in the book has the tag \"NONE\"");
	assert_int_equal(index, 53);
	told[53].tag = tags[53];
	records[21].certificate = "\xff";
	assert_false(book_add_records(scratch->book, told, 60, &index, &scratch->fault));
	assert_says(scratch, FAULT_INPUT,
	    "recording test of \"T-21\": a text is not valid UTF-8");
	assert_int_equal(index, 21);
	SCOPED_TEXT left = {0};
	answer(scratch->book, "SELECT COUNT(*) FROM record", &left);
	assert_string_equal(text_string(&left), "0|\n");
}

SCRATCH_TEST(a_record_by_the_number_of_its_item_is_on_record_of_that)
{
	static char tags[60][16];
	struct tagged_record told[60];
	struct record records[60];
	size_t index = 99;
	draw_records(scratch, tags, told, records, 60);
	/* items are numbered from 1 in the order in which they were put */
	for (int i = 0; i < 60; i++) {
		told[i].item = 60 - i;
	}
	/* the same record again within one statement, with a price */
	struct record again = records[3];
	again.price_minor = 700;
	told[4] = (struct tagged_record){tags[56], 57, &again};
	assert_done(
	    scratch, book_add_records(scratch->book, told, 60, &index, &scratch->fault));
	assert_answer(scratch,
	    "SELECT COUNT(*), SUM(item.tag = 'T-' || (60 - record.id)), "
	    "SUM(record.price_minor = 700 AND item.tag = 'T-56') FROM record "
	    "JOIN item ON item.id = record.item_id",
	    "59|59|1|\n");
}

/* Another program has made a rule of its own: which of many it refuses is not known, of few it
 * is. */
SCRATCH_TEST(records_that_the_file_refuses_are_told_of_without_a_guess)
{
	static char tags[60][16];
	struct tagged_record told[60];
	struct record records[60];
	size_t index = 99;
	draw_records(scratch, tags, told, records, 60);
	records[5].price_minor = 500;
	records[55].price_minor = 600;
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book),
		"CREATE TRIGGER none_dear BEFORE INSERT ON record "
		"WHEN NEW.price_minor > 0 BEGIN SELECT RAISE(ABORT, 'too dear'); END",
		NULL, NULL, NULL),
	    SQLITE_OK);
	assert_false(book_add_records(scratch->book, told, 60, &index, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "writing records: too dear");
	assert_int_equal(index, 60);
	records[5].price_minor = -1;
	assert_false(book_add_records(scratch->book, told, 60, &index, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "recording test of \"T-55\": too dear");
	assert_int_equal(index, 55);
}

/* Items, each but the first of so many a part of the one before it. */
static void
draw_chains(struct item_change *changes, char (*tags)[16], int count, int each)
{
	for (int i = 0; i < count; i++) {
		(void)snprintf(tags[i], sizeof tags[i], "C-%d", i);
		changes[i] = (struct item_change){
		    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_PART_OF,
		    .tag = tags[i],
		    .vessel = "Amber Tern",
		    .kind = "plb",
		    .part_of = i % each == 0 ? "" : tags[i - 1]};
	}
}

static void
draw_chain(struct item_change *changes, char (*tags)[16], int count)
{
	draw_chains(changes, tags, count, 20);
}

SCRATCH_TEST(a_part_of_an_item_that_is_added_with_it_is_one)
{
	static char tags[60][16];
	struct item_change changes[60];
	SCOPED_TEXT parts = {0};
	draw_chain(changes, tags, 60);
	assert_done(
	    scratch, book_put_items(scratch->book, changes, 60, NULL, &scratch->fault));
	answer(scratch->book,
	    "SELECT COUNT(*) FROM item AS part JOIN item AS whole "
	    "ON whole.id = part.parent_id "
	    "WHERE 'C-' || (substr(part.tag, 3) - 1) = whole.tag",
	    &parts);
	assert_string_equal(text_string(&parts), "57|\n");
}

/* A chain of 32 has parts 31 deep, which the check of a book allows ("part-loop"). */
SCRATCH_TEST(parts_that_are_added_with_their_wholes_are_no_more_than_31_deep)
{
	static char tags[60][16];
	struct item_change changes[60];
	size_t index = 99;
	draw_chains(changes, tags, 60, 33);
	assert_false(book_put_items(scratch->book, changes, 60, &index, &scratch->fault));
	assert_says(scratch, FAULT_INPUT,
	    "item \"C-32\": part_of \"C-31\" makes a loop, or parts more than 32 deep");
	assert_int_equal(index, 32);
	draw_chains(changes, tags, 60, 32);
	assert_done(
	    scratch, book_put_items(scratch->book, changes, 20, NULL, &scratch->fault));
	/* what the first of the rest is in is in the book already */
	changes[32].part_of = "C-19";
	changes[32].set |= 1U << FIELD_PART_OF;
	assert_false(
	    book_put_items(scratch->book, changes + 32, 28, &index, &scratch->fault));
	assert_says(scratch, FAULT_INPUT,
	    "item \"C-44\": part_of \"C-43\" makes a loop, or parts more than 32 deep");
	assert_done(scratch,
	    book_put_items(scratch->book, changes + 32, 12, NULL, &scratch->fault));
}

SCRATCH_TEST(a_further_row_that_closes_a_loop_of_new_items_is_refused)
{
	static char tags[60][16];
	struct item_change changes[60];
	SCOPED_TEXT left = {0};
	draw_chains(changes, tags, 59, 59);
	for (int i = 10; i < 59; i++) {
		changes[i].part_of = "";
	}
	changes[59] = (struct item_change){
	    .set = 1U << FIELD_PART_OF, .tag = "C-0", .part_of = "C-9"};
	assert_false(book_put_items(scratch->book, changes, 60, NULL, &scratch->fault));
	assert_says(scratch, FAULT_INPUT,
	    "item \"C-1\": part_of \"C-0\" makes a loop, or parts more than 32 deep");
	answer(scratch->book, "SELECT COUNT(*) FROM item", &left);
	assert_string_equal(text_string(&left), "0|\n");
}

SCRATCH_TEST(one_bad_item_of_many_is_named_and_none_is_kept)
{
	static char tags[60][16];
	struct item_change changes[60];
	size_t index = 99;
	SCOPED_TEXT left = {0};
	draw_chain(changes, tags, 60);
	changes[21].set |= 1U << FIELD_SERIAL;
	changes[21].serial = "\xff";
	assert_false(book_put_items(scratch->book, changes, 60, &index, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "item \"C-21\": a text is not valid UTF-8");
	assert_int_equal(index, 21);
	changes[21].serial = "fine";
	changes[22].set &= ~(1U << FIELD_KIND);
	assert_false(book_put_items(scratch->book, changes, 60, &index, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "item \"C-22\": a new item needs a kind");
	assert_int_equal(index, 22);
	answer(scratch->book, "SELECT COUNT(*) FROM item", &left);
	assert_string_equal(text_string(&left), "0|\n");
}

/* One new thing that stands where it can't, or for what is not in the book, or whose paper's next
 * day lies before the last: common practice, the rules of `book check`. */
SCRATCH_TEST(what_a_new_row_alone_says_wrong_is_refused_among_many)
{
	static char tags[60][16];
	struct item_change changes[60];
	const struct record backwards = {.task = TASK_TEST,
	    .on = stamp_of("2024-05"),
	    .next = stamp_of("2023-05"),
	    .certificate = "",
	    .station = "",
	    .price_minor = -1};
	draw_chain(changes, tags, 60);
	changes[7].set |= 1U << FIELD_LANDED_TO;
	changes[7].landed_to = "Loft";
	assert_false(book_put_items(scratch->book, changes, 60, NULL, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "nothing is written, for after it C-7 ");
	changes[7].set ^= 1U << FIELD_LANDED_TO | 1U << FIELD_STANDS_FOR;
	changes[7].stands_for = "NONE";
	assert_false(book_put_items(scratch->book, changes, 60, NULL, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "nothing is written, for after it C-7 ");
	changes[7].stands_for = "C-8";
	assert_done(
	    scratch, book_put_items(scratch->book, changes, 60, NULL, &scratch->fault));
	assert_false(book_add_record(scratch->book, "C-7", &backwards, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "nothing is written, for after it ");
}

static void
assert_trigger(struct scratch *scratch, const char *does)
{
	SCOPED_TEXT sql = {0};
	text_add_format(&sql,
	    "DROP TRIGGER IF EXISTS theirs; CREATE TRIGGER theirs AFTER UPDATE OF place ON "
	    "item BEGIN UPDATE item SET %s; END",
	    does);
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book), text_string(&sql), NULL, NULL, NULL),
	    SQLITE_OK);
}

/* C-2 is inside C-1, and that inside C-0. What `book check` tells of each: a part that leaves its
 * whole, a whole that leaves its part, and what a trigger of another program makes of them. */
SCRATCH_TEST(what_an_act_makes_wrong_with_parts_is_refused)
{
	static const struct {
		const char *tag, *vessel, *does, *says;
	} TRIES[] = {
	    {"C-2", "Zinnia", "notes = ''",
		"C-2 is a part of C-1, which is on another vessel"},
	    {"C-0", "Zinnia", "notes = ''",
		"C-1 is a part of C-0, which is on another vessel"},
	    {"C-0", "Amber Tern", "state = 'withdrawn' WHERE tag = 'C-0'",
		"C-1 is a part of C-0, which was withdrawn"},
	    {"C-2", "Amber Tern",
		"parent_id = (SELECT id FROM item WHERE tag = 'C-2') WHERE tag = 'C-0'",
		"C-0 is a part of itself, through others"},
	};

	static char tags[3][16];
	struct item_change changes[3];
	SCOPED_TEXT before = {0};
	SCOPED_TEXT after = {0};
	draw_chain(changes, tags, 3);
	assert_done(
	    scratch, book_put_items(scratch->book, changes, 3, NULL, &scratch->fault));
	answer(scratch->book, "SELECT * FROM item ORDER BY id", &before);
	for (size_t i = 0; i < sizeof TRIES / sizeof TRIES[0]; i++) {
		const struct item_change change = {
		    .set = 1U << FIELD_VESSEL | 1U << FIELD_PLACE,
		    .tag = TRIES[i].tag,
		    .vessel = TRIES[i].vessel,
		    .place = "locker"};
		assert_trigger(scratch, TRIES[i].does);
		assert_false(
		    book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
		assert_says(scratch, FAULT_INPUT, "nothing is written, for after it ");
		assert_says(scratch, FAULT_INPUT, TRIES[i].says);
	}
	answer(scratch->book, "SELECT * FROM item ORDER BY id", &after);
	assert_string_equal(text_string(&after), text_string(&before));
}

/* Another program has made a rule of its own: which of the items it refuses is not known. */
SCRATCH_TEST(items_that_the_file_refuses_are_told_of_without_a_guess)
{
	static char tags[60][16];
	struct item_change changes[60];
	size_t index = 99;
	draw_chain(changes, tags, 60);
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book),
		"CREATE TRIGGER no_five BEFORE INSERT ON item "
		"WHEN NEW.tag = 'C-5' BEGIN SELECT RAISE(ABORT, 'no five'); END",
		NULL, NULL, NULL),
	    SQLITE_OK);
	assert_false(book_put_items(scratch->book, changes, 60, &index, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "writing items: no five");
	assert_int_equal(index, 60);
}

/* What is new waits for others; what is changed after it does not. */
SCRATCH_TEST(a_change_that_the_file_refuses_is_named_behind_new_items)
{
	static char tags[60][16];
	struct item_change changes[60];
	size_t index = 99;
	draw_chain(changes, tags, 60);
	assert_done(
	    scratch, book_put_items(scratch->book, changes, 20, NULL, &scratch->fault));
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book),
		"CREATE TRIGGER no_five BEFORE UPDATE ON item "
		"WHEN NEW.tag = 'C-5' BEGIN SELECT RAISE(ABORT, 'no five'); END",
		NULL, NULL, NULL),
	    SQLITE_OK);
	changes[2] = changes[20];
	changes[3] = changes[21];
	changes[3].set &= ~(1U << FIELD_PART_OF);
	changes[4] = changes[5];
	changes[4].set = 1U << FIELD_PLACE;
	changes[4].place = "locker";
	assert_false(
	    book_put_items(scratch->book, &changes[2], 3, &index, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "item \"C-5\": no five");
	assert_int_equal(index, 2);
}

RUN_TESTS(NULL, NULL)
