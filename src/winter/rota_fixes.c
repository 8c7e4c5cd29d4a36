/* What would help where not all can be in time: each is tried out, and named only where it
 * does. */
#include "winter/rota_making.h"

#include <limits.h>
#include <string.h>

enum { FIXES_MOST = 16, LOOKS_A_TRIAL = 20000 };

/* A group being mended. */
struct mending {
	struct rota_making *making;
	struct slot_problem problem; /* as it is, but for what is tried */
	size_t spare_room;           /* that the problem's spares have */
	struct rota_group *group;
	struct fault *fault;
	bool failed; /* memory ran out; the fault says so */
};

/* Whether all can be in time. */
static bool
works(struct mending *mending, const struct slot_problem *problem)
{
	SCOPED_ARENA arena = {0};
	struct slot_plan plan = {0};
	if (mending->failed || !slots_solve(problem, &arena, &plan, mending->fault)) {
		mending->failed = true;
		return false;
	}
	return plan.possible;
}

static void
add_fix(struct mending *mending, enum rota_fix_kind kind, int number, size_t station)
{
	struct rota_group *group = mending->group;
	if (group->fix_count < FIXES_MOST) {
		group->fixes[group->fix_count++] =
		    (struct rota_fix){kind, number, station};
	}
}

/* The jobs, which may then be changed. */
static struct slot_job *
copy_jobs(struct mending *mending, const struct slot_problem *problem)
{
	struct slot_job *jobs =
	    arena_alloc(mending->making->arena, problem->job_count * sizeof *jobs);
	if (jobs == NULL) {
		mending->failed = true;
		(void)!fault_memory(mending->fault);
		return NULL;
	}
	return memcpy(jobs, problem->jobs, problem->job_count * sizeof *jobs);
}

/* The fewest more spares, in date all the time and large enough. Some are enough or all are
 * not, so the number is found by halving. */
static void
try_spares(struct mending *mending)
{
	struct slot_problem problem = mending->problem;
	size_t have = problem.spare_count;
	struct slot_spare *spares =
	    arena_alloc(mending->making->arena, mending->spare_room * sizeof *spares);
	if (spares == NULL) {
		mending->failed = true;
		(void)!fault_memory(mending->fault);
		return;
	}
	for (size_t i = 0; i < mending->spare_room; i++) {
		spares[i] = i < have
				? problem.spares[i]
				: (struct slot_spare){{DAY_NONE, DAY_NEVER}, INT_MAX};
	}
	problem.spares = spares;
	size_t low = have;
	size_t high = mending->spare_room;
	problem.spare_count = high;
	if (high == have || !works(mending, &problem)) {
		return;
	}
	while (low + 1 < high) {
		problem.spare_count = low + (high - low) / 2;
		bool enough = works(mending, &problem);
		high = enough ? problem.spare_count : high;
		low = enough ? low : problem.spare_count;
	}
	add_fix(mending, FIX_SPARES, (int)(high - have), NO_STATION);
}

static bool
goes_to(const struct slot_job *job, size_t place)
{
	for (size_t i = 0; i < job->place_count; i++) {
		if (job->places[i] == place) {
			return true;
		}
	}
	return false;
}

/* Whether a station could service all of the group, though some of it does not go there. */
static bool
is_other_station(const struct mending *mending, struct rota_slice slice, size_t place)
{
	const struct rota_ask *ask = mending->making->ask;
	const struct station *station = &ask->stations[place];
	bool new = false;
	for (size_t i = 0; i < slice.count; i++) {
		const struct item *item =
		    &ask->engine->inventory->items[slice.pieces[i].item];
		if (station->left_out ||
		    station_fit(station, item->kind, item->make) != FIT_YES) {
			return false;
		}
		new = new || !goes_to(&mending->problem.jobs[i], place);
	}
	return new;
}

