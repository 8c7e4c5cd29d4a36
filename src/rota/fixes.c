/* What would help where not all can be in time. Each fix is tried, and named only
 * where it helps. */
#include "rota/inside.h"

#include <limits.h>
#include <string.h>

enum { FIXES_MOST = 16, LOOKS_A_TRIAL = 20000 };

/* A group for which fixes are tried. The arrays are copies, to be changed for a
 * trial. */
struct mending {
	struct rota_making *making;
	struct slot_problem problem; /* as it is */
	struct slot_job *jobs;
	struct slot_spare *spares; /* the group's, then as many more as could ever help */
	size_t spare_room;
	struct station *stations;
	struct rota_group *group;
};

/* Whether all can be in time. */
static bool
works(const struct slot_problem *problem)
{
	SCOPED_ARENA arena = {0};
	struct slot_plan plan = {0};
	slots_solve(problem, &arena, &plan);
	return plan.possible;
}

/* The number nearest to `bad` that works, where `bad` does not. Found by halving the
 * range, because what works with a number works with every one from there to `good`.
 * Returns `bad` where not even `good` works. */
static int
nearest_good(struct mending *mending, int good, int bad,
    bool (*works_with)(struct mending *mending, int number))
{
	if (!works_with(mending, good)) {
		return bad;
	}
	while (good - bad > 1 || bad - good > 1) {
		int middle = bad + (good - bad) / 2;
		bool enough = works_with(mending, middle);
		good = enough ? middle : good;
		bad = enough ? bad : middle;
	}
	return good;
}

static void
add_fix(struct mending *mending, struct rota_fix fix)
{
	struct rota_group *group = mending->group;
	if (group->fix_count < FIXES_MOST) {
		group->fixes[group->fix_count++] = fix;
	}
}

/* Adds a fix that has a number, unless that is `bad`, which does not work. */
static void
add_number(struct mending *mending, enum rota_fix_kind kind, int number, int bad)
{
	if (number != bad) {
		add_fix(mending, (struct rota_fix){kind, number, NO_STATION, DAY_NONE});
	}
}

/* ---- more spares, more ashore at once ---- */

static bool
works_with_spares(struct mending *mending, int number)
{
	struct slot_problem problem = mending->problem;
	problem.spares = mending->spares;
	problem.spare_count = (size_t)number;
	return works(&problem);
}

static void
try_spares(struct mending *mending)
{
	int have = (int)mending->problem.spare_count;
	int room = (int)mending->spare_room;
	int needed = nearest_good(mending, room, have, works_with_spares);
	add_number(mending, FIX_SPARES, needed - have, 0);
}

static bool
works_with_away(struct mending *mending, int number)
{
	struct slot_problem problem = mending->problem;
	problem.most_away = number;
	return works(&problem);
}

static void
try_away(struct mending *mending)
{
	int most = mending->problem.most_away;
	int all = most + (int)mending->problem.job_count;
	if (most > 0) {
		int does = nearest_good(mending, all, most, works_with_away);
		add_number(mending, FIX_AWAY, does, most);
	}
}

/* ---- other days ---- */

/* Whether it works when first days of jobs are `from` where that is earlier: for all
 * jobs, or only for those that could have gone on the rota's first day and waited
 * for it. */
static bool
works_from(struct mending *mending, day_t from, bool all)
{
	struct slot_problem problem = mending->problem;
	day_t first = mending->making->ask->days.first;
	for (size_t i = 0; i < problem.job_count; i++) {
		struct slot_job *job = &mending->jobs[i];
		*job = mending->problem.jobs[i];
		job->first =
		    all || job->first == first ? day_min(from, job->first) : job->first;
	}
	problem.jobs = mending->jobs;
	return works(&problem);
}

static void
try_earlier(struct mending *mending)
{
	if (works_from(mending, mending->making->ask->days.first, true)) {
		add_fix(mending, (struct rota_fix){FIX_EARLIER, 0, NO_STATION, DAY_NONE});
	}
}

static bool
works_begun_on(struct mending *mending, int day)
{
	return works_from(mending, day, false);
}

/* The latest first day that works, for a rota that is to begin after today. */
static void
try_start(struct mending *mending)
{
	const struct rota_ask *ask = mending->making->ask;
	day_t first = ask->days.first;
	day_t day = ask->today >= first
			? first
			: nearest_good(mending, ask->today, first, works_begun_on);
	if (day != first) {
		add_fix(mending, (struct rota_fix){FIX_START, 0, NO_STATION, day});
	}
}

/* ---- other stations ---- */

static bool
goes_to(const struct slot_job *job, size_t place)
{
	size_t i = 0;
	while (i < job->place_count && job->places[i] != place) {
		i++;
	}
	return i < job->place_count;
}

/* Whether a station could service all of the group, though some of it does not go
 * there. */
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

