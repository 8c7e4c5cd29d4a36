/* Cheapest ways through courses, beside every way through them; what is no course, and
 * what is another one. */
#include "becket_test.h"
#include "draw.h"
#include "years/courses_inside.h"

#include <stdlib.h>

enum { WINTERS = 4, LAYER = 3, MOST_ARCS = 40, STATIONS = 2, ROUNDS = 1000 };

enum { TRIPS = STATIONS * WINTERS };

struct made_up {
	struct course_arc arcs[MOST_ARCS];
	size_t ends[WINTERS];
	struct course course;
	int64_t trip_minor[STATIONS];
	int64_t fees[TRIPS + 1]; /* by station and winter, as trip_at has them */
	struct courses_problem problem;
};

/* A course of three nodes a layer whose nodes 0 are joined to each other, so that there is
 * always a way; and fees for its trips. */
static void
draw_course(unsigned *seed, size_t winters, struct made_up *out)
{
	size_t count = 0;
	for (size_t winter = 0; winter < winters; winter++) {
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
	for (size_t i = 0; i < STATIONS * winters; i++) {
		bool shut = draw(seed, 6) == 0;
		out->fees[i] = shut ? FEE_SHUT : draw(seed, 5 * FEE_SCALE);
	}
	out->course =
	    (struct course){out->arcs, out->ends, 1 + (uint32_t)winters * LAYER};
	out->problem =
	    (struct courses_problem){winters, STATIONS, out->trip_minor, &out->course, 1};
}

/* The least that a way on from a node costs: every way is tried. FEE_SHUT when there is none. */
static int64_t
slow_way(const struct made_up *made_up, size_t winter, uint32_t node)
{
	int64_t best = FEE_SHUT;
	size_t winters = made_up->problem.winters;
	if (winter == winters) {
		return 0;
	}
	for (size_t i = winter == 0 ? 0 : made_up->ends[winter - 1];
	     i < made_up->ends[winter]; i++) {
		const struct course_arc *arc = &made_up->arcs[i];
		int64_t fee =
		    arc->station < 0
			? 0
			: made_up->fees[(size_t)arc->station * winters + winter];
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
		draw_course(&seed, WINTERS, &made_up);
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

/* ---- what a trip would do to the bound ---- */

/* The cheapest way where one trip has another fee. */
static int64_t
slow_way_at(struct made_up *made_up, size_t trip, int64_t fee)
{
	int64_t kept = made_up->fees[trip];
	made_up->fees[trip] = fee;
	int64_t cost = slow_way(made_up, 0, 0);
	made_up->fees[trip] = kept;
	return cost;
}

/* Every trip is open but those that are shut. Two items take the course, and each is
 * charged these fees. */
struct opened {
	size_t members[1];
	size_t trips[TRIPS];
	enum decision decisions[TRIPS + 1];
	int64_t users[TRIPS + 1];
	int64_t charged[TRIPS + 1];
	double made_mean[TRIPS + 1];
	int64_t fees[TRIPS + 1];
	bool tried[TRIPS + 1];
	bool best[TRIPS + 1];
	int64_t with[TRIPS + 1];
	int64_t without[TRIPS + 1];
	int64_t least[TRIPS + 1];
	struct rivals rivals[WINTERS];
	size_t settled[TRIPS];
};

static struct courses_search
open_search(struct made_up *made_up, struct classes *classes, struct opened *room)
{
	size_t trips = STATIONS * made_up->problem.winters;
	*room = (struct opened){0};
	for (size_t i = 0; i < trips; i++) {
		bool shut = made_up->fees[i] == FEE_SHUT;
		room->trips[i] = i;
		room->decisions[i] = shut ? TRIP_UNMADE : TRIP_OPEN;
		classes->items[0].fees[i] = shut ? 0 : made_up->fees[i];
		room->charged[i] = classes->items[0].fees[i] * 2;
	}
	return (struct courses_search){.problem = &made_up->problem,
	    .classes = classes,
	    .members = room->members,
	    .member_count = 1,
	    .trips = room->trips,
	    .trip_count = trips,
	    .decisions = room->decisions,
	    .users = room->users,
	    .charged = room->charged,
	    .made_mean = room->made_mean,
	    .fees = room->fees,
	    .tried = room->tried,
	    .best = room->best,
	    .with = room->with,
	    .without = room->without,
	    .least = room->least,
	    .rivals = room->rivals,
	    .settled = room->settled,
	    .unit = 1,
	    .best_cost = FEE_SHUT};
}

/* In every other round the way along the nodes 0 needs trips as well, so that without one
 * there may be no way: that trip is settled, and no other is. */
TEST(one_pass_tells_what_each_trip_would_do_to_the_bound)
{
	unsigned seed = 20261129;
	size_t needed = 0;
	for (size_t round = 0; round < 400; round++) {
		struct made_up made_up = {.trip_minor = {100, 100}};
		struct arena arena = {0};
		struct classes classes = {0};
		struct fault fault = {0};
		struct opened room;
		size_t next = 0;
		size_t settled = 0;
		draw_course(&seed, 1 + round / 2 % WINTERS, &made_up);
		for (size_t i = 0; i < made_up.problem.winters && round % 2 == 1; i++) {
			size_t first = i == 0 ? 0 : made_up.ends[i - 1];
			made_up.arcs[first].station = (int)draw(&seed, STATIONS);
		}
		const struct course both[] = {made_up.course, made_up.course};
		made_up.problem.courses = both;
		made_up.problem.course_count = 2;
		int64_t cost = slow_way(&made_up, 0, 0);
		assert_true(classes_make(&made_up.problem, &arena, &classes, &fault));
		struct courses_search search = open_search(&made_up, &classes, &room);
		for (size_t i = 0; i < search.trip_count; i++) {
			bool open = made_up.fees[i] < FEE_SHUT;
			settled += cost < FEE_SHUT && open &&
				   slow_way_at(&made_up, i, FEE_SHUT) == FEE_SHUT;
		}
		needed += settled;
		if (cost < FEE_SHUT) {
			assert_true(courses_settle(&search, &next));
			assert_int_equal(search.settled_count, settled);
		}
		for (size_t i = 0; i < search.trip_count && cost < FEE_SHUT; i++) {
			int64_t without = slow_way_at(&made_up, i, FEE_SHUT);
			assert_int_equal(
			    room.with[i], 2 * (slow_way_at(&made_up, i, 0) - cost));
			assert_int_equal(room.without[i],
			    without == FEE_SHUT ? FEE_SHUT : 2 * (without - cost));
		}
		for (size_t i = 0; i < search.settled_count; i++) {
			assert_int_equal(room.decisions[room.settled[i]], TRIP_MADE);
		}
		arena_clear(&arena);
	}
	assert_true(needed > 50);
}

/* One winter, two stations with a trip of 20 each: along to the first an item costs 10,
 * and without a trip as the row has it, where it can do without. Whatever the mean makes of
 * the first trip, the plan that is kept is the cheapest, one change from it; that an item
 * then has no way at all is not mended. */
TEST(of_a_mean_the_first_trip_is_taken_and_mended_like_any_other)
{
	static const struct {
		int64_t without; /* -1: it has no such way */
		double mean;
		int64_t cost; /* -1: no plan is found */
		bool made;
	} ROWS[] = {{100, 0, 30, true}, {100, 1, 30, true}, {15, 1, 15, false},
	    {-1, 1, 30, true}, {-1, 0, -1, false}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct made_up made_up = {
		    .arcs = {{0, 1, 0, 10, 0}, {0, 1, ARC_NO_TRIP, ROWS[i].without, 0}},
		    .ends = {ROWS[i].without < 0 ? 1 : 2},
		    .trip_minor = {20, 20}};
		struct arena arena = {0};
		struct classes classes = {0};
		struct fault fault = {0};
		struct opened room;
		made_up.course = (struct course){made_up.arcs, made_up.ends, 2};
		made_up.problem = (struct courses_problem){
		    1, STATIONS, made_up.trip_minor, &made_up.course, 1};
		assert_true(classes_make(&made_up.problem, &arena, &classes, &fault));
		struct courses_search search = open_search(&made_up, &classes, &room);
		room.made_mean[0] = ROWS[i].mean;
		courses_try_means(&search, 0.5);
		assert_int_equal(search.best_cost,
		    ROWS[i].cost < 0 ? FEE_SHUT : ROWS[i].cost * FEE_SCALE);
		assert_int_equal(room.best[0], ROWS[i].made);
		arena_clear(&arena);
	}
}

/* ---- what is no course, and what is another one ---- */

static enum fault_kind
fault_of(const struct courses_problem *problem)
{
	struct arena arena = {0};
	struct classes classes = {0};
	struct fault fault = {0};
	bool made = classes_make(problem, &arena, &classes, &fault);
	arena_clear(&arena);
	return made ? FAULT_NONE : fault.kind;
}

/* Of a winter with two nodes, one station and the dearest prices, each arc is as it may
 * just be or one too far. What comes behind is sound. */
TEST(an_arc_that_leads_nowhere_or_costs_too_much_is_a_fault)
{
	static const struct {
		struct course_arc arc;
		enum fault_kind kind;
	} ROWS[] = {
	    {{0, 1, 0, YEARS_MINOR_MOST, 0}, FAULT_NONE},
	    {{1, 1, ARC_NO_TRIP, 0, 0}, FAULT_NONE},
	    {{2, 1, 0, 0, 0}, FAULT_INPUT},
	    {{0, 2, 0, 0, 0}, FAULT_INPUT},
	    {{0, 1, ARC_NO_TRIP - 1, 0, 0}, FAULT_INPUT},
	    {{0, 1, 1, 0, 0}, FAULT_INPUT},
	    {{0, 1, 0, -1, 0}, FAULT_INPUT},
	    {{0, 1, 0, YEARS_MINOR_MOST + 1, 0}, FAULT_INPUT},
	};
	static const struct course_arc SOUND = {0, 1, ARC_NO_TRIP, 0, 0};
	static const int64_t trip_minor[] = {YEARS_MINOR_MOST};
	static const size_t ends[] = {3};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const struct course_arc arcs[] = {SOUND, ROWS[i].arc, SOUND};
		const struct course course[] = {{arcs, ends, 2}, {arcs, ends, 2}};
		const struct courses_problem problem = {1, 1, trip_minor, course, 2};
		assert_int_equal(fault_of(&problem), ROWS[i].kind);
	}
}

/* 2^60 in parts of 64 is the most that may come of all: 180,143 times the dearest price,
 * and not once more. */
TEST(what_is_too_large_to_be_added_up_is_a_fault)
{
	enum { MOST = 180143 };
	const struct course_arc arc = {0, 1, ARC_NO_TRIP, YEARS_MINOR_MOST, 0};
	const size_t ends[] = {1};
	const int64_t below[] = {-1, 0};
	const int64_t above[] = {YEARS_MINOR_MOST + 1, 0};
	const int64_t dearest[] = {YEARS_MINOR_MOST, 0};
	struct course *courses = calloc(MOST + 1, sizeof *courses);
	assert_non_null(courses);
	for (size_t i = 0; i < MOST + 1; i++) {
		courses[i] = (struct course){&arc, ends, 2};
	}
	assert_int_equal(
	    fault_of(&(struct courses_problem){1, 0, NULL, courses, MOST}), FAULT_NONE);
	assert_int_equal(
	    fault_of(&(struct courses_problem){1, 0, NULL, courses, MOST + 1}),
	    FAULT_INPUT);
	assert_int_equal(
	    fault_of(&(struct courses_problem){MOST, 2, dearest, NULL, 0}), FAULT_NONE);
	assert_int_equal(
	    fault_of(&(struct courses_problem){MOST + 1, 2, dearest, NULL, 0}),
	    FAULT_INPUT);
	assert_int_equal(
	    fault_of(&(struct courses_problem){1, 2, below, courses, 1}), FAULT_INPUT);
	assert_int_equal(
	    fault_of(&(struct courses_problem){1, 2, above, courses, 1}), FAULT_INPUT);
	assert_int_equal(
	    fault_of(&(struct courses_problem){0, 0, NULL, courses, 0}), FAULT_INPUT);
	free(courses);
}

/* Each of many courses differs from the first in one figure: there are two classes,
 * however they fall into the table by their digest. */
TEST(courses_that_differ_in_one_figure_are_not_taken_for_one)
{
	enum { FIGURES = 5, VALUES = 100 };

	static const int64_t trip_minor[VALUES + 3];
	static const size_t ends[] = {1, 2};
	for (unsigned i = 0; i < FIGURES * VALUES; i++) {
		struct course_arc arcs[2][2];
		for (size_t k = 0; k < 2; k++) {
			arcs[k][0] = (struct course_arc){0, 1, 0, 0, 0};
			arcs[k][1] = (struct course_arc){1, 2, 0, 0, 0};
		}
		struct course_arc *other = &arcs[1][1];
		unsigned value = 3 + i / FIGURES;
		other->from = i % FIGURES == 0 ? value : other->from;
		other->to = i % FIGURES == 1 ? value : other->to;
		other->station = i % FIGURES == 2 ? (int)value : other->station;
		other->minor = i % FIGURES == 3 ? value : other->minor;
		other->work = i % FIGURES == 4 ? value : other->work;
		const struct course courses[] = {{arcs[0], ends, VALUES + 3},
		    {arcs[1], ends, VALUES + 3}, {arcs[0], ends, VALUES + 3}};
		const struct courses_problem problem = {
		    2, VALUES + 3, trip_minor, courses, 3};
		struct arena arena = {0};
		struct classes classes = {0};
		struct fault fault = {0};
		assert_true(classes_make(&problem, &arena, &classes, &fault));
		assert_int_equal(classes.count, 2);
		assert_int_equal(classes.items[0].weight, 2);
		assert_int_equal(classes.of_course[1], 1);
		assert_int_equal(classes.of_course[2], 0);
		arena_clear(&arena);
	}
}

/* Where a winter ends with other arcs, or there is a node more, it is another course too.
 * The table has 16 slots for up to seven courses; of eight and more none is lost. */
TEST(of_many_courses_each_has_its_class)
{
	enum { COURSES = 20 };
	static const struct course_arc ARCS[] = {{0, 1, ARC_NO_TRIP, 0, 0},
	    {0, 1, ARC_NO_TRIP, 0, 0}, {0, 1, ARC_NO_TRIP, 0, 0}};
	static const size_t EARLY[] = {1, 3};
	static const size_t LATE[] = {2, 3};
	struct course courses[COURSES];
	for (unsigned i = 0; i < COURSES; i++) {
		courses[i] =
		    (struct course){ARCS, i % 2 == 0 ? EARLY : LATE, 2 + i / 2 % 5};
	}
	const struct courses_problem problem = {2, 0, NULL, courses, COURSES};
	struct arena arena = {0};
	struct classes classes = {0};
	struct fault fault = {0};
	assert_true(classes_make(&problem, &arena, &classes, &fault));
	assert_int_equal(classes.count, COURSES / 2);
	for (size_t i = 0; i < COURSES; i++) {
		assert_int_equal(classes.of_course[i], i % 10);
		assert_int_equal(classes.items[i % 10].weight, 2);
	}
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
