/* Trips decided one after the other, under a bound that no plan can beat.
 *
 * Stations between which no item could choose are separate parts. In a part, the
 * plan with all trips is first made smaller by leaving trips out. Then the search
 * goes depth first. At each branch charges are moved for some steps
 * (courses_tighten.c), and plans that this leads to are tried. Where the bound,
 * rounded up to the next sum that a plan can cost, reaches the best plan, the branch
 * ends. Else trips of which one decision can lead to no better plan are settled, and
 * one that is open is decided both ways, first as in the best plan (courses_flips.c
 * says which). When no trip is open, one plan is left, which is tried. After
 * `most_looks` branches the search stops, and the least bound of the branches left
 * is the answer's bound. */
#include "years/courses_inside.h"

#include <string.h>

/* Of which trips a plan is tried at the first branch, and at every later one: those that
 * the mean of the last steps makes more than so far. */
static const double LESS_OF_MEAN = 0.4;
static const double MORE_OF_MEAN = 0.6;
static const double HALF_OF_MEAN = 0.5;

static void look(struct courses_search *search, bool first);

/* Decides a trip both ways, first as in the best plan. */
static void
branch(struct courses_search *search, size_t trip)
{
	bool made = search->best[trip];
	courses_decide(search, trip, made ? TRIP_MADE : TRIP_UNMADE);
	look(search, false);
	courses_decide(search, trip, made ? TRIP_UNMADE : TRIP_MADE);
	look(search, false);
	courses_decide(search, trip, TRIP_OPEN);
}

/* Tries plans made from the means of the last steps. */
static void
try_means(struct courses_search *search, bool first)
{
	if (first) {
		courses_try_means(search, LESS_OF_MEAN);
		courses_try_means(search, MORE_OF_MEAN);
	} else {
		courses_try_means(search, HALF_OF_MEAN);
	}
}

/* Looks at a branch: finds its bound, and where that does not end the branch, settles
 * trips, and decides one more both ways. The recursion is as deep as there are trips. */
static void
look(struct courses_search *search, bool first)
{
	int64_t bound = courses_tighten(search, first ? FIRST_STEPS : LATER_STEPS);
	search->looks++;
	if (bound < search->best_cost && search->looks >= search->most_looks) {
		search->left_bound = LESSER(bound, search->left_bound);
		bound = search->best_cost;
	}
	if (bound >= search->best_cost) {
		return;
	}
	try_means(search, first);
	size_t next = SIZE_MAX;
	size_t settled = search->settled_count;
	bool open = courses_settle(search, &next);
	if (open && next != SIZE_MAX) {
		branch(search, next);
	} else if (open && courses_bound(search) < FEE_SHUT) {
		courses_try_ways(search); /* there is one plan left */
	}
	while (search->settled_count > settled) {
		courses_decide(
		    search, search->settled[--search->settled_count], TRIP_OPEN);
	}
}

/* The largest amount that every price and trip of the part is a multiple of; scaled. */
static int64_t
money_unit(const struct courses_search *search)
{
	int64_t measure = 0;
	for (size_t i = 0; i < search->trip_count; i++) {
		measure = common_measure(trip_cost(search, search->trips[i]), measure);
	}
	for (size_t i = 0; i < search->member_count; i++) {
		const struct course *course = member_class(search, i)->course;
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
solve_part(
    struct courses_search *search, struct courses_answer *answer, struct fault *fault)
{
	size_t all = search->problem->stations * search->problem->winters;
	for (size_t i = 0; i < all; i++) {
		search->decisions[i] = TRIP_OPEN;
		search->charged[i] = 0;
		search->tried[i] = true;
		search->latest[i] = true;
		search->best[i] = false;
	}
	search->unit = money_unit(search);
	search->best_cost = FEE_SHUT;
	search->left_bound = FEE_SHUT;
	if (!courses_keep_tried(search)) {
		return fault_set(
		    fault, FAULT_INPUT, "an item has no way through the years");
	}
	courses_thin_best(search);
	look(search, true);
	memcpy(search->tried, search->best, all * sizeof *search->tried);
	int64_t cost = courses_cost_of_tried(search); /* and the ways of that plan */
	bool proven = search->left_bound >= cost;
	answer->minor += cost / FEE_SCALE;
	answer->bound += (proven ? cost : search->left_bound) / FEE_SCALE;
	answer->proven = answer->proven && proven;
	return true;
}

/* The first station of the part that a station belongs to; stations are in one part
 * when some item could go to either. */
static size_t
first_of_part(const size_t *joined, size_t station)
{
	while (joined[station] != station) {
		station = joined[station];
	}
	return station;
}

/* The first station a course may go to, or `stations` when it goes to none; joins them
 * all where `joined` is not NULL. */
static size_t
station_of(
    const struct courses_problem *problem, const struct course *course, size_t *joined)
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
fill_part(struct courses_search *search, const size_t *joined, size_t part)
{
	const struct courses_problem *problem = search->problem;
	search->member_count = 0;
	search->trip_count = 0;
	for (size_t i = 0; i < search->classes->count; i++) {
		size_t station =
		    station_of(problem, search->classes->items[i].course, NULL);
		size_t own = station == problem->stations
				 ? station
				 : first_of_part(joined, station);
		if (own == part) {
			search->members[search->member_count++] = i;
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
static void
search_open(const struct courses_problem *problem, struct classes *classes,
    size_t most_looks, struct arena *arena, struct courses_search *out)
{
	size_t all = problem->stations * problem->winters + 1;
	*out = (struct courses_search){
	    .problem = problem,
	    .classes = classes,
	    .most_looks = most_looks,
	    .members = arena_alloc(arena, (classes->count + 1) * sizeof *out->members),
	    .trips = arena_alloc(arena, all * sizeof *out->trips),
	    .decisions = ARENA_MANY(arena, enum decision, all),
	    .users = ARENA_MANY(arena, int64_t, all),
	    .charged = ARENA_MANY(arena, int64_t, all),
	    .made_mean = ARENA_MANY(arena, double, all),
	    .fees = ARENA_MANY(arena, int64_t, all),
	    .tried = arena_alloc(arena, all * sizeof *out->tried),
	    .with = ARENA_MANY(arena, int64_t, all),
	    .without = ARENA_MANY(arena, int64_t, all),
	    .least = ARENA_MANY(arena, int64_t, all),
	    .rivals = ARENA_MANY(arena, struct rivals, problem->winters),
	    .settled = ARENA_MANY(arena, size_t, all),
	    .latest = ARENA_MANY(arena, bool, all),
	    .best = ARENA_MANY(arena, bool, all),
	};
}

/* Writes what every course does and which trips are made. */
static void
write_answer(const struct courses_problem *problem, const struct classes *classes,
    struct arena *arena, struct courses_answer *answer)
{
	size_t winters = problem->winters;
	size_t all = problem->stations * winters;
	size_t *taken = ARENA_MANY(arena, size_t, problem->course_count * winters);
	bool *trips = ARENA_MANY(arena, bool, all);
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
}

bool
courses_solve(const struct courses_problem *problem, size_t most_looks,
    struct arena *arena, struct courses_answer *out, struct fault *fault)
{
	struct classes classes = {0};
	struct courses_search search = {0};
	struct courses_answer answer = {.proven = true};
	size_t *joined = ARENA_MANY(arena, size_t, problem->stations);
	if (!classes_make(problem, arena, &classes, fault)) {
		return false;
	}
	search_open(problem, &classes, most_looks, arena, &search);
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
	write_answer(problem, &classes, arena, &answer);
	*out = answer;
	return true;
}
