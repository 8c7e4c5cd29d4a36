/* Whether there is room for one more on a day, and for whom there is a spare. */
#include "winter/slots_search.h"

#include <stdlib.h>

size_t
slot_at(const struct slot_search *search, size_t row, day_t day)
{
	return row * search->days + (size_t)(day - search->base);
}

static const struct slot_job *
job_of(const struct slot_search *search, size_t job)
{
	return &search->problem->jobs[job];
}

/* The place of the week's count in `weekly`: that of its Monday, or of the first day. */
static size_t
week_at(const struct slot_search *search, size_t place, day_t day)
{
	return slot_at(search, place, day_max(search->base, day - day_of_week(day)));
}

/* A job that goes away on a day is counted, or no longer. */
static void
count_slot(struct slot_search *search, size_t job, int sign)
{
	const struct slot_job *made = job_of(search, job);
	const struct slot *slot = &search->slots[job];
	search->weekly[week_at(search, slot->place, slot->hand_in)] +=
	    sign * made->pieces;
	search->trips[slot_at(search, slot->place, slot->hand_in)] += sign;
	for (day_t day = slot->hand_in; day < slot->collect; day++) {
		search->away[slot_at(search, 0, day)] += sign;
	}
	for (size_t level = 0; !slot->bare && level < search->level_count &&
			       search->levels[level] <= made->capacity;
	     level++) {
		for (day_t day = slot->hand_in; day < slot->collect; day++) {
			search->covered[slot_at(search, level, day)] += sign;
		}
	}
}

void
slot_take(struct slot_search *search, size_t job, struct slot_way way)
{
	search->slots[job] = (struct slot){
	    .place = way.place,
	    .hand_in = way.day,
	    .collect = search->collects[slot_at(search, way.place, way.day)],
	    .bare = way.bare,
	    .spare = SLOT_NONE,
	    .late = way.day > job_of(search, job)->last,
	};
	count_slot(search, job, 1);
}

void
slot_leave(struct slot_search *search, size_t job)
{
	if (search->slots[job].place != SLOT_NONE) {
		count_slot(search, job, -1);
	}
	search->slots[job] = (struct slot){.place = SLOT_NONE,
	    .hand_in = DAY_NONE,
	    .collect = DAY_NONE,
	    .spare = SLOT_NONE};
}

/* A lot larger than the limit has a week to itself. */
static bool
week_has_room(const struct slot_search *search, size_t job, size_t place, day_t day)
{
	int most = search->problem->stations[place].weekly_pieces;
	int taken = search->weekly[week_at(search, place, day)];
	return most == 0 || taken == 0 || taken + job_of(search, job)->pieces <= most;
}

static bool
days_have_room(const struct slot_search *search, struct span gone)
{
	int most = search->problem->most_away;
	for (day_t day = gone.first; most > 0 && day < gone.last; day++) {
		if (search->away[slot_at(search, 0, day)] >= most) {
			return false;
		}
	}
	return true;
}

/* Whether spares are left, large enough, on every day of an absence. */
static bool
spares_left(
    const struct slot_search *search, const struct slot_job *job, struct span gone)
{
	for (size_t level = 0;
	     level < search->level_count && search->levels[level] <= job->capacity;
	     level++) {
		for (day_t day = gone.first; day < gone.last; day++) {
			int covered = search->covered[slot_at(search, level, day)];
			if (covered >= search->supply[slot_at(search, level, day)] ||
			    (size_t)covered >= search->most_spares) {
				return false;
			}
		}
	}
	return true;
}

/* Bare pieces of a boat that are away on a day, but for one job. */
static int
bare_on(const struct slot_search *search, size_t job, day_t day)
{
	const struct slot_problem *problem = search->problem;
	const struct slot_job *jobs = problem->jobs;
	size_t boat = jobs[job].boat;
	size_t from = job;
	int bare = 0;
	while (from > 0 && jobs[from - 1].boat == boat) {
		from--;
	}
	for (size_t i = from; i < problem->job_count && jobs[i].boat == boat; i++) {
		const struct slot *slot = &search->slots[i];
		bare += i != job && slot->bare && slot->place != SLOT_NONE &&
			slot->hand_in <= day && day < slot->collect;
	}
	return bare;
}

static bool
boat_can_spare(const struct slot_search *search, size_t job, struct span gone)
{
	for (day_t day = gone.first; day < gone.last; day++) {
		if (bare_on(search, job, day) >= job_of(search, job)->bare_most) {
			return false;
		}
	}
	return true;
}

