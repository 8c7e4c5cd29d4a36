/* What no plan of the years costs less than: trips charged to those who go along. */
#include "winter/years_search.h"

#include <string.h>

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

/* The same for each trip as things are decided. */
static void
fill_fees(struct years_search *search, const struct class *class)
{
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		search->fees[trip] =
		    fee_under(search->decisions[trip], class->fees[trip]);
	}
}

/* The trip an arc of a class's path needs in a winter; SIZE_MAX for none. */
static size_t
trip_of_path(const struct years_search *search, const struct class *class,
    const size_t *path, size_t winter)
{
	int station = class->course->arcs[path[winter]].station;
	return station == ARC_NO_TRIP ? SIZE_MAX
				      : trip_at(search->problem, (size_t)station, winter);
}

/* Notes which trips a class's way goes on. */
static void
note_gone(const struct years_search *search, struct class *class)
{
	for (size_t winter = 0;
	     winter < search->problem->winters && class->cost < FEE_SHUT; winter++) {
		class->gone[winter] = trip_of_path(search, class, class->path, winter);
	}
}

int64_t
years_bound(struct years_search *search)
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
		struct class *class = &search->classes->items[search->members[i]];
		if (class->stale) {
			fill_fees(search, class);
			class->cost = class_walk(search->problem, search->classes, class,
			    search->fees, class->path);
			class->stale = false;
			note_gone(search, class);
		}
		if (class->cost >= FEE_SHUT) {
			return FEE_SHUT;
		}
		bound += class->cost * class->weight;
		for (size_t winter = 0; winter < search->problem->winters; winter++) {
			size_t trip = class->gone[winter];
			if (trip != SIZE_MAX) {
				search->users[trip] += class->weight;
			}
		}
	}
	return bound;
}

int64_t
years_cost_of_tried(struct years_search *search)
{
	int64_t cost = 0;
	bool needed = false;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		search->fees[trip] = search->tried[trip] ? 0 : FEE_SHUT;
		search->users[trip] = 0;
	}
	for (size_t i = 0; i < search->member_count && cost < FEE_SHUT; i++) {
		struct class *class = &search->classes->items[search->members[i]];
		int64_t own = class_walk(
		    search->problem, search->classes, class, search->fees, class->tried);
		cost = own >= FEE_SHUT ? FEE_SHUT : cost + own * class->weight;
		for (size_t winter = 0;
		     winter < search->problem->winters && cost < FEE_SHUT; winter++) {
			size_t trip = trip_of_path(search, class, class->tried, winter);
			if (trip != SIZE_MAX) {
				search->users[trip]++;
			}
		}
	}
	for (size_t i = 0; i < search->trip_count && cost < FEE_SHUT; i++) {
		size_t trip = search->trips[i];
		needed = search->users[trip] > 0;
		search->tried[trip] = search->tried[trip] && needed;
		cost += needed ? trip_cost(search, trip) : 0;
	}
	return cost;
}

bool
years_keep_tried(struct years_search *search)
{
	size_t all = search->problem->stations * search->problem->winters;
	int64_t cost = years_cost_of_tried(search);
	if (cost >= search->best_cost) {
		return false;
	}
	search->best_cost = cost;
	memcpy(search->best, search->tried, all * sizeof *search->best);
	return true;
}

void
years_thin_best(struct years_search *search)
{
	size_t all = search->problem->stations * search->problem->winters;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		if (search->best[trip] && trip_cost(search, trip) > 0) {
			memcpy(search->tried, search->best, all * sizeof *search->tried);
			search->tried[trip] = false;
			(void)years_keep_tried(search);
		}
	}
}

void
years_try_ways(struct years_search *search)
{
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		search->tried[trip] =
		    search->users[trip] > 0 || search->decisions[trip] == TRIP_MADE;
	}
	if (years_keep_tried(search)) {
		years_thin_best(search);
	}
}

/* A bound is as good as the next sum that money can make. */
static int64_t
round_up(const struct years_search *search, int64_t bound)
{
	int64_t over = bound % search->step;
	return over > 0 ? bound + search->step - over : bound;
}

static bool
is_paid(const struct years_search *search, size_t trip)
{
	return search->charged[trip] > trip_cost(search, trip);
}

/* How many charges pull which way: the items that go along where a trip is not paid for yet, and
 * those that don't where it is. Users are those of the last bound. */
static int64_t
disagreement(const struct years_search *search)
{
	int64_t sum = 0;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		if (search->decisions[trip] == TRIP_OPEN) {
			sum += is_paid(search, trip)
				   ? search->weight - search->users[trip]
				   : search->users[trip];
		}
	}
	return sum;
}

/* Charges those more that go along where the trip is not paid for yet, and those less that
 * don't where more is charged than the trip costs. */
