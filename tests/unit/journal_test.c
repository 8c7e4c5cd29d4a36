/* The journal: what it writes down, what it refuses, and what is taken back. */
#include "book/journal.h"

#include "book/reminders.h"
#include "book_file.h"
#include "book_scratch.h"

static struct journal
read_journal(struct scratch *scratch, const char *about, struct arena *arena)
{
	struct journal journal = {0};
	const struct journal_query query = {.about = about, .since = DAY_NONE};
	assert_done(scratch,
	    book_journal(scratch->book, &query, arena, &journal, &scratch->fault));
	return journal;
}

static void
sign(struct scratch *scratch, const char *who, const char *act)
{
	const struct signature signature = {who, act, 1795600000, false};
	assert_done(scratch, book_sign(scratch->book, &signature, &scratch->fault));
}

static void
put_text(
    struct scratch *scratch, const char *tag, enum item_field field, const char *text)
{
	const struct item_change change = {.set = 1U << field,
	    .tag = tag,
	    .place = text,
	    .serial = text,
	    .vessel = text,
	    .notes = text,
	    .part_of = text};
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
}

static void
add_service(struct scratch *scratch, const char *tag, const char *on)
{
	const struct record record = {.task = TASK_SERVICE,
	    .on = stamp_of(on),
	    .station = "Lorne Rafts",
	    .certificate = "",
	    .price_minor = 61250};
	assert_done(
	    scratch, book_add_record(scratch->book, tag, &record, &scratch->fault));
}

static int64_t
undo(struct scratch *scratch, int64_t number)
{
	int64_t undone = 0;
	int64_t entry = 0;
	assert_done(
	    scratch, book_undo(scratch->book, number, &undone, &entry, &scratch->fault));
	assert_int_equal(number == 0 ? undone : number, undone);
	return entry;
}