bool
slot_has_room(const struct slot_search *search, size_t job, struct slot_way way)
{
	day_t collect = search->collects[slot_at(search, way.place, way.day)];
	struct span gone = {way.day, collect};
	if (collect == DAY_NONE || !week_has_room(search, job, way.place, way.day) ||
	    !days_have_room(search, gone)) {
		return false;
	}
	return way.bare ? boat_can_spare(search, job, gone)
			: spares_left(search, job_of(search, job), gone);
}

/* ---- giving out spares ---- */

static bool
spare_does(const struct slot_search *search, size_t spare, size_t job)
{
	const struct slot_spare *with = &search->problem->spares[spare];
	const struct slot *slot = &search->slots[job];
	return with->capacity >= job_of(search, job)->capacity &&
	       with->days.first <= slot->hand_in &&
	       slot->collect - 1 <= with->days.last &&
	       search->busy[spare] <= slot->hand_in;
}

/* Two spares of which it does not matter which is taken. */
static bool
spares_alike(const struct slot_search *search, size_t a, size_t b)
{
	const struct slot_spare *spares = search->problem->spares;
	return search->used[a] == search->used[b] &&
	       spares[a].capacity == spares[b].capacity &&
	       spares[a].days.first == spares[b].days.first &&
	       spares[a].days.last == spares[b].days.last;
}

static bool
was_tried(const struct slot_search *search, size_t spare, size_t job)
{
	for (size_t i = 0; i < spare; i++) {
		if (spares_alike(search, i, spare) && spare_does(search, i, job)) {
			return true;
		}
	}
	return false;
}

/* Spares being given to `count` jobs, by hand-in. */
struct giving {
	struct slot_search *search;
	size_t count;
};

static bool give_from(const struct giving *giving, size_t next, size_t used);

/* Tries one spare for a job, and all that follows from it. */
static bool
try_spare(const struct giving *giving, size_t next, size_t used, size_t spare)
{
	struct slot_search *search = giving->search;
	size_t job = search->turns[next].job;
	day_t busy = search->busy[spare];
	bool fresh = !search->used[spare];
	if (used + fresh > search->most_spares || !spare_does(search, spare, job) ||
	    was_tried(search, spare, job)) {
		return false;
	}
	if (search->hand_outs == 0) {
		search->gave_up = true;
		return false;
	}
	search->hand_outs--;
	search->busy[spare] = search->slots[job].collect;
	search->used[spare] = true;
	search->slots[job].spare = spare;
	if (give_from(giving, next + 1, used + fresh)) {
		return true;
	}
	search->busy[spare] = busy;
	search->used[spare] = !fresh;
	search->slots[job].spare = SLOT_NONE;
	return false;
}

/* Gives out spares from the `next` job on, those in use before new ones. */
static bool
give_from(const struct giving *giving, size_t next, size_t used)
{
	const struct slot_search *search = giving->search;
	if (next == giving->count) {
		return true;
	}
	for (int fresh = 0; fresh < 2; fresh++) {
		for (size_t i = 0; i < search->problem->spare_count; i++) {
			if (search->used[i] == (fresh == 0) &&
			    try_spare(giving, next, used, i)) {
				return true;
			}
		}
	}
	return false;
}

static int
compare_turns(const void *a, const void *b)
{
	const struct slot_turn *left = a;
	const struct slot_turn *right = b;
	if (left->hand_in != right->hand_in) {
		return left->hand_in < right->hand_in ? -1 : 1;
	}
	return left->job < right->job ? -1 : left->job > right->job;
}

enum { HAND_OUTS_MOST = 20000 };

bool
slot_give_spares(struct slot_search *search)
{
	struct giving giving = {search, 0};
	for (size_t i = 0; i < search->problem->job_count; i++) {
		struct slot *slot = &search->slots[i];
		if (!slot->bare && slot->place != SLOT_NONE) {
			search->turns[giving.count++] =
			    (struct slot_turn){slot->hand_in, i};
		}
	}
	qsort(search->turns, giving.count, sizeof *search->turns, compare_turns);
	for (size_t i = 0; i < search->problem->spare_count; i++) {
		search->busy[i] = DAY_NONE;
		search->used[i] = false;
	}
	search->hand_outs = HAND_OUTS_MOST;
	return give_from(&giving, 0, 0);
}