static void
move_charges(struct years_search *search, int64_t by)
{
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		size_t winter = winter_of(search, trip);
		bool paid = is_paid(search, trip);
		if (search->decisions[trip] != TRIP_OPEN ||
		    (!paid && search->users[trip] == 0)) {
			continue;
		}
		for (size_t j = 0; j < search->member_count; j++) {
			struct class *class = &search->classes->items[search->members[j]];
			int64_t was = class->fees[trip];
			int64_t less = was < by ? was : by;
			if (goes_along(class, trip, winter) == paid) {
				continue;
			}
			class->fees[trip] += paid ? -less : by;
			class->stale = class->stale || class->fees[trip] != was;
			search->charged[trip] +=
			    (class->fees[trip] - was) * class->weight;
		}
	}
}

void
years_decide(struct years_search *search, size_t trip, enum decision decision)
{
	enum decision before = search->decisions[trip];
	size_t winter = winter_of(search, trip);
	search->decisions[trip] = decision;
	for (size_t i = 0; i < search->member_count; i++) {
		struct class *class = &search->classes->items[search->members[i]];
		int64_t was = fee_under(before, class->fees[trip]);
		int64_t is = fee_under(decision, class->fees[trip]);
		class->stale = class->stale || class->cost >= FEE_SHUT || is < was ||
			       (is > was && goes_along(class, trip, winter));
	}
}

/* Decides a trip until the branch is left. */
static void
settle(struct years_search *search, size_t trip, enum decision decision)
{
	years_decide(search, trip, decision);
	search->settled[search->settled_count++] = trip;
}

/* Decides open trips of which the present charges tell that the other way would cost as much
 * as the best plan: made, a trip costs what nobody is charged for it yet; not made, what is
 * charged above its cost is not given back. */
static void
settle_by_charges(struct years_search *search, int64_t bound)
{
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		int64_t left = trip_cost(search, trip) - search->charged[trip];
		if (search->decisions[trip] != TRIP_OPEN) {
			continue;
		}
		if (left > 0 && round_up(search, bound + left) >= search->best_cost) {
			settle(search, trip, TRIP_UNMADE);
		} else if (left < 0 &&
			   round_up(search, bound - left) >= search->best_cost) {
			settle(search, trip, TRIP_MADE);
		}
	}
}

/* Whether leaving out an open trip brings the bound to the best plan. Only those who go along
 * find another way for it, and their own again afterwards. */
static bool
can_not_do_without(struct years_search *search, size_t trip)
{
	int64_t change = 0;
	bool shut = false;
	size_t winter = winter_of(search, trip);
	search->decisions[trip] = TRIP_UNMADE;
	for (size_t i = 0; i < search->member_count && !shut; i++) {
		struct class *class = &search->classes->items[search->members[i]];
		if (!goes_along(class, trip, winter)) {
			continue;
		}
		fill_fees(search, class);
		int64_t cost = class_walk(
		    search->problem, search->classes, class, search->fees, class->tried);
		shut = cost >= FEE_SHUT;
		change += shut ? 0 : (cost - class->cost) * class->weight;
	}
	search->decisions[trip] = TRIP_OPEN;
	int64_t over = trip_cost(search, trip) - search->charged[trip];
	change -=
	    over < 0 ? over : 0; /* what is charged above its cost is not given back */
	return shut ||
	       round_up(search, years_bound(search) + change) >= search->best_cost;
}

bool
years_settle(struct years_search *search)
{
	size_t before = search->settled_count;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		(void)years_bound(search);
		if (search->decisions[trip] == TRIP_OPEN && search->users[trip] > 0 &&
		    can_not_do_without(search, trip)) {
			settle(search, trip, TRIP_MADE);
		}
	}
	(void)years_bound(search);
	return search->settled_count > before;
}

int64_t
years_tighten(struct years_search *search, int steps)
{
	int64_t bound = 0;
	int64_t stride = 7; /* in fourths of the gap, less one */
	int since = 0;
	for (int step = 0; step < steps; step++) {
		int64_t now = years_bound(search);
		if (now >= FEE_SHUT) {
			return FEE_SHUT;
		}
		settle_by_charges(search, now);
		since = now > bound ? 0 : since + 1;
		bound = now > bound ? now : bound;
		int64_t pulls = disagreement(search);
		if (step % 8 == 0 || pulls == 0) {
			years_try_ways(search);
			now = years_bound(search);
		}
		if (now >= FEE_SHUT) { /* what was settled leaves no better plan */
			return FEE_SHUT;
		}
		int64_t gap = search->best_cost - now;
		if (round_up(search, bound) >= search->best_cost || pulls == 0) {
			break;
		}
		if (since >= 6 && stride > 0) {
			since = 0;
			stride--;
		}
		int64_t by = gap * (stride + 1) / (4 * pulls);
		move_charges(search, by > 0 ? by : 1);
	}
	return round_up(search, bound);
}
