/* The edges of what gear went through: orders of equals, chains that bite their own tail,
 * what is asked of parts, numbers that count on. */
#include "becket_test.h"
#include "blank_item.h"
#include "in_words.h"
#include "life/family.h"
#include "life/homecoming.h"
#include "life/planning.h"
#include "life/serials.h"
#include "life/spending.h"
#include "life/whereabouts.h"

#include <string.h>

static struct movement
returned(const char *on)
{
	return (struct movement){.move = MOVE_RETURNED,
	    .result = RESULT_PASSED,
	    .on = day_of(on),
	    .note = "",
	    .station = "Depot",
	    .serial = ""};
}

TEST(what_came_back_is_told_from_the_latest_and_of_one_day_as_the_book_has_it)
{
	static const char *const DAYS[] = {"2026-12-09", "2026-12-11", "2026-12-09",
	    "2026-12-10", "2026-12-12", "2026-12-09"};
	static const size_t ORDER[] = {4, 1, 3, 0, 2, 5};
	struct movement movements[6];
	struct item items[6];
	struct arena arena = {0};
	struct came_back_list list = {0};
	for (size_t i = 0; i < 6; i++) {
		movements[i] = returned(DAYS[i]);
		items[i] = blank_item("LJ", "lifejacket-auto");
		items[i].movements = &movements[i];
		items[i].movement_count = 1;
	}
	const struct inventory inventory = {.items = items, .item_count = 6};
	came_back_since(&inventory, NULL, DAY_NONE, &arena, &list);
	assert_int_equal(list.count, 6);
	for (size_t i = 0; i < 6; i++) {
		assert_int_equal(list.items[i].item, ORDER[i]);
		assert_null(list.items[i].record);
	}
	came_back_since(&inventory, "Depot", day_of("2026-12-11"), &arena, &list);
	assert_int_equal(list.count, 2);
	came_back_since(&inventory, "Loft", DAY_NONE, &arena, &list);
	assert_int_equal(list.count, 0);
	arena_clear(&arena);
}

/* Parts inside one another in a ring, as no book has them: all that is asked comes to an end. */
TEST(a_ring_of_parts_and_of_lots_ends)
{
	struct item items[] = {blank_item("A", "lifejacket-auto"),
	    blank_item("B", "lifejacket-auto"), blank_item("C", "lifejacket-auto")};
	const struct inventory inventory = {.items = items, .item_count = 3};
	const struct known_gear known = {.inventory = &inventory};
	items[0].parent = 1;
	items[1].parent = 0;
	items[0].split_from = "B";
	items[1].split_from = "A";
	items[0].serial = "7";
	items[1].serial = "7";
	assert_false(family_has(&inventory, 2, 0));
	assert_true(family_has(&inventory, 1, 0));
	assert_true(whereabouts_of(&known, 0).whole < 2);
	assert_true(serial_shared_with(&inventory, 0) == 1 ||
		    serial_shared_with(&inventory, 0) == ITEM_NO_PARENT);
	/* split from a lot that is gone from the book, both of them */
	items[0].split_from = "Z";
	items[1].split_from = "Z";
	assert_int_equal(serial_shared_with(&inventory, 0), 1);
	items[1].split_from = "Y";
	assert_true(serial_shared_with(&inventory, 0) == ITEM_NO_PARENT);
	/* nothing is said of the one, and the other is from it */
	items[0].split_from = NULL;
	items[1].split_from = "A";
	assert_int_equal(serial_shared_with(&inventory, 0), 1);
}

/* A part that stands on another boat than its whole, though in the same place, is by itself. */
TEST(a_part_on_another_boat_is_where_it_is)
{
	struct item items[] = {
	    blank_item("A", "lifejacket-auto"), blank_item("B", "lifejacket-auto")};
	const struct inventory inventory = {.items = items, .item_count = 2};
	const struct known_gear known = {.inventory = &inventory};
	items[1].parent = 0;
	assert_int_equal(whereabouts_of(&known, 1).whole, 0);
	items[1].vessel = 1;
	assert_int_equal(whereabouts_of(&known, 1).whole, 1);
}

