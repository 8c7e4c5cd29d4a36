/* What it would cost to decide one more trip, told for all trips in one pass: the
 * cheapest way to each node and from it on give the cheapest way through each arc, so
 * also the cheapest that goes on a trip, and the cheapest that does not.
 *
 * This is used twice. With the charges of the best bound it gives a bound for each open
 * trip being made and for its not being made: one that reaches the best plan settles
 * the trip, and of the others the search decides that one next of which both raise
 * the bound. With the trips of a plan for nothing and all others shut it tells what each
 * single change of that plan would save. */
#include "years/courses_inside.h"

static void
rivals_take(struct rivals *rivals, size_t trip, int64_t cost)
{
	if (cost < rivals->first) {
		*rivals = (struct rivals){cost, rivals->first, trip};
	} else {
		rivals->second = LESSER(rivals->second, cost);
	}
}

/* Fills the cost of the cheapest way to each node of a course and from it to the end. */
static void
fill_ways(const struct courses_search *search, const struct class *class)
{
	const size_t *ends = class->course->winter_end;
	size_t winters = search->problem->winters;
	size_t last = winters > 1 ? ends[winters - 2] : 0;
	int64_t *before = search->classes->before;
	int64_t *after = search->classes->after;
	for (uint32_t i = 0; i < class->course->node_count; i++) {
		before[i] = FEE_SHUT;
		after[i] = FEE_SHUT;
	}
	before[0] = 0;
	for (size_t i = 0; i < ends[winters - 1]; i++) {
		const struct walk_arc *arc = &class->arcs[i];
		int64_t way = before[arc->from] + arc->minor + search->fees[arc->trip];
		before[arc->to] = LESSER(before[arc->to], way);
	}
	for (size_t i = ends[winters - 1]; i-- > 0;) {
		const struct walk_arc *arc = &class->arcs[i];
		after[arc->to] = i >= last ? 0 : after[arc->to];
		int64_t way = after[arc->to] + arc->minor + search->fees[arc->trip];
		after[arc->from] = LESSER(after[arc->from], way);
	}
}

/* Fills what the cheapest way through a course costs that goes on each trip, its fee
 * left out; and for each winter what is cheapest to do in it. */
static void
fill_rivals(struct courses_search *search, const struct class *class)
{
	size_t winters = search->problem->winters;
	size_t none = search->problem->stations * winters;
	size_t next = 0;
	for (size_t i = 0; i < class->trip_count; i++) {
		search->least[class->trips[i]] = FEE_SHUT;
	}
	for (size_t winter = 0; winter < winters; winter++) {
		search->least[none] = FEE_SHUT;
		for (; next < class->course->winter_end[winter]; next++) {
			const struct walk_arc *arc = &class->arcs[next];
			int64_t way = search->classes->before[arc->from] + arc->minor +
				      search->classes->after[arc->to];
			search->least[arc->trip] = LESSER(search->least[arc->trip], way);
		}
		search->rivals[winter] =
		    (struct rivals){search->least[none], FEE_SHUT, none};
	}
	for (size_t i = 0; i < class->trip_count; i++) {
		size_t trip = class->trips[i];
		rivals_take(&search->rivals[winter_of(search, trip)], trip,
		    search->least[trip] + search->fees[trip]);
	}
}

/* Adds what the courses of a class tell of each trip. */
static void
add_class(struct courses_search *search, const struct class *class, int64_t cost)
{
	for (size_t i = 0; i < class->trip_count; i++) {
		size_t trip = class->trips[i];
		const struct rivals *rivals = &search->rivals[winter_of(search, trip)];
		int64_t less = cost - LESSER(search->least[trip], cost);
		search->with[trip] -= less * class->weight;
		if (rivals->trip != trip) {
			continue;
		}
		bool shut =
		    rivals->second >= FEE_SHUT || search->without[trip] >= FEE_SHUT;
		search->without[trip] =
		    shut
			? FEE_SHUT
			: search->without[trip] + (rivals->second - cost) * class->weight;
	}
}

