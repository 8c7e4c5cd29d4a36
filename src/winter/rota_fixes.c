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
add_fix(struct mending *mending, struct rota_fix fix)
{
	struct rota_group *group = mending->group;
	if (group->fix_count < FIXES_MOST) {
		group->fixes[group->fix_count++] = fix;
	}
}

static void
add_number(struct mending *mending, enum rota_fix_kind kind, int number)
{
	add_fix(mending, (struct rota_fix){kind, number, NO_STATION, DAY_NONE});
}

/* Memory ran out. */
static void
give_up(struct mending *mending)
{
	mending->failed = true;
	(void)!fault_memory(mending->fault);
}

/* The jobs, which may then be changed. */
static struct slot_job *
copy_jobs(struct mending *mending, const struct slot_problem *problem)
{
	struct slot_job *jobs =
	    arena_alloc(mending->making->arena, problem->job_count * sizeof *jobs);
	if (jobs == NULL) {
		give_up(mending);
		return NULL;
	}
	return memcpy(jobs, problem->jobs, problem->job_count * sizeof *jobs);
}

/* The stations, likewise. */
static struct station *
copy_stations(struct mending *mending)
{
	size_t count = mending->problem.station_count;
	struct station *stations =
	    arena_alloc(mending->making->arena, count * sizeof *stations);
	if (stations == NULL) {
		give_up(mending);
		return NULL;
	}
	return memcpy(stations, mending->problem.stations, count * sizeof *stations);
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
		give_up(mending);
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
	add_number(mending, FIX_SPARES, (int)(high - have));
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
			add_fix(
			    mending, (struct rota_fix){FIX_STATION, 0, place, DAY_NONE});
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

/* The longest turn-round of a station that something may go to. */
static int
longest_turn_round(const struct slot_problem *problem)
{
	int longest = 0;
	for (size_t i = 0; i < problem->job_count; i++) {
		for (size_t j = 0; j < problem->jobs[i].place_count; j++) {
			size_t place = problem->jobs[i].places[j];
			int days = problem->stations[place].turn_round_days;
			longest = days > longest ? days : longest;
		}
	}
	return longest;
}

static void
try_turn_round(struct mending *mending)
{
	struct station *stations = copy_stations(mending);
	int low = 1;
	int high = longest_turn_round(&mending->problem);
	if (stations == NULL || high < 2 || !works_within(mending, stations, low)) {
		return;
	}
	while (low + 1 < high) {
		int middle = low + (high - low) / 2;
		bool enough = works_within(mending, stations, middle);
		low = enough ? middle : low;
		high = enough ? high : middle;
	}
	add_number(mending, FIX_TURN_ROUND, low);
}

/* Whether all can be in time with jobs from a day on: all of them, or with `all` false those
 * that could have gone on the rota's first day and waited for it. */
static bool
works_from(struct mending *mending, struct slot_job *jobs, day_t from, bool all)
{
	struct slot_problem problem = mending->problem;
	day_t first = mending->making->ask->days.first;
	for (size_t i = 0; i < problem.job_count; i++) {
		bool moves = all || mending->problem.jobs[i].first == first;
		jobs[i] = mending->problem.jobs[i];
		jobs[i].first = moves ? day_min(from, jobs[i].first) : jobs[i].first;
	}
	problem.jobs = jobs;
	return works(mending, &problem);
}

static void
try_earlier(struct mending *mending)
{
	day_t first = mending->making->ask->days.first;
	struct slot_job *jobs = copy_jobs(mending, &mending->problem);
	if (jobs != NULL && works_from(mending, jobs, first, true)) {
		add_number(mending, FIX_EARLIER, 0);
	}
}

/* The latest day to begin that does, for a rota that is to begin after today. */
static void
try_start(struct mending *mending)
{
	const struct rota_ask *ask = mending->making->ask;
	struct slot_job *jobs = copy_jobs(mending, &mending->problem);
	day_t low = ask->today;
	day_t high = ask->days.first;
	if (jobs == NULL || low >= high || !works_from(mending, jobs, low, false)) {
		return;
	}
	while (low + 1 < high) {
		day_t middle = low + (high - low) / 2;
		bool enough = works_from(mending, jobs, middle, false);
		low = enough ? middle : low;
		high = enough ? high : middle;
	}
	add_fix(mending, (struct rota_fix){FIX_START, 0, NO_STATION, low});
}

/* Whether all can be in time at stations that take in so many pieces a week, or more. */
static bool
works_weekly(struct mending *mending, struct station *stations, int pieces)
{
	struct slot_problem problem = mending->problem;
	for (size_t i = 0; i < problem.station_count; i++) {
		int most = mending->problem.stations[i].weekly_pieces;
		stations[i] = mending->problem.stations[i];
		stations[i].weekly_pieces = most > 0 && most < pieces ? pieces : most;
	}
	problem.stations = stations;
	return works(mending, &problem);
}

static void
try_weekly(struct mending *mending)
{
	const struct slot_problem *problem = &mending->problem;
	struct station *stations = copy_stations(mending);
	int low = 0;
	int high = 1;
	for (size_t i = 0; i < problem->station_count; i++) {
		int most = problem->stations[i].weekly_pieces;
		low = most > 0 && (low == 0 || most < low) ? most : low;
	}
	for (size_t i = 0; i < problem->job_count; i++) {
		high += problem->jobs[i].pieces;
	}
	if (stations == NULL || low == 0 || !works_weekly(mending, stations, high)) {
		return;
	}
	while (low + 1 < high) {
		int middle = low + (high - low) / 2;
		bool enough = works_weekly(mending, stations, middle);
		high = enough ? middle : high;
		low = enough ? low : middle;
	}
	add_number(mending, FIX_WEEKLY, high);
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
	add_number(mending, FIX_AWAY, high);
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
	try_weekly(&mending);
	try_start(&mending);
	try_earlier(&mending);
	try_stations(&mending, slice);
	try_turn_round(&mending);
	return !mending.failed;
}
