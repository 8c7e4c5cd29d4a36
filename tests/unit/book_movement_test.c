/* Where gear has been, as the book keeps it. */
#include "book_scratch.h"

static void
add(struct scratch *scratch, const char *tag, struct movement movement)
{
	assert_done(
	    scratch, book_add_movement(scratch->book, tag, &movement, &scratch->fault));
}

static void
put(struct scratch *scratch, struct item_change change)
{
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
}

SCRATCH_TEST(a_movement_keeps_how_it_stood_and_whose_it_was_before)
{
	scratch_put(scratch, "LR-1");
	put(scratch, (struct item_change){
			 .set = 1U << FIELD_SERIAL, .tag = "LR-1", .serial = "R-7"});
	add(scratch, "LR-1",
	    (struct movement){.move = MOVE_LANDED,
		.on = day_of("2026-11-25"),
		.station = "Depot",
		.note = "in the blue bag",
		.asked = 1U << TASK_SERVICE | 1U << TASK_TEST,
		.price_minor = -1});
	put(scratch, (struct item_change){
			 .set = 1U << FIELD_STATE, .tag = "LR-1", .state = PLACE_LANDED});
	add(scratch, "LR-1",
	    (struct movement){.move = MOVE_WITHDRAWN,
		.on = day_of("2026-12-09"),
		.because = BECAUSE_CONDEMNED,
		.result = RESULT_CONDEMNED,
		.certificate = "C-9",
		.price_minor = 1000});
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_int_equal(item->movement_count, 2);
	const struct movement *landed = &item->movements[0];
	assert_int_equal(landed->move, MOVE_LANDED);
	assert_int_equal(landed->on, day_of("2026-11-25"));
	assert_int_equal(landed->was, PLACE_ABOARD);
	assert_string_equal(landed->vessel, "Amber Tern");
	assert_string_equal(landed->was_vessel, "Amber Tern");
	assert_string_equal(landed->station, "Depot");
	assert_string_equal(landed->serial, "R-7");
	assert_string_equal(landed->note, "in the blue bag");
	assert_int_equal(landed->price_minor, -1);
	assert_int_equal(landed->result, RESULT_NOT_SAID);
	assert_int_equal(landed->asked, 1U << TASK_SERVICE | 1U << TASK_TEST);
	const struct movement *gone = &item->movements[1];
	assert_int_equal(gone->was, PLACE_LANDED);
	assert_int_equal(gone->asked, 0);
	assert_int_equal(gone->because, BECAUSE_CONDEMNED);
	assert_int_equal(gone->result, RESULT_CONDEMNED);
	assert_string_equal(gone->certificate, "C-9");
	assert_int_equal(gone->price_minor, 1000);
}

SCRATCH_TEST(a_movement_of_nothing_or_of_no_day_is_refused)
{
	scratch_put(scratch, "LR-1");
	const struct movement movement = {
	    .move = MOVE_LANDED, .on = day_of("2026-11-25")};
	const struct movement undated = {.move = MOVE_LANDED, .on = DAY_NONE};
	assert_false(
	    book_add_movement(scratch->book, "LR-9", &movement, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "no item in the book has the tag \"LR-9\"");
	scratch->fault = (struct fault){0};
	assert_false(book_add_movement(scratch->book, "LR-1", &undated, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "the day is not known");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(scratch_item(&contents, "LR-1")->movement_count, 0);
}

SCRATCH_TEST(a_renewal_takes_the_number_away_and_keeps_it_and_what_was_before)
{
	scratch_put(scratch, "LR-1");
	put(scratch, (struct item_change){
			 .set = 1U << FIELD_SERIAL, .tag = "LR-1", .serial = "OLD-1"});
	struct record record = {.task = TASK_SERVICE,
	    .on = stamp_of("2024-03-01"),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	const struct event event = {.kind = EVENT_FIRED, .on = day_of("2025-01-02")};
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
	assert_done(
	    scratch, book_add_event(scratch->book, "LR-1", &event, &scratch->fault));
	record.task = TASK_RENEW;
	record.on = stamp_of("2025-05-01");
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
	/* entered again it is the same record, and no second renewal */
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_string_equal(item->serial, "");
	assert_int_equal(item->movement_count, 1);
	assert_int_equal(item->movements[0].move, MOVE_RENEWED);
	assert_int_equal(item->movements[0].on, day_of("2025-05-01"));
	assert_string_equal(item->movements[0].serial, "OLD-1");
	assert_int_equal(item->record_count, 1);
	assert_int_equal(item->past_record_count, 1);
	assert_int_equal(item->past_records[0].task, TASK_SERVICE);
	assert_int_equal(item->event_count, 0);
	assert_int_equal(item->past_event_count, 1);
}

SCRATCH_TEST(why_it_is_gone_and_for_what_it_stands_in_come_back)
{
	scratch_put(scratch, "LR-1");
	scratch_put(scratch, "LR-9");
	put(scratch, (struct item_change){.set = 1U << FIELD_STATE | 1U << FIELD_BECAUSE |
						 1U << FIELD_STANDS_FOR,
			 .tag = "LR-1",
			 .state = PLACE_WITHDRAWN,
			 .because = BECAUSE_GIVEN_BACK,
			 .stands_for = "LR-9"});
	scratch_reopen(scratch, BOOK_READ);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_int_equal(item->because, BECAUSE_GIVEN_BACK);
	assert_string_equal(item->stands_for, "LR-9");
}

RUN_TESTS(NULL, NULL)