static void
assert_refused(struct scratch *scratch, int64_t number, const char *words)
{
	int64_t undone = -1;
	int64_t entry = -1;
	assert_false(book_undo(scratch->book, number, &undone, &entry, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, words);
	assert_int_equal(undone, -1);
	assert_int_equal(entry, -1);
}

static void
assert_line(const struct journal_line *line, enum journal_act act, const char *name,
    const char *field, const char *was, const char *became)
{
	assert_int_equal(line->act, act);
	assert_string_equal(line->name, name);
	assert_string_equal(line->field, field);
	assert_string_equal(line->was, was);
	assert_string_equal(line->became, became);
}

SCRATCH_TEST(a_change_is_one_entry_with_who_when_and_what)
{
	SCOPED_ARENA arena = {0};
	sign(scratch, "Mara Holt", "enter liferaft-canister");
	scratch_put(scratch, "LR-1");
	sign(scratch, "Jon Pike", "amend LR-1");
	put_text(scratch, "LR-1", FIELD_PLACE, "coach roof");
	put_text(scratch, "LR-1", FIELD_PLACE, "cockpit");
	add_service(scratch, "LR-1", "2024-05");

	const struct journal journal = read_journal(scratch, NULL, &arena);
	assert_int_equal(journal.count, 4);
	assert_string_equal(journal.entries[0].who, "Mara Holt");
	assert_string_equal(journal.entries[0].act, "enter liferaft-canister");
	assert_int_equal(journal.entries[0].at, 1795600000);
	assert_string_equal(journal.entries[1].who, "Jon Pike");
	for (size_t i = 0; i < journal.count; i++) {
		assert_int_equal(journal.entries[i].number, i + 1);
	}
	assert_line(
	    journal.entries[1].lines, JOURNAL_CHANGED, "LR-1", "place", "", "coach roof");
	assert_line(journal.entries[2].lines, JOURNAL_CHANGED, "LR-1", "place",
	    "coach roof", "cockpit");
	assert_line(journal.entries[3].lines, JOURNAL_ADDED, "LR-1", "record", "",
	    "task service, on 2024-05, station Lorne Rafts, price (minor units) 61250");
}

SCRATCH_TEST(a_vessel_that_is_made_with_her_gear_is_in_the_same_entry)
{
	SCOPED_ARENA arena = {0};
	/* a tag that is the vessel's number, too */
	scratch_put(scratch, "1");
	const struct journal journal = read_journal(scratch, NULL, &arena);
	assert_int_equal(journal.count, 1);
	const struct journal_entry *entry = journal.entries;
	assert_int_equal(entry->line_count, 4);
	bool raft = false;
	for (size_t i = 0; i < entry->line_count; i++) {
		if (strcmp(entry->lines[i].name, "1") == 0) {
			assert_line(&entry->lines[i], JOURNAL_ADDED, "1", "", "",
			    "vessel Amber Tern, kind liferaft-canister");
			raft = true;
		}
	}
	assert_true(raft);
}

SCRATCH_TEST(what_changes_nothing_or_fails_leaves_no_entry)
{
	SCOPED_ARENA arena = {0};
	scratch_put(scratch, "LR-1");
	put_text(scratch, "LR-1", FIELD_PLACE, "cockpit");
	put_text(scratch, "LR-1", FIELD_PLACE, "cockpit");
	const struct item_change orphan = {
	    .set = 1U << FIELD_PART_OF, .tag = "LR-1", .part_of = "XX-9"};
	assert_false(book_put_items(scratch->book, &orphan, 1, NULL, &scratch->fault));
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	put_text(scratch, "LR-1", FIELD_PLACE, "cabin");
	book_rollback(scratch->book);
	assert_int_equal(read_journal(scratch, NULL, &arena).count, 2);
}

SCRATCH_TEST(reminders_are_bookkeeping_and_no_entry)
{
	SCOPED_ARENA arena = {0};
	const struct book_reminder reminder = {
	    .key = "hand-in", .uid = "a@b", .sequence = 0, .modified = 1, .shape = "00"};
	assert_done(scratch,
	    book_store_reminders(scratch->book, &reminder, 1, NULL, 0, &scratch->fault));
	assert_int_equal(read_journal(scratch, NULL, &arena).count, 0);
}

static void
plan_hand_in(struct scratch *scratch, const char *summary, day_t day)
{
	const struct planned_day planned = {
	    .key = "hand-in|Amber Tern|2026|Lorne Rafts|1",
	    .day = day,
	    .summary = summary};
	const struct choices_change change = {.planned = &planned, .planned_count = 1};
	assert_done(scratch, book_put_choices(scratch->book, &change, &scratch->fault));
}

SCRATCH_TEST(a_planned_day_is_told_by_what_the_reminder_said)
{
	SCOPED_ARENA arena = {0};
	plan_hand_in(scratch, "Hand in 2 items", day_from_civil(2026, 12, 3));
	plan_hand_in(scratch, "Hand in 3 items", day_from_civil(2026, 12, 3));
	plan_hand_in(scratch, "Hand in 3 items", day_from_civil(2026, 12, 10));
	plan_hand_in(scratch, "", DAY_NONE);
	const struct journal journal = read_journal(scratch, NULL, &arena);
	assert_int_equal(journal.count, 3);
	for (size_t i = 0; i < journal.count; i++) {
		assert_int_equal(journal.entries[i].line_count, 1);
		assert_string_equal(journal.entries[i].lines->about, "reminder");
	}
	assert_line(journal.entries[0].lines, JOURNAL_ADDED, "Hand in 2 items", "planned",
	    "", "on 2026-12-03");
	assert_line(journal.entries[1].lines, JOURNAL_CHANGED, "Hand in 3 items",
	    "planned on", "2026-12-03", "2026-12-10");
	assert_line(journal.entries[2].lines, JOURNAL_REMOVED, "Hand in 3 items",
	    "planned", "on 2026-12-10", "");
}

SCRATCH_TEST(what_is_chosen_of_reminders_is_told_in_words)
{
	SCOPED_ARENA arena = {0};
	const struct notice notice = {"epirb", 60};
	const struct choices_change change = {
	    .set_weekday = true, .weekday = 6, .notices = &notice, .notice_count = 1};
	assert_done(scratch, book_put_choices(scratch->book, &change, &scratch->fault));
	const struct journal journal = read_journal(scratch, NULL, &arena);
	assert_int_equal(journal.count, 1);
	assert_int_equal(journal.entries[0].line_count, 2);
	const struct journal_line *lines = journal.entries[0].lines;
	assert_string_equal(lines[0].about, "reminder");
	assert_line(
	    &lines[0], JOURNAL_CHANGED, "", "choice weekday", "Saturday", "Sunday");
	assert_line(&lines[1], JOURNAL_ADDED, "", "notice", "", "kind epirb, days 60");
}

/* A row is told of, and taken back, by its key. */
SCRATCH_TEST(every_table_has_a_primary_key)
{
	sqlite3_stmt *stmt = NULL;
	assert_int_equal(
	    sqlite3_prepare_v2(file_of(scratch->book),
		"SELECT of.name FROM sqlite_schema AS of WHERE of.type = 'table' AND NOT EXISTS "
		"(SELECT 1 FROM pragma_table_info(of.name) WHERE pk > 0)",
		-1, &stmt, NULL),
	    SQLITE_OK);
	if (sqlite3_step(stmt) == SQLITE_ROW) {
		fail_msg(
		    "%s has no primary key", (const char *)sqlite3_column_text(stmt, 0));
	}
	(void)sqlite3_finalize(stmt);
}

/* Else each row that is taken out would be looked for in all of the others. */
SCRATCH_TEST(what_refers_to_a_row_is_found_by_an_index)
{
	sqlite3_stmt *stmt = NULL;
	assert_int_equal(
	    sqlite3_prepare_v2(file_of(scratch->book),
		"SELECT of.name || '.' || refers.\"from\" FROM sqlite_schema AS of "
		"JOIN pragma_foreign_key_list(of.name) AS refers WHERE of.type = 'table' "
		"AND NOT EXISTS (SELECT 1 FROM pragma_index_list(of.name) AS list "
		"JOIN pragma_index_info(list.name) AS part "
		"WHERE part.seqno = 0 AND part.name = refers.\"from\") "
		"AND NOT EXISTS (SELECT 1 FROM pragma_table_info(of.name) AS col "
		"WHERE col.pk = 1 AND col.name = refers.\"from\")",
		-1, &stmt, NULL),
	    SQLITE_OK);
	if (sqlite3_step(stmt) == SQLITE_ROW) {
		fail_msg("%s has no index", (const char *)sqlite3_column_text(stmt, 0));
	}
	(void)sqlite3_finalize(stmt);
}

SCRATCH_TEST(no_statement_can_change_what_was_written)
{
	static const struct {
		const char *sql, *says;
	} TRIES[] = {
	    {"UPDATE journal SET who = 'nobody' WHERE number = 1",
		"the journal is only ever added to; no entry can be changed"},
	    {"DELETE FROM journal",
		"the journal is only ever added to; no entry can be taken out"},
	    {"DELETE FROM journal_line",
		"the journal is only ever added to; no line can be taken out"},
	    {"UPDATE journal_line SET became = '' WHERE number = 1",
		"the journal is only ever added to; no line can be changed"},
	    {"INSERT OR REPLACE INTO journal SELECT number, 0, 0, 'nobody', '', NULL, "
	     "changes FROM journal",
		"the journal is only ever added to, at its end"},
	    {"INSERT INTO journal VALUES (7, 0, 0, '', '', NULL, x'')",
		"the journal is only ever added to, at its end"},
	    {"INSERT OR REPLACE INTO journal_line SELECT number, position, about, name, "
	     "kind, serial, act, field, was, 'x' FROM journal_line",
		"the journal is only ever added to, at its end"},
	};

	SCOPED_ARENA arena = {0};
	scratch_put(scratch, "LR-1");
	for (size_t i = 0; i < sizeof TRIES / sizeof TRIES[0]; i++) {
		char *error = NULL;
		int result = sqlite3_exec(
		    file_of(scratch->book), TRIES[i].sql, NULL, NULL, &error);
		assert_int_equal(result, SQLITE_CONSTRAINT);
		assert_string_equal(error, TRIES[i].says);
		sqlite3_free(error);
	}
	assert_int_equal(read_journal(scratch, NULL, &arena).count, 1);
}

SCRATCH_TEST(the_last_change_is_taken_back_and_that_too)
{
	SCOPED_ARENA arena = {0};
	scratch_put(scratch, "LR-1");
	put_text(scratch, "LR-1", FIELD_PLACE, "cockpit");
	assert_int_equal(undo(scratch, 0), 3);
	{
		SCOPED_CONTENTS contents = scratch_load(scratch);
		assert_string_equal(scratch_item(&contents, "LR-1")->place, "");
	}
	assert_refused(scratch, 2, "entry 2 was taken back by entry 3 already");
	assert_int_equal(undo(scratch, 3), 4);
	{
		SCOPED_CONTENTS contents = scratch_load(scratch);
		assert_string_equal(scratch_item(&contents, "LR-1")->place, "cockpit");
	}
	const struct journal journal = read_journal(scratch, NULL, &arena);
	assert_int_equal(journal.count, 4);
	assert_int_equal(journal.entries[2].undoes, 2);
	assert_int_equal(journal.entries[2].undone_by, 4);
	assert_int_equal(journal.entries[1].undone_by, 0);
}

SCRATCH_TEST(undoing_again_and_again_goes_back_to_an_empty_book)
{
	scratch_put(scratch, "LR-1");
	add_service(scratch, "LR-1", "2024-05-20");
	put_text(scratch, "LR-1", FIELD_NOTES, "strap worn");
	for (int i = 0; i < 3; i++) {
		(void)undo(scratch, 0);
	}
	assert_refused(scratch, 0, "there is nothing to take back");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.item_count, 0);
	assert_int_equal(contents.inventory.vessel_count, 0);
}

