/* Prepares a search for slots, before the first job has one. */
#include "rota/slots_inside.h"

#include <stdlib.h>
#include <string.h>

/* A job in the order of last days. */
struct ranked {
	day_t last;
	day_t first;
	size_t job;
};

static int
compare_ranked(const void *a, const void *b)
{
	const struct ranked *left = a;
	const struct ranked *right = b;
	int order = ORDER_THEN(ORDER(left->last, right->last), left->first, right->first);
	return ORDER_THEN(order, left->job, right->job);
}

static day_t
collect_of(const struct station *station, day_t day)
{
	return station_open(station, day) ? station_collect(station, day) : DAY_NEVER;
}

/* The days from the earliest possible hand-in to the latest possible collect. */
static struct span
days_of(const struct slot_problem *problem)
{
	struct span days = {problem->until, problem->until};
	for (size_t i = 0; i < problem->job_count; i++) {
		days.first = day_min(days.first, problem->jobs[i].first);
	}
	for (size_t i = 0; i < problem->station_count; i++) {
		for (day_t day = days.first; day <= problem->until; day++) {
			day_t collect = collect_of(&problem->stations[i], day);
			days.last = collect == DAY_NEVER ? days.last
							 : day_max(days.last, collect);
		}
	}
	return days;
}

static void
make_arrays(struct slot_search *search, struct arena *arena)
{
	const struct slot_problem *problem = search->problem;
	size_t jobs = problem->job_count;
	size_t spares = problem->spare_count;
	size_t visits = problem->station_count * search->days;
	search->order = ARENA_MANY(arena, size_t, jobs);
	search->slots = ARENA_MANY(arena, struct slot, jobs);
	search->turns = ARENA_MANY(arena, struct slot_turn, jobs);
	search->likes = ARENA_MANY(arena, struct slot_like, jobs);
	search->last_bare = ARENA_MANY(arena, size_t, jobs);
	search->last_spared = ARENA_MANY(arena, size_t, jobs);
	search->last_twin = ARENA_MANY(arena, size_t, jobs);
	search->levels = ARENA_MANY(arena, int, jobs);
	search->collects = ARENA_MANY(arena, day_t, visits);
	search->weekly = ARENA_MANY(arena, int, visits);
	search->trips = ARENA_MANY(arena, int, visits);
	search->away = ARENA_MANY(arena, int, search->days);
	search->given = ARENA_MANY(arena, size_t, jobs);
	search->had = ARENA_MANY(arena, size_t, jobs);
	search->held = ARENA_MANY(arena, bool, spares * search->days);
	search->holders = ARENA_MANY(arena, size_t, spares);
	search->busy = ARENA_MANY(arena, day_t, spares);
	search->used = ARENA_MANY(arena, bool, spares);
}

static void
fill_order(struct slot_search *search, struct arena *arena)
{
	const struct slot_problem *problem = search->problem;
	struct ranked *ranked = ARENA_MANY(arena, struct ranked, problem->job_count);
	for (size_t i = 0; i < problem->job_count; i++) {
		ranked[i] =
		    (struct ranked){problem->jobs[i].last, problem->jobs[i].first, i};
		search->slots[i].place = SLOT_NONE;
		search->slots[i].spare = SLOT_NONE;
	}
	qsort(ranked, problem->job_count, sizeof *ranked, compare_ranked);
	for (size_t i = 0; i < problem->job_count; i++) {
		search->order[i] = ranked[i].job;
	}
	search->order_count = problem->job_count;
}

/* Two boats are hardly ever out on the same days, so `busy` is compared by its
 * address only. */
static bool
jobs_alike(const struct slot_job *a, const struct slot_job *b)
{
	return a->first == b->first && a->capacity == b->capacity &&
	       a->busy_count == b->busy_count &&
	       (a->busy_count == 0 || a->busy == b->busy) && a->pieces == b->pieces &&
	       a->place_count == b->place_count &&
	       memcmp(a->places, b->places, a->place_count * sizeof *a->places) == 0;
}

/* Most jobs are like the one before, so its set is looked at first. */
static void
fill_likes(struct slot_search *search)
{
	const struct slot_job *jobs = search->problem->jobs;
	for (size_t i = 0; i < search->problem->job_count; i++) {
		size_t any = i > 0 ? search->likes[i - 1].any : 0;
		size_t of_boat = slot_head(search, i);
		if (!jobs_alike(&jobs[any], &jobs[i])) {
			any = 0;
			while (!jobs_alike(&jobs[any], &jobs[i])) {
				any++;
			}
		}
		while (!jobs_alike(&jobs[of_boat], &jobs[i])) {
			of_boat++;
		}
		search->likes[i] = (struct slot_like){any, of_boat};
	}
}

