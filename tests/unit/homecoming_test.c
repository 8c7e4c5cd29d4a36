/* What a station's word about a piece may be, and what is refused: life/homecoming.h and
 * planning.h, whose comments give the expected values. */
#include "life/homecoming.h"

#include "becket_test.h"
#include "blank_item.h"
#include "in_words.h"
#include "life/planning.h"

#include <string.h>

enum {
	SERVICE = 1U << TASK_SERVICE,
	TEST = 1U << TASK_TEST,
	INSPECT = 1U << TASK_INSPECT
};

TEST(next_dates_are_read_for_none_and_by_task)
{
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	struct fault fault = {0};
	assert_true(homecoming_next_parse(
	    "2027-10; test=2028-12-09", ORDER_DAY_FIRST, &home, &fault));
	assert_int_equal(stamp_good_through(home.next), day_of("2027-10-31"));
	assert_int_equal(
	    stamp_good_through(home.next_of[TASK_TEST]), day_of("2028-12-09"));
	assert_int_equal(home.next_of[TASK_SERVICE].precision, STAMP_NONE);
}

/* A station's list may end a cell so. */
TEST(a_semicolon_at_the_end_takes_back_no_next_date)
{
	static const char *const WORDS[] = {
	    "2027-10;", "2027-10; ", ";2027-10", "2027-10;;"};
	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		struct homecoming home = homecoming_on(day_of("2026-12-09"));
		struct fault fault = {0};
		assert_true(
		    homecoming_next_parse(WORDS[i], ORDER_DAY_FIRST, &home, &fault));
		assert_int_equal(stamp_good_through(home.next), day_of("2027-10-31"));
	}
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	struct fault fault = {0};
	assert_true(homecoming_next_parse("", ORDER_DAY_FIRST, &home, &fault));
	assert_int_equal(home.next.precision, STAMP_NONE);
}

TEST(words_that_are_no_next_dates_are_refused)
{
	static const char *const WORDS[] = {
	    "polished=2027-10", "soon", "2027-10;2027-11", "test=2027-10; test=2027-11"};
	char long_words[300];
	memset(long_words, '1', sizeof long_words - 1);
	long_words[sizeof long_words - 1] = '\0';
	for (size_t i = 0; i <= sizeof WORDS / sizeof WORDS[0]; i++) {
		const char *words =
		    i < sizeof WORDS / sizeof WORDS[0] ? WORDS[i] : long_words;
		struct homecoming home = homecoming_on(day_of("2026-12-09"));
		struct fault fault = {0};
		if (homecoming_next_parse(words, ORDER_DAY_FIRST, &home, &fault)) {
			fail_msg("\"%.20s\" was read", words);
		}
		assert_int_equal(fault.kind, FAULT_INPUT);
	}
}

TEST(two_next_dates_given_apart_are_refused_too)
{
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	struct fault fault = {0};
	assert_true(homecoming_next_parse("2027-10", ORDER_ISO, &home, &fault));
	assert_false(homecoming_next_parse("2028-10", ORDER_ISO, &home, &fault));
	assert_int_equal(stamp_good_through(home.next), day_of("2027-10-31"));
}

TEST(a_next_date_for_none_is_the_services_or_that_of_all_that_was_done)
{
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	home.next = stamp_of("2027-10");
	home.next_of[TASK_TEST] = stamp_of("2028-12");

	static const struct {
		unsigned tasks;
		enum task task;
		const char *next; /* NULL for none */
	} ROWS[] = {
	    {SERVICE | TEST, TASK_SERVICE, "2027-10-31"},
	    {SERVICE | TEST, TASK_TEST, "2028-12-31"},
	    {INSPECT, TASK_INSPECT, "2027-10-31"},
	    {SERVICE | INSPECT, TASK_INSPECT, NULL},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct stamp next = homecoming_next(&home, ROWS[i].tasks, ROWS[i].task);
		assert_int_equal(next.precision == STAMP_NONE, ROWS[i].next == NULL);
		if (ROWS[i].next != NULL) {
			assert_int_equal(stamp_good_through(next), day_of(ROWS[i].next));
		}
	}
}

TEST(who_did_the_work_is_said_or_is_where_it_was_landed)
{
	struct item item = blank_item("LJ-1", "lifejacket-auto");
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	item.landed_to = "Depot";
	assert_string_equal(homecoming_by(&home, &item), "Depot");
	home.by = "Loft";
	assert_string_equal(homecoming_by(&home, &item), "Loft");
	assert_int_equal(homecoming_done(&home), day_of("2026-12-09"));
	home.done = day_of("2026-12-07");
	assert_int_equal(homecoming_done(&home), day_of("2026-12-07"));
}

/* What came back of a jacket LJ-1 with a head FH-1, landed on 25 November and back on 9
 * December. */
struct word {
	const char *what;
	void (*change)(struct homecoming *home, struct item *jacket);
	const char *refused; /* "" taken */
};

