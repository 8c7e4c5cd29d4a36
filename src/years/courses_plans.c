/* The lower bound on the cost of any plan, where trips are charged to the items that
 * go along; and plans: what they cost, and which are tried. */
#include "years/courses_inside.h"

#include <string.h>

/* Finds the cheapest way of a class again under the present decisions, and the trips
 * it goes on. */
static void
walk_anew(struct courses_search *search, struct class *class)
{
	const struct courses_problem *problem = search->problem;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		search->fees[trip] =
		    fee_under(search->decisions[trip], class->fees[trip]);
	}
	class->cost =
	    class_walk(problem, search->classes, class, search->fees, class->path);
	class->stale = false;
	for (size_t winter = 0; winter < problem->winters && class->cost < FEE_SHUT;
	     winter++) {
		class->gone[winter] = class->arcs[class->path[winter]].trip;
	}
}

int64_t
courses_bound(struct courses_search *search)
{
	int64_t bound = 0;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		int64_t over = trip_cost(search, trip) - search->charged[trip];
		search->users[trip] = 0;
		if (search->decisions[trip] == TRIP_MADE) {
			bound += trip_cost(search, trip);
		} else if (search->decisions[trip] == TRIP_OPEN && over < 0) {
			bound += over;
		}
	}
	for (size_t i = 0; i < search->member_count; i++) {
		struct class *class = member_class(search, i);
		if (class->stale) {
			walk_anew(search, class);
		}
		if (class->cost >= FEE_SHUT) {
			return FEE_SHUT;
		}
		bound += class->cost * class->weight;
		for (size_t winter = 0; winter < search->problem->winters; winter++) {
			search->users[class->gone[winter]] += class->weight;
		}
	}
	return bound;
}

int64_t
courses_round_up(const struct courses_search *search, int64_t bound)
{
	int64_t over = bound % search->unit;
	return over > 0 ? bound + search->unit - over : bound;
}

void
courses_decide(struct courses_search *search, size_t trip, enum decision decision)
{
	enum decision before = search->decisions[trip];
	size_t winter = winter_of(search, trip);
	search->decisions[trip] = decision;
	for (size_t i = 0; i < search->member_count; i++) {
		struct class *class = member_class(search, i);
		int64_t was = fee_under(before, class->fees[trip]);
		int64_t is = fee_under(decision, class->fees[trip]);
		class->stale = class->stale || class->cost >= FEE_SHUT || is < was ||
			       (is > was && class->gone[winter] == trip);
	}
}

/* ---- plans ---- */

int64_t
courses_cost_of_tried(struct courses_search *search)
{
	int64_t cost = 0;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		search->fees[trip] = search->tried[trip] ? 0 : FEE_SHUT;
		search->users[trip] = 0;
	}
	for (size_t i = 0; i < search->member_count && cost < FEE_SHUT; i++) {
		struct class *class = member_class(search, i);
		int64_t own = class_walk_least_work(
		    search->problem, search->classes, class, search->fees, class->tried);
		class->tried_cost = own;
		cost = own >= FEE_SHUT ? FEE_SHUT : cost + own * class->weight;
		for (size_t winter = 0;
		     winter < search->problem->winters && cost < FEE_SHUT; winter++) {
			search->users[class->arcs[class->tried[winter]].trip]++;
		}
	}
	for (size_t i = 0; i < search->trip_count && cost < FEE_SHUT; i++) {
		size_t trip = search->trips[i];
		bool needed = search->users[trip] > 0;
		search->tried[trip] = search->tried[trip] && needed;
		cost += needed ? trip_cost(search, trip) : 0;
	}
	return cost;
}

bool
courses_keep_tried(struct courses_search *search)
{
	size_t all = search->problem->stations * search->problem->winters;
	int64_t cost = courses_cost_of_tried(search);
	if (cost >= search->best_cost) {
		return false;
	}
	search->best_cost = cost;
	memcpy(search->best, search->tried, all * sizeof *search->best);
	return true;
}

/* How much more the items that go on a trip must pay when it is not made, using the
 * trips that `fees` leave open. FEE_SHUT when one of them has no other way. */
static int64_t
dearer_without(struct courses_search *search, size_t trip)
{
	int64_t more = 0;
	size_t winter = winter_of(search, trip);
	search->fees[trip] = FEE_SHUT;
	for (size_t i = 0; i < search->member_count && more < FEE_SHUT; i++) {
		struct class *class = member_class(search, i);
		if (class->arcs[class->tried[winter]].trip != trip) {
			continue;
		}
		int64_t cost = class_walk_least_work(
		    search->problem, search->classes, class, search->fees, class->path);
		more = cost >= FEE_SHUT
			   ? FEE_SHUT
			   : more + (cost - class->tried_cost) * class->weight;
	}
	search->fees[trip] = 0;
	return more;
}

/* Takes a trip out of `tried`; the items that went on it find another way. */
static void
leave_out(struct courses_search *search, size_t trip)
{
	size_t winter = winter_of(search, trip);
	search->tried[trip] = false;
	search->fees[trip] = FEE_SHUT;
	for (size_t i = 0; i < search->member_count; i++) {
		struct class *class = member_class(search, i);
		if (class->arcs[class->tried[winter]].trip == trip) {
			class->tried_cost = class_walk_least_work(search->problem,
			    search->classes, class, search->fees, class->tried);
		}
	}
}

void
courses_thin_best(struct courses_search *search)
{
	size_t all = search->problem->stations * search->problem->winters;
	memcpy(search->tried, search->best, all * sizeof *search->tried);
	(void)courses_cost_of_tried(search);
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		if (search->tried[trip] &&
		    dearer_without(search, trip) < trip_cost(search, trip)) {
			leave_out(search, trip);
		}
	}
	(void)courses_keep_tried(search);
}

void
courses_try_ways(struct courses_search *search)
{
	size_t all = search->problem->stations * search->problem->winters;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		search->tried[trip] = search->users[trip] > 0;
	}
	if (memcmp(search->tried, search->latest, all * sizeof *search->tried) == 0) {
		return;
	}
	memcpy(search->latest, search->tried, all * sizeof *search->tried);
	if (courses_keep_tried(search)) {
		courses_thin_best(search);
	}
}
