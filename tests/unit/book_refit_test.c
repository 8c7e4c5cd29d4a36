/* What a refit leaves in the book as it is, and in which order it may be entered. */
#include "book_scratch.h"

static void
add(struct scratch *scratch, enum task task, const char *on, bool refit)
{
	const struct record record = {
	    .task = task,
	    .on = stamp_of(on),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1,
	    .refit = refit,
	};
	assert_done(
	    scratch, book_add_record(scratch->book, "EP-1", &record, &scratch->fault));
}

/* A beacon of 2020, serviced in 2024, with a service extended and a maker's interval. */
static void
put_beacon(struct scratch *scratch)
{
	const struct item_change change = {
	    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_MADE |
		   1U << FIELD_FITTED | 1U << FIELD_EXPIRES | 1U << FIELD_SERIAL,
	    .tag = "EP-1",
	    .vessel = "Amber Tern",
	    .kind = "epirb",
	    .serial = "Q-118",
	    .made = stamp_of("2020-01"),
	    .fitted = stamp_of("2020-03-10"),
	    .expires = stamp_of("2026-06"),
	};
	const struct extension extension = {.task = TASK_SERVICE,
	    .until = day_of("2029-06-10"),
	    .paper = "EX-7",
	    .given = day_of("2026-01-10")};
	const struct interval interval = {.task = TASK_RENEW,
	    .months = 60,
	    .from = ANCHOR_LAST,
	    .from_said = true,
	    .paper = "manual",
	    .on = day_of("2020-03-10")};
	const struct event event = {.kind = EVENT_ACTIVATED, .on = day_of("2026-04-20")};
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
	assert_done(scratch,
	    book_put_interval(scratch->book, "EP-1", &interval, &scratch->fault));
	assert_done(scratch,
	    book_add_extension(scratch->book, "EP-1", &extension, &scratch->fault));
	assert_done(
	    scratch, book_add_event(scratch->book, "EP-1", &event, &scratch->fault));
	add(scratch, TASK_SERVICE, "2024-03-10", false);
}

/* Puts the mark of what was put in. */
static void
put_mark(struct scratch *scratch, const char *expires)
{
	const struct item_change change = {
	    .set = 1U << FIELD_EXPIRES, .tag = "EP-1", .expires = stamp_of(expires)};
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
}

static bool
is_past(struct scratch *scratch, const char *on, bool refit)
{
	const struct record record = {
	    .task = TASK_RENEW, .on = stamp_of(on), .refit = refit};
	bool past = false;
	assert_done(scratch,
	    book_is_past_renewal(scratch->book, "EP-1", &record, &past, &scratch->fault));
	return past;
}

SCRATCH_TEST(a_refit_leaves_the_thing_and_all_that_is_on_record_of_it)
{
	put_beacon(scratch);
	add(scratch, TASK_RENEW, "2026-05-02", true);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "EP-1");
	assert_stamp(item->made, "2020-01");
	assert_stamp(item->fitted, "2020-03-10");
	assert_stamp(item->expires, "2026-06");
	assert_string_equal(item->serial, "Q-118");
	assert_int_equal(item->record_count, 2);
	assert_int_equal(item->past_record_count, 0);
	assert_false(item->records[0].refit);
	assert_true(item->records[1].refit);
	assert_int_equal(item->event_count, 1);
	assert_int_equal(item->extension_count, 1);
	assert_int_equal(item->interval_count, 1);
	assert_int_equal(item->movement_count, 0);
}

SCRATCH_TEST(a_renewal_after_a_refit_ends_all_of_it)
{
	put_beacon(scratch);
	add(scratch, TASK_RENEW, "2026-05-02", true);
	add(scratch, TASK_RENEW, "2026-08-01", false);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "EP-1");
	assert_stamp(item->made, "");
	assert_stamp(item->fitted, "2026-08-01");
	assert_stamp(item->expires, "");
	assert_int_equal(item->record_count, 1);
	assert_int_equal(item->past_record_count, 2);
	assert_int_equal(item->event_count, 0);
	assert_int_equal(item->interval_count, 0);
}

