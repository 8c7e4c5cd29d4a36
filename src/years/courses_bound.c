/* What no plan of the years costs less than: trips charged to those who go along. */
#include "years/courses_inside.h"

/* What a class is charged for a trip under a decision. */
static int64_t
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

/* Finds the cheapest way of a class anew, as things are decided, and the trips it goes on. */
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