SCRATCH_TEST(an_entry_that_later_ones_build_on_stays_and_they_are_named)
{
	scratch_put(scratch, "LR-1");                      /* 1 */
	scratch_put(scratch, "LR-2");                      /* 2 */
	put_text(scratch, "LR-1", FIELD_PLACE, "cockpit"); /* 3 */
	add_service(scratch, "LR-1", "2024-05-20");        /* 4 */
	put_text(scratch, "LR-1", FIELD_PLACE, "cabin");   /* 5 */
	assert_refused(scratch, 1, "entries 2, 3, 4, 5 came later and build on it");
	assert_refused(scratch, 3, "entry 5 came later and builds on it");
	assert_refused(scratch, 9, "the journal has no such entry");

	/* nothing builds on the service, nor on the second raft */
	(void)undo(scratch, 4); /* 6 */
	(void)undo(scratch, 2); /* 7 */
	assert_refused(scratch, 1, "entries 3, 5 came later");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.item_count, 1);
	assert_int_equal(scratch_item(&contents, "LR-1")->record_count, 0);
}

/* Adds an entry whose changes are told by hand (value.h), in hexadecimal with blanks between. */
static void
add_entry_of(struct scratch *scratch, int number, const char *changes)
{
	SCOPED_TEXT hex = {0};
	for (const char *at = changes; *at != '\0'; at++) {
		if (*at != ' ') {
			text_add_byte(&hex, *at);
		}
	}
	char *sql =
	    sqlite3_mprintf("INSERT INTO journal VALUES (%d, 0, 0, '', '', NULL, x'%s')",
		number, text_string(&hex));
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book), sql, NULL, NULL, NULL), SQLITE_OK);
	sqlite3_free(sql);
}

