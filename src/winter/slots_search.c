/* The search for days, job by job. */
#include "winter/slots_search.h"

#include <string.h>

static const struct slot_job *
job_of(const struct slot_search *search, size_t job)
{
	return &search->problem->jobs[job];
}

/* Jobs of which it does not matter which goes first: they differ in nothing, or in their boat
 * where a spare stands in for both. They are done in their order. */
static bool
jobs_alike(const struct slot_job *a, const struct slot_job *b)
{
	return (a->bare_most == 0 || a->boat == b->boat) &&
	       a->bare_most == b->bare_most && a->first == b->first &&
	       a->last == b->last && a->capacity == b->capacity &&
	       a->pieces == b->pieces && a->place_count == b->place_count &&
	       memcmp(a->places, b->places, a->place_count * sizeof *a->places) == 0;
}

static bool search_from(struct slot_search *search, size_t depth);

/* Tries one way, and all that follows from it. */
static bool
try_way(struct slot_search *search, size_t depth, struct slot_way way)
{
	size_t job = search->order[depth];
	if (search->looks == 0) {
		search->gave_up = true;
		return false;
	}
	search->looks--;
	if (!slot_has_room(search, job, way)) {
		return false;
	}
	slot_take(search, job, way);
	if (search_from(search, depth + 1)) {
		return true;
	}
	slot_leave(search, job);
	return false;
}

/* Tries all days of a job with a spare, or without; those before `after`, where it is not NULL,
 * were tried with a job like it. */
static bool
try_days(struct slot_search *search, size_t depth, const struct slot *after, bool bare)
{
	const struct slot_job *job = job_of(search, search->order[depth]);
	day_t first = after == NULL ? job->first : after->hand_in;
	size_t from = 0;
	while (after != NULL && job->places[from] != after->place) {
		from++;
	}
	for (day_t day = first; day <= job->last && search->looks > 0; day++, from = 0) {
		for (size_t i = from; i < job->place_count; i++) {
			struct slot_way way = {job->places[i], day, bare};
			if (try_way(search, depth, way)) {
				return true;
			}
		}
	}
	search->gave_up = search->gave_up || search->looks == 0;
	return false;
}

/* Goes on with the next job: bare where she can do without at all, then with a spare. */
static bool
search_from(struct slot_search *search, size_t depth)
{
	if (depth == search->order_count) {
		return slot_give_spares(search);
	}
	const struct slot_job *job = job_of(search, search->order[depth]);
	const struct slot *after = NULL;
	if (depth > 0 && jobs_alike(job, job_of(search, search->order[depth - 1]))) {
		after = &search->slots[search->order[depth - 1]];
	}
	bool may_be_bare = job->bare_most > 0 && (after == NULL || after->bare);
	return (may_be_bare && try_days(search, depth, after, true)) ||
	       try_days(
		   search, depth, after == NULL || after->bare ? NULL : after, false);
}

bool
slot_search_run(struct slot_search *search, size_t most_spares, size_t most_looks)
{
	for (size_t i = 0; i < search->problem->job_count; i++) {
		slot_leave(search, i);
	}
	search->most_spares = most_spares;
	search->looks = most_looks;
	search->gave_up = false;
	return search_from(search, 0);
}

static bool
fit_way(struct slot_search *search, size_t job, struct slot_way way)
{
	if (!slot_has_room(search, job, way)) {
		return false;
	}
	slot_take(search, job, way);
	if (search->alike || slot_give_spares(search)) {
		return true;
	}
	slot_leave(search, job);
	return false;
}

bool
slot_fit_day(struct slot_search *search, size_t job, size_t place, day_t day)
{
	return (job_of(search, job)->bare_most > 0 &&
		   fit_way(search, job, (struct slot_way){place, day, true})) ||
	       fit_way(search, job, (struct slot_way){place, day, false});
}

static bool
fit_any_place(struct slot_search *search, size_t job, day_t day)
{
	const struct slot_job *made = job_of(search, job);
	for (size_t i = 0; i < made->place_count; i++) {
		if (slot_fit_day(search, job, made->places[i], day)) {
			return true;
		}
	}
	return false;
}

bool
slot_fit(struct slot_search *search, size_t job, struct span days, bool back)
{
	for (day_t i = 0; i <= days.last - days.first; i++) {
		if (fit_any_place(search, job, back ? days.last - i : days.first + i)) {
			return true;
		}
	}
	return false;
}
