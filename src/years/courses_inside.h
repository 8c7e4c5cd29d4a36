/* Inside the years: cheapest ways through courses, and one part being searched. Not
 * for other rooms. */
#ifndef BECKET_YEARS_COURSES_INSIDE_H
#define BECKET_YEARS_COURSES_INSIDE_H

#include "base/numbers.h"
#include "years/courses.h"

/* While costs of trips are charged to items, money is counted in fractions of a
 * minor unit, because a charge is a share of a cost. */
enum { FEE_SCALE = 64 };

/* The fee of a trip that is not made; and more than any way through a course costs. */
#define FEE_SHUT (INT64_MAX / 4)

/* An arc, in the form in which courses are searched for their cheapest way. */
struct walk_arc {
	int64_t minor; /* scaled */
	uint32_t from; /* node */
	uint32_t to;
	uint32_t trip; /* trip_at; stations x winters for none, whose fee is 0 */
	uint32_t work;
};

/* A node during a search for the cheapest way. */
struct walk_node {
	int64_t cost; /* of the cheapest way there; scaled, FEE_SHUT for none */
	uint64_t work;
	size_t came; /* the arc it was reached by */
};

/* Courses that are the same, treated as one. */
struct class {
	const struct course *course;
	struct walk_arc *arcs; /* the course's, one for one */
	int64_t weight;        /* how many courses are like it */
	int64_t *fees; /* station x winters: what it is charged for going along; scaled */
	uint32_t *trips; /* those it could go on */
	size_t trip_count;
	int64_t *best_fees; /* those of the best bound */
	/* by trip: the mean of whether it goes along, 0 to 1, in which the latest steps
	 * weigh most; the last element, of no trip, is written and never read */
	double *mean;
	size_t *path;  /* by winter: the arc of its way under these fees */
	size_t *gone;  /* by winter: the trip it goes on; stations x winters for none */
	int64_t cost;  /* what that costs; scaled */
	bool stale;    /* fees or decisions have changed since */
	size_t *tried; /* its way with the trips that were tried last */
	int64_t tried_cost; /* what that costs; scaled */
};

/* The two cheapest things to do in a winter: to go on a trip, or on none. */
struct rivals {
	int64_t first;
	int64_t second;
	size_t trip; /* of the first; stations x winters for none */
};

struct classes {
	struct class *items;
	size_t count;
	size_t *of_course;       /* by course: its class */
	struct walk_node *nodes; /* room for one walk */
	/* room for what the cheapest way to each node costs, and from it to the end */
	int64_t *before;
	int64_t *after;
};

/* Puts courses that are the same into one class. FAULT_INPUT when a course is not
 * well formed or prices are too large to be added up. */
MUST_CHECK bool classes_make(const struct courses_problem *problem, struct arena *arena,
    struct classes *out, struct fault *fault);

/* The cheapest way through the course of a class, with a fee for each trip (scaled;
 * one element more than there are trips, the last 0). Returns its scaled cost and
 * puts the way in `path`. When there is no way, returns FEE_SHUT and leaves `path`
 * alone. */
int64_t class_walk(const struct courses_problem *problem, const struct classes *classes,
    const struct class *class, const int64_t *fees, size_t *path);

/* The same; of ways that cost the same, the one with the least work. */
int64_t class_walk_least_work(const struct courses_problem *problem,
    const struct classes *classes, const struct class *class, const int64_t *fees,
    size_t *path);

/* The index of a trip in arrays by station and winter. */
static inline size_t
trip_at(const struct courses_problem *problem, size_t station, size_t winter)
{
	return station * problem->winters + winter;
}

/* ---- One part being searched, its bound and the plans that it leads to ---- */

enum decision {
	TRIP_OPEN,   /* not decided */
	TRIP_MADE,   /* made and paid for */
	TRIP_UNMADE, /* not made */
};

/* What a class is charged for a trip under a decision. */
static inline int64_t
fee_under(enum decision decision, int64_t charged)
{
	switch (decision) {
	case TRIP_OPEN:
		break;
	case TRIP_MADE:
		return 0;
	case TRIP_UNMADE:
		return FEE_SHUT;
	}
	return charged;
}

