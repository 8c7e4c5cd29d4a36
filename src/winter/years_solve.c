/* Trips decided one after the other, under a bound that no plan can beat. */
#include "winter/years_walk.h"

#include <string.h>

enum decision {
	TRIP_OPEN,   /* not decided */
	TRIP_MADE,   /* made and paid for */
	TRIP_UNMADE, /* not made */
};

/* How often charges are moved at the first branch, and at every later one. */
enum { FIRST_STEPS = 100, LATER_STEPS = 24 };

/* One problem that falls apart no further: some stations, and the classes that use them. */
struct search {
	const struct years_problem *problem;
	struct classes *classes;
	size_t *members; /* classes of this part */
	size_t member_count;
	int64_t weight; /* how many items they are */
	size_t *trips;  /* its trips, as trip_at has them */
	size_t trip_count;

	enum decision *decisions; /* by trip, of the whole problem; so are those below */
	int64_t *users;           /* how many items go along at present */
	int64_t *charged;         /* what all items together are charged; scaled */
	int64_t *fees;   /* room for one class's fees; the last is of no trip, 0 */
	bool *tried;     /* room for trips being tried */
	bool *best;      /* trips of the best plan found */
	size_t *settled; /* trips decided by the bound alone, newest last */
	size_t settled_count;

	int64_t step; /* every sum is a multiple of this; scaled */
	int64_t best_cost;
	int64_t left_bound; /* least bound of a branch given up; FEE_SHUT when none was */
	size_t looks;
	size_t most_looks;
};

static int64_t
trip_cost(const struct search *search, size_t trip)
{
	const struct years_problem *problem = search->problem;
	return problem->trip_minor[trip / problem->winters] * FEE_SCALE;
}

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
fill_fees(struct search *search, const struct class *class)
{
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		search->fees[trip] =
		    fee_under(search->decisions[trip], class->fees[trip]);
	}
}

/* The trip an arc of a class's path needs in a winter; SIZE_MAX for none. */
static size_t
trip_of_path(const struct search *search, const struct class *class, const size_t *path,
    size_t winter)
{
	int station = class->course->arcs[path[winter]].station;
	return station == ARC_NO_TRIP ? SIZE_MAX
				      : trip_at(search->problem, (size_t)station, winter);
}

/* Notes which trips a class's way goes on. */
static void
note_gone(const struct search *search, struct class *class)
{
	for (size_t winter = 0;
	     winter < search->problem->winters && class->cost < FEE_SHUT; winter++) {
		class->gone[winter] = trip_of_path(search, class, class->path, winter);
	}
}

/* The least that any plan under the present decisions costs, by the present charges: every
 * item goes its own cheapest way, and what is charged above a trip's cost is given back.
 * Counts who uses which trip. FEE_SHUT when some item has no way. */
static int64_t
bound_of(struct search *search)
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

/* What a plan costs that makes the trips in `tried` and none else; takes those nobody needs
 * out of `tried`. FEE_SHUT when some item has no way. */
static int64_t
cost_of_tried(struct search *search)
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

/* Keeps the plan in `tried` when it is the best so far. */
static bool
keep_tried(struct search *search)
{
	size_t all = search->problem->stations * search->problem->winters;
	int64_t cost = cost_of_tried(search);
	if (cost >= search->best_cost) {
		return false;
	}
	search->best_cost = cost;
	memcpy(search->best, search->tried, all * sizeof *search->best);
	return true;
}

/* Leaves trips of the best plan out, one at a time, as long as that saves money. */
static void
thin_best(struct search *search)
{
	size_t all = search->problem->stations * search->problem->winters;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		if (search->best[trip] && trip_cost(search, trip) > 0) {
			memcpy(search->tried, search->best, all * sizeof *search->tried);
			search->tried[trip] = false;
			(void)keep_tried(search);
		}
	}
}

/* Tries the plan that the items' own ways add up to. */
static void
try_ways(struct search *search)
{
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		search->tried[trip] =
		    search->users[trip] > 0 || search->decisions[trip] == TRIP_MADE;
	}
	if (keep_tried(search)) {
		thin_best(search);
	}
}

