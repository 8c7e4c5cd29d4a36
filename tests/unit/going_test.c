/* The days on which gear is handed in and fetched with a boat's people. Days counted off by hand:
 * 2 November 2026 is a Monday. */
#include "gear/going.h"

#include "becket_test.h"
#include "in_words.h"

/* Takes gear in from Monday to Friday; 14 days. */
static const struct station LOFT = {
    .name = "Loft", .base = "", .turn_round_days = 14, .weekdays = 0x1f};

enum { MON = 1, WED = 4, FRI = 16, SAT = 32 };

static struct inventory
of_vessels(struct vessel *vessels, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		vessels[i].base = "Quay";
	}
	return (struct inventory){.vessels = vessels, .vessel_count = count};
}

TEST(gear_is_fetched_on_a_day_of_hers)
{
	struct vessel vessel = {.goes = FRI};
	struct inventory inventory = of_vessels(&vessel, 1);
	struct going going = going_of(&inventory, 0, day_of("2026-11-02"));
	/* Monday 2 November and 14 days: the 16th, a Monday; her Friday is the 20th */
	assert_int_equal(
	    going_collect(&going, &LOFT, day_of("2026-11-02")), day_of("2026-11-20"));
	/* back by Friday the 20th: Friday the 6th and 14 days is the 20th */
	assert_int_equal(going_last_hand_in(&going, &LOFT, day_of("2026-11-20")),
	    day_of("2026-11-06"));
}

TEST(nobody_goes_on_a_day_on_which_one_of_the_base_is_away)
{
	const struct span away = {day_of("2026-11-16"), day_of("2026-11-20")};
	struct vessel vessels[] = {
	    {.goes = FRI | MON}, {.goes = FRI | WED, .away = &away, .away_count = 1}};
	struct inventory inventory = of_vessels(vessels, 2);
	struct going going = going_of(&inventory, 0, day_of("2026-11-02"));
	/* they share Fridays; the 20th is off: the 27th */
	assert_int_equal(
	    going_collect(&going, &LOFT, day_of("2026-11-02")), day_of("2026-11-27"));
	/* back by Thursday the 26th: Friday the 13th is ready on the 27th, the 6th on the 20th,
	 * which is off; 30 October on the 13th */
	assert_int_equal(going_last_hand_in(&going, &LOFT, day_of("2026-11-26")),
	    day_of("2026-10-30"));
	/* by Friday the 27th itself, the 13th does */
	assert_int_equal(going_last_hand_in(&going, &LOFT, day_of("2026-11-27")),
	    day_of("2026-11-13"));
}

/* Two of the base are away, on one Friday each; a boat of another base, on a third, keeps
 * nobody at home. */
TEST(only_those_who_go_along_keep_the_others_at_home)
{
	const struct span fridays[] = {{day_of("2026-11-20"), day_of("2026-11-20")},
	    {day_of("2026-11-27"), day_of("2026-11-27")},
	    {day_of("2026-12-04"), day_of("2026-12-04")}};
	struct vessel vessels[] = {{.goes = FRI, .away = &fridays[0], .away_count = 1},
	    {.goes = FRI, .away = &fridays[1], .away_count = 1},
	    {.goes = FRI, .away = &fridays[2], .away_count = 1}};
	struct inventory inventory = of_vessels(vessels, 3);
	vessels[2].base = "Cove";
	struct going going = going_of(&inventory, 0, day_of("2026-11-02"));
	assert_int_equal(
	    going_next(&going, &LOFT, day_of("2026-11-16")), day_of("2026-12-04"));
}

/* Away on Monday the 16th and again on Friday the 20th: her next Friday is the 27th. */
TEST(she_may_be_away_more_than_once)
{
	const struct span away[] = {{day_of("2026-11-16"), day_of("2026-11-16")},
	    {day_of("2026-11-20"), day_of("2026-11-20")}};
	struct vessel vessel = {.goes = FRI, .away = away, .away_count = 2};
	struct inventory inventory = of_vessels(&vessel, 1);
	struct going going = going_of(&inventory, 0, day_of("2026-11-02"));
	assert_int_equal(
	    going_next(&going, &LOFT, day_of("2026-11-16")), day_of("2026-11-27"));
}