/* Twenty kinds and stations, each of one price or of 30: the dearest first, of equals by name. */
TEST(sums_are_by_price_and_then_by_name)
{
	enum { COUNT = 20 };

	struct item items[COUNT];
	struct record records[COUNT];
	char names[COUNT][8];
	struct arena arena = {0};
	struct spending sums = {0};
	for (size_t i = 0; i < COUNT; i++) {
		(void)snprintf(names[i], sizeof names[i], "n%02zu", (i * 7) % COUNT);
		items[i] = blank_item("T", names[i]);
		records[i] = (struct record){.task = TASK_SERVICE,
		    .on = stamp_of(i < 10 ? "2026-03" : "2025-03"),
		    .station = names[i],
		    .price_minor = (i * 7) % COUNT == 11 ? 30 : 20};
		items[i].records = &records[i];
		items[i].record_count = 1;
	}
	/* of an unknown day, it is of no year; without a price it is told as such */
	records[19].on = (struct stamp){0};
	records[18].price_minor = -1;
	const struct inventory inventory = {.items = items, .item_count = COUNT};
	spending_sum(&inventory, 0, &arena, &sums);
	assert_int_equal(sums.kinds.count, COUNT - 2);
	assert_int_equal(sums.stations.count, COUNT - 2);
	assert_string_equal(sums.kinds.items[0].name, "n11");
	assert_string_equal(sums.stations.items[0].name, "n11");
	assert_int_equal(sums.total.work_minor, 17 * 20 + 30);
	assert_int_equal(sums.total.priced, COUNT - 2);
	assert_int_equal(sums.unpriced, 1);
	assert_int_equal(sums.years.count, 2);
	assert_int_equal(sums.years.items[0].year, 2025);
	assert_int_equal(sums.years.items[1].year, 2026);
	for (size_t i = 2; i < sums.kinds.count; i++) {
		assert_true(
		    strcmp(sums.kinds.items[i - 1].name, sums.kinds.items[i].name) < 0);
	}
	/* what was bought without a price is no work without one */
	items[0].bought = stamp_of("2026-04");
	spending_sum(&inventory, 2026, &arena, &sums);
	assert_int_equal(sums.total.priced, 10);
	assert_int_equal(sums.unpriced, 0);
	arena_clear(&arena);
}

/* What was done to the thing before it was renewed cost as much as what was done since. */
TEST(work_from_before_a_renewal_is_summed)
{
	struct item item = blank_item("LJ-1", "lifejacket-auto");
	const struct record records[] = {
	    {.on = stamp_of("2026-03"), .station = "Depot", .price_minor = 20},
	    {.on = stamp_of("2026-01"), .station = "Loft", .price_minor = 7}};
	const struct inventory inventory = {.items = &item, .item_count = 1};
	struct arena arena = {0};
	struct spending sums = {0};
	item.records = &records[0];
	item.record_count = 1;
	item.past_records = &records[1];
	item.past_record_count = 1;
	spending_sum(&inventory, 2026, &arena, &sums);
	assert_int_equal(sums.total.work_minor, 27);
	assert_int_equal(sums.stations.count, 2);
	assert_string_equal(sums.stations.items[1].name, "Loft");
	assert_int_equal(sums.stations.items[1].work_minor, 7);
	arena_clear(&arena);
}

/* Entries of one kind in their order; which of them count on from the one before. */
TEST(a_number_counts_on_when_its_last_figures_are_one_more)
{
	static const struct {
		const char *before;
		const char *serial;
		enum serial_doubt doubt;
	} ROWS[] = {
	    {"C-098", "C-099", SERIAL_FINE},
	    {"C-1009", "C-1010", SERIAL_FINE},
	    {"C-100", "C-099", SERIAL_FINE}, /* two figures differ: not near */
	    {"C-102", "C-101", SERIAL_NEAR},
	    {"C-101", "C-103", SERIAL_NEAR},
	    {"ABCA", "ABCB", SERIAL_NEAR}, /* letters do not count on */
	    {"ABC9", "ABC0", SERIAL_NEAR},
	    {"ABC9", "ABD0", SERIAL_FINE}, /* not near */
	    {"0009", "0000", SERIAL_NEAR},
	    {"ABC/", "ABC0", SERIAL_FINE}, /* three characters are a house number */
	    {"AB8:", "AB8;", SERIAL_NEAR},
	    {"ABC1", "ABC12", SERIAL_NEAR},
	    {"XBC1", "ABC2", SERIAL_FINE}, /* two differ */
	    {"9999", "0000", SERIAL_FINE},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const struct inventory nothing = {0};
		const struct serial_entry entries[] = {
		    {"epirb", ROWS[i].before, ITEM_NO_PARENT, true},
		    {"epirb", ROWS[i].serial, ITEM_NO_PARENT, true}};
		struct serial_finding findings[2];
		serial_look_all(&nothing, entries, 2, findings);
		if (findings[1].doubt != ROWS[i].doubt ||
		    findings[0].doubt != SERIAL_FINE) {
			fail_msg("%s, %s: %d", ROWS[i].before, ROWS[i].serial,
			    (int)findings[1].doubt);
		}
	}
}

