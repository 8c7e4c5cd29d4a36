/* What the book remembers of a calendar server. */
#include "book/caldav.h"
#include "book/journal.h"
#include "book_scratch.h"

static const char HOME[] = "https://calendar.example/home/safety/";

static const struct book_account ACCOUNT = {
    .url = "https://calendar.example/",
    .user = "Åse",
    .calendar = HOME,
    .name = "Σωσίβια",
    .ca_file = "",
    .scope = {SCOPE_VESSEL, "Quillfish"},
    .allow_plain = false,
};

SCRATCH_TEST(an_account_is_remembered_replaced_and_forgotten)
{
	struct arena arena = {0};
	struct book_account found = {0};
	assert_done(scratch,
	    book_load_account(scratch->book, false, &arena, &found, &scratch->fault));
	assert_null(found.url);
	assert_done(
	    scratch, book_store_account(scratch->book, &ACCOUNT, &scratch->fault));
	struct book_account other = ACCOUNT;
	other.user = "";
	other.allow_plain = true;
	assert_done(scratch, book_store_account(scratch->book, &other, &scratch->fault));
	assert_done(scratch,
	    book_load_account(scratch->book, false, &arena, &found, &scratch->fault));
	assert_string_equal(found.url, ACCOUNT.url);
	assert_string_equal(found.user, "");
	assert_string_equal(found.calendar, HOME);
	assert_string_equal(found.name, ACCOUNT.name);
	assert_int_equal(found.scope.kind, SCOPE_VESSEL);
	assert_string_equal(found.scope.name, "Quillfish");
	assert_true(found.allow_plain);
	assert_done(scratch,
	    book_load_account(scratch->book, true, &arena, &found, &scratch->fault));
	assert_null(found.url); /* to-dos have a place of their own */
	other.todos = true;
	other.name = "to do";
	assert_done(scratch, book_store_account(scratch->book, &other, &scratch->fault));
	assert_done(scratch,
	    book_load_account(scratch->book, true, &arena, &found, &scratch->fault));
	assert_string_equal(found.name, "to do");
	assert_true(found.todos);
	assert_done(scratch,
	    book_load_account(scratch->book, false, &arena, &found, &scratch->fault));
	assert_string_equal(found.name, ACCOUNT.name);
	assert_done(scratch, book_forget_account(scratch->book, &scratch->fault));
	assert_done(scratch,
	    book_load_account(scratch->book, false, &arena, &found, &scratch->fault));
	assert_null(found.url);
	arena_clear(&arena);
}

/* The same account stored at each push is no change, and no entry. */
SCRATCH_TEST(the_journal_tells_of_an_account_once_and_of_its_going)
{
	struct arena arena = {0};
	struct journal journal = {0};
	const struct journal_query query = {.since = DAY_NONE};
	assert_done(
	    scratch, book_store_account(scratch->book, &ACCOUNT, &scratch->fault));
	assert_done(
	    scratch, book_store_account(scratch->book, &ACCOUNT, &scratch->fault));
	assert_done(scratch,
	    book_journal(scratch->book, &query, &arena, &journal, &scratch->fault));
	assert_int_equal(journal.count, 1);
	assert_int_equal(journal.entries[0].line_count, 1);
	const struct journal_line *line = &journal.entries[0].lines[0];
	assert_string_equal(line->about, "calendar");
	assert_string_equal(line->name, ACCOUNT.name);
	assert_non_null(strstr(line->became, "url https://calendar.example/"));
	assert_non_null(strstr(line->became, "login Åse"));
	assert_done(scratch, book_forget_account(scratch->book, &scratch->fault));
	assert_done(scratch,
	    book_journal(scratch->book, &query, &arena, &journal, &scratch->fault));
	assert_int_equal(journal.count, 2);
	arena_clear(&arena);
}

SCRATCH_TEST(what_was_pushed_is_kept_apart_for_each_calendar)
{
	struct arena arena = {0};
	const struct book_pushed *found = NULL;
	size_t count = 0;
	struct book_pushed pushed = {.uid = "two",
	    .url = "https://calendar.example/home/safety/two.ics",
	    .etag = "\"7\"",
	    .summary = "Collect",
	    .our_day = day_from_civil(2027, 2, 11),
	    .our_rest = "aa",
	    .their_day = DAY_NONE,
	    .their_rest = "bb",
	    .kept = true};
	assert_done(
	    scratch, book_put_pushed(scratch->book, HOME, &pushed, &scratch->fault));
	pushed.uid = "one";
	pushed.kept = false;
	assert_done(
	    scratch, book_put_pushed(scratch->book, HOME, &pushed, &scratch->fault));
	assert_done(scratch, book_put_pushed(scratch->book, "https://elsewhere.example/",
				 &pushed, &scratch->fault));
	pushed.etag = "\"8\"";
	assert_done(
	    scratch, book_put_pushed(scratch->book, HOME, &pushed, &scratch->fault));
	assert_done(scratch, book_load_pushed(scratch->book, HOME, &arena, &found, &count,
				 &scratch->fault));
	assert_int_equal(count, 2);
	assert_string_equal(found[0].uid, "one");
	assert_string_equal(found[0].etag, "\"8\"");
	assert_false(found[0].kept);
	assert_string_equal(found[1].uid, "two");
	assert_int_equal(found[1].our_day, day_from_civil(2027, 2, 11));
	assert_int_equal(found[1].their_day, DAY_NONE);
	assert_true(found[1].kept);
	assert_done(
	    scratch, book_drop_pushed(scratch->book, HOME, "one", &scratch->fault));
	assert_done(scratch, book_load_pushed(scratch->book, HOME, &arena, &found, &count,
				 &scratch->fault));
	assert_int_equal(count, 1);
	assert_done(scratch, book_forget_account(scratch->book, &scratch->fault));
	assert_done(scratch, book_load_pushed(scratch->book, "https://elsewhere.example/",
				 &arena, &found, &count, &scratch->fault));
	assert_int_equal(count, 0);
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
