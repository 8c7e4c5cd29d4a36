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

static void
gear_is_fetched_on_a_day_of_hers(void **state)
{
	(void)state;
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

static void
nobody_goes_on_a_day_on_which_one_of_the_base_is_away(void **state)
{
	(void)state;
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
}

static void
a_boat_that_has_left_has_no_say(void **state)
{
	(void)state;
	struct vessel vessels[] = {
	    {.goes = FRI}, {.goes = SAT, .leaves = true, .left = day_of("2026-06-01")}};
	struct inventory inventory = of_vessels(vessels, 2);
	struct going going = going_of(&inventory, 0, day_of("2026-11-02"));
	assert_int_equal(going.goes, FRI);
}

static void
where_they_share_no_day_any_of_theirs_will_do(void **state)
{
	(void)state;
	struct vessel vessels[] = {{.goes = MON}, {.goes = WED}};
	struct inventory inventory = of_vessels(vessels, 2);
	struct going going = going_of(&inventory, 0, day_of("2026-11-02"));
	assert_int_equal(going.goes, MON | WED);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
	    cmocka_unit_test(gear_is_fetched_on_a_day_of_hers),
	    cmocka_unit_test(nobody_goes_on_a_day_on_which_one_of_the_base_is_away),
	    cmocka_unit_test(a_boat_that_has_left_has_no_say),
	    cmocka_unit_test(where_they_share_no_day_any_of_theirs_will_do),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