/* Two rows about one item of the book are not held against one another; two about none are. */
TEST(two_entries_of_one_item_are_not_two_things)
{
	struct item items[] = {blank_item("A", "epirb"), blank_item("B", "epirb")};
	const struct inventory inventory = {.items = items, .item_count = 2};
	struct serial_finding findings[2];
	struct serial_entry entries[] = {
	    {"epirb", "E9001", 1, true}, {"epirb", "E9001", 1, true}};
	serial_look_all(&inventory, entries, 2, findings);
	assert_int_equal(findings[1].doubt, SERIAL_FINE);
	entries[0].item = 0;
	serial_look_all(&inventory, entries, 2, findings);
	assert_int_equal(findings[1].doubt, SERIAL_SAME);
	entries[0].item = ITEM_NO_PARENT;
	entries[1].item = ITEM_NO_PARENT;
	serial_look_all(&inventory, entries, 2, findings);
	assert_int_equal(findings[1].doubt, SERIAL_SAME);
}

/* A number longer than any is compared by its first 63 characters. */
TEST(what_is_longer_than_any_number_is_compared_by_its_beginning)
{
	char a[80];
	char b[80];
	memset(a, '7', sizeof a);
	memset(b, '7', sizeof b);
	a[70] = '\0';
	b[72] = '\0';
	a[62] = '1';
	assert_false(serial_same(a, b));
	a[62] = '7';
	a[63] = '1';
	assert_true(serial_same(a, b));
}

TEST(each_condemned_number_is_found_wherever_it_is_typed)
{
	struct item item = blank_item("A", "epirb");
	const struct inventory inventory = {.items = &item, .item_count = 1};
	struct serial_finding findings[3];
	const struct serial_entry entries[] = {{"plb", "E9001", ITEM_NO_PARENT, true},
	    {"sart", "e-9001", ITEM_NO_PARENT, true},
	    {"ais-beacon", "E 9001", ITEM_NO_PARENT, false}};
	item.serial = "E9001";
	item.state = PLACE_WITHDRAWN;
	item.because = BECAUSE_CONDEMNED;
	serial_look_all(&inventory, entries, 3, findings);
	assert_int_equal(findings[0].doubt, SERIAL_CONDEMNED);
	assert_int_equal(findings[1].doubt, SERIAL_CONDEMNED);
	assert_int_equal(findings[2].doubt, SERIAL_FINE);
}

/* The second thing that stood under the tag was condemned, and is asked about; the first is not. */
TEST(any_number_that_stood_under_a_tag_is_looked_at)
{
	static const struct movement MOVEMENTS[] = {
	    {.move = MOVE_LANDED, .serial = "K-5500", .on = 20700},
	    {.move = MOVE_WITHDRAWN,
		.because = BECAUSE_CONDEMNED,
		.serial = "M-9912",
		.on = 20800}};
	struct item item = blank_item("A", "epirb");
	const struct inventory inventory = {.items = &item, .item_count = 1};
	struct serial_finding findings[2];
	const struct serial_entry entries[] = {{"plb", "K-5500", ITEM_NO_PARENT, true},
	    {"plb", "M-9912", ITEM_NO_PARENT, true}};
	item.movements = MOVEMENTS;
	item.movement_count = 2;
	serial_look_all(&inventory, entries, 2, findings);
	assert_int_equal(findings[0].doubt, SERIAL_FINE);
	assert_int_equal(findings[1].doubt, SERIAL_CONDEMNED);
	assert_int_equal(findings[1].on, 20800);
}

/* Both parts of a condemned jacket outlive it. */
TEST(each_part_that_is_kept_outlives_what_is_condemned)
{
	static const char *const KEPT[] = {"CY-1", "FH-1"};
	struct item items[] = {blank_item("LJ-1", "lifejacket-auto"),
	    blank_item("FH-1", "firing-head"), blank_item("CY-1", "gas-cylinder"),
	    blank_item("LT-1", "lifejacket-light")};
	const struct inventory inventory = {.items = items, .item_count = 4};
	struct arena arena = {0};
	struct life_plan plan = {0};
	struct fault fault = {0};
	SCOPED_TEXT notes = {0};
	struct life_planning planning = {&inventory, &arena, &notes, &plan};
	for (size_t i = 0; i < 4; i++) {
		items[i].state = PLACE_LANDED;
		items[i].landed_to = "Depot";
		items[i].parent = i == 0 ? ITEM_NO_PARENT : 0;
	}
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	home.result = RESULT_CONDEMNED;
	home.kept = KEPT;
	home.kept_count = 2;
	assert_true(come_back(&planning, &home, 0, &fault));
	assert_int_equal(plan.count, 4);
	for (size_t i = 0; i < 4; i++) {
		bool kept = i == 1 || i == 2;
		assert_int_equal(plan.items[i].item, i);
		assert_int_equal(
		    plan.items[i].movement.move, kept ? MOVE_RETURNED : MOVE_WITHDRAWN);
		assert_int_equal(
		    (plan.items[i].change.set & 1U << FIELD_PART_OF) != 0, kept);
	}
	arena_clear(&arena);
}

