/* The edges of slots: nothing to do, too much to go back over, spares that do for half
 * the time, a station that is slow in one month only. Worked by hand. */
#include "becket_test.h"
#include "rota/slots_inside.h"

#include <stdlib.h>

/* 2027-03-01, a Monday. */
enum { BASE = 20878 };

static const size_t PLACE = 0;
static const struct station TEN_DAYS = {
    .weekdays = WEEKDAYS_ALL, .name = "a", .base = "", .turn_round_days = 10};

static struct slot_problem
problem_of(const struct station *station, const struct slot_job *jobs, size_t count)
{
	return (struct slot_problem){.stations = station,
	    .station_count = 1,
	    .jobs = jobs,
	    .job_count = count,
	    .until = BASE + 100,
	    .most_looks = SLOT_LOOKS};
}

TEST(of_no_jobs_there_is_a_plan)
{
	struct slot_plan plan = {0};
	SCOPED_ARENA arena = {0};
	const struct slot_problem problem = problem_of(&TEN_DAYS, NULL, 0);
	slots_solve(&problem, &arena, &plan);
	assert_true(plan.possible && plan.proven);
	assert_int_equal(plan.spares, 0);
	assert_int_equal(plan.failed, SLOT_NONE);
}

/* Ten days for what is handed in in March, a day in April: what goes on 1 April is back
 * before what went on the 31st. With one spare the first goes that day, which is its
 * last, and the second on the 2nd or 3rd; an earlier day would keep the spare until the
 * 5th. */
TEST(an_earlier_day_is_not_the_best_where_a_later_hand_in_is_back_sooner)
{
	static const struct station_pace SLOW = {3, 3, 10};
	const struct station station = {.weekdays = WEEKDAYS_ALL,
	    .name = "a",
	    .base = "",
	    .turn_round_days = 1,
	    .paces = &SLOW,
	    .pace_count = 1};
	static const struct slot_spare SPARE = {{DAY_NONE, DAY_NEVER}, 0};
	struct slot_job jobs[2];
	struct slot_plan plan = {0};
	SCOPED_ARENA arena = {0};
	for (size_t i = 0; i < 2; i++) {
		jobs[i] = (struct slot_job){.boat = i,
		    .first = BASE + 25,
		    .last = i == 0 ? BASE + 31 : BASE + 33,
		    .places = &PLACE,
		    .place_count = 1,
		    .pieces = 1};
	}
	struct slot_problem problem = problem_of(&station, jobs, 2);
	problem.spares = &SPARE;
	problem.spare_count = 1;
	slots_solve(&problem, &arena, &plan);
	assert_true(plan.possible && plan.proven);
	assert_int_equal(plan.slots[0].hand_in, BASE + 31);
	assert_true(plan.slots[1].hand_in > BASE + 31);
}

/* More jobs than the search goes back over, all on one day and none in need of a spare:
 * they are placed one by one. */
TEST(more_jobs_than_are_gone_back_over_are_placed_one_by_one)
{
	enum { MANY = 8001 };
	struct slot_job *jobs = calloc(MANY, sizeof *jobs);
	struct slot_plan plan = {0};
	SCOPED_ARENA arena = {0};
	assert_non_null(jobs);
	for (size_t i = 0; i < MANY; i++) {
		jobs[i] = (struct slot_job){.boat = i,
		    .first = BASE,
		    .last = BASE,
		    .places = &PLACE,
		    .place_count = 1,
		    .pieces = 1,
		    .bare_most = 1};
	}
	const struct slot_problem problem = problem_of(&TEN_DAYS, jobs, MANY);
	slots_solve(&problem, &arena, &plan);
	assert_true(plan.possible && plan.proven);
	assert_int_equal(plan.spares, 0);
	assert_int_equal(plan.slots[MANY - 1].hand_in, BASE);
	free(jobs);
}

/* Each spare is in date for five days, one behind the other, so that on every day there
 * is one and none does for ten. Of up to 64 spares each is tried, and that it can't be is
 * proven; of more it is not tried, and not said to be proven. No day of the 200 after
 * that will do either, and it has none. */
TEST(spares_that_do_for_half_the_time_do_not_do)
{
	enum { MOST = 65 };
	struct slot_spare spares[MOST];
	const struct slot_job job = {
	    .first = BASE, .last = BASE, .places = &PLACE, .place_count = 1, .pieces = 1};
	for (size_t i = 0; i < MOST; i++) {
		day_t first = BASE + 5 * (day_t)i;
		spares[i] = (struct slot_spare){{first, first + 4}, 0};
	}
	for (size_t count = MOST - 1; count <= MOST; count++) {
		struct slot_plan plan = {0};
		SCOPED_ARENA arena = {0};
		struct slot_problem problem = problem_of(&TEN_DAYS, &job, 1);
		problem.spares = spares;
		problem.spare_count = count;
		problem.until = BASE + 200;
		slots_solve(&problem, &arena, &plan);
		assert_false(plan.possible);
		assert_int_equal(plan.proven, count < MOST);
		assert_int_equal(plan.slots[0].place, SLOT_NONE);
	}
}