static void
try_stations(struct mending *mending, struct rota_slice slice)
{
	const struct rota_ask *ask = mending->making->ask;
	struct arena *arena = mending->making->arena;
	for (size_t place = 0; place < ask->station_count; place++) {
		struct slot_problem problem = mending->problem;
		if (!is_other_station(mending, slice, place)) {
			continue;
		}
		struct slot_job *jobs = copy_jobs(mending, &problem);
		for (size_t i = 0; jobs != NULL && i < problem.job_count; i++) {
			size_t count = jobs[i].place_count;
			size_t *places = arena_alloc(arena, (count + 1) * sizeof *places);
			if (places == NULL || goes_to(&jobs[i], place)) {
				continue;
			}
			memcpy(places, jobs[i].places, count * sizeof *places);
			places[count] = place;
			jobs[i].places = places;
			jobs[i].place_count = count + 1;
		}
		problem.jobs = jobs;
		if (jobs != NULL && works(mending, &problem)) {
			add_fix(mending, FIX_STATION, 0, place);
		}
	}
}

/* All stations with a turn-round of so many days at most. */
static bool
works_within(struct mending *mending, struct station *stations, int days)
{
	struct slot_problem problem = mending->problem;
	for (size_t i = 0; i < problem.station_count; i++) {
		stations[i] = mending->problem.stations[i];
		if (stations[i].turn_round_days > days || stations[i].pace_count > 0) {
			stations[i].turn_round_days = days;
			stations[i].pace_count = 0;
		}
	}
	problem.stations = stations;
	return works(mending, &problem);
}

static void
try_turn_round(struct mending *mending)
{
	const struct slot_problem *problem = &mending->problem;
	struct station *stations = arena_alloc(
	    mending->making->arena, (problem->station_count + 1) * sizeof *stations);
	int low = 0; /* not tried, for there is no such station */
	int high = 0;
	if (stations == NULL) {
		mending->failed = true;
		(void)!fault_memory(mending->fault);
		return;
	}
	for (size_t i = 0; i < problem->job_count; i++) {
		for (size_t j = 0; j < problem->jobs[i].place_count; j++) {
			int days =
			    problem->stations[problem->jobs[i].places[j]].turn_round_days;
			high = days > high ? days : high;
		}
	}
	if (high < 2 || !works_within(mending, stations, 1)) {
		return;
	}
	low = 1;
	while (low + 1 < high) {
		int middle = low + (high - low) / 2;
		bool enough = works_within(mending, stations, middle);
		low = enough ? middle : low;
		high = enough ? high : middle;
	}
	add_fix(mending, FIX_TURN_ROUND, low, NO_STATION);
}

static void
try_earlier(struct mending *mending)
{
	struct slot_problem problem = mending->problem;
	day_t first = mending->making->ask->days.first;
	struct slot_job *jobs = copy_jobs(mending, &problem);
	bool changed = false;
	for (size_t i = 0; jobs != NULL && i < problem.job_count; i++) {
		changed = changed || jobs[i].first > first;
		jobs[i].first = first;
	}
	problem.jobs = jobs;
	if (changed && jobs != NULL && works(mending, &problem)) {
		add_fix(mending, FIX_EARLIER, 0, NO_STATION);
	}
}

static void
try_away(struct mending *mending)
{
	struct slot_problem problem = mending->problem;
	int low = problem.most_away;
	int high = low + (int)problem.job_count;
	problem.most_away = 0;
	if (low == 0 || !works(mending, &problem)) {
		return;
	}
	while (low + 1 < high) {
		problem.most_away = low + (high - low) / 2;
		bool enough = works(mending, &problem);
		high = enough ? problem.most_away : high;
		low = enough ? low : problem.most_away;
	}
	add_fix(mending, FIX_AWAY, high, NO_STATION);
}

bool
rota_find_fixes(struct rota_making *making, struct rota_slice slice,
    const struct rota_slots *slots, struct rota_group *group, struct fault *fault)
{
	struct mending mending = {
	    making, slots->problem, slots->spare_room, group, fault, false};
	mending.problem.whole = true;
	mending.problem.most_looks = LOOKS_A_TRIAL;
	group->fixes = arena_alloc(making->arena, FIXES_MOST * sizeof *group->fixes);
	if (group->fixes == NULL) {
		return fault_memory(fault);
	}
	try_spares(&mending);
	try_away(&mending);
	try_earlier(&mending);
	try_stations(&mending, slice);
	try_turn_round(&mending);
	return !mending.failed;
}