/* How often charges are moved at the first branch, and at every later one. */
enum { FIRST_STEPS = 100, LATER_STEPS = 16 };

/* One of the separate problems: some stations, and the classes that use them. */
struct courses_search {
	const struct courses_problem *problem;
	struct classes *classes;
	size_t *members; /* classes of this part */
	size_t member_count;
	size_t *trips; /* its trips, as trip_at has them */
	size_t trip_count;

	enum decision *decisions; /* by trip, of the whole problem; so are those below */
	int64_t *users;   /* how many items go along at present; the last is of no trip */
	int64_t *charged; /* what all items together are charged; scaled */
	double *made_mean; /* how far trips are made, in the mean of the last steps */
	int64_t *fees;     /* room for one class's fees; the last is of no trip, 0 */
	bool *tried;       /* room for trips being tried */
	bool *latest;      /* the trips that were tried last; at first all of them */
	bool *best;        /* trips of the best plan found */

	/* by trip: how much less all items together pay in their own cheapest ways when
	 * the trip is free for them (0 or less), and how much more without it */
	int64_t *with;
	int64_t *without; /* FEE_SHUT when some item then has no way */
	int64_t *least;   /* room: one class's cheapest way on each trip, or on none */
	struct rivals *rivals; /* room, by winter */
	size_t *settled; /* trips of which one decision can lead to no better plan */
	size_t settled_count;

	int64_t unit; /* every sum is a multiple of this; scaled */
	int64_t best_cost;
	int64_t left_bound; /* least bound of a branch given up; FEE_SHUT when none was */
	size_t looks;
	size_t most_looks;
};

/* The i-th class of this part. */
static inline struct class *
member_class(const struct courses_search *search, size_t i)
{
	return &search->classes->items[search->members[i]];
}

static inline int64_t
trip_cost(const struct courses_search *search, size_t trip)
{
	const struct courses_problem *problem = search->problem;
	return problem->trip_minor[trip / problem->winters] * FEE_SCALE;
}

static inline size_t
winter_of(const struct courses_search *search, size_t trip)
{
	return trip % search->problem->winters;
}

/* A lower bound on the cost of any plan under the present decisions, by the present
 * charges: every item takes its own cheapest way, and what is charged above a trip's
 * cost is taken off again. Counts who uses which trip. FEE_SHUT when some item has
 * no way. */
int64_t courses_bound(struct courses_search *search);

/* The cost of the plan that makes the trips in `tried` and no others; removes from
 * `tried` the trips that no item needs. FEE_SHUT when some item has no way. */
int64_t courses_cost_of_tried(struct courses_search *search);

/* Keeps the plan in `tried` when it is the best so far. */
bool courses_keep_tried(struct courses_search *search);

/* Removes trips from the best plan, one at a time, as long as that saves money. */
void courses_thin_best(struct courses_search *search);

/* Tries the plan that makes every trip on which some item goes by its own cheapest
 * way, unless it is the one that was tried last. */
void courses_try_ways(struct courses_search *search);

/* Tries the plan that makes every trip of which the mean of the last steps makes more
 * than this part, once it has been made cheaper by single trips, as long as one saves. */
void courses_try_means(struct courses_search *search, double part);

/* Decides every open trip of which one decision can lead to no plan better than the
 * best, and adds it to `settled`. False when no decisions lead to a better one. Gives
 * the open trip to decide next; SIZE_MAX when none is open. Needs the charges of the
 * best bound, as courses_tighten leaves them, and that every item has a way. */
MUST_CHECK bool courses_settle(struct courses_search *search, size_t *next_out);

/* Decides a trip, or makes it undecided again. Marks the classes whose cheapest way
 * must be found again: those for which the trip becomes cheaper, and those that go
 * along when it becomes dearer. */
void courses_decide(struct courses_search *search, size_t trip, enum decision decision);

/* Rounds a bound up to the next sum that a plan can cost: every such sum is a
 * multiple of `unit`. */
int64_t courses_round_up(const struct courses_search *search, int64_t bound);

/* The best bound that so many steps of moving charges find for the present
 * decisions. Ends early when the bound reaches the cost of the best plan. Leaves the
 * charges that gave the best bound. */
int64_t courses_tighten(struct courses_search *search, int steps);

#endif
