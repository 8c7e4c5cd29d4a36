/* Inside the years: cheapest ways through courses. Not for other rooms. */
#ifndef BECKET_YEARS_COURSES_WALK_H
#define BECKET_YEARS_COURSES_WALK_H

#include "years/courses.h"

/* Money is counted in fractions of a minor unit while it is being charged to items. */
enum { FEE_SCALE = 64 };

/* The fee of a trip that is not made; and more than any way through a course costs. */
#define FEE_SHUT (INT64_MAX / 4)

/* An arc as it is walked along. */
struct walk_step {
	int64_t minor; /* scaled */
	uint32_t from; /* node */
	uint32_t to;
	uint32_t trip; /* trip_at; stations x winters for none, whose fee is 0 */
	uint32_t work;
	uint32_t arc; /* of the course */
};

/* Where a walk is. */
struct walk_node {
	int64_t cost; /* of the cheapest way there; scaled, FEE_SHUT for none */
	uint64_t work;
	size_t came; /* the arc it was reached by */
};

/* How many steps a class has. */
struct class_width {
	size_t steps;
	size_t before_last; /* of them, those before the last winter */
};

/* Courses that ask the same, taken together. */
struct class {
	const struct course *course;
	struct walk_step *steps; /* by arc: those it may take, then those taken from it */
	struct class_width width;
	int64_t weight; /* how many courses are like it */
	int64_t *fees; /* station x winters: what it is charged for going along; scaled */
	uint32_t *trips; /* those it could go on */
	size_t trip_count;
	int64_t *best_fees; /* those of the best bound */
	/* by trip: how far it goes along, in the mean of the last steps; the last,
	 * of no trip, is not looked at */
	double *mean;
	size_t *path;  /* by winter: the step of its way under these fees */
	size_t *gone;  /* by winter: the trip it goes on; stations x winters for none */
	int64_t cost;  /* what that costs; scaled */
	bool stale;    /* fees or decisions have changed since */
	size_t *tried; /* its way with the trips that were tried last */
	int64_t tried_cost; /* what that costs; scaled */
};

struct classes {
	struct class *items;
	size_t count;
	size_t *of_course;       /* by course: its class */
	struct walk_node *nodes; /* room for one walk */
	int64_t *onward;         /* room for what is left to pay, by node */
	struct walk_step *spare; /* room for one class's steps */
};

/* Puts like courses together. FAULT_INPUT when a course is not well formed or prices are
 * too large to be added up. */
MUST_CHECK bool classes_make(const struct courses_problem *problem, struct arena *arena,
    struct classes *out, struct fault *fault);

/* Takes from a class the steps that no way goes along which costs at most `slack` more than
 * its cheapest, under fees as class_walk has them. */
void class_narrow(const struct courses_problem *problem, const struct classes *classes,
    struct class *class, const int64_t *fees, int64_t slack);

/* Gives a class back what was taken from it since it was as wide as this. */
void class_widen(
    const struct classes *classes, struct class *class, struct class_width width);

/* The cheapest way through what a class may take, under fees by trip (scaled; one more than
 * there are trips, the last 0): its scaled cost, and the way in `path`; FEE_SHUT and no path
 * when there is none. */
int64_t class_walk(const struct courses_problem *problem, const struct classes *classes,
    const struct class *class, const int64_t *fees, size_t *path);

/* The same, and of equal ones that with the least work. */
int64_t class_walk_least_work(const struct courses_problem *problem,
    const struct classes *classes, const struct class *class, const int64_t *fees,
    size_t *path);

/* The index of a trip in arrays by station and winter. */
static inline size_t
trip_at(const struct courses_problem *problem, size_t station, size_t winter)
{
	return station * problem->winters + winter;
}

#endif