/* One row of the table vessel changed, that with the number 1: of a table of two columns
 * "id", a key, and another. */
#define VESSEL_CHANGED "01 01 06 76657373656c 02 02 6964 01 "
#define NAME "04 6e616d65 00 "
#define FROM_OLD_NAME_TO "01 01 01 02 01 01 03 03 4f6c64 03 "

SCRATCH_TEST(an_entry_is_taken_back_by_the_names_of_its_columns)
{
	int64_t undone = 0;
	int64_t entry = 0;
	scratch_put(scratch, "LR-1");
	/* she is called Amber Tern, not Other */
	add_entry_of(scratch, 2, VESSEL_CHANGED NAME FROM_OLD_NAME_TO "05 4f74686572");
	assert_refused(scratch, 2, "what it changed is no longer as it left it");
	/* no column is called "none" */
	add_entry_of(scratch, 3,
	    VESSEL_CHANGED "04 6e6f6e65 00 " FROM_OLD_NAME_TO "05 4f74686572");
	assert_refused(
	    scratch, 3, "it is of an older program, and its table vessel is another now");
	add_entry_of(
	    scratch, 4, VESSEL_CHANGED NAME FROM_OLD_NAME_TO "0a 416d626572205465726e");
	assert_int_equal(undo(scratch, 4), 5);
	/* cut */
	add_entry_of(scratch, 6, VESSEL_CHANGED NAME "01 01 01 02");
	assert_false(book_undo(scratch->book, 6, &undone, &entry, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "the journal's changes are damaged");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.vessel_count, 1);
	assert_string_equal(contents.inventory.vessels[0].name, "Old");
}

