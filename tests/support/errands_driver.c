/* Lets another program check the choice of trips. Input, all whole numbers: how many problems;
 * for each how many stops, and for each stop `turn_round trip weekly weekdays loads` and its
 * loads, each `week pieces`; then how many things, and for each `pieces ways` and its ways,
 * each `stop first back_by minor strangeness`, days counted from 1970. For each problem a line
 * of output: `left_out minor errands proven bound bound_errands seconds`: the pieces that no
 * week has room for, and the processor's seconds of the choosing alone. With the argument
 * `branching` no winter is too small for the search that is made for big ones. */
#include "winter/errands_inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { MOST = 100000000 };

static long
number(void)
{
	long value = 0;
	/* NOLINTNEXTLINE(cert-err34-c): the input is our own test's */
	if (scanf("%ld", &value) != 1 || value < 0 || value > MOST) {
		(void)fprintf(stderr, "errands_driver: not a problem\n");
		exit(2);
	}
	return value;
}

static void *
room(struct arena *arena, size_t count, size_t size)
{
	void *memory = arena_alloc(arena, (count + 1) * size);
	if (memory == NULL) {
		(void)fprintf(stderr, "errands_driver: out of memory\n");
		exit(3);
	}
	return memory;
}

static struct errand_stop
read_stop(struct arena *arena)
{
	struct station *station = room(arena, 1, sizeof *station);
	struct errand_stop stop = {.station = station};
	station->turn_round_days = (int)number();
	station->trip_minor = number();
	station->weekly_pieces = (int)number();
	station->weekdays = (unsigned)number();
	stop.load_count = (size_t)number();
	struct errand_load *loads = room(arena, stop.load_count, sizeof *loads);
	for (size_t i = 0; i < stop.load_count; i++) {
		loads[i].week = (int)number();
		loads[i].pieces = (int)number();
	}
	stop.loads = loads;
	return stop;
}

static struct errand_thing
read_thing(struct arena *arena)
{
	struct errand_thing thing = {.pieces = (int)number()};
	thing.way_count = (size_t)number();
	struct errand_way *ways = room(arena, thing.way_count, sizeof *ways);
	for (size_t i = 0; i < thing.way_count; i++) {
		ways[i].stop = (size_t)number();
		ways[i].first = (day_t)number();
		ways[i].back_by = (day_t)number();
		ways[i].last = DAY_NEVER;
		ways[i].minor = number();
		ways[i].strangeness = (int)number();
	}
	thing.ways = ways;
	return thing;
}

static double
seconds(void)
{
	struct timespec now;
	(void)clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
	return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static int
solve(struct arena *arena, size_t most_nodes)
{
	struct errand_plan plan = {0};
	size_t stop_count = (size_t)number();
	struct errand_stop *stops = room(arena, stop_count, sizeof *stops);
	for (size_t i = 0; i < stop_count; i++) {
		stops[i] = read_stop(arena);
	}
	size_t thing_count = (size_t)number();
	struct errand_thing *things = room(arena, thing_count, sizeof *things);
	for (size_t i = 0; i < thing_count; i++) {
		things[i] = read_thing(arena);
	}
	struct errand_working working = {
	    .stops = stops,
	    .stop_count = stop_count,
	    .things = things,
	    .thing_count = thing_count,
	    .arena = arena,
	    .effort = {OPEN_NODES, most_nodes, BRANCH_LOOKS, OPEN_LOOKS},
	};
	double began = seconds();
	errands_plan_working(&working, &plan);
	double took = seconds() - began;
	long left_out = 0;
	for (size_t i = 0; i < thing_count; i++) {
		left_out += plan.errand_of[i] == NO_ERRAND ? things[i].pieces : 0;
	}
	(void)printf("%ld %lld %zu %d %lld %zu %.6f\n", left_out, (long long)plan.minor,
	    plan.count, plan.proven, (long long)plan.bound_minor, plan.bound_count, took);
	return 0;
}

int
main(int argc, char **argv)
{
	bool branching = argc > 1 && strcmp(argv[1], "branching") == 0;
	int status = 0;
	for (long left = number(); left > 0 && status == 0; left--) {
		struct arena arena = {0};
		status = solve(&arena, branching ? 0 : SINGLES_NODES);
		arena_clear(&arena);
	}
	return status;
}
