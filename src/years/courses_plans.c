/* Plans of the years: what they cost, and which are tried. */
#include "years/courses_inside.h"

#include <string.h>

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

/* What the items that go on a trip have to pay more when it is not made, of the trips that
 * `fees` leave open. FEE_SHUT when one has no other way. */
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

/* Takes a trip out of `tried`; who went on it finds another way. */
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
		search->tried[trip] =
		    search->users[trip] > 0 || search->decisions[trip] == TRIP_MADE;
	}
	if (memcmp(search->tried, search->latest, all * sizeof *search->tried) == 0) {
		return;
	}
	memcpy(search->latest, search->tried, all * sizeof *search->tried);
	if (courses_keep_tried(search)) {
		courses_thin_best(search);
	}
}