TEST(a_boat_that_has_left_has_no_say)
{
	struct vessel vessels[] = {
	    {.goes = FRI}, {.goes = SAT, .leaves = true, .left = day_of("2026-06-01")}};
	struct inventory inventory = of_vessels(vessels, 2);
	struct going going = going_of(&inventory, 0, day_of("2026-11-02"));
	assert_int_equal(going.goes, FRI);
}

TEST(where_they_share_no_day_any_of_theirs_will_do)
{
	struct vessel vessels[] = {{.goes = MON}, {.goes = WED}};
	struct inventory inventory = of_vessels(vessels, 2);
	struct going going = going_of(&inventory, 0, day_of("2026-11-02"));
	assert_int_equal(going.goes, MON | WED);
}

/* Away for more years than are looked at, or a station that is always shut: no day is
 * found, and none is made up. */
TEST(where_nobody_ever_goes_there_is_no_day)
{
	const struct span ever = {day_of("2020-01-01"), day_of("2060-12-31")};
	const day_t day = day_of("2026-11-02");
	struct vessel vessel = {.goes = FRI, .away = &ever, .away_count = 1};
	struct inventory inventory = of_vessels(&vessel, 1);
	struct going going = going_of(&inventory, 0, day);
	assert_int_equal(going_next(&going, &LOFT, day), DAY_NEVER);
	assert_int_equal(going_collect(&going, &LOFT, day), DAY_NEVER);
	assert_int_equal(going_last_hand_in(&going, &LOFT, day), DAY_NONE);
	struct station shut = LOFT;
	shut.shut = &ever;
	shut.shut_count = 1;
	vessel.away_count = 0;
	going = going_of(&inventory, 0, day);
	assert_int_equal(going_collect(&going, &shut, day), DAY_NEVER);
	assert_int_equal(going_last_hand_in(&going, &shut, day), DAY_NONE);
}

/* Without a base each goes by her own days alone. */
TEST(boats_without_a_base_do_not_go_together)
{
	struct vessel vessels[] = {{.goes = MON}, {.goes = FRI}};
	struct inventory inventory = of_vessels(vessels, 2);
	vessels[0].base = "";
	vessels[1].base = "";
	assert_int_equal(going_of(&inventory, 1, day_of("2026-11-02")).goes, FRI);
	vessels[0].base = "Quay";
	vessels[1].base = "Cove";
	assert_int_equal(going_of(&inventory, 1, day_of("2026-11-02")).goes, FRI);
}

/* 14 days at the loft; 42 where it is not in the book, from Monday 2 November the 14th of
 * December; and no day where it is not known when it went. */
TEST(what_is_ashore_can_be_fetched_when_its_time_there_is_over)
{
	struct vessel vessel = {.name = "Boat"};
	struct inventory inventory = of_vessels(&vessel, 1);
	struct item item = {.landed_to = "Loft", .landed_on = day_of("2026-11-02")};
	bool assumed = true;
	assert_int_equal(
	    ashore_collect(&inventory, &item, &LOFT, 1, &assumed), day_of("2026-11-16"));
	assert_false(assumed);
	item.landed_to = "Elsewhere";
	assert_int_equal(
	    ashore_collect(&inventory, &item, &LOFT, 1, &assumed), day_of("2026-12-14"));
	assert_true(assumed);
	/* a station that is shut for good gives nothing back */
	const struct span ever = {day_of("2020-01-01"), day_of("2060-12-31")};
	struct station shut = LOFT;
	shut.shut = &ever;
	shut.shut_count = 1;
	item.landed_to = "Loft";
	assert_int_equal(ashore_collect(&inventory, &item, &shut, 1, &assumed), DAY_NONE);
	item.landed_on = DAY_NONE;
	assert_int_equal(ashore_collect(&inventory, &item, &LOFT, 1, &assumed), DAY_NONE);
}

RUN_TESTS(NULL, NULL)