static void
fill_collects(struct slot_search *search)
{
	const struct slot_problem *problem = search->problem;
	for (size_t place = 0; place < problem->station_count; place++) {
		for (size_t i = 0; i < search->days; i++) {
			day_t day = search->base + (day_t)i;
			day_t collect = day > problem->until
					    ? DAY_NEVER
					    : collect_of(&problem->stations[place], day);
			search->collects[place * search->days + i] =
			    collect == DAY_NEVER ? DAY_NONE : collect;
		}
	}
}

static void
add_level(struct slot_search *search, int capacity)
{
	size_t to = search->level_count;
	while (to > 0 && search->levels[to - 1] > capacity) {
		to--;
	}
	if (to > 0 && search->levels[to - 1] == capacity) {
		return;
	}
	memmove(&search->levels[to + 1], &search->levels[to],
	    (search->level_count++ - to) * sizeof *search->levels);
	search->levels[to] = capacity;
}

/* Counts the spares of each level on each day. */
static void
fill_supply(struct slot_search *search, struct arena *arena)
{
	const struct slot_problem *problem = search->problem;
	for (size_t i = 0; i < problem->job_count; i++) {
		add_level(search, problem->jobs[i].capacity);
	}
	size_t cells = search->level_count * search->days;
	search->covered = ARENA_MANY(arena, int, cells);
	search->supply = ARENA_MANY(arena, int, cells);
	search->alike = true;
	for (size_t cell = 0; cell < cells; cell++) {
		int level = search->levels[cell / search->days];
		day_t day = search->base + (day_t)(cell % search->days);
		for (size_t i = 0; i < problem->spare_count; i++) {
			const struct slot_spare *spare = &problem->spares[i];
			bool does =
			    spare->capacity >= level && span_has(spare->days, day);
			search->supply[cell] += does;
			search->alike = search->alike && does;
		}
	}
}

/* Counts what is taken already into the arrays by day. */
static void
fill_taken(struct slot_search *search)
{
	const struct slot_problem *problem = search->problem;
	day_t end = search->base + (day_t)search->days;
	for (size_t i = 0; i < problem->taken_count; i++) {
		const struct slot_taken *taken = &problem->taken[i];
		day_t monday = taken->hand_in - day_of_week(taken->hand_in);
		day_t week = day_max(monday, search->base);
		if (taken->place != SLOT_NONE && week < end && week - monday < 7) {
			search->weekly[slot_at(search, taken->place, week)] +=
			    taken->pieces;
		}
		day_t last = day_min(taken->collect, end);
		for (day_t day = day_max(taken->hand_in, search->base);
		     taken->counts && day < last; day++) {
			search->away[slot_at(search, 0, day)]++;
		}
	}
}

/* Whether at a place what is handed in later is never back sooner. */
static bool
is_first_in_first_out(const struct slot_search *search, size_t place)
{
	day_t before = DAY_NONE;
	for (size_t i = 0; i < search->days; i++) {
		day_t collect = search->collects[place * search->days + i];
		if (collect != DAY_NONE && collect < before) {
			return false;
		}
		before = day_max(before, collect);
	}
	return true;
}

/* Whether each job may as well go on the first day on which there is room, the others
 * before it in the order having theirs: all begin on one day, at one place that hands
 * back in the order in which it takes in, with nothing to share but spares of one
 * sort. An order by last days can be kept (see struct slot_like), and an earlier day
 * makes no one else later. */
static bool
is_early(const struct slot_search *search)
{
	const struct slot_problem *problem = search->problem;
	const struct slot_job *first = problem->jobs;
	bool early = search->alike && problem->most_away == 0;
	for (size_t i = 0; i < problem->job_count && early; i++) {
		const struct slot_job *job = &problem->jobs[i];
		early = job->first == first->first && job->capacity == first->capacity &&
			job->busy_count == 0 && job->place_count == 1 &&
			job->places[0] == first->places[0];
	}
	return early && problem->job_count > 0 &&
	       problem->stations[first->places[0]].weekly_pieces == 0 &&
	       is_first_in_first_out(search, first->places[0]);
}

/* Giving out all spares anew takes as long as all the rest; for one more job it may
 * be done this often. */
enum { REGIVES_MOST = 100 };

void
slot_search_make(
    const struct slot_problem *problem, struct arena *arena, struct slot_search *out)
{
	struct slot_search search = {.problem = problem, .regives = REGIVES_MOST};
	struct span days = days_of(problem);
	search.base = days.first;
	search.days = (size_t)(days.last - days.first) + 1;
	make_arrays(&search, arena);
	fill_order(&search, arena);
	fill_supply(&search, arena);
	fill_likes(&search);
	fill_collects(&search);
	fill_taken(&search);
	search.early = is_early(&search);
	*out = search;
}