SCRATCH_TEST(taking_back_never_puts_parts_into_a_loop)
{
	scratch_put(scratch, "LR-1");
	scratch_put(scratch, "LR-2");
	put_text(scratch, "LR-1", FIELD_PART_OF, "LR-2"); /* 3 */
	put_text(scratch, "LR-1", FIELD_PART_OF, "");     /* 4 */
	put_text(scratch, "LR-2", FIELD_PART_OF, "LR-1"); /* 5 */
	assert_refused(scratch, 4, "can't be taken back");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(scratch_item(&contents, "LR-1")->parent, ITEM_NO_PARENT);
}

SCRATCH_TEST(references_are_enforced_again_after_taking_back)
{
	scratch_put(scratch, "LR-1");
	put_text(scratch, "LR-1", FIELD_PLACE, "cockpit");
	(void)undo(scratch, 0);
	assert_refused(scratch, 7, "no such entry");
	int result = sqlite3_exec(
	    file_of(scratch->book), "UPDATE item SET vessel_id = 77", NULL, NULL, NULL);
	assert_int_equal(result, SQLITE_CONSTRAINT);
}

SCRATCH_TEST(reminders_hold_the_identity_where_it_is)
{
	const char *identity = "0123456789abcdef0123456789abcdef";
	const struct book_reminder reminder = {
	    .key = "hand-in", .uid = "a@b", .sequence = 0, .modified = 1, .shape = "00"};
	assert_done(scratch, book_set_identity(scratch->book, identity, &scratch->fault));
	assert_done(scratch,
	    book_store_reminders(scratch->book, &reminder, 1, NULL, 0, &scratch->fault));
	assert_refused(scratch, 1, "the book has given out reminders");
	assert_string_equal(book_identity(scratch->book), identity);
}

SCRATCH_TEST(a_history_follows_the_serial_number_to_another_boat_and_tag)
{
	SCOPED_ARENA arena = {0};
	scratch_put(scratch, "LR-1");
	put_text(scratch, "LR-1", FIELD_SERIAL, "R 4471"); /* 2 */
	put_text(scratch, "LR-1", FIELD_VESSEL, "Grey Plover");
	scratch_put(scratch, "LR-2"); /* 4, another raft */
	scratch_put(scratch, "B-17"); /* 5, the same under a new tag */
	put_text(scratch, "B-17", FIELD_SERIAL, "R 4471");
	add_service(scratch, "B-17", "2026-05-20"); /* 7 */

	const struct journal by_tag = read_journal(scratch, "LR-1", &arena);
	static const int EXPECTED[] = {1, 2, 3, 6, 7};
	assert_int_equal(by_tag.count, 5);
	for (size_t i = 0; i < by_tag.count; i++) {
		assert_int_equal(by_tag.entries[i].number, EXPECTED[i]);
	}
	assert_line(by_tag.entries[2].lines, JOURNAL_CHANGED, "LR-1", "vessel",
	    "Amber Tern", "Grey Plover");
	const struct journal by_serial = read_journal(scratch, "R 4471", &arena);
	assert_int_equal(by_serial.count, 4);
	assert_int_equal(by_serial.entries[0].number, 2);
	assert_int_equal(read_journal(scratch, "Grey Plover", &arena).count, 1);
	assert_int_equal(read_journal(scratch, "R 9", &arena).count, 0);
}

RUN_TESTS(NULL, NULL)