TEST(a_doubt_is_said_in_words)
{
	static const struct {
		struct serial_finding finding;
		const char *says;
	} ROWS[] = {
	    {{SERIAL_FINE, 0, "", DAY_NONE}, ""},
	    {{SERIAL_SAME, 0, "C1", DAY_NONE},
		"serial \"C1\" is that of A-1 already; if they are two, say " FIELD
		"serials-are-right"},
	    {{SERIAL_NEAR, 0, "C2", DAY_NONE},
		"serial \"C1\" is one character from \"C2\" of A-1; read both again, and if "
		"both are right, say " FIELD "serials-are-right"},
	    {{SERIAL_CONDEMNED, 0, "C1", DAY_NONE},
		"the one with serial \"C1\" was condemned, as A-1; it does not go back aboard "
		"unless " FIELD "again says so"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCOPED_TEXT words = {0};
		serial_words(&ROWS[i].finding, "C1", "A-1", &words);
		assert_string_equal(text_string(&words), ROWS[i].says);
	}
	SCOPED_TEXT words = {0};
	const struct serial_finding dated = {
	    SERIAL_CONDEMNED, 0, "C1", day_of("2026-12-09")};
	serial_words(&dated, "C1", "A-1", &words);
	assert_non_null(
	    strstr(text_string(&words), "was condemned, as A-1, on 9 Dec 2026;"));
}

TEST(what_is_withdrawn_is_refused_with_its_reason)
{
	struct item item = blank_item("A-1", "epirb");
	struct fault fault = {0};
	assert_false(planning_withdrawn(&item, &fault));
	assert_string_equal(fault.text, "A-1 is withdrawn");
	item.because = BECAUSE_SOLD;
	assert_false(planning_withdrawn(&item, &fault));
	assert_string_equal(fault.text, "A-1 is withdrawn: sold");
}

/* Asked of the jacket is its service and of its head a look and a new one. What was asked
 * of a part is recorded with it, but for its renewal, which wants its dates; the price
 * and the next date are the jacket's alone. */
TEST(what_was_asked_of_a_part_is_recorded_without_a_price)
{
	static const struct movement ASKED[] = {
	    {.move = MOVE_LANDED, .asked = 1U << TASK_SERVICE, .serial = ""},
	    {.move = MOVE_LANDED,
		.asked = 1U << TASK_INSPECT | 1U << TASK_RENEW,
		.serial = ""}};
	struct item items[] = {blank_item("LJ-1", "lifejacket-auto"),
	    blank_item("FH-1", "firing-head"), blank_item("LR-1", "liferaft-valise")};
	const struct inventory inventory = {.items = items, .item_count = 3};
	struct arena arena = {0};
	struct life_plan plan = {0};
	struct fault fault = {0};
	SCOPED_TEXT notes = {0};
	struct life_planning planning = {&inventory, &arena, &notes, &plan};
	for (size_t i = 0; i < 2; i++) {
		items[i].state = PLACE_LANDED;
		items[i].landed_to = "Depot";
		items[i].movements = &ASKED[i];
		items[i].movement_count = 1;
	}
	items[1].parent = 0;
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	home.as_asked = true;
	home.next = stamp_of("2027-10");
	home.price_minor = 4500;
	assert_true(come_back(&planning, &home, 0, &fault));
	assert_int_equal(plan.count, 2);
	assert_int_equal(life_recorded(&plan.items[0]), 1U << TASK_SERVICE);
	assert_int_equal(life_recorded(&plan.items[1]), 1U << TASK_INSPECT);
	assert_int_equal(plan.items[0].records[0].price_minor, 4500);
	assert_int_equal(plan.items[1].records[0].price_minor, -1);
	assert_int_equal(plan.items[0].records[0].next.precision, STAMP_MONTH);
	assert_int_equal(plan.items[1].records[0].next.precision, STAMP_NONE);
	arena_clear(&arena);
}

/* The last landing says what was asked, whatever came after it; before the first nothing was. */
TEST(the_last_landing_says_what_was_asked)
{
	const struct movement movements[] = {
	    {.move = MOVE_LANDED, .asked = 1U << TASK_TEST, .serial = ""},
	    {.move = MOVE_RETURNED, .serial = ""},
	    {.move = MOVE_LANDED, .asked = 1U << TASK_SERVICE, .serial = ""},
	    {.move = MOVE_CARRIED, .serial = ""}};
	struct item item = blank_item("LJ-1", "lifejacket-auto");
	item.movements = movements;
	item.movement_count = 4;
	assert_int_equal(homecoming_asked(&item), 1U << TASK_SERVICE);
	item.movement_count = 2;
	assert_int_equal(homecoming_asked(&item), 1U << TASK_TEST);
	item.movements = movements + 3;
	item.movement_count = 1;
	assert_int_equal(homecoming_asked(&item), 0);
}

RUN_TESTS(NULL, NULL)