/* Whether it works with the station added to the places of every job. */
static bool
works_at(struct mending *mending, size_t place)
{
	struct slot_problem problem = mending->problem;
	for (size_t i = 0; i < problem.job_count; i++) {
		struct slot_job *job = &mending->jobs[i];
		*job = mending->problem.jobs[i];
		size_t *places =
		    ARENA_MANY(mending->making->arena, size_t, job->place_count);
		memcpy(places, job->places, job->place_count * sizeof *places);
		places[job->place_count] = place;
		job->place_count += goes_to(job, place) ? 0 : 1;
		job->places = places;
	}
	problem.jobs = mending->jobs;
	return works(&problem);
}

static void
try_stations(struct mending *mending, struct rota_slice slice)
{
	for (size_t place = 0; place < mending->making->ask->station_count; place++) {
		if (is_other_station(mending, slice, place) && works_at(mending, place)) {
			add_fix(
			    mending, (struct rota_fix){FIX_STATION, 0, place, DAY_NONE});
		}
	}
}

/* Whether it works when no station's turn-round is longer than so many days. */
static bool
works_within(struct mending *mending, int days)
{
	struct slot_problem problem = mending->problem;
	for (size_t i = 0; i < problem.station_count; i++) {
		struct station *station = &mending->stations[i];
		*station = mending->problem.stations[i];
		if (station->turn_round_days > days || station->pace_count > 0) {
			station->turn_round_days = days;
			station->pace_count = 0;
		}
	}
	problem.stations = mending->stations;
	return works(&problem);
}

/* The longest turn-round of any station that something may go to, in whatever month. */
static int
longest_turn_round(const struct slot_problem *problem)
{
	int longest = 0;
	for (size_t i = 0; i < problem->job_count; i++) {
		for (size_t j = 0; j < problem->jobs[i].place_count; j++) {
			const struct station *station =
			    &problem->stations[problem->jobs[i].places[j]];
			longest = GREATER(longest, station->turn_round_days);
			for (size_t k = 0; k < station->pace_count; k++) {
				int days = station->paces[k].turn_round_days;
				longest = GREATER(longest, days);
			}
		}
	}
	return longest;
}

static void
try_turn_round(struct mending *mending)
{
	int longest = longest_turn_round(&mending->problem);
	if (longest > 1) {
		int does = nearest_good(mending, 1, longest, works_within);
		add_number(mending, FIX_TURN_ROUND, does, longest);
	}
}

/* Whether it works when every station that has a weekly limit takes in at least so
 * many pieces a week. */
static bool
works_weekly(struct mending *mending, int pieces)
{
	struct slot_problem problem = mending->problem;
	for (size_t i = 0; i < problem.station_count; i++) {
		int most = mending->problem.stations[i].weekly_pieces;
		mending->stations[i] = mending->problem.stations[i];
		mending->stations[i].weekly_pieces =
		    most > 0 && most < pieces ? pieces : most;
	}
	problem.stations = mending->stations;
	return works(&problem);
}

static void
try_weekly(struct mending *mending)
{
	const struct slot_problem *problem = &mending->problem;
	int least = 0;
	int all = 1;
	for (size_t i = 0; i < problem->station_count; i++) {
		int most = problem->stations[i].weekly_pieces;
		least = most > 0 && (least == 0 || most < least) ? most : least;
	}
	for (size_t i = 0; i < problem->job_count; i++) {
		all += problem->jobs[i].pieces;
	}
	if (least > 0) {
		int does = nearest_good(mending, all, least, works_weekly);
		add_number(mending, FIX_WEEKLY, does, least);
	}
}

/* ---- all of them ---- */

static void
begin(struct mending *mending, const struct rota_slots *slots)
{
	struct arena *arena = mending->making->arena;
	const struct slot_problem *problem = &mending->problem;
	size_t have = problem->spare_count;
	mending->spare_room = slots->spare_room;
	mending->jobs = ARENA_MANY(arena, struct slot_job, problem->job_count);
	mending->spares = ARENA_MANY(arena, struct slot_spare, slots->spare_room);
	mending->stations = ARENA_MANY(arena, struct station, problem->station_count);
	mending->group->fixes = ARENA_MANY(arena, struct rota_fix, FIXES_MOST);
	for (size_t i = 0; i < slots->spare_room; i++) {
		mending->spares[i] =
		    i < have ? problem->spares[i]
			     : (struct slot_spare){{DAY_NONE, DAY_NEVER}, INT_MAX};
	}
}

void
rota_find_fixes(struct rota_making *making, struct rota_slice slice,
    const struct rota_slots *slots, struct rota_group *group)
{
	struct mending mending = {
	    .making = making, .problem = slots->problem, .group = group};
	mending.problem.only_whether = true;
	mending.problem.most_looks = LOOKS_A_TRIAL;
	begin(&mending, slots);
	try_spares(&mending);
	try_away(&mending);
	try_weekly(&mending);
	try_start(&mending);
	try_earlier(&mending);
	try_stations(&mending, slice);
	try_turn_round(&mending);
}
