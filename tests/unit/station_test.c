/* Stations: when they are open, how long they take, and what they may do. */
#include "gear/station.h"

#include "becket_test.h"
#include "draw.h"
#include "in_words.h"

static unsigned
weekdays_from(const char *words)
{
	struct fault fault = {0};
	unsigned weekdays = 0;
	if (!weekdays_parse(words, &weekdays, &fault)) {
		fail_msg("%s", fault.text);
	}
	return weekdays;
}

TEST(days_of_the_week_are_read_and_written_back)
{
	char text[WEEKDAYS_TEXT_SIZE];
	assert_int_equal(weekdays_from("mon-fri"), 0x1f);
	assert_int_equal(weekdays_from("sat-tue"), 0x63);
	assert_int_equal(weekdays_from("fri-mon"), 0x71);
	assert_int_equal(weekdays_from("Wed"), 0x04);
	assert_int_equal(weekdays_from("all"), WEEKDAYS_ALL);
	assert_string_equal(weekdays_text(0x1f, text), "mon-fri");
	assert_string_equal(weekdays_text(0x63, text), "mon-tue,sat-sun");
	/* every set of days that there is, the longest among them */
	for (unsigned days = 1; days <= WEEKDAYS_ALL; days++) {
		assert_int_equal(weekdays_from(weekdays_text(days, text)), days);
	}
}

TEST(words_that_are_no_days_of_the_week_are_refused)
{
	const char *const wrong[] = {
	    "", "monday", "mon-", "-fri", "mon,", ",mon", "mo", "mon fri", "mon-fri-sat"};
	for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
		struct fault fault = {0};
		unsigned weekdays = 99;
		assert_false(weekdays_parse(wrong[i], &weekdays, &fault));
		assert_int_equal(weekdays, 99);
		assert_told(fault.text,
		    "\"%s\" names no days of the week; expected mon-fri or mon,wed,sat or all",
		    wrong[i]);
	}
}

TEST(a_station_is_shut_at_weekends_and_in_the_weeks_of_one_year)
{
	const struct span shut = {day_of("2026-12-24"), day_of("2027-01-06")};
	const struct station station = {
	    .weekdays = weekdays_from("mon-fri"), .shut = &shut, .shut_count = 1};
	assert_true(station_open(&station, day_of("2026-12-23")));  /* a Wednesday */
	assert_false(station_open(&station, day_of("2026-12-24"))); /* a Thursday */
	assert_false(station_open(&station, day_of("2027-01-06")));
	assert_true(station_open(&station, day_of("2027-01-07")));
	assert_false(station_open(&station, day_of("2027-01-09"))); /* a Saturday */
	/* the year after it is open on those days */
	assert_true(station_open(&station, day_of("2027-12-24"))); /* a Friday */
}

/* 2 November 2026 is a Monday: shut on it and on Wednesday the 4th. */
TEST(a_station_may_be_shut_more_than_once)
{
	const struct span shut[] = {{day_of("2026-11-02"), day_of("2026-11-02")},
	    {day_of("2026-11-04"), day_of("2026-11-04")}};
	const struct station station = {
	    .weekdays = WEEKDAYS_ALL, .shut = shut, .shut_count = 2};
	assert_false(station_open(&station, day_of("2026-11-02")));
	assert_true(station_open(&station, day_of("2026-11-03")));
	assert_false(station_open(&station, day_of("2026-11-04")));
}

TEST(a_station_that_is_shut_for_good_has_no_next_day)
{
	const struct span ever = {day_of("2020-01-01"), day_of("2060-12-31")};
	const struct station station = {
	    .weekdays = WEEKDAYS_ALL, .shut = &ever, .shut_count = 1};
	assert_int_equal(station_next_open(&station, day_of("2026-11-25")), DAY_NEVER);
	assert_int_equal(
	    station_next_open(&station, day_of("2019-12-31")), day_of("2019-12-31"));
}