static void
nothing(struct homecoming *home, struct item *jacket)
{
	(void)home;
	(void)jacket;
}

static void
back_too_soon(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->on = day_of("2026-11-24");
}

static void
back_that_day(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->on = day_of("2026-11-25");
}

static void
done_too_soon(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->done = day_of("2026-11-24");
}

static void
done_too_late(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->done = day_of("2026-12-10");
}

static void
next_before(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->next = stamp_of("2026-11");
}

static void
next_of_nothing(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->tasks = 0;
	home->next = stamp_of("2027-10");
}

static void
next_of_any(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->tasks = TEST | INSPECT;
	home->next = stamp_of("2027-10");
}

static void
next_of_a_test_alone(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->tasks = TEST;
	home->next = stamp_of("2027-10");
}

static void
next_of_three(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->tasks = SERVICE | TEST | INSPECT;
	home->next = stamp_of("2027-10");
}

static void
next_of_another(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->next_of[TASK_TEST] = stamp_of("2027-10");
}

static void
shorter_without(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->result = RESULT_PASSED_SHORTER;
}

static void
condemned_with_work(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->result = RESULT_CONDEMNED;
}

static void
not_done_with_work(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->result = RESULT_NOT_DONE;
}

static void
not_done(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->result = RESULT_NOT_DONE;
	home->tasks = 0;
}

static void
as_asked_of_nothing(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->as_asked = true;
}

static void
aboard(struct homecoming *home, struct item *jacket)
{
	(void)home;
	jacket->state = PLACE_ABOARD;
}

static const char *const HEAD[] = {"FH-1"};
static const char *const OTHER[] = {"LJ-2"};

static void
outlived(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->kept = HEAD;
	home->kept_count = 1;
}

static void
condemned_without_its_head(struct homecoming *home, struct item *jacket)
{
	outlived(home, jacket);
	home->result = RESULT_CONDEMNED;
	home->tasks = 0;
}

static void
condemned_without_another(struct homecoming *home, struct item *jacket)
{
	condemned_without_its_head(home, jacket);
	home->kept = OTHER;
}

static const struct renewed_part TWICE[] = {
    {.tag = "FH-1", .serial = ""}, {.tag = "FH-1", .serial = ""}};
static const struct renewed_part WRONG[] = {{.tag = "LJ-2", .serial = ""}};

static void
renewed_twice(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->renewed = TWICE;
	home->renewed_count = 2;
}

static void
renewed_once(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->renewed = TWICE;
	home->renewed_count = 1;
}

static void
renewed_elsewhere(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->renewed = WRONG;
	home->renewed_count = 1;
}

static void
condemned(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->result = RESULT_CONDEMNED;
	home->tasks = 0;
}

static void
condemned_with_next(struct homecoming *home, struct item *jacket)
{
	condemned(home, jacket);
	home->next_of[TASK_SERVICE] = stamp_of("2027-10");
}

static void
condemned_with_part(struct homecoming *home, struct item *jacket)
{
	condemned(home, jacket);
	renewed_once(home, jacket);
}

static void
not_done_with_next(struct homecoming *home, struct item *jacket)
{
	not_done(home, jacket);
	home->next = stamp_of("2027-10");
}

static void
not_done_with_paper(struct homecoming *home, struct item *jacket)
{
	not_done(home, jacket);
	home->certificate = "C-1";
}

static void
not_done_as_asked(struct homecoming *home, struct item *jacket)
{
	not_done(home, jacket);
	home->as_asked = true;
}

static void
next_of_both(struct homecoming *home, struct item *jacket)
{
	(void)jacket;
	home->tasks = TEST | INSPECT;
	home->next_of[TASK_TEST] = stamp_of("2027-10");
	home->next_of[TASK_INSPECT] = stamp_of("2027-12");
}

static void
shorter_with(struct homecoming *home, struct item *jacket)
{
	shorter_without(home, jacket);
	home->next = stamp_of("2027-06");
}

static void
landed_nobody_knows_when(struct homecoming *home, struct item *jacket)
{
	jacket->landed_on = DAY_NONE;
	home->done = day_of("2020-01-01");
}

static void
renewed_though_gone(struct homecoming *home, struct item *jacket)
{
	renewed_once(home, jacket);
	jacket[1].state = PLACE_WITHDRAWN;
}

static void
renewed_both(struct homecoming *home, struct item *jacket)
{
	static const struct renewed_part BOTH[] = {
	    {.tag = "FH-1", .serial = ""}, {.tag = "LJ-2", .serial = ""}};
	jacket[2].parent = 0;
	home->renewed = BOTH;
	home->renewed_count = 2;
}

static void
nobody_s_part(struct homecoming *home, struct item *jacket)
{
	static const struct renewed_part NOBODY_S[] = {{.tag = "ZZ-9", .serial = ""}};
	(void)jacket;
	home->renewed = NOBODY_S;
	home->renewed_count = 1;
}

