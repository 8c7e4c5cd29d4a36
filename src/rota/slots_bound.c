/* How many spares are needed whatever the order: by counting. */
#include "base/memory.h"
#include "rota/slots_inside.h"

#include <stdlib.h>

/* What a job takes at least: its shortest absence, and the end of its latest. */
struct stay {
	day_t first;
	day_t end;
	int shortest;
};

static struct stay
stay_of(const struct slot_search *search, size_t job)
{
	const struct slot_job *made = &search->problem->jobs[job];
	struct stay stay = {made->first, made->first, 0};
	for (size_t i = 0; i < made->place_count; i++) {
		for (day_t day = made->first; day <= made->last; day++) {
			day_t collect =
			    search->collects[slot_at(search, made->places[i], day)];
			if (collect == DAY_NONE || slot_is_busy(made, day, collect)) {
				continue;
			}
			int length = collect - day;
			bool shorter = stay.shortest == 0 || length < stay.shortest;
			stay.shortest = shorter ? length : stay.shortest;
			stay.end = day_max(stay.end, collect);
		}
	}
	return stay;
}

/* What so many absences need at once between two days: as many as fit one after the other
 * into the days for each, and the days they are long in sum. */
static size_t
need_between(size_t count, long long sum, int shortest, long long days)
{
	long long each = days / shortest;
	long long by_count =
	    each == 0 ? (long long)count : ((long long)count + each - 1) / each;
	long long by_sum = days == 0 ? 0 : (sum + days - 1) / days;
	return (size_t)(by_count > by_sum ? by_count : by_sum);
}

static int
compare_stays(const void *a, const void *b)
{
	const struct stay *left = a;
	const struct stay *right = b;
	return left->end < right->end ? -1 : left->end > right->end;
}

/* The most that is needed between the first day of one stay and the end of any. */
static size_t
bound_from(const struct stay *stays, size_t count, day_t first)
{
	size_t most = 0;
	size_t inside = 0;
	long long sum = 0;
	int shortest = 0;
	for (size_t i = 0; i < count; i++) {
		const struct stay *stay = &stays[i];
		if (stay->first < first) {
			continue;
		}
		inside++;
		sum += stay->shortest;
		bool shorter = shortest == 0 || stay->shortest < shortest;
		shortest = shorter ? stay->shortest : shortest;
		size_t need = need_between(inside, sum, shortest, stay->end - first);
		most = need > most ? need : most;
	}
	return most;
}

/* What of a boat's can be away bare has been counted so far. */
struct bare_count {
	size_t count;
	day_t first;
	day_t end;
	int shortest;
	int most;
	size_t excess; /* so many of them must have a spare */
};

/* The first job of the same boat. */
static size_t
head_of(const struct slot_search *search, size_t job)
{
	const struct slot_job *jobs = search->problem->jobs;
	while (job > 0 && jobs[job - 1].boat == jobs[job].boat) {
		job--;
	}
	return job;
}

/* Counts one more job that may be bare, by last day. Up to that day so many go one after the
 * other in each of the places that she can do without; for one more, some spare must stand in,
 * for whichever it is. True when this is one more. */
static bool
count_bare(struct bare_count *bare, const struct slot_job *job, struct stay stay)
{
	bool begun = bare->count > 0;
	bare->count++;
	bare->first = begun ? day_min(bare->first, stay.first) : stay.first;
	bare->end = begun ? day_max(bare->end, stay.end) : stay.end;
	bare->shortest =
	    begun && bare->shortest < stay.shortest ? bare->shortest : stay.shortest;
	bare->most = job->bare_most > bare->most ? job->bare_most : bare->most;
	size_t rounds = (size_t)((job->last - bare->first) / bare->shortest) + 1;
	size_t can_go = rounds * (size_t)bare->most;
	bool more = bare->count > can_go && bare->count - can_go > bare->excess;
	bare->excess += more;
	return more;
}

/* The stays of the first `count` jobs: of all, or of those that must have a spare. Returns how
 * many. */
static size_t
fill_stays(const struct slot_search *search, size_t count, bool covered,
    struct bare_count *bare, struct stay *stays)
{
	size_t used = 0;
	for (size_t i = 0; i < count; i++) {
		size_t index = search->order[i];
		const struct slot_job *job = &search->problem->jobs[index];
		struct stay stay = stay_of(search, index);
		struct bare_count *hers = &bare[head_of(search, index)];
		if (stay.shortest == 0) {
			continue;
		}
		if (!covered || job->bare_most == 0) {
			stays[used++] = stay;
		} else if (count_bare(hers, job, stay)) {
			stays[used++] =
			    (struct stay){hers->first, hers->end, hers->shortest};
		}
	}
	return used;
}

static int
compare_days(const void *a, const void *b)
{
	const day_t *left = a;
	const day_t *right = b;
	return (*left > *right) - (*left < *right);
}

/* The first days of stays, each once. Returns how many. */
static size_t
list_firsts(const struct stay *stays, size_t count, day_t *firsts)
{
	size_t kept = 0;
	for (size_t i = 0; i < count; i++) {
		firsts[i] = stays[i].first;
	}
	qsort(firsts, count, sizeof *firsts, compare_days);
	for (size_t i = 0; i < count; i++) {
		if (kept == 0 || firsts[kept - 1] != firsts[i]) {
			firsts[kept++] = firsts[i];
		}
	}
	return kept;
}

size_t
slot_bound(const struct slot_search *search, size_t count, bool covered)
{
	/* Without memory there is no bound, which is a weaker answer, not a wrong one. */
	struct stay *stays = memory_zeroed(count + 1, sizeof *stays);
	struct bare_count *bare =
	    memory_zeroed(search->problem->job_count + 1, sizeof *bare);
	size_t most = 0;
	size_t used = 0;
	if (stays != NULL && bare != NULL) {
		used = fill_stays(search, count, covered, bare, stays);
	}
	if (used > 0) {
		qsort(stays, used, sizeof *stays, compare_stays);
	}
	day_t *firsts = memory_zeroed(used + 1, sizeof *firsts);
	size_t first_count = firsts == NULL ? 0 : list_firsts(stays, used, firsts);
	for (size_t i = 0; i < first_count; i++) {
		size_t need = bound_from(stays, used, firsts[i]);
		most = need > most ? need : most;
	}
	free(firsts);
	free(bare);
	free(stays);
	return most;
}