TEST(the_turn_round_is_that_of_the_month_of_the_hand_in)
{
	const struct station_pace paces[] = {{11, 1, 7}, {2, 3, 28}};
	const struct station station = {
	    .turn_round_days = 14, .paces = paces, .pace_count = 2};
	assert_int_equal(station_turn_round(&station, day_of("2026-10-31")), 14);
	assert_int_equal(station_turn_round(&station, day_of("2026-11-01")), 7);
	assert_int_equal(station_turn_round(&station, day_of("2027-01-31")), 7);
	assert_int_equal(station_turn_round(&station, day_of("2027-03-31")), 28);
	assert_int_equal(station_turn_round(&station, day_of("2027-04-01")), 14);
	/* 31 March and 28 days; 1 April and 14: the later hand-in is back sooner */
	assert_int_equal(
	    station_collect(&station, day_of("2027-03-31")), day_of("2027-04-28"));
	assert_int_equal(
	    station_collect(&station, day_of("2027-04-01")), day_of("2027-04-15"));
	/* back by 20 April: 6 April and 14 days are 20 April */
	assert_int_equal(
	    station_last_hand_in(&station, day_of("2027-04-20")), day_of("2027-04-06"));
	/* back by 14 April: 1 April is too late, and of March 17 March and 28 days */
	assert_int_equal(
	    station_last_hand_in(&station, day_of("2027-04-14")), day_of("2027-03-17"));
}

/* A station with any of what can slow it down. */
static struct station
draw_station(unsigned *seed, struct span shut[2], struct yearly *closed,
    struct station_pace paces[2])
{
	for (size_t i = 0; i < 2; i++) {
		shut[i].first = day_of("2026-10-01") + (day_t)draw(seed, 200);
		shut[i].last = shut[i].first + (day_t)draw(seed, 20);
		paces[i] = (struct station_pace){1 + (int)draw(seed, 12),
		    1 + (int)draw(seed, 12), (int)draw(seed, 40)};
	}
	*closed = (struct yearly){12, (int8_t)(1 + draw(seed, 31)), 1, 7};
	return (struct station){
	    .turn_round_days = (int)draw(seed, 40),
	    .weekdays = 1 + draw(seed, WEEKDAYS_ALL),
	    .shut = shut,
	    .shut_count = draw(seed, 3),
	    .closed = closed,
	    .closed_count = draw(seed, 2),
	    .paces = paces,
	    .pace_count = draw(seed, 3),
	};
}

TEST(the_last_hand_in_is_the_last_day_that_a_slow_search_finds)
{
	unsigned seed = 11;
	for (int round = 0; round < 2000; round++) {
		struct span shut[2];
		struct yearly closed;
		struct station_pace paces[2];
		struct station station = draw_station(&seed, shut, &closed, paces);
		day_t by = day_of("2026-12-01") + (day_t)draw(&seed, 150);
		day_t slow = by;
		while (!station_open(&station, slow) ||
		       station_collect(&station, slow) > by) {
			slow--;
		}
		assert_int_equal(station_last_hand_in(&station, by), slow);
	}
}

TEST(where_makes_are_listed_another_or_an_unknown_make_does_not_go)
{
	const char *const kinds[] = {"liferaft-canister", "lifejacket-auto"};
	const struct station_make makes[] = {
	    {"liferaft-canister", "Orrin"}, {"liferaft-canister", "Tarn"}};
	const struct station station = {
	    .kinds = kinds, .kind_count = 2, .makes = makes, .make_count = 2};
	assert_int_equal(station_fit(&station, "liferaft-canister", "Tarn"), FIT_YES);
	assert_int_equal(station_fit(&station, "liferaft-canister", "tarn"), FIT_YES);
	assert_int_equal(station_fit(&station, "liferaft-canister", "Orrin"), FIT_YES);
	assert_int_equal(
	    station_fit(&station, "liferaft-canister", "Quorl"), FIT_OTHER_MAKE);
	assert_int_equal(station_fit(&station, "liferaft-canister", ""), FIT_ASK);
	assert_int_equal(station_fit(&station, "lifejacket-auto", ""), FIT_YES);
	assert_int_equal(station_fit(&station, "epirb", "Tarn"), FIT_NO);
}