/* The fees of a class: in the plan that is tried, or as decided up to now. */
static void
fill_fees(struct courses_search *search, const struct class *class, bool of_tried)
{
	for (size_t i = 0; i < class->trip_count; i++) {
		size_t trip = class->trips[i];
		enum decision tried = search->tried[trip] ? TRIP_MADE : TRIP_UNMADE;
		search->fees[trip] = fee_under(
		    of_tried ? tried : search->decisions[trip], class->fees[trip]);
	}
}

/* Fills `with` and `without`. Returns what the cheapest ways cost together. */
static int64_t
weigh(struct courses_search *search, bool of_tried)
{
	int64_t sum = 0;
	for (size_t i = 0; i < search->trip_count; i++) {
		search->with[search->trips[i]] = 0;
		search->without[search->trips[i]] = 0;
	}
	for (size_t i = 0; i < search->member_count; i++) {
		const struct class *class = member_class(search, i);
		fill_fees(search, class, of_tried);
		fill_ways(search, class);
		int64_t cost = search->classes->after[0];
		if (cost >= FEE_SHUT) {
			return FEE_SHUT;
		}
		fill_rivals(search, class);
		add_class(search, class, cost);
		sum += cost * class->weight;
	}
	return sum;
}

/* Makes or leaves out one trip of the tried plan that saves most. False when none
 * saves anything. */
static bool
flip_one(struct courses_search *search)
{
	int64_t most = 0;
	size_t found = 0;
	if (weigh(search, true) >= FEE_SHUT) {
		return false;
	}
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		int64_t saves = search->tried[trip]
				    ? trip_cost(search, trip) - search->without[trip]
				    : -search->with[trip] - trip_cost(search, trip);
		if (saves > most) {
			most = saves;
			found = trip;
		}
	}
	search->tried[found] = search->tried[found] != (most > 0);
	return most > 0;
}

void
courses_try_means(struct courses_search *search, double part)
{
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		search->tried[trip] = search->made_mean[trip] > part;
	}
	while (flip_one(search)) {
	}
	(void)courses_keep_tried(search);
}

/* How good a trip is to decide next: the less the better of its two bounds is above
 * that of the branch, and the less the mean of the last steps leaves it open, the less. */
static double
promise(const struct courses_search *search, size_t trip, int64_t rise)
{
	double made = search->made_mean[trip];
	return (made < 0.5 ? made : 1 - made) * (double)(rise + FEE_SCALE);
}

/* The bound under the present decisions with an open trip left out of the sum. */
static int64_t
bound_beside(const struct courses_search *search, size_t trip, int64_t bound)
{
	return bound - LESSER(trip_cost(search, trip) - search->charged[trip], 0);
}

bool
courses_settle(struct courses_search *search, size_t *next_out)
{
	int64_t bound = courses_bound(search);
	double most = -1;
	*next_out = SIZE_MAX;
	(void)weigh(search, false); /* where an item has no way, no bound was found */
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		if (search->decisions[trip] != TRIP_OPEN) {
			continue;
		}
		int64_t beside = bound_beside(search, trip, bound);
		int64_t made = beside + trip_cost(search, trip) + search->with[trip];
		int64_t unmade = LESSER(beside + search->without[trip], FEE_SHUT);
		bool can_be_made = courses_round_up(search, made) < search->best_cost;
		bool can_be_left = courses_round_up(search, unmade) < search->best_cost;
		if (!can_be_made && !can_be_left) {
			return false;
		}
		double own = promise(search, trip, LESSER(made, unmade) - bound);
		if (!can_be_made || !can_be_left) {
			courses_decide(
			    search, trip, can_be_made ? TRIP_MADE : TRIP_UNMADE);
			search->settled[search->settled_count++] = trip;
		} else if (own > most) {
			*next_out = trip;
			most = own;
		}
	}
	return true;
}
