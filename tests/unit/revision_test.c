/* The book's revision: what tells one writer that another was faster. */
#include "book/book.h"
#include "book/reminders.h"
#include "book_scratch.h"

/* The revision of a fresh load. */
static int64_t
revision(struct scratch *scratch)
{
	SCOPED_CONTENTS contents = scratch_load(scratch);
	return contents.revision;
}

SCRATCH_TEST(each_transaction_that_changes_something_raises_it_by_one)
{
	int64_t before = revision(scratch);
	scratch_put(scratch, "LR-1");
	assert_int_equal(revision(scratch), before + 1);

	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-2");
	scratch_put(scratch, "LR-3");
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));
	assert_int_equal(revision(scratch), before + 2);
}

SCRATCH_TEST(one_that_changes_nothing_or_is_rolled_back_leaves_it)
{
	int64_t before = revision(scratch);
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));
	assert_int_equal(revision(scratch), before);

	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-1");
	book_rollback(scratch->book);
	assert_int_equal(revision(scratch), before);
}

SCRATCH_TEST(reminders_and_hand_ins_raise_it_though_the_journal_does_not_tell_of_them)
{
	int64_t before = revision(scratch);
	const struct book_reminder reminder = {.key = "buy|Amber Tern|2026",
	    .uid = "u1",
	    .shape = "00",
	    .day = day_of("2026-11-28"),
	    .aim = day_of("2026-11-28")};
	assert_done(scratch,
	    book_store_reminders(scratch->book, &reminder, 1, NULL, 0, &scratch->fault));
	assert_int_equal(revision(scratch), before + 1);
}

SCRATCH_TEST(what_was_read_before_another_wrote_is_stale_and_nothing_is_begun)
{
	struct book *other = NULL;
	bool stale = false;
	int64_t seen = revision(scratch);
	assert_done(
	    scratch, book_open(scratch->path, BOOK_WRITE, &other, &scratch->fault));

	assert_done(
	    scratch, book_begin_as_of(scratch->book, seen, &stale, &scratch->fault));
	assert_false(stale);
	scratch_put(scratch, "LR-1");
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));

	stale = false;
	assert_done(scratch, book_begin_as_of(other, seen, &stale, &scratch->fault));
	assert_true(stale);
	/* the lock is given back: the first can write again */
	scratch_put(scratch, "LR-2");
	assert_done(scratch, book_begin_as_of(other, seen + 2, &stale, &scratch->fault));
	assert_false(stale);
	book_close(other);
}

RUN_TESTS(NULL, NULL)