/* What is asked at an age; -1 for nothing. */
static int64_t
asked(const struct station *station, const char *kind, enum task task, int age)
{
	const struct station_price *price = station_price(station, kind, task, age);
	return price == NULL ? -1 : price->minor;
}

TEST(the_price_of_the_task_comes_before_the_price_of_every_task)
{
	const struct station_price prices[] = {
	    {"lifejacket-auto", true, TASK_SERVICE, 3500, 0},
	    {"lifejacket-auto", false, TASK_TEST, 900, 0},
	    {"gas-cylinder", false, TASK_RENEW, 1900, 0},
	};
	const struct station station = {.prices = prices, .price_count = 3};
	assert_int_equal(asked(&station, "lifejacket-auto", TASK_TEST, 3), 900);
	assert_int_equal(asked(&station, "lifejacket-auto", TASK_SERVICE, 3), 3500);
	assert_int_equal(asked(&station, "gas-cylinder", TASK_RENEW, 3), 1900);
	assert_int_equal(asked(&station, "gas-cylinder", TASK_TEST, 3), -1);
	assert_int_equal(asked(&station, "epirb", TASK_TEST, AGE_NOT_KNOWN), -1);
	assert_int_equal(
	    asked(&station, "lifejacket-auto", TASK_TEST, AGE_NOT_KNOWN), 900);
	assert_false(station_price_varies(&station, "lifejacket-auto", TASK_TEST));
}

TEST(a_price_holds_from_its_age_to_that_of_the_next)
{
	/* in no order: 450.00, from ten years 620.00, from fifteen 900.00 */
	const struct station_price prices[] = {
	    {"liferaft-canister", false, TASK_SERVICE, 90000, 15},
	    {"liferaft-canister", false, TASK_SERVICE, 45000, 0},
	    {"epirb", true, TASK_SERVICE, 1, 3},
	    {"liferaft-canister", false, TASK_SERVICE, 62000, 10},
	};
	const struct station station = {.prices = prices, .price_count = 4};

	const struct {
		int age;
		int64_t minor;
	} ROWS[] = {{0, 45000}, {9, 45000}, {10, 62000}, {11, 62000}, {14, 62000},
	    {15, 90000}, {99, 90000}, {AGE_NOT_KNOWN, 90000}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_int_equal(
		    asked(&station, "liferaft-canister", TASK_SERVICE, ROWS[i].age),
		    ROWS[i].minor);
	}
	assert_int_equal(asked(&station, "liferaft-canister", TASK_TEST, 12), -1);
	assert_int_equal(station_next_age(&station, "liferaft-canister", 0), 10);
	assert_int_equal(station_next_age(&station, "liferaft-canister", 10), 15);
	assert_int_equal(
	    station_next_age(&station, "liferaft-canister", 15), AGE_NOT_KNOWN);
	assert_true(station_price_varies(&station, "liferaft-canister", TASK_SERVICE));
	assert_false(station_price_varies(&station, "liferaft-canister", TASK_TEST));
	/* nothing is said of a beacon under three years */
	assert_int_equal(asked(&station, "epirb", TASK_SERVICE, 2), -1);
	assert_int_equal(asked(&station, "epirb", TASK_SERVICE, 3), 1);
	assert_true(station_price_varies(&station, "epirb", TASK_SERVICE));
}

