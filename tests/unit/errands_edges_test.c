/* Errands at their limits: trips that are few, weeks that are full. Every day and sum is
 * derived beside the test. */
#include "becket_test.h"
#include "in_words.h"
#include "winter/errands_inside.h"

/* A thing of one piece with these ways. */
static struct errand_thing
thing_of(const struct errand_way *ways, size_t count)
{
	return (struct errand_thing){.ways = ways, .way_count = count, .pieces = 1};
}

static const struct errand_effort EFFORT = {OPEN_NODES, 0, BRANCH_LOOKS, OPEN_LOOKS};

/* A plan as many things get it: few are not looked at one by one. */
static struct errand_plan
plan_by_branching(const struct errand_stop *stops, size_t stop_count,
    const struct errand_thing *things, size_t thing_count, struct errand_effort effort,
    struct arena *arena)
{
	struct errand_plan plan = {0};
	struct errand_working working = {.stops = stops,
	    .stop_count = stop_count,
	    .things = things,
	    .thing_count = thing_count,
	    .effort = effort,
	    .arena = arena};
	errands_plan_working(&working, &plan);
	return plan;
}

/* ---- few trips ---- */

/* Four things, each to a station of its own, whose trips cost 10, 20, 30 and 40; of three trips the
 * dearest is left out. */
TEST(of_four_stations_the_three_cheapest_are_gone_to)
{
	struct station stations[4];
	struct errand_stop stops[4] = {0};
	struct errand_way ways[4];
	struct errand_thing things[4];
	struct errand_plan plan = {0};
	struct arena arena = {0};
	for (size_t i = 0; i < 4; i++) {
		stations[i] = (struct station){
		    .weekdays = WEEKDAYS_ALL, .trip_minor = 1000 * ((int64_t)i + 1)};
		stops[i].station = &stations[i];
		ways[i] = (struct errand_way){
		    i, day_of("2026-11-02"), day_of("2026-11-30"), DAY_NEVER, 0, 0};
		things[i] = thing_of(&ways[i], 1);
	}
	errands_plan(stops, 4, things, 4, 3, &arena, &plan);
	assert_int_equal(plan.count, 3);
	assert_int_equal(plan.minor, 6000);
	assert_int_equal(plan.errand_of[3], NO_ERRAND);
	assert_true(plan.proven);
	arena_clear(&arena);
}

/* Two trips: two things that bind go to the first and to the second station, one that may
 * go to either goes along where it costs 2 and not 9, and what can only go to the third
 * stays behind. */
TEST(what_goes_along_on_few_trips_goes_where_it_is_cheaper)
{
	const day_t first = day_of("2026-11-02");
	const day_t by = day_of("2026-11-30");
	for (int turn = 0; turn < 4; turn++) {
		const struct station station = {
		    .weekdays = WEEKDAYS_ALL, .weekly_pieces = turn < 2 ? 0 : 5};
		const struct errand_stop stops[] = {
		    {.station = &station}, {.station = &station}, {.station = &station}};
		size_t cheap = (size_t)turn % 2;
		const struct errand_way ways[] = {
		    {0, first, by, DAY_NEVER, cheap == 0 ? 2 : 9, 0},
		    {1, first, by, DAY_NEVER, cheap == 0 ? 9 : 2, 0},
		    {0, first, by, DAY_NEVER, 0, 0},
		    {1, first, by, DAY_NEVER, 0, 0},
		    {2, first, by, DAY_NEVER, 0, 0},
		};
		struct errand_thing things[] = {thing_of(ways, 2), thing_of(&ways[2], 1),
		    thing_of(&ways[3], 1), thing_of(&ways[4], 1)};
		struct errand_plan plan = {0};
		struct arena arena = {0};
		things[1].binding = true;
		things[2].binding = true;
		errands_plan(stops, 3, things, 4, 2, &arena, &plan);
		assert_int_equal(plan.count, 2);
		assert_int_equal(plan.errand_of[0], cheap);
		assert_int_equal(plan.errand_of[1], 0);
		assert_int_equal(plan.errand_of[2], 1);
		assert_int_equal(plan.errand_of[3], NO_ERRAND);
		assert_int_equal(plan.minor, 2);
		arena_clear(&arena);
	}
}

/* ---- joining ---- */

/* What goes in in January takes 14 days, in February 2. The first, of 28 January, is
 * ready on 11 February, and must be back then. The second, of the 1st, ready on the 3rd,
 * can wait until the 12th and so not go on the 11th itself; the third, of the 2nd, is put
 * off to the 11th. The fourth goes on the 5th in any case: the second is fetched with it,
 * and not on the 11th with the third, which stands before it. */
