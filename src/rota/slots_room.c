/* Whether there is room for one more on a day. */
#include "rota/slots_inside.h"

/* The index of a week's count in `weekly`: that of its Monday, or of the first day. */
static size_t
week_at(const struct slot_search *search, size_t place, day_t day)
{
	return slot_at(search, place, day_max(search->base, day - day_of_week(day)));
}

/* Counts the slot of a job in the arrays by day (`sign` 1), or takes it out (-1). */
static void
count_slot(struct slot_search *search, size_t job, int sign)
{
	const struct slot_job *made = slot_job_of(search, job);
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
	    .late = way.day > slot_job_of(search, job)->last,
	};
	count_slot(search, job, 1);
}

void
slot_leave(struct slot_search *search, size_t job)
{
	slot_let_go(search, job);
	if (search->slots[job].place != SLOT_NONE) {
		count_slot(search, job, -1);
	}
	search->slots[job] = (struct slot){.place = SLOT_NONE,
	    .hand_in = DAY_NONE,
	    .collect = DAY_NONE,
	    .spare = SLOT_NONE};
}

/* Whether the week has room. A lot larger than the weekly limit has a week to
 * itself. */
static bool
week_has_room(const struct slot_search *search, size_t job, size_t place, day_t day)
{
	int most = search->problem->stations[place].weekly_pieces;
	int taken = search->weekly[week_at(search, place, day)];
	return most == 0 || taken == 0 ||
	       taken + slot_job_of(search, job)->pieces <= most;
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

/* Whether large enough spares are left on every day of an absence. */
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
	const struct slot_job *jobs = search->problem->jobs;
	int bare = 0;
	for (size_t i = slot_head(search, job);
	     i < search->problem->job_count && jobs[i].boat == jobs[job].boat; i++) {
		const struct slot *slot = &search->slots[i];
		bare +=
		    i != job && slot->bare && slot->hand_in <= day && day < slot->collect;
	}
	return bare;
}

/* Whether a job can be bare on a day, beside those of the plan and those away whatever
 * it is. */
static bool
can_be_bare_on(const struct slot_search *search, size_t job, day_t day)
{
	const struct slot_job *made = slot_job_of(search, job);
	int bare = bare_on(search, job, day);
	int most = made->bare_most;
	for (size_t i = 0; i < made->bare_count; i++) {
		const struct slot_bare *away = &made->bares[i];
		if (away->hand_in <= day && day < away->collect) {
			bare++;
			most = LESSER(most, away->most);
		}
	}
	return bare < most;
}

static bool
boat_can_spare(const struct slot_search *search, size_t job, struct span gone)
{
	for (day_t day = gone.first; day < gone.last; day++) {
		if (!can_be_bare_on(search, job, day)) {
			return false;
		}
	}
	return true;
}

bool
slot_is_busy(const struct slot_job *job, day_t hand_in, day_t collect)
{
	for (size_t i = 0; i < job->busy_count; i++) {
		if (job->busy[i].first <= collect && hand_in <= job->busy[i].last) {
			return true;
		}
	}
	return false;
}

bool
slot_has_room(const struct slot_search *search, size_t job, struct slot_way way)
{
	day_t collect = search->collects[slot_at(search, way.place, way.day)];
	struct span gone = {way.day, collect};
	if (collect == DAY_NONE ||
	    slot_is_busy(slot_job_of(search, job), way.day, collect) ||
	    !week_has_room(search, job, way.place, way.day) ||
	    !days_have_room(search, gone)) {
		return false;
	}
	return way.bare ? boat_can_spare(search, job, gone)
			: spares_left(search, slot_job_of(search, job), gone);
}
