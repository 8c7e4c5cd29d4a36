/* Cheapest ways through courses, beside every way through them. */
#include "becket_test.h"
#include "draw.h"
#include "years/courses_inside.h"

enum { WINTERS = 4, LAYER = 3, MOST_ARCS = 40, STATIONS = 2, ROUNDS = 1000 };

enum { TRIPS = STATIONS * WINTERS };

struct made_up {
	struct course_arc arcs[MOST_ARCS];
	size_t ends[WINTERS];
	struct course course;
	int64_t trip_minor[STATIONS];
	int64_t fees[TRIPS + 1];
	struct courses_problem problem;
};

/* A course of three nodes a layer whose nodes 0 are joined to each other, so that there is
 * always a way; and fees for its trips. */
static void
draw_course(unsigned *seed, struct made_up *out)
{
	size_t count = 0;
	for (size_t winter = 0; winter < WINTERS; winter++) {
		unsigned extra = draw(seed, 9);
		for (unsigned i = 0; i <= extra; i++) {
			unsigned from = i == 0 || winter == 0 ? 0 : draw(seed, LAYER);
			unsigned to = i == 0 ? 0 : draw(seed, LAYER);
			out->arcs[count++] = (struct course_arc){
			    .from = winter == 0
					? 0
					: (uint32_t)(1 + (winter - 1) * LAYER + from),
			    .to = (uint32_t)(1 + winter * LAYER + to),
			    .station =
				i == 0 ? ARC_NO_TRIP : (int)draw(seed, STATIONS + 1) - 1,
			    .minor = draw(seed, 12),
			};
		}
		out->ends[winter] = count;
	}
	for (size_t i = 0; i < TRIPS; i++) {
		bool shut = draw(seed, 6) == 0;
		out->fees[i] = shut ? FEE_SHUT : draw(seed, 5 * FEE_SCALE);
	}
	out->course = (struct course){out->arcs, out->ends, 1 + WINTERS * LAYER};
	out->problem =
	    (struct courses_problem){WINTERS, STATIONS, out->trip_minor, &out->course, 1};
}

/* The least that a way on from a node costs: every way is tried. FEE_SHUT when there is none. */
static int64_t
slow_way(const struct made_up *made_up, size_t winter, uint32_t node)
{
	int64_t best = FEE_SHUT;
	if (winter == WINTERS) {
		return 0;
	}
	for (size_t i = winter == 0 ? 0 : made_up->ends[winter - 1];
	     i < made_up->ends[winter]; i++) {
		const struct course_arc *arc = &made_up->arcs[i];
		int64_t fee =
		    arc->station < 0
			? 0
			: made_up->fees[(size_t)arc->station * WINTERS + winter];
		if (arc->from != node || fee >= FEE_SHUT) {
			continue;
		}
		int64_t on = slow_way(made_up, winter + 1, arc->to);
		int64_t cost = on >= FEE_SHUT ? on : on + arc->minor * FEE_SCALE + fee;
		best = cost < best ? cost : best;
	}
	return best;
}

/* What a way costs, arc by arc. */
static int64_t
cost_along(const struct made_up *made_up, const size_t *path)
{
	int64_t sum = 0;
	for (size_t winter = 0; winter < WINTERS; winter++) {
		const struct course_arc *arc = &made_up->arcs[path[winter]];
		sum += arc->minor * FEE_SCALE +
		       (arc->station < 0
			       ? 0
			       : made_up->fees[(size_t)arc->station * WINTERS + winter]);
	}
	return sum;
}

TEST(the_way_that_is_found_costs_what_the_cheapest_of_all_ways_costs)
{
	unsigned seed = 20261125;
	for (int round = 0; round < ROUNDS; round++) {
		struct made_up made_up = {0};
		struct arena arena = {0};
		struct classes classes = {0};
		struct fault fault = {0};
		size_t path[WINTERS] = {0};
		draw_course(&seed, &made_up);
		assert_true(classes_make(&made_up.problem, &arena, &classes, &fault));
		int64_t cost = class_walk(
		    &made_up.problem, &classes, &classes.items[0], made_up.fees, path);
		assert_int_equal(cost, slow_way(&made_up, 0, 0));
		assert_int_equal(cost, cost_along(&made_up, path));
		arena_clear(&arena);
	}
}

/* Two ways cost the same; the later one is less work. */
TEST(of_ways_that_cost_the_same_the_one_with_the_least_work_is_found)
{
	const struct course_arc arcs[] = {
	    {0, 1, ARC_NO_TRIP, 10, 2}, {0, 2, ARC_NO_TRIP, 10, 1}};
	const size_t ends[] = {2};
	const struct course course = {arcs, ends, 3};
	const struct courses_problem problem = {1, 0, NULL, &course, 1};
	const int64_t fees[] = {0};
	size_t path[1] = {0};
	struct arena arena = {0};
	struct classes classes = {0};
	struct fault fault = {0};
	assert_true(classes_make(&problem, &arena, &classes, &fault));
	int64_t cost =
	    class_walk_least_work(&problem, &classes, &classes.items[0], fees, path);
	assert_int_equal(cost, 10 * FEE_SCALE);
	assert_int_equal(path[0], 1);
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