/* A bound is as good as the next sum that money can make. */
static int64_t
round_up(const struct search *search, int64_t bound)
{
	int64_t over = bound % search->step;
	return over > 0 ? bound + search->step - over : bound;
}

/* Whether a class's way goes on a trip, which is in this winter. */
static inline bool
goes_along(const struct class *class, size_t trip, size_t winter)
{
	return class->gone[winter] == trip;
}

static size_t
winter_of(const struct search *search, size_t trip)
{
	return trip % search->problem->winters;
}

static bool
is_paid(const struct search *search, size_t trip)
{
	return search->charged[trip] > trip_cost(search, trip);
}

/* How many charges pull which way: the items that go along where a trip is not paid for yet, and
 * those that don't where it is. Users are those of the last bound. */
static int64_t
disagreement(const struct search *search)
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
move_charges(struct search *search, int64_t by)
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

/* Decides a trip, or opens it again. The way of a class is to be found anew where the trip
 * becomes cheaper for it, or dearer while it goes along. */
static void
decide(struct search *search, size_t trip, enum decision decision)
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
settle(struct search *search, size_t trip, enum decision decision)
{
	decide(search, trip, decision);
	search->settled[search->settled_count++] = trip;
}

/* Decides open trips of which the present charges tell that the other way would cost as much
 * as the best plan: made, a trip costs what nobody is charged for it yet; not made, what is
 * charged above its cost is not given back. */
static void
settle_by_charges(struct search *search, int64_t bound)
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
can_not_do_without(struct search *search, size_t trip)
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
	return shut || round_up(search, bound_of(search) + change) >= search->best_cost;
}

/* Decides open trips that can't be left out. True when there were such. */
static bool
settle_by_trying(struct search *search)
{
	size_t before = search->settled_count;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		(void)bound_of(search);
		if (search->decisions[trip] == TRIP_OPEN && search->users[trip] > 0 &&
		    can_not_do_without(search, trip)) {
			settle(search, trip, TRIP_MADE);
		}
	}
	(void)bound_of(search);
	return search->settled_count > before;
}

/* The best bound that some steps of moving charges find for the present decisions. Ends
 * early when it reaches the best plan. Leaves users and charges as they were last. */
