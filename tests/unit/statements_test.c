/* The texts of the statements: the order of what they give, and that one is read at a time. */
#include "book_file.h"
#include "book_scratch.h"

#include <signal.h>
#include <sys/wait.h>

/* Those that give one row or none, by what they ask for; the others give several. */
static const enum statement ONE_ROW[] = {
    /* of a table with one row, or by a key */
    OWN_SHEETS_THERE, BOOK_GET, NUMBERS_GET, REVISION_GET, CONTENTS_SUM, VESSEL_FIND,
    STATION_FIND, ITEM_FIND, ITEM_PARENT, RECORD_FIND, PAPER_FIND, PAPER_READ, CHOICE_GET,
    SERVING_GET, ITEM_NAMED, VESSEL_NAMED, STATION_NAMED, JOURNAL_CHANGES, ACCOUNT_GET,
    REMINDER_GET, REMINDER_HAS_UID,
    /* a count, the greatest, whether there is any */
    PRICE_COUNT, ITEM_LAST, BASE_FIND, BERTH_FIND, JOURNAL_LAST, JOURNAL_LAST_CHANGE,
    REMINDERS_ANY, REMINDER_OLDEST, CHECK_ITEMS, CHECK_JOURNAL, LOAD_COUNTS,
    LOAD_COUNTS_OF, LOAD_COUNTS_OF_ONE,
    /* SQLite's own words on the file, in its own order */
    CHECK_FILE};

/* What rows are told apart by, as the last thing that they are sorted by. */
static const char *const KEYS[] = {"id", "tag", "name", "named", "key", "number",
    "position", "sheet", "kind", "base", "vessel", "uid", "sequence", "year", "from_day",
    "make", "from_years", "theirs",
    /* behind the rest of the key: the whole row; a reference; the task of a tag; a record */
    "made_estimated", "fkid", "task", "next_wording"};

static bool
is_one_row(int statement)
{
	for (size_t i = 0; i < sizeof ONE_ROW / sizeof ONE_ROW[0]; i++) {
		if ((int)ONE_ROW[i] == statement) {
			return true;
		}
	}
	return false;
}

static bool
ends_in_a_key(const char *order)
{
	const char *comma = strrchr(order, ',');
	const char *last = comma == NULL ? order : comma + 2;
	const char *dot = strchr(last, '.');
	last = dot == NULL ? last : dot + 1;
	size_t length = strcspn(last, " ");
	bool only = last[length] == '\0' || strcmp(last + length, " DESC") == 0;
	for (size_t i = 0; only && i < sizeof KEYS / sizeof KEYS[0]; i++) {
		if (strlen(KEYS[i]) == length && strncmp(KEYS[i], last, length) == 0) {
			return true;
		}
	}
	return false;
}

/* The last ORDER BY of a text that is not within brackets; NULL for none. */
static const char *
order_of(const char *sql)
{
	const char *found = NULL;
	int depth = 0;
	for (const char *at = sql; *at != '\0'; at++) {
		depth += (*at == '(') - (*at == ')');
		if (depth == 0 && strncmp(at, " ORDER BY ", strlen(" ORDER BY ")) == 0) {
			found = at + strlen(" ORDER BY ");
		}
	}
	return found;
}

TEST(what_gives_several_rows_gives_them_in_an_order_that_ends_in_a_key)
{
	int several = 0;
	for (int i = 0; i < STATEMENT_COUNT; i++) {
		const char *sql = statement_text((enum statement)i)->sql;
		bool reads =
		    statement_text((enum statement)i)->rows == ROWS_READ &&
		    (strncmp(sql, "SELECT ", 7) == 0 || strncmp(sql, "WITH ", 5) == 0);
		if (!reads || is_one_row(i)) {
			continue;
		}
		const char *order = order_of(sql);
		several++;
		if (order == NULL) {
			fail_msg("in no order: %s", sql);
		} else if (!ends_in_a_key(order)) {
			fail_msg("\"%s\" ends in no key: %s", order, sql);
		}
	}
	assert_true(several > 60);
}

TEST(an_order_within_brackets_or_by_what_may_be_equal_is_none)
{
	assert_null(order_of("SELECT (SELECT a FROM b ORDER BY id) FROM c"));
	assert_string_equal(order_of("SELECT a FROM b ORDER BY a, id"), "a, id");
	assert_true(ends_in_a_key("a, item.id DESC"));
	assert_true(ends_in_a_key("tag"));
	assert_false(ends_in_a_key("id, on_day"));
	assert_false(ends_in_a_key("id LIMIT 1"));
	assert_false(ends_in_a_key("station"));
}

/* The child reads the first of two rows, and asks something else before the second. */
static void
begin_another_while_one_is_read(struct scratch *scratch)
{
	SCOPED_CALL items = {0};
	SCOPED_CALL other = {0};
	bool row = false;
	if (!call_open(scratch->book, NAMES_OF_ITEMS, &items, &scratch->fault) ||
	    !call_row(&items, &row, &scratch->fault) || !row) {
		_exit(1);
	}
	(void)!call_open(scratch->book, NAMES_OF_VESSELS, &other, &scratch->fault);
	_exit(2);
}

SCRATCH_TEST(no_call_begins_while_rows_of_another_are_read)
{
	int status = 0;
	scratch_put(scratch, "LR-1");
	scratch_put(scratch, "LR-2");
	pid_t child = fork();
	if (child == 0) {
		(void)signal(SIGABRT, SIG_DFL);
		(void)close(STDERR_FILENO);
		begin_another_while_one_is_read(scratch);
	}
	assert_true(child > 0);
	assert_int_equal(waitpid(child, &status, 0), child);
	assert_true(WIFSIGNALED(status));
	assert_int_equal(WTERMSIG(status), SIGABRT);
}

RUN_TESTS(NULL, NULL)