TEST(a_hand_in_that_was_put_off_is_no_longer_the_next)
{
	enum { COUNT = 4 };

	static const char *const DAYS[COUNT][3] = {
	    {"2027-01-28", "2027-02-11", "2027-02-11"},
	    {"2027-02-01", "2027-02-03", "2027-02-12"},
	    {"2027-02-02", "2027-02-04", "2027-02-28"},
	    {"2027-02-05", "2027-02-07", "2027-02-07"},
	};
	const struct station_pace paces[] = {{1, 1, 14}, {2, 2, 2}};
	const struct station station = {
	    .weekdays = WEEKDAYS_ALL, .paces = paces, .pace_count = 2};
	const struct errand_stop stop = {.station = &station};
	struct errand_way ways[COUNT];
	struct errand_thing things[COUNT];
	struct errand errands[COUNT];
	size_t errand_of[COUNT] = {0, 1, 2, 3};
	for (size_t i = 0; i < COUNT; i++) {
		day_t day = day_of(DAYS[i][0]);
		day_t ready = day_of(DAYS[i][1]);
		ways[i] =
		    (struct errand_way){0, day, day_of(DAYS[i][2]), DAY_NEVER, 0, 0};
		things[i] = thing_of(&ways[i], 1);
		errands[i] = (struct errand){0, day, ready, ready, false};
	}
	struct errand_plan plan = {
	    .errands = errands, .count = COUNT, .errand_of = errand_of};
	errands_join(&stop, things, COUNT, &plan);
	assert_day(errands[0].collect, "2027-02-11");
	assert_day(errands[1].hand_in, "2027-02-01");
	assert_day(errands[1].collect, "2027-02-05");
	assert_day(errands[2].hand_in, "2027-02-11");
	assert_day(errands[2].collect, "2027-02-13");
	assert_day(errands[3].collect, "2027-02-07");
}

/* ---- weekly limits ---- */

/* The first station takes one piece a week and has one to come in each; the second costs
 * 50 for each of two things and 100 for the trip. */
TEST(a_station_that_is_full_in_every_week_is_not_gone_to)
{
	const struct station full = {.weekdays = WEEKDAYS_ALL, .weekly_pieces = 1};
	const struct station other = {
	    .weekdays = WEEKDAYS_ALL, .weekly_pieces = 5, .trip_minor = 100};
	const day_t monday = day_of("2026-11-02");
	const struct errand_load loads[] = {
	    {errand_week(monday), 1}, {errand_week(monday) + 1, 1}};
	const struct errand_stop stops[] = {{&full, loads, 2}, {.station = &other}};
	const struct errand_way ways[] = {
	    {0, monday, monday + 13, DAY_NEVER, 10, 0},
	    {1, monday, monday + 13, DAY_NEVER, 50, 0},
	};
	const struct errand_thing things[] = {thing_of(ways, 2), thing_of(ways, 2)};
	struct arena arena = {0};
	struct errand_plan plan = plan_by_branching(stops, 2, things, 2, EFFORT, &arena);
	assert_int_equal(plan.count, 1);
	assert_int_equal(plan.errands[0].stop, 1);
	assert_int_equal(plan.minor, 200);
	assert_true(plan.proven);
	arena_clear(&arena);
}

/* Of six things each gets cheaper day by day at a station of its own, from 200 to 100 on
 * the last of 101 days; all could go for 1000 to one that takes so many a week. Of so
 * many days no bound is sought, and none is claimed. */
TEST(of_more_days_than_are_looked_at_together_nothing_is_proven)
{
	enum { COUNT = 6, DAYS = 101 };

	static struct errand_way ways[COUNT][DAYS + 1];
	const struct station free = {.weekdays = WEEKDAYS_ALL};
	const struct station weekly = {.weekdays = WEEKDAYS_ALL, .weekly_pieces = 10};
	const day_t first = day_of("2026-11-02");
	struct errand_stop stops[COUNT + 1] = {0};
	struct errand_thing things[COUNT];
	for (size_t i = 0; i < COUNT; i++) {
		stops[i].station = &free;
		for (int k = 0; k < DAYS; k++) {
			day_t day = first + k;
			ways[i][k] =
			    (struct errand_way){i, day, day, day, DAYS + 99 - k, 0};
		}
		ways[i][DAYS] =
		    (struct errand_way){COUNT, first, first + 6, DAY_NEVER, 1000, 0};
		things[i] = thing_of(ways[i], DAYS + 1);
	}
	stops[COUNT].station = &weekly;
	struct arena arena = {0};
	struct errand_plan plan =
	    plan_by_branching(stops, COUNT + 1, things, COUNT, EFFORT, &arena);
	assert_int_equal(plan.minor, 600);
	assert_int_equal(plan.count, COUNT);
	for (size_t i = 0; i < plan.count; i++) {
		assert_int_equal(plan.errands[i].hand_in, first + 100);
	}
	assert_false(plan.proven);
	assert_true(plan.bound_minor <= plan.minor);
	arena_clear(&arena);
}