/* The new beacon of March had a new battery in May; that it was new in March is told last. */
SCRATCH_TEST(a_mark_that_a_later_refit_gave_outlives_a_renewal_entered_late)
{
	put_beacon(scratch);
	add(scratch, TASK_RENEW, "2026-05-02", true);
	put_mark(scratch, "2031-05");
	assert_false(is_past(scratch, "2026-03-01", false));
	add(scratch, TASK_RENEW, "2026-03-01", false);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "EP-1");
	assert_stamp(item->made, "");
	assert_stamp(item->fitted, "2026-03-01");
	assert_stamp(item->expires, "2031-05");
	assert_int_equal(item->record_count, 2);
	assert_int_equal(item->past_record_count, 1);
}

SCRATCH_TEST(a_refit_of_before_what_is_in_place_is_history)
{
	put_beacon(scratch);
	assert_true(is_past(scratch, "2019-05", true));
	assert_false(is_past(scratch, "2025-05-02", true));
	add(scratch, TASK_RENEW, "2026-05-02", true);
	assert_true(is_past(scratch, "2025-05-02", true));
	assert_false(is_past(scratch, "2026-05-02", true));
	add(scratch, TASK_RENEW, "2026-08-01", false);
	assert_true(is_past(scratch, "2026-06-01", true));
	assert_false(is_past(scratch, "2026-09-01", true));
}

/* The other way round its other dates would be later. */
SCRATCH_TEST(that_a_renewal_was_a_refit_is_learned_and_not_unlearned)
{
	put_beacon(scratch);
	add(scratch, TASK_RENEW, "2026-05-02", false);
	add(scratch, TASK_RENEW, "2026-05-02", true);
	for (int round = 0; round < 2; round++) {
		SCOPED_CONTENTS contents = scratch_load(scratch);
		const struct item *item = scratch_item(&contents, "EP-1");
		assert_int_equal(item->record_count, 2);
		assert_int_equal(item->records[0].task, TASK_SERVICE);
		assert_true(item->records[1].refit);
		add(scratch, TASK_RENEW, "2026-05-02", false);
	}
}

/* Puts what was told of the new one. */
static void
put_new_one(struct scratch *scratch)
{
	const struct item_change change = {
	    .set = 1U << FIELD_MADE | 1U << FIELD_SERIAL | 1U << FIELD_EXPIRES,
	    .tag = "EP-1",
	    .serial = "Z-9",
	    .made = stamp_of("2026-01"),
	    .expires = stamp_of("2031-05")};
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
}

/* There was no new beacon: its number and dates are nobody's. The mark is of what was put in. */
SCRATCH_TEST(what_was_known_of_a_new_one_goes_when_it_was_a_refit)
{
	put_beacon(scratch);
	add(scratch, TASK_RENEW, "2026-05-02", false);
	put_new_one(scratch);
	add(scratch, TASK_RENEW, "2026-08-01", true);
	add(scratch, TASK_RENEW, "2026-05-02", true);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "EP-1");
	assert_stamp(item->made, "");
	assert_stamp(item->fitted, "");
	assert_string_equal(item->serial, "");
	assert_stamp(item->expires, "2031-05");
	assert_int_equal(item->record_count, 3);
}

/* The one in place came later, and what is known is of it. */
SCRATCH_TEST(a_refit_learned_of_the_one_before_leaves_the_one_in_place)
{
	put_beacon(scratch);
	add(scratch, TASK_RENEW, "2025-05-02", false);
	add(scratch, TASK_RENEW, "2026-05-02", false);
	put_new_one(scratch);
	add(scratch, TASK_RENEW, "2025-05-02", true);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "EP-1");
	assert_stamp(item->made, "2026-01");
	assert_stamp(item->fitted, "2026-05-02");
	assert_string_equal(item->serial, "Z-9");
}

SCRATCH_TEST(nothing_but_a_renewal_is_a_refit)
{
	put_beacon(scratch);
	const struct record record = {.task = TASK_SERVICE,
	    .on = stamp_of("2026-05-02"),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1,
	    .refit = true};
	assert_false(book_add_record(scratch->book, "EP-1", &record, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "only a renewal can be a refit");
}

RUN_TESTS(NULL, NULL)