TEST(what_a_station_says_is_taken_or_refused_with_words)
{
	static const struct word WORDS[] = {
	    {"a service", nothing, ""},
	    {"back on the day it went", back_that_day, ""},
	    {"back before it went", back_too_soon, "can't be back on 24 Nov 2026"},
	    {"done before it went", done_too_soon, "can't have been done on 24 Nov 2026"},
	    {"done after it was back", done_too_late, "can't be done on 10 Dec 2026"},
	    {"due before it was done", next_before, "is before the work was done"},
	    {"a next date of no task", next_of_nothing, "belongs to no task"},
	    {"a next date of any of two", next_of_any, "say which, as test="},
	    {"a next date of a test, which alone was done", next_of_a_test_alone, ""},
	    {"a next date of three, the service's", next_of_three, ""},
	    {"two parts renewed", renewed_both, ""},
	    {"a next date of another task", next_of_another, "which was not done"},
	    {"shorter without a date", shorter_without, "is missing"},
	    {"condemned, and serviced", condemned_with_work, "was condemned, so"},
	    {"not done, and serviced", not_done_with_work, "nothing was done to LJ-1"},
	    {"not done", not_done, ""},
	    {"as asked, and nothing was", as_asked_of_nothing,
		"does not say what was asked"},
	    {"never ashore", aboard, "LJ-1 is not ashore"},
	    {"a part that outlives what lives", outlived, "no part outlives it"},
	    {"a part that outlives it", condemned_without_its_head, ""},
	    {"another's part", condemned_without_another, "LJ-2 is no part of LJ-1"},
	    {"a part renewed twice", renewed_twice, "FH-1 is renewed twice"},
	    {"a part renewed", renewed_once, ""},
	    {"condemned", condemned, ""},
	    {"condemned, with a next date", condemned_with_next, "was condemned, so"},
	    {"condemned, with a new part", condemned_with_part, "was condemned, so"},
	    {"not done, with a next date", not_done_with_next,
		"nothing was done to LJ-1"},
	    {"not done, with a paper", not_done_with_paper, "nothing was done to LJ-1"},
	    {"not done, as was asked", not_done_as_asked, ""},
	    {"a next date of each of two", next_of_both, ""},
	    {"shorter with a date", shorter_with, ""},
	    {"landed at any time", landed_nobody_knows_when, ""},
	    {"a part renewed that is gone", renewed_though_gone,
		"FH-1 is no part of LJ-1"},
	    {"a part of nobody's", nobody_s_part, "ZZ-9 is no part of LJ-1"},
	    {"another thing renewed", renewed_elsewhere, "LJ-2 is no part of LJ-1"},
	};

	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		struct item items[] = {blank_item("LJ-1", "lifejacket-auto"),
		    blank_item("FH-1", "firing-head"),
		    blank_item("LJ-2", "lifejacket-auto")};
		const struct inventory inventory = {.items = items, .item_count = 3};
		struct homecoming home = homecoming_on(day_of("2026-12-09"));
		struct fault fault = {0};
		items[0].state = PLACE_LANDED;
		items[0].landed_to = "Depot";
		items[0].landed_on = day_of("2026-11-25");
		items[1].parent = 0;
		home.tasks = SERVICE;
		WORDS[i].change(&home, &items[0]);
		bool taken = homecoming_check(&inventory, 0, &home, &fault);
		if (taken != (WORDS[i].refused[0] == '\0') ||
		    strstr(fault.text, WORDS[i].refused) == NULL) {
			fail_msg("%s: \"%s\"", WORDS[i].what, fault.text);
		}
	}
}

TEST(a_state_that_is_another_is_a_movement)
{
	static const struct {
		enum place_state from;
		enum place_state to;
		enum move move;
	} ROWS[] = {
	    {PLACE_ABOARD, PLACE_RESERVE, MOVE_RESERVED},
	    {PLACE_RESERVE, PLACE_ABOARD, MOVE_ABOARD},
	    {PLACE_ABOARD, PLACE_WITHDRAWN, MOVE_WITHDRAWN},
	    {PLACE_LANDED, PLACE_ABOARD, MOVE_RETURNED},
	    {PLACE_LANDED, PLACE_RESERVE, MOVE_RETURNED},
	    {PLACE_LANDED, PLACE_WITHDRAWN, MOVE_WITHDRAWN},
	};

	struct item item = blank_item("LJ-1", "lifejacket-auto");
	enum move move = MOVE_LANDED;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const struct item_change change = {
		    .set = 1U << FIELD_STATE, .state = ROWS[i].to};
		item.state = ROWS[i].from;
		assert_true(life_state_move(&item, &change, &move));
		assert_int_equal(move, ROWS[i].move);
	}
	const struct item_change same = {.set = 1U << FIELD_STATE, .state = item.state};
	const struct item_change other = {
	    .set = 1U << FIELD_SERIAL, .state = PLACE_ABOARD};
	assert_false(life_state_move(&item, &same, &move));
	assert_false(life_state_move(&item, &other, &move));
}

RUN_TESTS(NULL, NULL)
