/* What is on record about gear, and the reminders that were given out. */
#include "book/reminders.h"
#include "book_scratch.h"
#include "draw.h"

static void
add(struct scratch *scratch, enum task task, const char *on, const char *certificate)
{
	const struct record record = {
	    .task = task,
	    .on = stamp_of(on),
	    .station = "",
	    .certificate = certificate,
	    .price_minor = -1,
	};
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
}

SCRATCH_TEST(every_field_of_a_record_comes_back)
{
	scratch_put(scratch, "LR-1");
	const struct record record = {
	    .task = TASK_SERVICE,
	    .on = stamp_of("2025-05~"),
	    .next = stamp_of("before 2028-05"),
	    .station = "Raft Loft",
	    .certificate = "C 12/34",
	    .price_minor = 41250,
	};
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &record, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_int_equal(item->record_count, 1);
	assert_int_equal(item->records[0].task, TASK_SERVICE);
	assert_stamp(item->records[0].on, "2025-05~");
	assert_stamp(item->records[0].next, "before 2028-05");
	assert_string_equal(item->records[0].station, "Raft Loft");
	assert_string_equal(item->records[0].certificate, "C 12/34");
	assert_int_equal(item->records[0].price_minor, 41250);
}

SCRATCH_TEST(the_same_record_twice_is_one_and_gains_what_is_known_now)
{
	scratch_put(scratch, "LR-1");
	struct record record = {.task = TASK_SERVICE,
	    .on = stamp_of("2025-05-20"),
	    .station = "Raft Loft",
	    .certificate = "C1",
	    .price_minor = -1};
	for (int i = 0; i < 2; i++) {
		assert_done(scratch,
		    book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
	}
	record.station = "";
	record.price_minor = 100;
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
	{
		SCOPED_CONTENTS contents = scratch_load(scratch);
		const struct item *item = scratch_item(&contents, "LR-1");
		assert_int_equal(item->record_count, 1);
		assert_string_equal(item->records[0].station, "Raft Loft");
		assert_int_equal(item->records[0].price_minor, 100);
	}
	/* Another paper, another task, or another next date is another record. */
	add(scratch, TASK_SERVICE, "2025-05-20", "C2");
	add(scratch, TASK_TEST, "2025-05-20", "C1");
	record.next = stamp_of("2027-05-20");
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(scratch_item(&contents, "LR-1")->record_count, 4);
}

SCRATCH_TEST(records_come_oldest_first_and_each_with_its_item)
{
	scratch_put(scratch, "LR-2");
	scratch_put(scratch, "LR-1");
	add(scratch, TASK_SERVICE, "2025-05-20", "");
	add(scratch, TASK_SERVICE, "2019", "");
	add(scratch, TASK_SERVICE, "2022-05", "");
	const struct record other = {.task = TASK_INSPECT,
	    .on = stamp_of("2020-01-01"),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-2", &other, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_int_equal(item->record_count, 3);
	assert_stamp(item->records[0].on, "2019");
	assert_stamp(item->records[1].on, "2022-05");
	assert_stamp(item->records[2].on, "2025-05-20");
	const struct item *second = scratch_item(&contents, "LR-2");
	assert_int_equal(second->record_count, 1);
	assert_int_equal(second->records[0].task, TASK_INSPECT);
}

/* Records of one day and task come in the order of entry, which is not that of their papers; `of`
 * is how many have a paper of their own number. */
static void
assert_papers_descend(const struct book_contents *contents, size_t of)
{
	const struct item *item = scratch_item(contents, "LR-1");
	char paper[32];
	assert_int_equal(item->record_count, of + 1);
	assert_stamp(item->records[0].on, "2019");
	for (size_t i = 0; i < of; i++) {
		(void)snprintf(paper, sizeof paper, "C%03zu", of - i);
		assert_string_equal(item->records[i + 1].certificate, paper);
	}
}

/* More than there is room for at a time while they are read. */
SCRATCH_TEST(records_of_one_day_come_in_the_order_of_entry)
{
	const char *const name = "Amber Tern";
	const struct book_part tern = {.vessels = &name, .vessel_count = 1};
	struct book_contents part = {0};
	bool there = false;

	enum { PAPERS = 300 };

	scratch_put(scratch, "LR-1");
	for (int i = PAPERS; i > 0; i--) {
		char paper[32];
		(void)snprintf(paper, sizeof paper, "C%03d", i);
		add(scratch, TASK_SERVICE, "2025-05-20", paper);
	}
	add(scratch, TASK_SERVICE, "2019", "");

	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_papers_descend(&contents, PAPERS);
	assert_done(scratch,
	    book_load_part(scratch->book, &tern, true, &part, &there, &scratch->fault));
	assert_true(there);
	assert_papers_descend(&part, PAPERS);
	book_contents_clear(&part);
}

SCRATCH_TEST(events_and_extensions_come_back_once)
{
	scratch_put(scratch, "LR-1");
	const struct event event = {.kind = EVENT_FIRED, .on = day_of("2026-07-01")};
	const struct event earlier = {.kind = EVENT_USED, .on = day_of("2026-06-01")};
	const struct extension extension = {.task = TASK_SERVICE,
	    .until = day_of("2026-10-31"),
	    .paper = "EX-7",
	    .given = day_of("2024-06-01")};
	for (int i = 0; i < 2; i++) {
		assert_done(scratch,
		    book_add_event(scratch->book, "LR-1", &event, &scratch->fault));
		assert_done(scratch, book_add_extension(scratch->book, "LR-1", &extension,
					 &scratch->fault));
	}
	assert_done(
	    scratch, book_add_event(scratch->book, "LR-1", &earlier, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_int_equal(item->event_count, 2);
	assert_int_equal(item->events[0].kind, EVENT_USED);
	assert_int_equal(item->events[1].kind, EVENT_FIRED);
	assert_day(item->events[1].on, "2026-07-01");
	assert_int_equal(item->extension_count, 1);
	assert_int_equal(item->extensions[0].task, TASK_SERVICE);
	assert_day(item->extensions[0].until, "2026-10-31");
	assert_string_equal(item->extensions[0].paper, "EX-7");
}

/* A raft with every date, a service, an event and an extension. */
static void
put_old_raft(struct scratch *scratch)
{
	const struct item_change change = {
	    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_MADE |
		   1U << FIELD_PACKED | 1U << FIELD_BOUGHT | 1U << FIELD_FITTED |
		   1U << FIELD_EXPIRES,
	    .tag = "LR-1",
	    .vessel = "Amber Tern",
	    .kind = "liferaft-canister",
	    .made = stamp_of("2010-01"),
	    .packed = stamp_of("2010-02"),
	    .bought = stamp_of("2010-03"),
	    .fitted = stamp_of("2010-04"),
	    .expires = stamp_of("before 2025-01~"),
	};
	const struct event event = {.kind = EVENT_FIRED, .on = day_of("2024-07-01")};
	const struct extension extension = {.task = TASK_SERVICE,
	    .until = day_of("2027-01-31"),
	    .paper = "EX-7",
	    .given = day_of("2024-06-01")};
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
	add(scratch, TASK_SERVICE, "2024-05-20", "C1");
	assert_done(
	    scratch, book_add_event(scratch->book, "LR-1", &event, &scratch->fault));
	assert_done(scratch,
	    book_add_extension(scratch->book, "LR-1", &extension, &scratch->fault));
}

SCRATCH_TEST(a_renewal_is_a_new_thing_in_the_old_place)
{
	put_old_raft(scratch);
	add(scratch, TASK_RENEW, "2025-03-10", "");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_stamp(item->fitted, "2025-03-10");
	assert_stamp(item->made, "");
	assert_stamp(item->packed, "");
	assert_stamp(item->bought, "");
	assert_stamp(item->expires, "");
	assert_int_equal(item->record_count, 1);
	assert_int_equal(item->records[0].task, TASK_RENEW);
	assert_int_equal(item->event_count, 0);
	assert_int_equal(item->extension_count, 0);
}

SCRATCH_TEST(the_old_things_records_do_not_count_even_when_entered_late)
{
	put_old_raft(scratch);
	add(scratch, TASK_RENEW, "2025-03-10", "");
	add(scratch, TASK_SERVICE, "2025-03-09", "late");
	add(scratch, TASK_SERVICE, "2025-03-10", "same day");
	add(scratch, TASK_SERVICE, "2026-03-10", "new");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_int_equal(item->record_count, 3);
	assert_int_equal(item->records[0].task, TASK_RENEW);
	assert_string_equal(item->records[1].certificate, "same day");
	assert_string_equal(item->records[2].certificate, "new");
}

SCRATCH_TEST(a_renewal_entered_again_or_late_touches_no_dates)
{
	put_old_raft(scratch);
	add(scratch, TASK_RENEW, "2025-03-10", "");
	const struct item_change made = {
	    .set = 1U << FIELD_MADE, .tag = "LR-1", .made = stamp_of("2024-11")};
	assert_done(
	    scratch, book_put_items(scratch->book, &made, 1, NULL, &scratch->fault));
	add(scratch, TASK_RENEW, "2025-03-10", "");
	add(scratch, TASK_RENEW, "2015-06-01", "");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_stamp(item->fitted, "2025-03-10");
	assert_stamp(item->made, "2024-11");
	assert_int_equal(item->record_count, 1);
}

SCRATCH_TEST(records_of_unknown_gear_or_day_are_refused)
{
	scratch_put(scratch, "LR-1");
	struct record record = {.task = TASK_SERVICE,
	    .on = stamp_of("2025-05-20"),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	const struct event event = {.kind = EVENT_FIRED, .on = DAY_NONE};
	const struct extension extension = {.task = TASK_SERVICE,
	    .until = day_of("2026-10-31"),
	    .paper = "",
	    .given = day_of("2024-06-01")};
	assert_false(book_add_record(scratch->book, "LR-9", &record, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "the tag \"LR-9\"");
	record.on = (struct stamp){0};
	assert_false(book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "expected a date");
	assert_false(book_add_event(scratch->book, "LR-1", &event, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "the day is not known");
	assert_false(
	    book_add_extension(scratch->book, "LR-9", &extension, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "the tag \"LR-9\"");
}

SCRATCH_TEST(reminders_are_stored_forgotten_and_come_back_as_themselves)
{
	const struct book_reminder two[] = {
	    {"hand-in|Amber Tern|2026|Raft Loft|1", "uid-b", 0, 1790000000, "aa",
		day_of("2027-02-24"), DAY_NONE, 0, NULL, NULL},
	    {"buy|Amber Tern|2026", "uid-a", 3, 1790000001, "bb", day_of("2026-12-05"),
		DAY_NONE, 0, NULL, NULL},
	};
	const char *const gone[] = {"buy|Amber Tern|2026"};
	struct arena arena = {0};
	const struct book_reminder *stored = NULL;
	size_t count = 0;
	assert_done(scratch,
	    book_store_reminders(scratch->book, two, 2, NULL, 0, &scratch->fault));
	assert_done(scratch,
	    book_load_reminders(scratch->book, &arena, &stored, &count, &scratch->fault));
	assert_int_equal(count, 2);
	assert_string_equal(stored[0].key, "buy|Amber Tern|2026");
	assert_string_equal(stored[0].uid, "uid-a");
	assert_int_equal(stored[0].sequence, 3);
	assert_int_equal(stored[0].modified, 1790000001);
	assert_string_equal(stored[0].shape, "bb");
	assert_string_equal(stored[1].uid, "uid-b");

	assert_done(scratch,
	    book_store_reminders(scratch->book, two, 1, gone, 1, &scratch->fault));
	assert_done(scratch,
	    book_load_reminders(scratch->book, &arena, &stored, &count, &scratch->fault));
	assert_int_equal(count, 2);
	assert_string_equal(stored[0].shape, "");
	assert_string_equal(stored[1].shape, "aa");

	/* Even a caller that takes it for a new one gets the old UID and a higher number. */
	const struct book_reminder back = {"buy|Amber Tern|2026", "uid-new", 0,
	    1790000002, "bb", day_of("2027-01-09"), DAY_NONE, 0, NULL, NULL};
	assert_done(scratch,
	    book_store_reminders(scratch->book, &back, 1, NULL, 0, &scratch->fault));
	assert_done(scratch,
	    book_load_reminders(scratch->book, &arena, &stored, &count, &scratch->fault));
	assert_int_equal(count, 2);
	assert_string_equal(stored[0].uid, "uid-a");
	assert_int_equal(stored[0].sequence, 4);
	assert_string_equal(stored[0].shape, "bb");

	/* what was given out is kept by identity and number, each once */
	const struct book_given *given = NULL;
	assert_done(scratch,
	    book_load_given(scratch->book, &arena, &given, &count, &scratch->fault));
	assert_int_equal(count, 3);
	assert_string_equal(given[0].uid, "uid-a");
	assert_int_equal(given[0].sequence, 3);
	assert_int_equal(given[0].day, day_of("2026-12-05"));
	assert_int_equal(given[1].sequence, 4);
	assert_int_equal(given[1].day, day_of("2027-01-09"));
	assert_string_equal(given[2].uid, "uid-b");
	arena_clear(&arena);
}

/* More than are read at once; "buy|B" comes before "buy|T", and what is forgotten is gone
 * already. */
SCRATCH_TEST(stored_keys_that_are_not_wanted_are_gone_once)
{
	enum { MANY = 1100 };

	struct arena arena = {0};
	struct book_reminder *stored = ARENA_MANY(&arena, struct book_reminder, MANY);
	for (size_t i = 0; i < MANY; i++) {
		stored[i] = (struct book_reminder){
		    .key = arena_format(&arena, "buy|Tern %04zu|2026", i),
		    .uid = arena_format(&arena, "uid-%zu", i),
		    .modified = 1790000000,
		    .shape = i == 7 ? "" : "aa",
		    .entry = i < 7    ? 30
			     : i == 7 ? 2
				      : 12};
	}
	assert_done(scratch,
	    book_store_reminders(scratch->book, stored, MANY, NULL, 0, &scratch->fault));
	struct gone_reminders gone = {.book = scratch->book};
	assert_done(scratch, book_gone_before(&gone, "buy|Bone|2026", &scratch->fault));
	assert_int_equal(gone.count, 0);
	for (size_t i = 5; i < MANY - 2; i += 2) {
		assert_done(
		    scratch, book_gone_before(&gone, stored[i].key, &scratch->fault));
	}
	assert_done(scratch, book_gone_before(&gone, NULL, &scratch->fault));
	/* 0 to 4, 6, 8, 10 and so on, 1098, and the last, 1099 */
	assert_int_equal(gone.count, 5 + 547 + 1);
	assert_string_equal(gone.items[4], "buy|Tern 0004|2026");
	assert_string_equal(gone.items[5], "buy|Tern 0006|2026");
	assert_string_equal(gone.items[6], "buy|Tern 0008|2026");
	assert_string_equal(gone.items[gone.count - 1], "buy|Tern 1099|2026");
	book_gone_clear(&gone);

	/* one by its key, forgotten or not; and the oldest of those that are not */
	const struct book_reminder *one = NULL;
	int64_t oldest = 0;
	bool any = false;
	assert_done(scratch, book_find_reminder(scratch->book, "buy|Tern 0007|2026",
				 &arena, &one, &scratch->fault));
	assert_string_equal(one->uid, "uid-7");
	assert_done(scratch,
	    book_find_reminder(scratch->book, "buy|Tern", &arena, &one, &scratch->fault));
	assert_null(one);
	assert_done(
	    scratch, book_oldest_given(scratch->book, &oldest, &any, &scratch->fault));
	assert_int_equal(oldest, 12);
	assert_true(any);
	arena_clear(&arena);
}

SCRATCH_TEST(the_identity_can_be_set_until_a_reminder_was_given_out)
{
	const char *identity = "00112233445566778899aabbccddeeff";
	assert_false(book_set_identity(scratch->book, "00112233", &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "expected 32 hexadecimal digits");
	assert_done(scratch, book_set_identity(scratch->book, identity, &scratch->fault));
	scratch_reopen(scratch, BOOK_WRITE);
	assert_string_equal(book_identity(scratch->book), identity);

	const struct book_reminder one = {"buy|Amber Tern|2026", "uid-a", 0, 1, "bb",
	    day_of("2027-01-09"), DAY_NONE, 0, NULL, NULL};
	const char *const gone[] = {"buy|Amber Tern|2026"};
	assert_done(scratch,
	    book_store_reminders(scratch->book, &one, 1, gone, 1, &scratch->fault));
	assert_false(book_set_identity(
	    scratch->book, "ffffffffffffffffffffffffffffffff", &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "given out reminders");
	assert_string_equal(book_identity(scratch->book), identity);
}

/* No renewal is on record, but what is in place was fitted after the day of this one. */
SCRATCH_TEST(a_renewal_older_than_what_is_in_place_is_history)
{
	put_old_raft(scratch);
	const struct record old = {.task = TASK_RENEW,
	    .on = stamp_of("2010-03-31"),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	bool past = false;
	assert_done(scratch,
	    book_is_past_renewal(scratch->book, "LR-1", &old, &past, &scratch->fault));
	assert_true(past);
	add(scratch, TASK_RENEW, "2010-03-31", "");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_stamp(item->fitted, "2010-04");
	assert_stamp(item->made, "2010-01");
	assert_stamp(item->expires, "before 2025-01~");
}

SCRATCH_TEST(of_a_renewal_s_own_day_what_was_entered_after_it_is_the_new_thing_s)
{
	scratch_put(scratch, "LR-1");
	const struct event events[] = {
	    {.kind = EVENT_FIRED, .on = day_of("2025-03-10")},
	    {.kind = EVENT_USED, .on = day_of("2025-03-10")},
	};
	assert_done(
	    scratch, book_add_event(scratch->book, "LR-1", &events[0], &scratch->fault));
	add(scratch, TASK_RENEW, "2025-03-10", "");
	assert_done(
	    scratch, book_add_event(scratch->book, "LR-1", &events[1], &scratch->fault));
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_int_equal(item->event_count, 1);
	assert_int_equal(item->events[0].kind, EVENT_USED);
	assert_int_equal(item->past_event_count, 1);
	assert_true(item->events[0].entered > item->records[0].entered);
	assert_true(item->records[0].entered > item->past_events[0].entered);
	assert_true(item->past_events[0].entered > 0);
}

/* Given in May for what was put in place in March, though that was entered in June. */
SCRATCH_TEST(an_extension_for_the_new_thing_outlives_a_renewal_entered_late)
{
	scratch_put(scratch, "LR-1");
	const struct extension extensions[] = {
	    {.task = TASK_SERVICE,
		.until = day_of("2026-10-01"),
		.paper = "new",
		.given = day_of("2026-05-01")},
	    {.task = TASK_SERVICE,
		.until = day_of("2026-11-01"),
		.paper = "old",
		.given = day_of("2026-02-01")},
	};
	for (int i = 0; i < 2; i++) {
		assert_done(scratch, book_add_extension(scratch->book, "LR-1",
					 &extensions[i], &scratch->fault));
	}
	add(scratch, TASK_RENEW, "2026-03-10", "");
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_int_equal(item->extension_count, 1);
	assert_string_equal(item->extensions[0].paper, "new");
	assert_day(item->extensions[0].given, "2026-05-01");
}

/* Puts one of the things known of a raft, each of a day of its own. */
static void
put_fact(struct scratch *scratch, const char *tag, unsigned fact)
{
	static const char *const DAYS[] = {"2019-04-01", "2020-05-02", "2021-06-03",
	    "2022-07-04", "2023-08-05", "2024-09-06", "2025-10-07"};
	struct record record = {.on = stamp_of(DAYS[fact]),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	const struct event fired = {.kind = EVENT_FIRED, .on = day_of(DAYS[fact])};
	const struct extension extension = {.task = TASK_SERVICE,
	    .until = day_of("2026-10-01"),
	    .paper = "MA 1",
	    .given = day_of(DAYS[fact])};

	bool renewed = fact == 0 || fact == 3;
	record.task = renewed ? TASK_RENEW : TASK_SERVICE;
	if (renewed || fact == 1 || fact == 4) {
		assert_done(scratch,
		    book_add_record(scratch->book, tag, &record, &scratch->fault));
	} else if (fact == 6) {
		assert_done(scratch,
		    book_add_extension(scratch->book, tag, &extension, &scratch->fault));
	} else {
		assert_done(
		    scratch, book_add_event(scratch->book, tag, &fired, &scratch->fault));
	}
}

/* Renewed, served, fired; renewed, served, fired, extended: entered in a hundred orders. */
SCRATCH_TEST(what_is_known_of_different_days_may_be_entered_in_any_order)
{
	unsigned seed = 12;
	for (int round = 0; round < 100; round++) {
		char tag[16];
		unsigned order[7] = {0, 1, 2, 3, 4, 5, 6};
		(void)snprintf(tag, sizeof tag, "LR-%d", round);
		scratch_put(scratch, tag);
		for (unsigned i = 6; i > 0 && round > 0; i--) {
			unsigned j = draw(&seed, i + 1);
			unsigned kept = order[i];
			order[i] = order[j];
			order[j] = kept;
		}
		for (unsigned i = 0; i < 7; i++) {
			put_fact(scratch, tag, order[i]);
		}
	}
	SCOPED_CONTENTS contents = scratch_load(scratch);
	for (size_t i = 0; i < contents.inventory.item_count; i++) {
		const struct item *item = &contents.inventory.items[i];
		assert_stamp(item->fitted, "2022-07-04");
		assert_int_equal(item->record_count, 2);
		assert_int_equal(item->records[0].task, TASK_RENEW);
		assert_stamp(item->records[1].on, "2023-08-05");
		assert_int_equal(item->past_record_count, 2);
		assert_int_equal(item->event_count, 1);
		assert_day(item->events[0].on, "2024-09-06");
		assert_int_equal(item->past_event_count, 1);
		assert_int_equal(item->extension_count, 1);
		assert_day(item->extensions[0].given, "2025-10-07");
	}
}

RUN_TESTS(NULL, NULL)
