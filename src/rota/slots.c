#include "rota/slots.h"

#include "rota/slots_inside.h"

#include <string.h>

/* Whether the first jobs may be possible: false when counting alone rules them out. */
static bool
counting_allows(const struct slot_search *search, size_t count)
{
	const struct slot_problem *problem = search->problem;
	return slot_bound(search, count, true) <= problem->spare_count &&
	       (problem->most_away == 0 ||
		   slot_bound(search, count, false) <= (size_t)problem->most_away);
}

/* Tries more and more spares. True when all jobs are in time; `*least_out` is a
 * number of spares of which it is proven that fewer are not enough. */
static bool
try_spares(struct slot_search *search, size_t *least_out)
{
	const struct slot_problem *problem = search->problem;
	/* When only the possibility is asked about, all spares may be used at once. */
	size_t least = problem->only_whether ? problem->spare_count : *least_out;
	bool sure = true;
	for (size_t spares = least; spares <= problem->spare_count; spares++) {
		if (slot_search_run(search, spares, problem->most_looks)) {
			*least_out = least;
			return true;
		}
		sure = sure && !search->gave_up;
		least = sure ? spares + 1 : least;
	}
	return false;
}

/* Gives a job back the days and the spare it had. */
static void
restore(struct slot_search *search, size_t job, const struct slot *had)
{
	slot_take(search, job, (struct slot_way){had->place, had->hand_in, had->bare});
	if (had->spare != SLOT_NONE) {
		slot_hold(search, job, had->spare);
	}
}

/* ---- where not all can be in time ---- */

/* Whether the first `count` jobs can be in time, all days being found anew; where not,
 * the days they had are as they were, and `*proven_out` says that it is so. */
static bool
prefix_fits(struct slot_search *search, size_t count, struct slot *kept, bool *proven_out)
{
	const struct slot_problem *problem = search->problem;
	size_t all = search->order_count;
	memcpy(kept, search->slots, problem->job_count * sizeof *kept);
	search->order_count = count;
	bool allowed = counting_allows(search, count);
	bool fits =
	    allowed && slot_search_run(search, problem->spare_count, problem->most_looks);
	*proven_out = !allowed || !search->gave_up;
	search->order_count = all;
	for (size_t i = 0; !fits && i < problem->job_count; i++) {
		slot_leave(search, i);
	}
	for (size_t i = 0; !fits && i < problem->job_count; i++) {
		if (kept[i].place != SLOT_NONE) {
			restore(search, i, &kept[i]);
		}
	}
	return fits;
}

/* Gives jobs their days one by one in their order. The first that can't be in time,
 * whatever days those before it have, is noted; from there on each has the first day
 * that is left. */
static void
place_in_order(struct slot_search *search, struct arena *arena, struct slot_plan *plan)
{
	const struct slot_problem *problem = search->problem;
	struct slot *kept = ARENA_MANY(arena, struct slot, problem->job_count);
	for (size_t i = 0; i < problem->job_count; i++) {
		slot_leave(search, i);
	}
	search->most_spares = problem->spare_count;
	for (size_t i = 0; i < search->order_count; i++) {
		size_t job = search->order[i];
		const struct slot_job *made = &problem->jobs[job];
		struct span in_time = {made->first, made->last};
		struct span late = {made->last + 1, problem->until};
		bool known = plan->failed != SLOT_NONE;
		if (slot_fit(search, job, in_time, false) ||
		    (!known && prefix_fits(search, i + 1, kept, &plan->proven))) {
			continue;
		}
		plan->failed = known ? plan->failed : job;
		/* Where no day is left it goes without, and its slot says so. */
		(void)slot_fit(search, job, late, false);
	}
}

/* ---- later, and together ---- */

/* Moves jobs later as far as no other must move and no more spares are needed. */
static void
put_off(struct slot_search *search)
{
	for (size_t i = search->order_count; i > 0; i--) {
		size_t job = search->order[i - 1];
		struct slot old = search->slots[job];
		if (old.place == SLOT_NONE || old.late) {
			continue;
		}
		slot_leave(search, job);
		struct span later = {old.hand_in + 1, search->problem->jobs[job].last};
		if (!slot_fit(search, job, later, true)) {
			restore(search, job, &old);
		}
	}
}

/* Whether a job can go along with others on a day, and does. */
static bool
go_along(struct slot_search *search, size_t job, day_t day)
{
	const struct slot_job *made = &search->problem->jobs[job];
	for (size_t i = 0; i < made->place_count; i++) {
		size_t place = made->places[i];
		if (search->trips[slot_at(search, place, day)] > 0 &&
		    slot_fit_day(search, job, place, day)) {
			return true;
		}
	}
	return false;
}

/* Lets a job go along with a hand-in of the days before its own, if it can. */
static void
join(struct slot_search *search, size_t job)
{
	const struct slot_problem *problem = search->problem;
	struct slot old = search->slots[job];
	day_t first =
	    day_max(problem->jobs[job].first, old.hand_in - problem->together_days);
	if (old.place == SLOT_NONE || old.late) {
		return;
	}
	slot_leave(search, job);
	for (day_t day = first; day < old.hand_in; day++) {
		if (go_along(search, job, day)) {
			return;
		}
	}
	restore(search, job, &old);
}

void
slots_solve(
    const struct slot_problem *problem, struct arena *arena, struct slot_plan *out)
{
	struct slot_search search = {0};
	struct slot_plan plan = {.failed = SLOT_NONE, .proven = true};
	slot_search_make(problem, arena, &search);
	bool allowed = counting_allows(&search, search.order_count);
	plan.least_spares = slot_bound(&search, search.order_count, true);
	plan.possible = allowed && try_spares(&search, &plan.least_spares);
	bool settled = !allowed || !search.gave_up;
	if (!plan.possible && problem->only_whether && settled) {
		*out = plan;
		return;
	}
	if (!plan.possible) {
		place_in_order(&search, arena, &plan);
	}
	/* A search that was given up may have missed a plan that placing jobs one by
	 * one finds. */
	plan.possible = plan.failed == SLOT_NONE;
	if (problem->only_whether) {
		*out = plan;
		return;
	}
	put_off(&search);
	/* The jobs by last day are by hand-in too, or nearly: the early ones draw the
	 * others. */
	for (size_t i = 0; i < search.order_count; i++) {
		join(&search, search.order[i]);
	}
	/* Spares that are alike were only counted so far. */
	if (search.alike) {
		(void)slot_give_spares(&search);
	}
	plan.spares = search.in_use;
	plan.proven = plan.possible ? plan.spares == plan.least_spares : plan.proven;
	plan.slots = search.slots;
	*out = plan;
}