/* ---- spares that are not alike ---- */

enum { UNLIKE = 5 };

/* Jobs of ten days each, and a large spare and two small ones. */
struct unlike {
	struct slot_job jobs[UNLIKE];
	struct slot_problem problem;
	struct slot_search search;
	struct arena arena;
};

/* Opens it with a job on each of these days; the one on the fifth alone needs the large
 * spare. The first `placed` go on theirs, and have no spare yet. */
static void
open_unlike(const int *days, size_t count, size_t placed, struct unlike *out)
{
	static const struct slot_spare SPARES[] = {{{DAY_NONE, DAY_NEVER}, 6},
	    {{DAY_NONE, DAY_NEVER}, 4}, {{DAY_NONE, DAY_NEVER}, 4}};
	*out = (struct unlike){0};
	for (size_t i = 0; i < count; i++) {
		out->jobs[i] = (struct slot_job){.boat = i,
		    .first = BASE + days[i],
		    .last = BASE + days[i],
		    .places = &PLACE,
		    .place_count = 1,
		    .pieces = 1,
		    .capacity = days[i] == 5 ? 6 : 4};
	}
	out->problem = problem_of(&TEN_DAYS, out->jobs, count);
	out->problem.spares = SPARES;
	out->problem.spare_count = sizeof SPARES / sizeof SPARES[0];
	slot_search_make(&out->problem, &out->arena, &out->search);
	out->search.most_spares = out->problem.spare_count;
	out->search.hand_outs = 100;
	for (size_t i = 0; i < placed; i++) {
		slot_take(
		    &out->search, i, (struct slot_way){PLACE, out->jobs[i].first, false});
	}
}

/* By hand: what goes first must leave the large spare to what goes on the fifth, and takes a
 * small one. What goes when both are back has one of these, not the other small one, though
 * all three may be used. Of two small ones in use the second does where the first is out. */
TEST(given_anew_a_spare_in_use_comes_before_a_fresh_one)
{
	static const struct {
		int days[UNLIKE];
		size_t count;
		size_t in_use;
		size_t spares[UNLIKE];
	} ROWS[] = {
	    {{0, 5, 20}, 3, 2, {1, 0, 0}}, {{0, 2, 5, 10, 12}, 5, 3, {1, 2, 0, 1, 2}}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct unlike unlike;
		open_unlike(ROWS[i].days, ROWS[i].count, ROWS[i].count, &unlike);
		assert_true(slot_give_spares(&unlike.search));
		assert_int_equal(unlike.search.in_use, ROWS[i].in_use);
		for (size_t j = 0; j < ROWS[i].count; j++) {
			assert_int_equal(unlike.search.slots[j].spare, ROWS[i].spares[j]);
		}
		arena_clear(&unlike.arena);
	}
}

/* The same three jobs need four tries: the first with the large spare, with which the second
 * has none, then with a small one, and one for each of the others. */
TEST(spares_are_given_anew_so_often_at_the_most)
{
	static const int DAYS[] = {0, 5, 20};
	for (size_t tries = 3; tries <= 4; tries++) {
		struct unlike unlike;
		open_unlike(DAYS, 3, 3, &unlike);
		unlike.search.hand_outs = tries;
		assert_int_equal(slot_give_spares(&unlike.search), tries == 4);
		assert_int_equal(unlike.search.gave_up, tries == 3);
		arena_clear(&unlike.arena);
	}
}

/* The first job has the large spare; the other, which needs that one, has room only where
 * spares may be given out anew once more. */
TEST(a_job_for_which_spares_may_not_be_given_anew_has_no_room)
{
	static const int DAYS[] = {0, 5};
	for (size_t regives = 0; regives <= 1; regives++) {
		struct unlike unlike;
		open_unlike(DAYS, 2, 1, &unlike);
		slot_hold(&unlike.search, 0, 0);
		unlike.search.regives = regives;
		assert_int_equal(
		    slot_fit_day(&unlike.search, 1, PLACE, BASE + 5), regives == 1);
		assert_int_equal(unlike.search.slots[0].spare, regives);
		arena_clear(&unlike.arena);
	}
}

