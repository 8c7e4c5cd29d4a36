/* The search for days, job by job.
 *
 * Jobs come by last day. Each tries its days from the first on, bare where its boat can
 * do without and then with a spare; where a later one finds no day it goes on to its
 * next. What counting tells is looked at on the way (slots_room.c): the station's week,
 * pieces ashore, spares of a size; which spare it is, when all have days
 * (slots_spares.c). Jobs that may change places take no day before one another's, nor a
 * spare where the other goes bare, for that is the same plan. It ends with all placed,
 * with all tried, or after so many days looked at. */
#include "rota/slots_inside.h"

/* Where the last job is noted that was given a way, of those that are
 * interchangeable with this one. */
static size_t *
last_like(struct slot_search *search, size_t job, bool bare)
{
	const struct slot_like *like = &search->likes[job];
	return bare ? &search->last_bare[like->of_boat] : &search->last_spared[like->any];
}

/* Whether a piece of the same boat with the same days, before in the order, that could
 * do without has a spare: then this one has one too, for else they might change
 * places. */
static bool
twin_has_spare(const struct slot_search *search, size_t job)
{
	size_t twin = search->last_twin[search->likes[job].of_boat];
	return twin != SLOT_NONE &&
	       slot_job_of(search, twin)->last == slot_job_of(search, job)->last &&
	       !search->slots[twin].bare;
}

static bool search_from(struct slot_search *search, size_t depth);

/* Gives a job a way, and searches on from there. */
static bool
go_on(struct slot_search *search, size_t depth, struct slot_way way)
{
	size_t job = search->order[depth];
	size_t *like = last_like(search, job, way.bare);
	size_t *twin = &search->last_twin[search->likes[job].of_boat];
	size_t old_like = *like;
	size_t old_twin = *twin;
	slot_take(search, job, way);
	*like = job;
	*twin = slot_job_of(search, job)->bare_most > 0 ? job : old_twin;
	if (search_from(search, depth + 1)) {
		return true;
	}
	*like = old_like;
	*twin = old_twin;
	slot_leave(search, job);
	return false;
}

/* Tries all days of a job with a spare, or without. Not before those of the last job
 * that it might change places with, for that one's last day is no later; and no more
 * than the first on which there is room where going later never helps. */
static bool
try_days(struct slot_search *search, size_t depth, bool bare)
{
	size_t index = search->order[depth];
	const struct slot_job *job = slot_job_of(search, index);
	size_t like = *last_like(search, index, bare);
	const struct slot *before = like == SLOT_NONE ? NULL : &search->slots[like];
	day_t first = before == NULL ? job->first : before->hand_in;
	size_t from = 0;
	while (before != NULL && job->places[from] != before->place) {
		from++;
	}
	for (day_t day = first; day <= job->last && search->looks > 0; day++, from = 0) {
		for (size_t i = from; i < job->place_count; i++) {
			struct slot_way way = {job->places[i], day, bare};
			search->looks--;
			if (!slot_has_room(search, index, way)) {
				continue;
			}
			if (go_on(search, depth, way)) {
				return true;
			}
			if (search->early) {
				return false;
			}
		}
	}
	search->gave_up = search->gave_up || search->looks <= 0;
	return false;
}

/* Goes on with the next job: bare where she can do without at all, then with a spare. */
static bool
search_from(struct slot_search *search, size_t depth)
{
	if (depth == search->order_count) {
		return slot_give_spares(search);
	}
	bool may_be_bare = slot_job_of(search, search->order[depth])->bare_most > 0 &&
			   !twin_has_spare(search, search->order[depth]);
	return (may_be_bare && try_days(search, depth, true)) ||
	       try_days(search, depth, false);
}

/* The recursion is one call deeper for each job, and the stack is limited. Where
 * there are more jobs, they are placed one by one, without going back. */
enum { DEPTH_MOST = 8000 };

/* How often a spare may be given out in one search. */
enum { HAND_OUTS_MOST = 100000 };

bool
slot_search_run(struct slot_search *search, size_t most_spares, size_t most_looks)
{
	for (size_t i = 0; i < search->problem->job_count; i++) {
		slot_leave(search, i);
		search->last_bare[i] = SLOT_NONE;
		search->last_spared[i] = SLOT_NONE;
		search->last_twin[i] = SLOT_NONE;
	}
	search->most_spares = most_spares;
	/* Each job may look at each day once before anything is taken back. */
	size_t dive = search->problem->job_count * search->days;
	search->looks = (long long)most_looks + (long long)dive;
	search->hand_outs = HAND_OUTS_MOST;
	search->gave_up = search->order_count > DEPTH_MOST;
	return !search->gave_up && search_from(search, 0);
}

static bool
fit_way(struct slot_search *search, size_t job, struct slot_way way)
{
	if (!slot_has_room(search, job, way)) {
		return false;
	}
	slot_take(search, job, way);
	if (way.bare || search->alike || slot_find_spare(search, job) ||
	    (search->regives > 0 && search->regives-- > 0 && slot_give_spares(search))) {
		return true;
	}
	slot_leave(search, job);
	return false;
}

bool
slot_fit_day(struct slot_search *search, size_t job, size_t place, day_t day)
{
	return (slot_job_of(search, job)->bare_most > 0 &&
		   fit_way(search, job, (struct slot_way){place, day, true})) ||
	       fit_way(search, job, (struct slot_way){place, day, false});
}

bool
slot_fit(struct slot_search *search, size_t job, struct span days, bool back)
{
	const struct slot_job *made = slot_job_of(search, job);
	bool fits = false;
	for (day_t i = 0; i <= days.last - days.first && !fits; i++) {
		day_t day = back ? days.last - i : days.first + i;
		for (size_t k = 0; k < made->place_count && !fits; k++) {
			fits = slot_fit_day(search, job, made->places[k], day);
		}
	}
	return fits;
}