/* Sums so large that they could not be charged in parts of a unit: nothing is proven, and
 * no reason for the station given. */
TEST(of_sums_beyond_all_measure_nothing_is_proven)
{
	const int64_t dear = (int64_t)1 << 54;
	const struct station weekly = {.weekdays = WEEKDAYS_ALL, .weekly_pieces = 5};
	const struct errand_stop stops[] = {{.station = &weekly}, {.station = &weekly}};
	const day_t monday = day_of("2026-11-02");
	const struct errand_way ways[] = {{0, monday, monday + 6, DAY_NEVER, dear, 0},
	    {1, monday, monday + 6, DAY_NEVER, dear, 1}};
	const struct errand_thing things[] = {thing_of(ways, 2), thing_of(ways, 2)};
	const struct errands_asked asked = {stops, 2, things, 2, ERRANDS_ANY};
	struct errand_reason reason = {0};
	struct arena arena = {0};
	struct errand_plan plan = plan_by_branching(stops, 2, things, 2, EFFORT, &arena);
	assert_int_equal(plan.count, 1);
	assert_true(plan.minor == 2 * dear);
	assert_false(plan.proven);
	errands_why(&asked, &plan, 0, &arena, &reason);
	assert_false(reason.any);
	arena_clear(&arena);
}

/* Two things and a week in which a station takes one: it asks nothing, and the other one
 * 999,999,999,999.99, the most that is read as a price. Both go, whatever that costs; where
 * there is the one station alone, one of them has no room. */
TEST(nothing_is_so_dear_that_it_is_left_out)
{
	const int64_t most = 99999999999999;
	const struct station weekly = {.weekdays = WEEKDAYS_ALL, .weekly_pieces = 1};
	const struct errand_stop stops[] = {{.station = &weekly}, {.station = &weekly}};
	const day_t monday = day_of("2026-11-02");
	const struct errand_way ways[] = {{0, monday, monday + 6, DAY_NEVER, 0, 0},
	    {1, monday, monday + 6, DAY_NEVER, most, 0}};
	for (size_t count = 1; count <= 2; count++) {
		const struct errand_thing things[] = {
		    thing_of(ways, count), thing_of(ways, count)};
		struct errand_plan plan = {0};
		struct arena arena = {0};
		errands_plan(stops, count, things, 2, ERRANDS_ANY, &arena, &plan);
		assert_int_equal(plan.count, count);
		assert_int_equal(plan.minor, count == 1 ? 0 : most);
		assert_int_equal(plan.bound_minor, plan.minor);
		assert_true(plan.proven);
		assert_int_equal(
		    (plan.errand_of[0] == NO_ERRAND) + (plan.errand_of[1] == NO_ERRAND),
		    2 - count);
		arena_clear(&arena);
	}
}

/* ---- reasons ---- */

/* One thing may go to either station, the other to the first alone. Of one trip at most,
 * that to the first is proven, and for the plan of two trips beside it, within weekly
 * limits, nothing is. */
TEST(of_a_search_that_proves_nothing_no_reason_is_made)
{
	const struct station weekly = {
	    .weekdays = WEEKDAYS_ALL, .weekly_pieces = 5, .trip_minor = 100};
	const struct errand_stop stops[] = {{.station = &weekly}, {.station = &weekly}};
	const day_t monday = day_of("2026-11-02");
	const struct errand_way ways[] = {{0, monday, monday + 6, DAY_NEVER, 0, 0},
	    {1, monday, monday + 6, DAY_NEVER, 0, 0}};
	const struct errand_thing things[] = {thing_of(ways, 2), thing_of(ways, 1)};
	struct errands_asked asked = {stops, 2, things, 2, 1};
	struct errand_reason reason = {0};
	struct errand_plan plan = {0};
	struct arena arena = {0};
	errands_plan(stops, 2, things, 2, 1, &arena, &plan);
	assert_int_equal(plan.count, 1);
	assert_true(plan.proven);
	errands_why(&asked, &plan, 0, &arena, &reason);
	assert_false(reason.any);
	/* of any number it is: the first station saves a trip */
	asked.most = ERRANDS_ANY;
	errands_why(&asked, &plan, 0, &arena, &reason);
	assert_true(reason.any);
	assert_int_equal(reason.saves_minor, 100);
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