/* So many jobs on one day and no spare that is large enough: none is tried anew. */
TEST(spares_are_not_given_anew_to_too_many_jobs)
{
	enum { MANY = 8001 };
	static const struct slot_spare SPARES[] = {
	    {{DAY_NONE, DAY_NEVER}, 1}, {{DAY_NONE, DAY_NEVER}, 2}};
	struct slot_job *jobs = calloc(MANY, sizeof *jobs);
	SCOPED_ARENA arena = {0};
	assert_non_null(jobs);
	for (size_t count = MANY - 1; count <= MANY; count++) {
		struct slot_search search = {0};
		for (size_t i = 0; i < count; i++) {
			jobs[i] = (struct slot_job){.boat = i,
			    .first = BASE,
			    .last = BASE,
			    .places = &PLACE,
			    .place_count = 1,
			    .pieces = 1,
			    .capacity = 4};
		}
		struct slot_problem problem = problem_of(&TEN_DAYS, jobs, count);
		problem.spares = SPARES;
		problem.spare_count = 2;
		slot_search_make(&problem, &arena, &search);
		search.most_spares = 2;
		search.hand_outs = 100;
		for (size_t i = 0; i < count; i++) {
			slot_take(&search, i, (struct slot_way){PLACE, BASE, false});
		}
		assert_false(slot_give_spares(&search));
		assert_int_equal(search.gave_up, count == MANY);
	}
	free(jobs);
}

/* ---- what is put off, and put together ---- */

/* Five days each, of a boat that can be without one piece. Two must go on the first day,
 * of which one needs a spare; the third goes when they are back, five days on, and needs
 * none. */
TEST(one_that_goes_when_another_is_back_needs_no_spare)
{
	const struct station station = {
	    .weekdays = WEEKDAYS_ALL, .name = "a", .base = "", .turn_round_days = 5};
	static const struct slot_spare SPARES[] = {
	    {{DAY_NONE, DAY_NEVER}, 0}, {{DAY_NONE, DAY_NEVER}, 0}};
	struct slot_job jobs[3];
	struct slot_plan plan = {0};
	SCOPED_ARENA arena = {0};
	for (size_t i = 0; i < 3; i++) {
		jobs[i] = (struct slot_job){.first = BASE,
		    .last = i == 2 ? BASE + 5 : BASE,
		    .places = &PLACE,
		    .place_count = 1,
		    .pieces = 1,
		    .bare_most = 1};
	}
	struct slot_problem problem = problem_of(&station, jobs, 3);
	problem.spares = SPARES;
	problem.spare_count = 2;
	slots_solve(&problem, &arena, &plan);
	assert_true(plan.possible && plan.proven);
	assert_int_equal(plan.spares, 1);
	assert_int_equal(plan.least_spares, 1);
	assert_int_equal(plan.slots[2].hand_in, BASE + 5);
}

/* So many jobs one behind the other, each ten days from its first to its last; the first
 * spare is too small for any, and the second does for all. Each goes on its last day. */
TEST(many_jobs_are_put_off_with_a_spare_that_is_not_the_first)
{
	enum { MANY = 130 };
	static const struct slot_spare SPARES[] = {
	    {{DAY_NONE, DAY_NEVER}, 0}, {{DAY_NONE, DAY_NEVER}, 6}};
	struct slot_job jobs[MANY];
	struct slot_plan plan = {0};
	SCOPED_ARENA arena = {0};
	for (size_t i = 0; i < MANY; i++) {
		jobs[i] = (struct slot_job){.boat = i,
		    .first = BASE + 20 * (day_t)i,
		    .last = BASE + 20 * (day_t)i + 10,
		    .places = &PLACE,
		    .place_count = 1,
		    .pieces = 1,
		    .capacity = 4};
	}
	struct slot_problem problem = problem_of(&TEN_DAYS, jobs, MANY);
	problem.spares = SPARES;
	problem.spare_count = 2;
	problem.until = BASE + 20 * MANY;
	slots_solve(&problem, &arena, &plan);
	assert_true(plan.possible && plan.proven);
	for (size_t i = 0; i < MANY; i++) {
		assert_int_equal(plan.slots[i].hand_in, jobs[i].last);
		assert_int_equal(plan.slots[i].spare, 1);
	}
}

/* Both must go on one day, one of them to the second station: the other, which may go to
 * either, stays with the first. */
TEST(a_job_joins_others_of_the_days_before_and_none_of_its_own)
{
	static const size_t BOTH[] = {0, 1};
	const struct station stations[] = {TEN_DAYS, TEN_DAYS};
	const struct slot_job jobs[] = {{.boat = 0,
					    .first = BASE + 9,
					    .last = BASE + 9,
					    .places = BOTH,
					    .place_count = 2,
					    .pieces = 1,
					    .bare_most = 1},
	    {.boat = 1,
		.first = BASE + 9,
		.last = BASE + 9,
		.places = BOTH + 1,
		.place_count = 1,
		.pieces = 1,
		.bare_most = 1}};
	struct slot_plan plan = {0};
	SCOPED_ARENA arena = {0};
	struct slot_problem problem = problem_of(stations, jobs, 2);
	problem.station_count = 2;
	problem.together_days = 5;
	slots_solve(&problem, &arena, &plan);
	assert_true(plan.possible);
	assert_int_equal(plan.slots[0].place, 0);
	assert_int_equal(plan.slots[1].place, 1);
}

RUN_TESTS(NULL, NULL)