static int64_t
tighten(struct search *search, int steps)
{
	int64_t bound = 0;
	int64_t stride = 7; /* in fourths of the gap, less one */
	int since = 0;
	for (int step = 0; step < steps; step++) {
		int64_t now = bound_of(search);
		if (now >= FEE_SHUT) {
			return FEE_SHUT;
		}
		settle_by_charges(search, now);
		since = now > bound ? 0 : since + 1;
		bound = now > bound ? now : bound;
		int64_t pulls = disagreement(search);
		if (step % 8 == 0 || pulls == 0) {
			try_ways(search);
			now = bound_of(search);
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

/* The open trip whose charges are furthest from paying for it though somebody goes along;
 * SIZE_MAX when every open trip is paid for or not gone on. */
static size_t
next_to_decide(const struct search *search)
{
	size_t found = SIZE_MAX;
	int64_t most = 0;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		if (search->decisions[trip] != TRIP_OPEN) {
			continue;
		}
		int64_t paid = 0;
		size_t winter = winter_of(search, trip);
		for (size_t j = 0; j < search->member_count; j++) {
			const struct class *class =
			    &search->classes->items[search->members[j]];
			paid += goes_along(class, trip, winter)
				    ? class->fees[trip] * class->weight
				    : 0;
		}
		int64_t charged = search->charged[trip];
		int64_t cost = trip_cost(search, trip);
		int64_t owed = search->users[trip] > 0 ? cost - paid
			       : charged > cost        ? charged - cost
						       : 0;
		owed = owed < 0 ? -owed : owed;
		if (owed > most || found == SIZE_MAX) {
			found = trip;
			most = owed;
		}
	}
	return found;
}

/* Looks at a branch: bounds it, and where the bound does not end it decides one more trip
 * both ways, the way of the best plan first. As deep as there are trips. */
static void
look(struct search *search, int steps)
{
	size_t settled = search->settled_count;
	int64_t bound = tighten(search, steps);
	search->looks++;
	if (bound < search->best_cost && search->looks >= search->most_looks) {
		search->left_bound =
		    bound < search->left_bound ? bound : search->left_bound;
		bound = search->best_cost;
	}
	while (bound < search->best_cost && settle_by_trying(search)) {
		bound = tighten(search, LATER_STEPS);
	}
	bool ends = bound >= search->best_cost;
	size_t trip = ends ? SIZE_MAX : next_to_decide(search);
	if (trip == SIZE_MAX && !ends && bound_of(search) < FEE_SHUT) {
		try_ways(search); /* all is decided: there is one plan left */
	}
	if (trip != SIZE_MAX) {
		enum decision first = search->best[trip] ? TRIP_MADE : TRIP_UNMADE;
		enum decision second = search->best[trip] ? TRIP_UNMADE : TRIP_MADE;
		decide(search, trip, first);
		look(search, LATER_STEPS);
		decide(search, trip, second);
		look(search, LATER_STEPS);
		decide(search, trip, TRIP_OPEN);
	}
	while (search->settled_count > settled) {
		decide(search, search->settled[--search->settled_count], TRIP_OPEN);
	}
}

static int64_t
common_measure(int64_t a, int64_t b)
{
	while (b != 0) {
		int64_t rest = a % b;
		a = b;
		b = rest;
	}
	return a;
}

/* The largest amount that every price and trip of the part is a multiple of; scaled. */
static int64_t
money_step(const struct search *search)
{
	int64_t measure = 0;
	for (size_t i = 0; i < search->trip_count; i++) {
		measure = common_measure(trip_cost(search, search->trips[i]), measure);
	}
	for (size_t i = 0; i < search->member_count; i++) {
		const struct course *course =
		    search->classes->items[search->members[i]].course;
		size_t end = course->winter_end[search->problem->winters - 1];
		for (size_t j = 0; j < end; j++) {
			measure =
			    common_measure(course->arcs[j].minor * FEE_SCALE, measure);
		}
	}
	return measure == 0 ? FEE_SCALE : measure;
}

/* Solves one part and adds its figures to the answer. */
static bool
solve_part(struct search *search, struct years_answer *answer, struct fault *fault)
{
	size_t all = search->problem->stations * search->problem->winters;
	for (size_t i = 0; i < all; i++) {
		search->decisions[i] = TRIP_OPEN;
		search->charged[i] = 0;
		search->tried[i] = true;
		search->best[i] = false;
	}
	search->step = money_step(search);
	search->best_cost = FEE_SHUT;
	search->left_bound = FEE_SHUT;
	if (!keep_tried(search)) {
		return fault_set(
		    fault, FAULT_INPUT, "an item has no way through the years");
	}
	thin_best(search);
	look(search, FIRST_STEPS);
	memcpy(search->tried, search->best, all * sizeof *search->tried);
	int64_t cost = cost_of_tried(search); /* and the ways that go with it */
	bool proven = search->left_bound >= cost;
	answer->minor += cost / FEE_SCALE;
	answer->bound += (proven ? cost : search->left_bound) / FEE_SCALE;
	answer->proven = answer->proven && proven;
	return true;
}

/* Which stations hang together because some item could go to either: for each the first
 * station of its part. */
static size_t
first_of_part(const size_t *joined, size_t station)
{
	while (joined[station] != station) {
		station = joined[station];
	}
	return station;
}

/* The first station a course may go to, or `stations` when it goes to none; joins them all
 * where `joined` is not NULL. */
static size_t
station_of(
    const struct years_problem *problem, const struct course *course, size_t *joined)
{
	size_t first = problem->stations;
	for (size_t i = 0; i < course->winter_end[problem->winters - 1]; i++) {
		int station = course->arcs[i].station;
		if (station == ARC_NO_TRIP) {
			continue;
		}
		first = first == problem->stations ? (size_t)station : first;
		if (joined == NULL) {
			break;
		}
		joined[first_of_part(joined, (size_t)station)] =
		    first_of_part(joined, first);
	}
	return first;
}

/* Fills the members and trips of the part that begins with `part`; `stations` stands for
 * the part of items that go nowhere. */
static void
fill_part(struct search *search, const size_t *joined, size_t part)
{
	const struct years_problem *problem = search->problem;
	search->member_count = 0;
	search->weight = 0;
	search->trip_count = 0;
	for (size_t i = 0; i < search->classes->count; i++) {
		size_t station =
		    station_of(problem, search->classes->items[i].course, NULL);
		size_t own = station == problem->stations
				 ? station
				 : first_of_part(joined, station);
		if (own == part) {
			search->members[search->member_count++] = i;
			search->weight += search->classes->items[i].weight;
		}
	}
	for (size_t i = 0; i < problem->stations; i++) {
		for (size_t winter = 0;
		     winter < problem->winters && first_of_part(joined, i) == part;
		     winter++) {
			search->trips[search->trip_count++] = trip_at(problem, i, winter);
		}
	}
}

/* Room for a search, by trip and by class. */
static bool
search_open(const struct years_problem *problem, struct classes *classes,
    size_t most_looks, struct arena *arena, struct search *out, struct fault *fault)
{
	size_t all = problem->stations * problem->winters + 1;
	*out = (struct search){
	    .problem = problem,
	    .classes = classes,
	    .most_looks = most_looks,
	    .members = arena_alloc(arena, (classes->count + 1) * sizeof *out->members),
	    .trips = arena_alloc(arena, all * sizeof *out->trips),
	    .decisions = arena_alloc(arena, all * sizeof *out->decisions),
	    .users = arena_alloc(arena, all * sizeof *out->users),
	    .charged = arena_alloc(arena, all * sizeof *out->charged),
	    .fees = arena_alloc(arena, all * sizeof *out->fees),
	    .tried = arena_alloc(arena, all * sizeof *out->tried),
	    .best = arena_alloc(arena, all * sizeof *out->best),
	    .settled = arena_alloc(arena, all * sizeof *out->settled),
	};
	bool got = out->members != NULL && out->trips != NULL && out->decisions != NULL &&
		   out->users != NULL && out->charged != NULL && out->fees != NULL &&
		   out->tried != NULL && out->best != NULL && out->settled != NULL;
	return got || fault_memory(fault);
}

/* Writes what every course does and which trips are made. */
static bool
write_answer(const struct years_problem *problem, const struct classes *classes,
    struct arena *arena, struct years_answer *answer, struct fault *fault)
{
	size_t winters = problem->winters;
	size_t *taken =
	    arena_alloc(arena, (problem->course_count * winters + 1) * sizeof *taken);
	bool *trips =
	    arena_alloc(arena, (problem->stations * winters + 1) * sizeof *trips);
	if (taken == NULL || trips == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < problem->course_count; i++) {
		const struct class *class = &classes->items[classes->of_course[i]];
		for (size_t winter = 0; winter < winters; winter++) {
			size_t arc = class->tried[winter];
			int station = class->course->arcs[arc].station;
			taken[i * winters + winter] = arc;
			if (station != ARC_NO_TRIP) {
				trips[trip_at(problem, (size_t)station, winter)] = true;
			}
		}
	}
	answer->taken = taken;
	answer->trips = trips;
	return true;
}

bool
years_solve(const struct years_problem *problem, size_t most_looks, struct arena *arena,
    struct years_answer *out, struct fault *fault)
{
	struct classes classes = {0};
	struct search search = {0};
	struct years_answer answer = {.proven = true};
	size_t *joined = arena_alloc(arena, (problem->stations + 1) * sizeof *joined);
	if (joined == NULL) {
		return fault_memory(fault);
	}
	if (!classes_make(problem, arena, &classes, fault) ||
	    !search_open(problem, &classes, most_looks, arena, &search, fault)) {
		return false;
	}
	for (size_t i = 0; i <= problem->stations; i++) {
		joined[i] = i;
	}
	for (size_t i = 0; i < classes.count; i++) {
		(void)station_of(problem, classes.items[i].course, joined);
	}
	for (size_t part = 0; part <= problem->stations; part++) {
		if (first_of_part(joined, part) != part) {
			continue;
		}
		fill_part(&search, joined, part);
		if (search.member_count > 0 && !solve_part(&search, &answer, fault)) {
			return false;
		}
	}
	answer.looks = search.looks;
	if (!write_answer(problem, &classes, arena, &answer, fault)) {
		return false;
	}
	*out = answer;
	return true;
}
