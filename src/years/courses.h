/* The cost problem of the coming winters, by itself: which item goes ashore in which
 * winter so that the total cost is least. Pure. The only words of the trade in it
 * are station, trip and winter: src/years/outlook.h makes such a problem of the gear
 * of some boats and says what the answer means.
 *
 * Every item has a course: a graph in layers, one layer for every winter and one for
 * the end. A node is what was done up to there; an arc is what is done in one
 * winter, what that costs and which station it needs a trip to. A trip to a station
 * in a winter is paid once, however many items go along. Wanted: a way through every
 * course, from node 0 to any node of the last layer, so that arcs and trips together
 * cost least.
 *
 * How: courses that are the same are solved once and counted as often as they occur.
 * Stations between which no item could choose make separate problems. In each
 * problem trips are decided one after the other (made or not made). The cost of a
 * trip that is not decided yet is charged to the items that would go along, never
 * more than the trip costs. With those charges each item finds its own cheapest way,
 * so that the sum is never above the cost of the best plan: it is a lower bound.
 * Charges are moved to where they raise that bound most (the volume algorithm,
 * courses_tighten.c). A branch ends when the bound reaches the best plan found. All
 * sums are whole numbers, so a bound is a proof. Before a branch one pass over the
 * courses tells for every open trip what either decision would do to the bound: some
 * are settled by that, and the one that says most is decided next (courses_flips.c).
 * The same pass makes good plans of the means, by single trips.
 *
 * Measured on 29 November 2026 over 60 drawn problems of 60 items, 10 winters and 4
 * stations (tests/support/years_problems.py): all are proven, the hardest in 135
 * branches of the 20,000 that are allowed; without that pass it took 557. Removing
 * arcs that no better plan takes was tried besides: it saved one instruction in twenty,
 * and is left out. */
#ifndef BECKET_YEARS_COURSES_H
#define BECKET_YEARS_COURSES_H

#include "base/memory.h"

#include <stdint.h>

/* An arc that needs no trip. */
enum { ARC_NO_TRIP = -1 };

/* The highest price of an arc or a trip that is accepted, so that sums stay in
 * range. */
#define YEARS_MINOR_MOST ((int64_t)100000000000)

/* What one item may do in one winter. */
struct course_arc {
	uint32_t from; /* node of the layer before */
	uint32_t to;   /* node of the layer after */
	int station;   /* the trip it needs; ARC_NO_TRIP for none */
	int64_t minor; /* 0 to YEARS_MINOR_MOST */
	/* of ways that cost the same, the one with the least work is taken */
	uint32_t work;
};

/* All an item may do. Borrowed. */
struct course {
	const struct course_arc *arcs; /* by winter */
	const size_t *winter_end;      /* for each winter the index after its last arc */
	uint32_t node_count;
};

struct courses_problem {
	size_t winters;            /* 1 or more */
	size_t stations;           /* 0 or more */
	const int64_t *trip_minor; /* by station, 0 to YEARS_MINOR_MOST */
	const struct course *courses;
	size_t course_count;
};

struct courses_answer {
	const size_t *taken; /* course x winters: the arc it takes in each */
	const bool *trips;   /* station x winters: whether there is a trip */
	int64_t minor;       /* arcs and trips together */
	int64_t bound;       /* no plan costs less than this; `minor` when proven */
	bool proven;
	size_t looks; /* how many branches were looked at */
};

/* Solves the problem; the answer lives in `arena`. Gives up proving after `most_looks`
 * branches and then says the bound it reached. FAULT_INPUT when a course is not well
 * formed or has no way through, or when prices are too large to be added up. */
MUST_CHECK bool courses_solve(const struct courses_problem *problem, size_t most_looks,
    struct arena *arena, struct courses_answer *out, struct fault *fault);

/* A value of `most_looks` for callers that need no other. */
enum { YEARS_LOOKS = 20000 };

#endif
