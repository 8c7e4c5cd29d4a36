/* Lets another program check the solver of the years ahead. Input, all whole numbers: how
 * many problems; for each `winters stations`, the cost of a trip to each station, how many
 * courses; for each course `nodes arcs` and its arcs by winter, each `winter from to station
 * minor` (station -1 for no trip). For each problem a line of output: `minor bound proven
 * looks seconds`, the processor's seconds of the solving alone. */
#include "years/courses.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { MOST = 10000000 };

static long
number(void)
{
	long value = 0;
	/* NOLINTNEXTLINE(cert-err34-c): the input is our own test's */
	if (scanf("%ld", &value) != 1 || value < -1 || value > MOST) {
		(void)fprintf(stderr, "courses_driver: not a problem\n");
		exit(2);
	}
	return value;
}

static void *
room(struct arena *arena, size_t count, size_t size)
{
	void *memory = arena_alloc(arena, (count + 1) * size);
	if (memory == NULL) {
		(void)fprintf(stderr, "courses_driver: out of memory\n");
		exit(3);
	}
	return memory;
}

static struct course
read_course(struct arena *arena, size_t winters)
{
	uint32_t nodes = (uint32_t)number();
	size_t count = (size_t)number();
	struct course_arc *arcs = room(arena, count, sizeof *arcs);
	size_t *ends = room(arena, winters, sizeof *ends);
	for (size_t i = 0; i < count; i++) {
		size_t winter = (size_t)number();
		arcs[i].from = (uint32_t)number();
		arcs[i].to = (uint32_t)number();
		arcs[i].station = (int)number();
		arcs[i].minor = number();
		ends[winter < winters ? winter : winters] = i + 1;
	}
	return (struct course){arcs, ends, nodes};
}

static struct courses_problem
read_problem(struct arena *arena)
{
	struct courses_problem problem = {0};
	problem.winters = (size_t)number();
	problem.stations = (size_t)number();
	int64_t *trips = room(arena, problem.stations, sizeof *trips);
	for (size_t i = 0; i < problem.stations; i++) {
		trips[i] = number();
	}
	problem.trip_minor = trips;
	problem.course_count = (size_t)number();
	struct course *courses = room(arena, problem.course_count, sizeof *courses);
	for (size_t i = 0; i < problem.course_count; i++) {
		courses[i] = read_course(arena, problem.winters);
	}
	problem.courses = courses;
	return problem;
}

static double
seconds(void)
{
	struct timespec now;
	(void)clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
	return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

int
main(void)
{
	for (long left = number(); left > 0; left--) {
		struct arena arena = {0};
		struct fault fault = {0};
		struct courses_answer answer = {0};
		struct courses_problem problem = read_problem(&arena);
		double began = seconds();
		if (!courses_solve(&problem, YEARS_LOOKS, &arena, &answer, &fault)) {
			(void)fprintf(stderr, "courses_driver: %s\n", fault.text);
			return 2;
		}
		(void)printf("%lld %lld %d %zu %.6f\n", (long long)answer.minor,
		    (long long)answer.bound, answer.proven, answer.looks,
		    seconds() - began);
		arena_clear(&arena);
	}
	return 0;
}