TEST(a_step_of_the_task_goes_before_those_of_every_task_once_it_holds)
{
	const struct station_price prices[] = {
	    {"liferaft-canister", true, TASK_SERVICE, 40000, 0},
	    {"liferaft-canister", true, TASK_SERVICE, 99000, 12},
	    {"liferaft-canister", false, TASK_SERVICE, 62000, 10},
	    {"liferaft-canister", false, TASK_TEST, 6000, 0},
	};
	const struct station station = {.prices = prices, .price_count = 4};
	/* a service: 400.00 for every task up to nine, its own 620.00 from ten for good */
	assert_int_equal(asked(&station, "liferaft-canister", TASK_SERVICE, 9), 40000);
	assert_int_equal(asked(&station, "liferaft-canister", TASK_SERVICE, 10), 62000);
	assert_int_equal(asked(&station, "liferaft-canister", TASK_SERVICE, 12), 62000);
	/* a test has its own from new; an inspection that of every task */
	assert_int_equal(asked(&station, "liferaft-canister", TASK_TEST, 12), 6000);
	assert_int_equal(asked(&station, "liferaft-canister", TASK_INSPECT, 11), 40000);
	assert_int_equal(asked(&station, "liferaft-canister", TASK_INSPECT, 12), 99000);
	/* not known how old: the dearest a service is at any age, which is not 990.00 */
	assert_int_equal(
	    asked(&station, "liferaft-canister", TASK_SERVICE, AGE_NOT_KNOWN), 62000);
}

TEST(the_same_price_at_two_ages_does_not_vary)
{
	const struct station_price prices[] = {
	    {"liferaft-canister", true, TASK_SERVICE, 40000, 0},
	    {"liferaft-canister", true, TASK_SERVICE, 40000, 5},
	};
	const struct station station = {.prices = prices, .price_count = 2};
	assert_false(station_price_varies(&station, "liferaft-canister", TASK_SERVICE));
}

TEST(the_dearest_price_need_not_be_that_of_the_oldest)
{
	const struct station_price prices[] = {
	    {"liferaft-canister", true, TASK_SERVICE, 40000, 0},
	    {"liferaft-canister", true, TASK_SERVICE, 70000, 5},
	    {"liferaft-canister", true, TASK_SERVICE, 50000, 8},
	};
	const struct station station = {.prices = prices, .price_count = 3};
	assert_int_equal(asked(&station, "liferaft-canister", TASK_SERVICE, 8), 50000);
	assert_int_equal(
	    asked(&station, "liferaft-canister", TASK_SERVICE, AGE_NOT_KNOWN), 70000);
}

/* Known to be open from Monday to Friday it is closed on Saturday 21 November 2026; where
 * its days are only supposed nobody said so of a Saturday, but of a week that it is shut
 * in. */
TEST(a_station_is_said_to_be_closed_only_where_its_days_are_known)
{
	const struct span shut = {day_of("2026-11-23"), day_of("2026-11-27")};
	struct station station = {.weekdays = STATION_WEEKDAYS_SUPPOSED};
	assert_true(station_said_closed(&station, day_of("2026-11-21")));
	assert_false(station_said_closed(&station, day_of("2026-11-20")));
	assert_false(station_said_closed(&station, day_of("2026-11-23")));
	station.weekdays = 0;
	assert_false(station_said_closed(&station, day_of("2026-11-21")));
	station.shut = &shut;
	station.shut_count = 1;
	assert_true(station_said_closed(&station, day_of("2026-11-23")));
	assert_false(station_said_closed(&station, day_of("2026-11-30")));
}

/* A day that it confirmed is open whatever its own are, shut weeks too; but to those who
 * go on other days of the week it is none. Saturday 21 November 2026. */
TEST(a_confirmed_day_is_open_to_those_who_go_on_it)
{
	const struct span saturday = {day_of("2026-11-21"), day_of("2026-11-21")};
	struct station station = {.weekdays = 0x1f,
	    .shut = &saturday,
	    .shut_count = 1,
	    .confirmed = &saturday,
	    .confirmed_count = 1};
	assert_true(station_open(&station, saturday.first));
	assert_false(station_open(&station, saturday.first + 1));
	station.goes = 1U << 5;
	assert_true(station_open(&station, saturday.first));
	station.goes = 1;
	assert_false(station_open(&station, saturday.first));
	station.goes = 0;
	station.away = &saturday;
	station.away_count = 1;
	assert_false(station_open(&station, saturday.first));
}

RUN_TESTS(NULL, NULL)
